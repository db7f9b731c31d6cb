package record

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"rillwright/finding"
)

// CSV reads a table of readings whose first row names its columns: time, what and
// value, and if wanted part and note, in any order. What stands in a cell is what
// Typed and ParseTime read. Rows that cannot be read are findings; all others are
// returned, with no design yet.
func CSV(file string, data []byte, names Names, in *time.Location) ([]Reading, finding.List) {
	in2 := csv.NewReader(bytes.NewReader(bytes.TrimPrefix(data, []byte("\ufeff"))))
	in2.TrimLeadingSpace, in2.FieldsPerRecord = true, -1
	fault := func(line int, field, what, do string) finding.Finding {
		return finding.Finding{Place: finding.Place{File: file, Line: line}, Severity: finding.Error, Field: field, What: what, Do: do}
	}
	head, err := in2.Read()
	if err != nil {
		return nil, finding.List{fault(1, "", "the table is empty, or no table: "+err.Error(), "put the names of the columns first: time,what,value,note")}
	}
	var found finding.List
	col := map[string]int{}
	for _, name := range []string{"time", "what", "value", "part", "note"} {
		if col[name] = index(head, name); col[name] < 0 && name != "part" && name != "note" {
			found = append(found, fault(1, name, "there is no column "+name, "name the columns in the first row: time,what,value,note"))
		}
	}
	if len(found) > 0 {
		return nil, found
	}
	var out []Reading
	for {
		row, err := in2.Read()
		if errors.Is(err, io.EOF) {
			return out, found
		}
		line, _ := in2.FieldPos(0)
		if err != nil {
			var p *csv.ParseError
			if errors.As(err, &p) {
				line = p.Line
			}
			found = append(found, fault(line, "", err.Error(), "put cells with commas or quotes into quotes"))
			if p == nil {
				return out, found
			}
			continue
		}
		cell := func(name string) string {
			if c := col[name]; c >= 0 && c < len(row) {
				return strings.TrimSpace(row[c])
			}
			return ""
		}
		t, err := ParseTime(cell("time"), in)
		if err != nil {
			what, do := halves(err)
			found = append(found, fault(line, "time", what, do))
			continue
		}
		r, err := Typed(strings.Join([]string{cell("what"), cell("part"), cell("value")}, " "), names)
		if err != nil {
			what, do := halves(err)
			found = append(found, fault(line, "value", what, do))
			continue
		}
		r.Time, r.Note = t, strings.TrimSpace(r.Note+" "+cell("note"))
		out = append(out, r)
	}
}

// halves parts an error into what is wrong and what to do.
func halves(err error) (what, do string) {
	what, do, _ = strings.Cut(fmt.Sprint(err), "\n  do: ")
	return what, do
}
