// Package trial is for tests: it takes a design file, changes it and reads it.
package trial

import (
	"strings"
	"testing"

	"rillwright/catalogue"
	"rillwright/design"
	"rillwright/finding"
)

// Swap returns a design with pieces of its text replaced, each of which must be
// there: what, by what, and so on.
func Swap(tb testing.TB, text []byte, pairs ...string) []byte {
	tb.Helper()
	s := string(text)
	for i := 0; i < len(pairs); i += 2 {
		if !strings.Contains(s, pairs[i]) {
			tb.Fatalf("the design has no %q", pairs[i])
		}
		s = strings.ReplaceAll(s, pairs[i], pairs[i+1])
	}
	return []byte(s)
}

// Parts returns the built-in catalogue.
func Parts(tb testing.TB) *catalogue.Catalogue {
	tb.Helper()
	cat, err := catalogue.Builtin()
	if err != nil {
		tb.Fatal(err)
	}
	return cat
}

// Read reads a design that must have no errors, and the parts for it.
func Read(tb testing.TB, text []byte) (*design.Design, *catalogue.Catalogue) {
	tb.Helper()
	d, list := design.Read("example", text)
	if list.HasErrors() {
		tb.Fatal(list)
	}
	return d, Parts(tb)
}

// Resolved reads and resolves a design that must have no errors. resolve is
// enclosure.Resolve, whose own tests could not use this package if it were
// imported here.
func Resolved[E any](tb testing.TB, text []byte, resolve func(*design.Design, *catalogue.Catalogue, map[string][]catalogue.Point) (E, finding.List)) E {
	tb.Helper()
	d, cat := Read(tb, text)
	e, list := resolve(d, cat, nil)
	if list.HasErrors() {
		tb.Fatal(list)
	}
	return e
}
