package answers

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"rillwright/design"
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

	wantedLight = 4.0 // mol/m2 a day, in the middle of most groups

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

// lightAnswer answers how much light the wall gets; the light is nil where it cannot be
// computed.
func lightAnswer(e *enclosure.Enclosure) (Answer, *study.Lighting) {
	a := Answer{ID: "light", Question: "Is there enough light, and not too much, and for how long?"}
	l, err := study.Shine(e)
	if err != nil {
		a.Verdict, a.Say = Unknown, "The light cannot be computed: "+err.Error()
		return a, nil
	}
	if l.Dark {
		a.Verdict, a.Say = Unknown, "The file lists no lamp with its lumens or its power: write it under lights, with hours, where it hangs and how long it is, and it can be computed. Daylight is not counted."
		return a, nil
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
	peak := l.Share.Scale(l.Wall.Peak)
	ppfd := func(v float64) string { return fmt.Sprintf("%.0f umol/m2/s", v) }
	a.Figures = append(a.Figures, Figure{Name: "brightest spot of the wall, lamps on", Low: peak.Low, Likely: peak.Likely, High: peak.High, Unit: "umol/m2/s", Text: span(ppfd, peak)})
	var groups []string
	for _, g := range growerGroups() {
		groups = append(groups, fmt.Sprintf("%s %g to %g (%s)", g.name, g.low, g.high, g.mark))
	}
	a.Limit = Limit{Text: fmt.Sprintf("%g mol/m2 a day at least for more than moss, and under %g where it is always wet, or algae cover it; %s", lightGood, algae, strings.Join(groups, "; ")), Mark: assumedMark}
	a.Margin = fmt.Sprintf("%.1f times the least, %.1f at the bad end; %.2f of what algae want, %.2f at the bad end", b.Likely/lightGood, b.Low/lightGood, worst/algae, worst*l.Share.High/algae)
	a.Score = -math.Abs(math.Log(mean / wantedLight))
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
	return a, l
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

// lampFixes are other hours, another height and another lamp in place of one.
func (l *living) lampFixes(i int) []livingFix {
	x := &l.e.Design.Lights[i]
	name := x.Name.Value
	var out []livingFix
	add := func(do, cost string, weight float64, helps []string, edits []Edit, apply func(*design.Light)) {
		f := livingFix{Fix: Fix{Do: do, Cost: cost, Weight: weight}, helps: helps, apply: func(d *design.Design) {
			d.Lights = slices.Clone(d.Lights)
			apply(&d.Lights[i])
		}}
		for k, e := range edits {
			e.Path = "lights[" + name + "]." + e.Path
			if f.Edits = append(f.Edits, e); k > 0 {
				f.Change += ", "
			}
			f.Change += e.Path + ": " + e.To
		}
		out = append(out, f)
	}
	hours := func(h float64, helps ...string) {
		to := fmt.Sprintf("%.0f h", h)
		add(fmt.Sprintf("Let %s shine for %.0f hours a day.", name, h), "nothing but power", 0.5, helps, []Edit{{Path: "hours", To: to}}, func(x *design.Light) { put(&x.Hours, to) })
	}
	have := float64(x.Hours.Value) / 3600
	if have > 8 {
		hours(8, "heat", "light")
	}
	_, high, _ := l.l.Front()
	if s := x.Sits.Value; s == "inside" || s == "on the top" {
		up := l.inText(high + 0.1)
		add(fmt.Sprintf("Hang %s above, %s over the inside bottom, so that its heat stays out.", name, up), "hooks and wire", 6, []string{"heat"},
			[]Edit{{Path: "sits", To: "above"}, {Path: "up", To: up}}, func(x *design.Light) {
				put(&x.Sits, "above")
				put(&x.Up, up)
			})
	}
	if l.lit == nil || len(l.e.Design.Lights) != 1 {
		return out
	}
	mean, worst := l.lit.Wall.Mean, l.lit.Brightest()
	target := wantedLight
	if worst/mean*target*l.lit.Share.High > algae {
		target = math.Max(1.6/l.lit.Share.Low, algae/l.lit.Share.High*mean/worst)
	}
	if have > 0 {
		if want := math.Round(math.Min(math.Max(have*target/mean, 6), 14)); want != math.Round(have) && want != 8 {
			hours(want, "light")
		}
	}
	// Nearer where it is too dark, but over the top; higher where it is too bright.
	from := l.lit.Up[0]
	for _, step := range []float64{0.1, 0.2, 0.3} {
		to := from + step
		if mean < target {
			if to = from - step; x.Sits.Value != "inside" && to < high+0.02 {
				continue
			}
		}
		if to < 0.5*high {
			continue
		}
		up := l.inText(to)
		add(fmt.Sprintf("Hang %s so that it glows %s over the inside bottom.", name, up), "nothing", 1, []string{"light"}, []Edit{{Path: "up", To: up}}, func(x *design.Light) { put(&x.Up, up) })
	}
	if x.Lumens.Given() {
		lumens := float64(x.Lumens.Value)
		if want := 100 * math.Round(lumens*target/mean/100); want > lumens {
			to := fmt.Sprintf("%.0f", want)
			add(fmt.Sprintf("A lamp of %s lm in place of %s; its watts then are yours to write down.", to, name), "60 to 120 EUR, "+priceFromMemory, 80, []string{"light"}, []Edit{{Path: "lumens", To: to}}, func(x *design.Light) { put(&x.Lumens, to) })
		}
	}
	return out
}
