package finding

import (
	"unicode"
	"unicode/utf8"
)

// Nearest returns the candidate that a person who wrote word most likely meant:
// the one with the fewest slips, where a slip is a letter too many, too few,
// wrong, or two neighbours swapped. Upper and lower case count as the same. Of
// equals the first is taken. ok is false if nothing is near enough: a word of
// one or two letters may have no slip, one of 3 to 5 one, of 6 to 8 two, and a
// longer one three, going by the shorter of the two words.
//
// The count of slips is the restricted Damerau-Levenshtein distance (optimal
// string alignment): no letter is touched twice. The cut-off is a choice, with
// no source.
func Nearest(word string, candidates []string) (nearest string, ok bool) {
	var space [3 * 64]int
	w := folded(make([]rune, 0, 64), word)
	c := make([]rune, 0, 64)
	best := slips(len(w)) + 1
	for _, candidate := range candidates {
		// Every slip changes the length by one at most.
		if n := utf8.RuneCountInString(candidate); abs(n-len(w)) >= best || len(w) == 0 {
			continue
		}
		c = folded(c[:0], candidate)
		limit := min(best-1, slips(min(len(w), len(c))))
		if d := distance(w, c, limit, space[:0]); d <= limit {
			nearest, ok, best = candidate, true, d
			if d == 0 {
				break
			}
		}
	}
	return nearest, ok
}

// slips is the number of slips allowed in a word of n letters.
func slips(n int) int { return min(n/3, 3) }

// folded appends the letters of s to dst, all in one case.
func folded(dst []rune, s string) []rune {
	for _, r := range s {
		dst = append(dst, unicode.ToLower(unicode.ToUpper(r)))
	}
	return dst
}

func abs(n int) int { return max(n, -n) }

// distance returns the restricted Damerau-Levenshtein distance of a and b, or
// some number above limit if it is above limit. It works in space if that is
// large enough.
func distance(a, b []rune, limit int, space []int) int {
	n := len(b) + 1
	if cap(space) < 3*n {
		space = make([]int, 3*n)
	}
	space = space[:3*n]
	before, last, row := space[:n], space[n:2*n], space[2*n:]
	for j := range last {
		last[j] = j
	}
	for i := range a {
		row[0] = i + 1
		least := row[0]
		for j := range b {
			cost := 1
			if a[i] == b[j] {
				cost = 0
			}
			d := min(last[j]+cost, last[j+1]+1, row[j]+1)
			if i > 0 && j > 0 && a[i] == b[j-1] && a[i-1] == b[j] {
				d = min(d, before[j-1]+1)
			}
			row[j+1] = d
			least = min(least, d)
		}
		// Nothing below can be cheaper than the least of this row: a swap skips
		// a row, but the skipped one is at most one dearer, as the swap is.
		if least > limit {
			return least
		}
		before, last, row = last, row, before
	}
	return last[len(b)]
}
