package catalogue

import (
	"cmp"
	"slices"
	"strings"

	"rillwright/finding"
)

// Search returns the parts in which every word is found, in name, other names,
// kind or note. Those whose name and kind alone answer come first; within that
// the order is that of Parts, sizes in numeric order. No words match everything.
func (c *Catalogue) Search(words ...string) []Part {
	var want [][]string
	for _, w := range words {
		want = append(want, queryWords(w)...)
	}
	var named, noted []*Part
	for i := range c.parts {
		p := &c.parts[i]
		have := sizeWords(p.Name + " " + string(p.Kind) + " " + strings.Join(p.Also, " "))
		if hasAll(have, want) {
			named = append(named, p)
			continue
		}
		if hasAll(append(have, sizeWords(p.Note)...), want) {
			noted = append(noted, p)
		}
	}
	slices.SortStableFunc(named, compareParts)
	slices.SortStableFunc(noted, compareParts)
	return copied(append(named, noted...))
}

// queryWords splits what was asked for at its spaces; each word is the run of
// size words it stands for ("16mm" is 16 then mm), and a whole number with the
// fraction behind it is one run ("1 1/2").
func queryWords(text string) [][]string {
	var out [][]string
	for w := range strings.FieldsSeq(text) {
		run := sizeWords(w)
		if len(run) == 0 {
			continue
		}
		if n := len(out) - 1; n >= 0 && len(out[n]) == 1 && isWhole(out[n][0]) && isFraction(run[0]) {
			out[n] = append(out[n], run...)
			continue
		}
		out = append(out, run)
	}
	return out
}

func hasAll(have []string, want [][]string) bool {
	for _, run := range want {
		if !hasRun(have, run) {
			return false
		}
	}
	return true
}

// hasRun reports whether the words of run follow each other in have. A number
// must be equal, so that 16 does not find 1600, and a fraction alone is a size
// of its own: 1/2 is not 1 1/2.
func hasRun(have, run []string) bool {
	for i := 0; i+len(run) <= len(have); i++ {
		if isFraction(run[0]) && i > 0 && isWhole(have[i-1]) {
			continue
		}
		if slices.EqualFunc(have[i:i+len(run)], run, answers) {
			return true
		}
	}
	return false
}

// answers reports whether the word h of a part answers the word w asked for.
func answers(h, w string) bool {
	if isDigit(rune(w[0])) {
		return h == w
	}
	return strings.Contains(h, w)
}

func isFraction(w string) bool {
	return isDigit(rune(w[0])) && strings.Contains(w, "/")
}

func isWhole(w string) bool {
	return plain(w) && !strings.Contains(w, ".")
}

// maxNearest is how many names Nearest offers.
const maxNearest = 3

// Nearest returns up to three names that may be meant by one that Find does not
// know, best first: a slip of the pen, then the parts that share most words with
// it. Nil if nothing is near.
func (c *Catalogue) Nearest(name string) []string {
	var out []string
	all := make([]string, len(c.parts))
	for i := range c.parts {
		all[i] = c.parts[i].Name
	}
	if near, ok := finding.Nearest(name, all); ok {
		out = append(out, near)
	}
	want := queryWords(name)
	type scored struct {
		part  *Part
		score int
	}
	var best []scored
	for i := range c.parts {
		p := &c.parts[i]
		have := sizeWords(p.Name)
		n := 0
		for _, run := range want {
			if hasRun(have, run) {
				n++
			}
		}
		if 2*n > len(want) {
			best = append(best, scored{p, n})
		}
	}
	slices.SortStableFunc(best, func(a, b scored) int {
		return cmp.Or(cmp.Compare(b.score, a.score), cmp.Compare(len(a.part.Name), len(b.part.Name)), compareParts(a.part, b.part))
	})
	for _, s := range best {
		if len(out) == maxNearest {
			break
		}
		if !slices.Contains(out, s.part.Name) {
			out = append(out, s.part.Name)
		}
	}
	return out
}
