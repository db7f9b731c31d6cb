// Package source is the register of citations: every figure and formula of the
// program names its source by a key, and this package says what stands behind
// the key and how far to trust it.
package source

import (
	"fmt"
	"slices"
	"strings"
	"sync"
)

// Key names a source: "astm-d1785".
type Key string

// Source is one entry of the register.
type Source struct {
	Key   Key
	Who   string // author or body, "" if none
	Year  int    // 0 if not known
	Title string
	Where string // journal, standard number, table
	Mark  Mark
	Note  string
}

// String writes the source as a reference.
func (s Source) String() string {
	var b strings.Builder
	if s.Who != "" {
		b.WriteString(s.Who)
		if s.Year > 0 {
			fmt.Fprintf(&b, " %d", s.Year)
		}
		b.WriteString(", ")
	}
	b.WriteString(s.Title)
	if s.Where != "" {
		b.WriteString(", " + s.Where)
	}
	if s.Who == "" && s.Year > 0 {
		fmt.Fprintf(&b, ", %d", s.Year)
	}
	return b.String() + " (" + s.Mark.String() + ")"
}

// sorted holds the register by key; it never changes.
var sorted = sync.OnceValue(func() []Source {
	list := slices.Concat(generic(), trade(), water(), pipes(), fittings(), outlets(), wicks(), evenness(), drains(), pumps(), solvers(), glass(), sealants(), loads(), air(), lighting())
	slices.SortFunc(list, compare)
	return list
})

func compare(a, b Source) int { return strings.Compare(string(a.Key), string(b.Key)) }

// All returns every source, sorted by key.
func All() []Source { return slices.Clone(sorted()) }

// Lookup returns the source of a key; ok is false if there is none.
func Lookup(k Key) (s Source, ok bool) {
	list := sorted()
	i, ok := slices.BinarySearchFunc(list, Source{Key: k}, compare)
	if !ok {
		return Source{}, false
	}
	return list[i], true
}
