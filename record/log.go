package record

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode/utf8"

	"rillwright/finding"
)

// Reading is one line of a log.
type Reading struct {
	Time   time.Time
	What   string // "bare"; a name of Words
	Part   string // "main pump"; "" if the word is about the whole
	Kind   Kind
	Text   string    // the figures as typed; "-" if there are none
	Values []float64 // in SI, see Kind
	Design string    // mark of the design file then; "-" if not known
	Note   string
	Sum    string // 16 digits, "" before Line
	At     int    // line of the log, from 1; 0 if it came from elsewhere
}

// ID is the id of the check that the reading answers: "bare[main pump]".
func (r *Reading) ID() string {
	if r.Part == "" {
		return r.What
	}
	return r.What + "[" + r.Part + "]"
}

// Header is the first line of a new log, with its end.
const Header = "# rillwright log: one reading a line; lines are only added, never changed\n"

const fields = 6

// Line returns the reading as a line of a log, with its end. The error tells of a
// field that cannot stand there.
func (r *Reading) Line() (string, error) {
	for _, f := range []struct{ name, text string }{{"part", r.Part}, {"figures", r.Text}, {"design", r.Design}, {"note", r.Note}} {
		if strings.ContainsAny(f.text, "\t\n\r") || !utf8.ValidString(f.text) {
			return "", fmt.Errorf("the %s %q cannot stand in a log: leave out tabs and line ends", f.name, f.text)
		}
	}
	if strings.ContainsAny(r.Part, "[]") {
		return "", fmt.Errorf("the part %q cannot stand in a log: leave out the brackets", r.Part)
	}
	if y := r.Time.Year(); y < 1 || y > 9999 {
		return "", fmt.Errorf("the year %d cannot stand in a log: check the clock", y)
	}
	body := strings.Join([]string{r.Time.Format(time.RFC3339), r.ID(), dash(r.Text), dash(r.Design), r.Note}, "\t") + "\t"
	return body + sum(body) + "\n", nil
}

func dash(t string) string {
	if t == "" {
		return "-"
	}
	return t
}

func sum(body string) string {
	s := sha256.Sum256([]byte(body))
	return hex.EncodeToString(s[:8])
}

// Log is what a log says.
type Log struct {
	// Readings are in order of time, those of one time in order of their sum;
	// the same reading twice is there once.
	Readings []Reading
	// Unread are the lines that could not be read, whole, each with a finding.
	Unread []string
}

// Read reads a log. Nothing in it stops the reading: a line that cannot be read
// is kept in Unread and told of in the findings, as an error, or as a warning if it
// was cut short, which a crash does. file is the name that findings give.
func Read(file string, data []byte) (*Log, finding.List) {
	l := &Log{}
	var found finding.List
	text := string(data)
	l.Readings = make([]Reading, 0, strings.Count(text, "\n")+1)
	for at := 1; text != ""; at++ {
		line, rest, ended := strings.Cut(text, "\n")
		text = rest
		line = strings.TrimSuffix(line, "\r")
		if line == "" || line[0] == '#' {
			continue
		}
		r, err := readLine(line)
		if err == nil {
			r.At = at
			l.Readings = append(l.Readings, r)
			continue
		}
		l.Unread = append(l.Unread, line)
		f := finding.Finding{
			Place: finding.Place{File: file, Line: at}, Severity: finding.Error,
			Field: err.field, What: err.what, Do: err.do,
		}
		if !ended || err.short {
			f.Severity, f.What = finding.Warning, "the line is cut short: "+err.what
			f.Do = "note that reading once more; the piece may stay where it is"
		}
		found = append(found, f)
	}
	l.sort()
	return l, found
}

// sort brings the readings into order and leaves out those that are there twice.
func (l *Log) sort() {
	order := func(a, b Reading) int {
		return cmp.Or(a.Time.Compare(b.Time), strings.Compare(a.Sum, b.Sum))
	}
	if !slices.IsSortedFunc(l.Readings, order) {
		slices.SortStableFunc(l.Readings, order)
	}
	l.Readings = slices.CompactFunc(l.Readings, func(a, b Reading) bool { return a.Sum == b.Sum })
}

// lineError is what is wrong with a line.
type lineError struct {
	field, what, do string
	short           bool // it ends before its sum does
}

func readLine(line string) (r Reading, fault *lineError) {
	if strings.HasPrefix(line, "<<<<<<<") || strings.HasPrefix(line, "=======") || strings.HasPrefix(line, ">>>>>>>") {
		return r, &lineError{what: "this line was left by a merge of git", do: "delete it and keep the lines on both sides of it"}
	}
	var f [fields]string
	rest := line
	for i := range fields - 1 {
		var ok bool
		if f[i], rest, ok = strings.Cut(rest, "\t"); !ok {
			return r, &lineError{what: fmt.Sprintf("it has %d of %d fields", i+1, fields), short: true}
		}
	}
	f[fields-1] = rest
	body := line[:len(line)-len(rest)]
	want := sum(body)
	if len(rest) < len(want) {
		return r, &lineError{field: "sum", what: fmt.Sprintf("its sum has %d of %d digits", len(rest), len(want)), short: true}
	}
	if rest != want {
		return r, &lineError{field: "sum", what: fmt.Sprintf("the line was changed: %q is not its sum", rest), do: "bring the line back from a copy, or note the reading once more; if the change was meant, write " + want + " as the sum"}
	}
	t, err := time.Parse(time.RFC3339, f[0])
	if err != nil {
		return r, &lineError{field: "time", what: fmt.Sprintf("%q is no time", f[0]), do: "write one such as 2026-11-26T18:30:00+01:00"}
	}
	r = Reading{Time: t, Text: f[2], Design: f[3], Note: f[4], Sum: f[5]}
	var open bool
	if r.What, r.Part, open = strings.Cut(f[1], "["); open {
		r.Part = strings.TrimSuffix(r.Part, "]")
	}
	w, ok := FindWord(r.What)
	if !ok {
		return r, &lineError{field: "what", what: fmt.Sprintf("%q is not known", f[1]), do: wordSlip(r.What)}
	}
	r.Kind = w.Kind
	if r.Values, err = ParseValue(w.Kind, r.Text); err != nil {
		return r, &lineError{field: "value", what: err.Error(), do: "write the figures as " + Example(w.Kind)}
	}
	return r, nil
}

// Example is how the figures of a kind are written.
func Example(k Kind) string {
	switch k {
	case Seen:
		return "ok, or not ok"
	case Flow:
		return "10 L in 43 s, 44 s, 43 s"
	case Height:
		return "12 mm"
	case Cups:
		return "40 38 41 ml in 30 s"
	case Time:
		return "40 s"
	case Skin:
		return "3 mm in 24 h"
	case Event:
	}
	return "-"
}

// Join returns one log of several copies or parts.
func Join(logs ...*Log) *Log {
	out := &Log{}
	for _, l := range logs {
		out.Readings = append(out.Readings, l.Readings...)
		out.Unread = append(out.Unread, l.Unread...)
	}
	out.sort()
	return out
}

// errNoFigure is of a line that ends behind its word.
var errNoFigure = errors.New("the figure is missing")
