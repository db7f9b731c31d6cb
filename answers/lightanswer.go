package answers

import (
	"fmt"
	"math"
	"strings"

	"rillwright/enclosure"
	"rillwright/quantity"
	"rillwright/study"
)

// growers are groups of plants with the light they live in, mol/m2 a day.
type growers struct {
	name      string
	low, high float64
	mark      string
}

func growerGroups() []growers {
	return []growers{
		{"mosses and liverworts", 0.5, 3, "from memory"},
		{"filmy and shade ferns", 2, 6, "from memory"},
		{"foliage of the forest floor, small aroids, begonias", 2, 8, "from memory"},
		{"African violets and their kin", 4, 6, "published in an encyclopaedia"},
		{"bromeliads", 6, 12, "from memory"},
	}
}

const (
	lightGood = 1.5 // mol/m2 a day: under it little but moss grows

	algae = 8.0 // over it algae cover faces that are always wet
)

// growsAt names the groups for which a day's light will do.
func growsAt(dli float64) string {
	var out []string
	for _, g := range growerGroups() {
		if dli >= g.low && dli <= g.high {
			out = append(out, g.name)
		}
	}
	if len(out) == 0 {
		if dli < 0.5 {
			return "nothing for long"
		}
		return "plants of bright places"
	}
	return strings.Join(out, ", ")
}

// lightAnswer answers how much light the wall gets.
func lightAnswer(e *enclosure.Enclosure) Answer {
	a := Answer{ID: "light", Question: "Is there enough light, and not too much, and for how long?"}
	l, err := study.Shine(e)
	if err != nil {
		a.Verdict, a.Say = Unknown, "The light cannot be computed: "+err.Error()
		return a
	}
	if l.Dark {
		a.Verdict, a.Say = Unknown, "The file lists no lamp with its lumens or its power: write it under lights, with hours, where it hangs and how long it is, and it can be computed. Daylight is not counted."
		return a
	}
	show := func(v float64) string {
		if v < 10 {
			return fmt.Sprintf("%.1f mol/m2", v)
		}
		return fmt.Sprintf("%.0f mol/m2", v)
	}
	mean := l.Wall.Mean
	b := l.Share.Scale(mean)
	dli := func(name string, b quantity.Band[float64]) Figure {
		return Figure{Name: name, Low: b.Low, Likely: b.Likely, High: b.High, Unit: "mol/m2", Text: span(show, b)}
	}
	a.Figures = []Figure{boundedBelow(dli("a day's light on the wall, mean", b), lightGood)}
	worst := 0.0
	for i := range l.Faces {
		f := &l.Faces[i]
		a.Figures = append(a.Figures, dli("on the "+f.Name, l.Share.Scale(f.Mean)))
		worst = math.Max(worst, f.Mean)
	}
	a.Figures = append(a.Figures, Figure{Name: "brightest spot of the wall, lamps on", Low: l.Wall.Peak * l.Share.Low, Likely: l.Wall.Peak, High: l.Wall.Peak * l.Share.High, Unit: "umol/m2/s", Text: fmt.Sprintf("%.0f umol/m2/s likely", l.Wall.Peak)})
	var groups []string
	for _, g := range growerGroups() {
		groups = append(groups, fmt.Sprintf("%s %g to %g (%s)", g.name, g.low, g.high, g.mark))
	}
	a.Limit = Limit{Text: fmt.Sprintf("%g mol/m2 a day at least for more than moss, and under %g where it is always wet, or algae cover it; %s", lightGood, algae, strings.Join(groups, "; ")), Mark: assumedMark}
	a.Margin = fmt.Sprintf("%.1f times the least, %.1f at the bad end; %.2f of what algae want, %.2f at the bad end", b.Likely/lightGood, b.Low/lightGood, worst/algae, worst*l.Share.High/algae)
	a.Score = -math.Abs(math.Log(mean / 4))
	a.Verdict = lightVerdict(mean, worst, l.Share)
	var parts []string
	for i := range l.Faces[:3] {
		f := &l.Faces[i]
		parts = append(parts, fmt.Sprintf("%s: %s", f.Name, growsAt(f.Mean)))
	}
	a.Say = fmt.Sprintf("The wall likely gets %s a day. By light alone there grow, %s.", show(mean), strings.Join(parts, "; "))
	if worst*l.Share.High > algae {
		a.Say += " Faces that are always wet and bright grow algae."
	}
	a.Say += " Daylight is not counted, and what grows below others gets less. Taken: " + strings.Join(l.Assumed, "; ") + "."
	for _, d := range l.Doubts {
		a.Matters = append(a.Matters, Matter{
			What: d.What, Range: fromTo(d.Show(d.Low, e.Units), d.Show(d.High, e.Units)), Effect: fromTo(show(mean*d.Low/d.Likely), show(mean*d.High/d.Likely)),
			Swing: (d.High - d.Low) / d.Likely, Why: d.Why, Settle: d.Settle,
		})
	}
	rank(a.Matters)
	lightFixes(e, l, &a, worst, show)
	return a
}

func lightVerdict(mean, worst float64, share quantity.Band[float64]) Verdict {
	switch {
	case mean < 0.5 || worst > 2*algae:
		return Fails
	case mean*share.Low < lightGood || worst*share.High > algae:
		return Tight
	}
	return Holds
}

// lightFixes tries other hours and another lamp. Light is in proportion to both, so
// that what comes of it is the same computation, multiplied.
func lightFixes(e *enclosure.Enclosure, l *study.Lighting, a *Answer, worst float64, show func(float64) string) {
	if a.Verdict != Tight && a.Verdict != Fails || len(e.Design.Lights) != 1 {
		return
	}
	x := &e.Design.Lights[0]
	name, mean := x.Name.Value, l.Wall.Mean
	target := 4.0
	if worst/mean*target*l.Share.High > algae {
		target = math.Max(1.6/l.Share.Low, algae/l.Share.High*mean/worst)
	}
	add := func(do, change, cost string, weight, by float64, edits ...Edit) {
		v := lightVerdict(mean*by, worst*by, l.Share)
		if v > a.Verdict || -math.Abs(math.Log(mean*by/4)) <= a.Score {
			return
		}
		a.Fixes = append(a.Fixes, Fix{Do: do, Change: change, Edits: edits, Cost: cost, Weight: weight, Before: a.Figures[0].Text, After: span(show, l.Share.Scale(mean*by)), Verdict: v})
	}
	if h := float64(x.Hours.Value) / 3600; h > 0 {
		if want := math.Round(math.Min(math.Max(h*target/mean, 6), 14)); want != h {
			to := fmt.Sprintf("%.0f h", want)
			add(fmt.Sprintf("Let %s shine for %.0f hours a day.", name, want), fmt.Sprintf("lights[%s].hours: %s", name, to), "nothing but power", 0, want/h, Edit{Path: "lights[" + name + "].hours", To: to})
		}
	}
	if x.Lumens.Given() {
		have := float64(x.Lumens.Value)
		want := 100 * math.Round(have*target/mean/100)
		if want > have {
			to := fmt.Sprintf("%.0f", want)
			add(fmt.Sprintf("A lamp of %s lm in place of %s; its watts then are yours to write down.", to, name), fmt.Sprintf("lights[%s].lumens: %s", name, to), "60 to 120 EUR, "+priceFromMemory, 80, want/have, Edit{Path: "lights[" + name + "].lumens", To: to})
		}
	}
}
