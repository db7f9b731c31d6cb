// Package document reads the YAML files that people write for this program
// into Go structs, keeping for every value its text as typed and its place,
// and reports everything that is wrong with a file at once. It also changes such
// files in place, with comments and layout kept.
package document

// Pos is where a value stands in a file, counted from 1; the zero Pos means
// that the file does not give it.
type Pos struct {
	Line, Column, Width int
}

// Field is one value of a file: its meaning, the text as typed and where it
// stands.
type Field[T any] struct {
	Value T
	Text  string
	Pos   Pos
}

// Given reports whether the file gives the value.
func (f Field[T]) Given() bool { return f.Pos.Line > 0 }
