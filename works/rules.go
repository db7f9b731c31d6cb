// Package works turns a design into the steps that build it: which there are,
// what comes before what and why, how long each takes and waits, and what it
// closes off. The rules are a table, rules.csv; which things a design has is found
// here; when they are done is the business of schedule.
package works

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"rillwright/quantity"
	"rillwright/schedule"
)

//go:embed rules.csv
var usual string

// Usual returns the text of the usual rules.
func Usual() string { return usual }

// Rule is one kind of step.
type Rule struct {
	ID, Each, Say      string
	After              []Before
	Why, Closes, Tools string
	Hands              int
	Whole              bool
	Work, Wait         schedule.Lasting
	Cure               bool   // wait at least for the sealant of the thing
	Mark               string // what the times come from
	Wet                bool   // done with fresh sealant, which skins
	CleanUp            string // what to do before leaving
}

// Before is a rule whose steps come first.
type Before struct {
	Rule string
	Work bool   // its work suffices
	Why  string // it comes first; "" where the table does not say
}

var columns = []string{"id", "each", "say", "after", "why", "closes", "tools", "hands", "whole", "work", "wait", "cure", "mark", "wet", "cleanup"}

// Kinds returns the words that the column "each" may hold.
func Kinds() []string {
	return []string{"build", "pane", "thin", "hole", "joints", "dam", "bulkhead", "notch", "solvent", "grid", "layer", "coat", "plants", "stand", "sump", "glass", "plumbing", "animals"}
}

// Read reads a table of rules. The error names line and column.
func Read(text string) ([]Rule, error) {
	r := csv.NewReader(strings.NewReader(text))
	r.Comment, r.FieldsPerRecord = '#', len(columns)
	var out []Rule
	for n := 0; ; n++ {
		rec, err := r.Read()
		if rec == nil && len(out) > 0 && err != nil && err.Error() == "EOF" {
			return out, known(out)
		}
		if err != nil {
			return nil, fmt.Errorf("rules: %w", err)
		}
		if n == 0 {
			if !slices.Equal(rec, columns) {
				return nil, fmt.Errorf("rules: the first line must be %s", strings.Join(columns, ","))
			}
			continue
		}
		line, _ := r.FieldPos(0)
		rule, err := read(rec)
		if err != nil {
			return nil, fmt.Errorf("rules, line %d: %w", line, err)
		}
		out = append(out, rule)
	}
}

func read(rec []string) (Rule, error) {
	u := Rule{ID: rec[0], Each: rec[1], Say: rec[2], Why: rec[4], Closes: rec[5], Tools: rec[6], Mark: rec[12], CleanUp: rec[14]}
	if u.ID == "" || strings.ContainsAny(u.ID, " ~:") {
		return u, fmt.Errorf("id %q: write one word", u.ID)
	}
	if !slices.Contains(Kinds(), u.Each) {
		return u, fmt.Errorf("each %q: write one of %s", u.Each, strings.Join(Kinds(), ", "))
	}
	if strings.Count(u.Say, "%") != strings.Count(u.Say, "%s") || strings.Count(u.Say, "%s") > 1 {
		return u, fmt.Errorf("say %q: write %%s once where the thing is named, and no other %%", u.Say)
	}
	for _, a := range strings.Fields(rec[3]) {
		name, work := strings.CutPrefix(a, "~")
		u.After = append(u.After, Before{Rule: name, Work: work})
	}
	err := u.reasons()
	if err != nil {
		return u, err
	}
	if u.Hands, err = strconv.Atoi(rec[7]); err != nil || u.Hands < 1 || u.Hands > 2 {
		return u, fmt.Errorf("hands %q: write 1 or 2", rec[7])
	}
	for i, yes := range map[int]*bool{8: &u.Whole, 11: &u.Cure, 13: &u.Wet} {
		if rec[i] != "yes" && rec[i] != "no" {
			return u, fmt.Errorf("%s %q: write yes or no", columns[i], rec[i])
		}
		*yes = rec[i] == "yes"
	}
	if u.Work, err = lasting(rec[9], 3600); err != nil {
		return u, fmt.Errorf("work: %w", err)
	}
	if u.Wait, err = lasting(rec[10], 24*3600); err != nil {
		return u, fmt.Errorf("wait: %w", err)
	}
	return u, nil
}

// reasons takes those of the causes out of why: parts that begin with a cause and a
// colon. The error is that one begins with a word that is no cause.
func (u *Rule) reasons() error {
	var own []string
	for part := range strings.SplitSeq(u.Why, ";") {
		part = strings.TrimSpace(part)
		name, why, ok := strings.Cut(part, ": ")
		k := slices.IndexFunc(u.After, func(b Before) bool { return b.Rule == name })
		switch {
		case ok && k >= 0:
			u.After[k].Why = strings.TrimSpace(why)
		case ok && !strings.Contains(name, " "):
			return fmt.Errorf("why %q: %q does not stand in the column after: write one of its words, or no colon", part, name)
		default:
			own = append(own, part)
		}
	}
	u.Why = strings.Join(own, "; ")
	return nil
}

// lasting reads one figure, or low, likely and high.
func lasting(text string, unit float64) (l schedule.Lasting, err error) {
	f := strings.Fields(text)
	if len(f) == 1 {
		f = []string{f[0], f[0], f[0]}
	}
	if len(f) != 3 {
		return l, fmt.Errorf("%q: write low, likely and high, or one figure", text)
	}
	var v [3]quantity.Duration
	for i := range f {
		x, err := strconv.ParseFloat(f[i], 64)
		if err != nil || !(x >= 0 && x < 1e4) || i > 0 && quantity.Duration(x*unit) < v[i-1] {
			return l, fmt.Errorf("%q: write figures from 0 that rise", text)
		}
		v[i] = quantity.Duration(x * unit)
	}
	return schedule.Lasting{Low: v[0], Likely: v[1], High: v[2]}, nil
}

// known says which cause is no rule or comes after its effect: rules stand in an
// order in which they could be followed, so that none waits for itself.
func known(rules []Rule) error {
	seen := map[string]bool{}
	for _, u := range rules {
		for _, b := range u.After {
			if !seen[b.Rule] {
				return fmt.Errorf("rules: %s comes after %q, which does not stand above it", u.ID, b.Rule)
			}
		}
		if seen[u.ID] {
			return fmt.Errorf("rules: %s stands there twice", u.ID)
		}
		seen[u.ID] = true
	}
	return nil
}
