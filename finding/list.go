package finding

import (
	"cmp"
	"encoding/json"
	"slices"
	"strings"
)

// List is a collection of findings. It is an error, so that it can be returned
// as one; return Err and not the list itself, since a List in an error variable
// is never nil.
type List []Finding

// Sort puts the findings in the order of file, line and column. Findings at one
// place keep their order, and one about a whole file comes before those within.
func (l List) Sort() {
	slices.SortStableFunc(l, func(a, b Finding) int {
		return cmp.Or(
			cmp.Compare(a.Place.File, b.Place.File),
			cmp.Compare(a.Place.Line, b.Place.Line),
			cmp.Compare(a.Place.Column, b.Place.Column))
	})
}

// HasErrors reports whether any finding is an error.
func (l List) HasErrors() bool {
	return slices.ContainsFunc(l, func(f Finding) bool { return f.Severity >= Error })
}

// Worst returns the highest severity in the list; ok is false if it is empty.
func (l List) Worst() (s Severity, ok bool) {
	for _, f := range l {
		s = max(s, f.Severity)
	}
	return s, len(l) > 0
}

// Err returns the list as an error if it has errors, nil otherwise: warnings
// and notes do not stop anybody.
func (l List) Err() error {
	if l.HasErrors() {
		return l
	}
	return nil
}

// Error returns all findings, each on a line of its own with its remedy, without
// excerpts. Write prints more.
func (l List) Error() string {
	if len(l) == 0 {
		return "no findings"
	}
	var b strings.Builder
	for i, f := range l {
		if i > 0 {
			b.WriteByte('\n')
		}
		b.WriteString(f.String())
		if f.Do != "" {
			b.WriteString("; ")
			b.WriteString(clean(f.Do))
		}
	}
	return b.String()
}

// MarshalJSON returns the findings as an array, an empty one for a nil list, so
// that a reader in another language always meets an array.
func (l List) MarshalJSON() ([]byte, error) {
	if l == nil {
		return []byte("[]"), nil
	}
	return json.Marshal([]Finding(l))
}
