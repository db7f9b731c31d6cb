package catalogue

import (
	"embed"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strconv"

	"rillwright/quantity"
)

//go:embed data/*.csv
var data embed.FS

// table is one embedded CSV file while it is read: a heading row, then rows
// reached by heading. Problems are gathered, since a broken catalogue is ours
// to mend and all of it should show at once.
type table struct {
	file    string
	columns map[string]int
	rows    *csv.Reader
	row     []string
	at      int
	errs    []error
	known   map[string]End // ends read so far: most texts come many times
}

func openTable(name string) (*table, error) {
	f, err := data.Open("data/" + name)
	if err != nil {
		return nil, fmt.Errorf("catalogue: %w", err)
	}
	// Nothing need be closed: the file is in memory.
	t := &table{file: name, rows: csv.NewReader(f)}
	t.rows.Comment, t.rows.ReuseRecord = '#', true
	heads, err := t.rows.Read()
	if err != nil {
		return nil, fmt.Errorf("catalogue: %s: %w", name, err)
	}
	t.columns = make(map[string]int, len(heads))
	for i, c := range heads {
		t.columns[c] = i
	}
	return t, nil
}

// next steps to the next row.
func (t *table) next() bool {
	row, err := t.rows.Read()
	switch {
	case err == nil:
		t.row = row
		t.at++
		return true
	case !errors.Is(err, io.EOF):
		t.errs = append(t.errs, fmt.Errorf("catalogue: %s: %w", t.file, err))
	case t.at == 0:
		t.errs = append(t.errs, fmt.Errorf("catalogue: %s: no rows", t.file))
	}
	return false
}

func (t *table) fail(err error) {
	t.errs = append(t.errs, fmt.Errorf("catalogue: %s: row %d: %w", t.file, t.at, err))
}

func (t *table) err() error { return errors.Join(t.errs...) }

// text returns the row's cell under a heading.
func (t *table) text(column string) string {
	i, ok := t.columns[column]
	if !ok {
		t.fail(fmt.Errorf("no column %q", column))
		return ""
	}
	return t.row[i]
}

// num returns the cell as a number; an empty cell is 0, "not known".
func (t *table) num(column string) float64 {
	s := t.text(column)
	if s == "" {
		return 0
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || v < 0 {
		t.fail(fmt.Errorf("%s: %q is not a number", column, s))
	}
	return v
}

// length returns the cell as a length in a unit of so many metres.
func (t *table) length(column string, unit float64) quantity.Length {
	return quantity.Length(t.num(column) * unit)
}

func (t *table) end(column string) End {
	text := t.text(column)
	if e, ok := t.known[text]; ok {
		return e
	}
	e, err := ParseEnd(text)
	if err != nil {
		t.fail(err)
	}
	t.known[text] = e
	return e
}

func (t *table) size(column string) Size {
	s, err := ParseSize(t.text(column))
	if err != nil {
		t.fail(err)
	}
	return s
}
