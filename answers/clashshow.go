package answers

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"rillwright/geom"
	"rillwright/layout"
	"rillwright/quantity"
)

// clashFigures shows the nearest meetings.
func (s *Survey) clashFigures(a *Answer, l *layout.Layout, list, good, bad []meeting) {
	if len(list) == 0 {
		return
	}
	band := quantity.Band[quantity.Length]{Low: quantity.Length(nearest(bad)), Likely: quantity.Length(nearest(list)), High: quantity.Length(nearest(good))}
	f := figure("nearest that two things come (below 0: overlap)", band, s.E.Units)
	f.Text = tenths(nearest(list), s.E.Units)
	if low, high := tenths(nearest(bad), s.E.Units), tenths(nearest(good), s.E.Units); low != high {
		f.Text = fromTo(low, high) + ", likely " + f.Text
	}
	a.Figures = append(a.Figures, over(f, quantity.Length(handBuilt)))
	near := slices.Clone(list)
	slices.SortStableFunc(near, func(x, y meeting) int {
		switch {
		case x.gap < y.gap:
			return -1
		case x.gap > y.gap:
			return 1
		}
		return 0
	})
	shown := map[string]bool{}
	for _, m := range near {
		name := thing(m.a) + " to " + thing(m.b)
		if shown[name] || len(shown) == 4 {
			continue
		}
		shown[name] = true
		f := figure(strings.TrimPrefix(name, "the "), quantity.Exactly(quantity.Length(m.gap)), s.E.Units)
		f.Text = tenths(m.gap, s.E.Units)
		a.Figures = append(a.Figures, over(f, quantity.Length(handBuilt)))
	}
	for _, tail := range l.All(layout.KindTail) {
		path, ok := tail.Solid.(geom.Path)
		if !ok {
			continue
		}
		by := path.Points[0].Z - path.Points[len(path.Points)-1].Z
		f := figure(fmt.Sprintf("opening of the %s, above the place it feeds", tail.Name), quantity.Exactly(quantity.Length(by)), s.E.Units)
		f.Text = tenths(by, s.E.Units)
		a.Figures = append(a.Figures, f)
	}
}

// takenNotes says what of the drawing was taken, and what is missing from it.
func takenNotes(l *layout.Layout) []string {
	quiet := []layout.Kind{
		layout.KindOutlet, layout.KindChamber, layout.KindSumpWater, layout.KindFoot, layout.KindDrainPipe, layout.KindRun, layout.KindLamp,
		layout.KindPump, layout.KindHardscape, layout.KindRim, layout.KindDoorSpace, layout.KindPool, layout.KindHidden, layout.KindElbow,
	}
	var order []string
	of := map[string][]string{}
	for i := range l.Parts {
		p := &l.Parts[i]
		if slices.Contains(quiet, p.Kind) {
			continue
		}
		for _, text := range p.Assumed {
			if of[text] == nil {
				order = append(order, text)
			}
			if name := strings.TrimPrefix(thing(p), "the "); !slices.Contains(of[text], name) {
				of[text] = append(of[text], name)
			}
		}
	}
	var words []string
	for _, text := range order {
		words = append(words, strings.Join(of[text], ", ")+": "+text)
	}
	words = append(words, l.Assumed...)
	var out []string
	if len(words) > 0 {
		out = append(out, "Taken, since the file does not say it. "+upperFirst(strings.Join(words, "; "))+".")
	}
	if len(l.Left) > 0 {
		var left []string
		for _, x := range l.Left {
			left = append(left, fmt.Sprintf("%s (%s)", x.Name, x.Say))
		}
		out = append(out, "Not drawn, since the file does not place it: "+strings.Join(left, "; ")+".")
	}
	return out
}

func upperFirst(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// clashMatters moves each size that was taken to its ends and looks again. It adds
// what matters to the answer and returns the meetings with every size at its good
// end, and at its bad end.
func (s *Survey) clashMatters(a *Answer, likely float64) (good, bad []meeting) {
	sys := s.E.Units
	least, most := layout.Ends()
	of := func(t layout.Taken) []meeting { return meetings(layout.With(s.E, t)) }
	best, worst := layout.Usual(), layout.Usual()
	length := func(v float64) string { return tenths(v, sys) }
	timesOf := func(v float64) string { return fmt.Sprintf("%g times", v) }
	for _, c := range []struct {
		what string
		of   func(*layout.Taken) *float64
		show func(float64) string
	}{
		{"from the glass to a standpipe's middle, over its outside", func(t *layout.Taken) *float64 { return &t.Turn }, timesOf},
		{"how much wider a strainer is than its pipe, all round", func(t *layout.Taken) *float64 { return &t.StrainerMore }, length},
		{"length of a strainer", func(t *layout.Taken) *float64 { return &t.StrainerReach }, length},
		{"thickness of a bulkhead's flange", func(t *layout.Taken) *float64 { return &t.FlangeThick }, length},
		{"diameter of a bulkhead's flange, over its hole", func(t *layout.Taken) *float64 { return &t.FlangeShare }, timesOf},
		{"thickness of a bulkhead's nut", func(t *layout.Taken) *float64 { return &t.NutThick }, length},
	} {
		low, high := layout.Usual(), layout.Usual()
		*c.of(&low), *c.of(&high) = *c.of(&least), *c.of(&most)
		x, y := nearest(of(low)), nearest(of(high))
		if math.Abs(x-y) < 1e-6 {
			continue
		}
		*c.of(&best), *c.of(&worst) = *c.of(&low), *c.of(&high)
		if x < y {
			*c.of(&best), *c.of(&worst) = *c.of(&high), *c.of(&low)
		}
		a.Matters = append(a.Matters, Matter{
			What: c.what, Range: fromTo(c.show(*c.of(&low)), c.show(*c.of(&high))), Effect: "nearest " + fromTo(tenths(x, sys), tenths(y, sys)),
			Swing: math.Abs(x-y) / max(math.Abs(likely), handBuilt), Why: "assumed, no source", Settle: "the fitting in your hand",
		})
	}
	rank(a.Matters)
	return of(best), of(worst)
}
