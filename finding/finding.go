// Package finding describes what is wrong with something a person wrote: where,
// what, and what to write instead. One type serves every stage that reads a
// file, so that all problems can be gathered and shown together.
package finding

import "fmt"

// Severity tells how much a finding matters.
type Severity int

// The severities, worst last.
const (
	Note Severity = iota
	Warning
	Error
)

// String returns "note", "warning" or "error".
func (s Severity) String() string {
	switch s {
	case Note:
		return "note"
	case Warning:
		return "warning"
	case Error:
		return "error"
	}
	return fmt.Sprintf("severity %d", int(s))
}

// MarshalText returns the severity's word; it fails on a value that is none of
// the three.
func (s Severity) MarshalText() ([]byte, error) {
	if s < Note || s > Error {
		return nil, fmt.Errorf("%v is not known", s)
	}
	return []byte(s.String()), nil
}

// UnmarshalText reads the word that MarshalText writes.
func (s *Severity) UnmarshalText(text []byte) error {
	for v := Note; v <= Error; v++ {
		if v.String() == string(text) {
			*s = v
			return nil
		}
	}
	return fmt.Errorf("severity %q is not note, warning or error", text)
}

// Place is a position in a text file. Line and Column count from 1, Column in
// characters; the zero Place means "the file as a whole".
type Place struct {
	File   string `json:"file,omitzero"`
	Line   int    `json:"line,omitzero"`
	Column int    `json:"column,omitzero"`
	Width  int    `json:"width,omitzero"` // characters to underline, 0 for one
}

// String returns the place as editors know it, "grotto.yaml:41:11", leaving out
// what is not known.
func (p Place) String() string {
	s := p.File
	if p.Line < 1 {
		return s
	}
	if s != "" {
		s += ":"
	}
	s += fmt.Sprint(p.Line)
	if p.Column > 0 {
		s += fmt.Sprintf(":%d", p.Column)
	}
	return s
}

// Finding is one problem in a file.
type Finding struct {
	Place    Place    `json:"place,omitzero"`
	Severity Severity `json:"severity"`
	Field    string   `json:"field,omitzero"`   // path as the writer knows it: "drains[main drain].lip"
	What     string   `json:"what"`             // what is wrong, quoting what was read
	Do       string   `json:"do,omitzero"`      // what to write instead
	Excerpt  string   `json:"excerpt,omitzero"` // the source line, without its newline
}

// String returns the first line that Write prints: place, severity and what is
// wrong.
func (f Finding) String() string {
	s := f.Severity.String() + ": " + clean(f.What)
	if p := f.Place.String(); p != "" {
		s = clean(p) + ": " + s
	}
	return s
}
