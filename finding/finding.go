// Package finding describes what is wrong with something a person wrote: where,
// what, and what to write instead. One type serves every stage that reads a
// file, so that all problems can be gathered and shown together.
package finding

// Severity tells how much a finding matters.
type Severity int

// The severities, worst last.
const (
	Note Severity = iota
	Warning
	Error
)

// Place is a position in a text file. Line and Column count from 1, Column in
// characters; the zero Place means "the file as a whole".
type Place struct {
	File   string
	Line   int
	Column int
	Width  int // characters to underline, 0 for one
}

// Finding is one problem in a file.
type Finding struct {
	Place    Place
	Severity Severity
	Field    string // path as the writer knows it: "drains[main drain].lip"
	What     string // what is wrong, quoting what was read
	Do       string // what to write instead
	Excerpt  string // the source line, without its newline
}

// List is a collection of findings.
type List []Finding
