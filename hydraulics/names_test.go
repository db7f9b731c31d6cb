package hydraulics

import (
	"fmt"
	"testing"
)

// Every name is there, and none twice: a new constant without one would show.
func TestNames(t *testing.T) {
	seen := map[string]bool{}
	check := func(s fmt.Stringer, known bool) {
		t.Helper()
		unknown := len(s.String()) > 7 && s.String()[:7] == "unknown"
		if unknown == known || known && seen[s.String()] {
			t.Errorf("%#v is called %q", s, s)
		}
		seen[s.String()] = true
	}
	for l := DividingBranch; l <= CombiningRun+1; l++ {
		check(l, l <= CombiningRun)
	}
	for r := RegimeDry; r <= RegimeFullPipe+1; r++ {
		check(r, r <= RegimeFullPipe)
	}
	for l := LimitInlet; l <= LimitNormal+1; l++ {
		check(l, l <= LimitNormal)
	}
}
