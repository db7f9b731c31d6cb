package answers

import (
	"fmt"
	"math"

	"rillwright/enclosure"
	"rillwright/faults"
	"rillwright/quantity"
)

// aDay is what may creep away in a day without being seen, m3: a tenth of a
// litre, which a room's air takes up; assumed, no source.
const aDay = 1e-4

// walk answers what water may leave by itself along things that hang between the
// waters.
func walk(s *Survey, r *faults.Rig) (Answer, error) {
	f := walker{s.E}
	sys := s.E.Units
	a := Answer{ID: "creeps", Question: "Can water creep or siphon away?"}
	links, err := r.Walk()
	if err != nil {
		return a, err
	}
	a.Limit = Limit{Text: "less than " + quantity.Volume(aDay).Show(sys) + " a day to the floor, and no return that siphons", Mark: "assumed, no source"}
	worst := 0.0
	bridges := 0
	for i := range links {
		l := &links[i]
		if l.Kind != "return" {
			bridges++
		}
		perDay := quantity.Band[quantity.Volume]{Low: quantity.Volume(l.Flow[0] * oneDay), Likely: quantity.Volume(l.Flow[1] * oneDay), High: quantity.Volume(l.Flow[2] * oneDay)}
		fig := figure(fmt.Sprintf("%s (%s), from the %s to the %s", l.Name, l.Kind, l.From, l.To), perDay, sys)
		fig.Text = f.linkText(l)
		if l.Place.Kind == enclosure.AtFloor {
			fig = against(fig, quantity.Volume(aDay))
		}
		a.Figures = append(a.Figures, fig)
		v, say := f.linkVerdict(l)
		if v > a.Verdict || v == a.Verdict && a.Say == "" {
			a.Limiting, a.LimitingLine, a.Say = "the "+l.Name, l.Line, say
		}
		a.Verdict = max(a.Verdict, v)
		worst = math.Max(worst, l.Flow[2])
	}
	switch {
	case a.Verdict == Holds && bridges == 0:
		a.Verdict = Unknown
		a.Say = "The file lists nothing that hangs over dam or rim, and something always does: write cords, wood, moss and mesh that touch water under bridges:."
	case a.Verdict == Holds:
		a.Say = "Nothing that is listed carries water away. Look along rims and cords with a tissue after a night of running all the same."
	}
	a.Score = -worst
	a.Cautions = append(a.Cautions, "Give every cord a drip loop below its socket: water runs along it.")
	return a, nil
}

// walker puts links into words.
type walker struct{ e *enclosure.Enclosure }

// linkText says what one link carries.
func (f walker) linkText(l *faults.Link) string {
	sys, upper := f.e.Units, f.levelName(l)
	day := func(q float64) string { return quantity.Volume(q * oneDay).Show(sys) }
	switch {
	case l.Flow[2] <= 0:
		return "carries nothing" + f.crestText(l)
	case l.Kind == "return":
		return fmt.Sprintf("siphons when the pump stops, until %s: %s", upper, quantity.Volume(l.Drawn[1]).Show(sys))
	case l.Kind == "hose":
		text := fmt.Sprintf("once full it siphons %s, until %s: %s", quantity.Flow(l.Flow[1]).Show(sys), upper, quantity.Volume(l.Drawn[1]).Show(sys))
		if !l.Starts {
			text += "; it does not fill by itself"
		}
		return text + f.crestText(l)
	}
	return fmt.Sprintf("%s to %s a day, likely %s, until %s", day(l.Flow[0]), day(l.Flow[2]), day(l.Flow[1]), upper) + f.crestText(l)
}

// crestText says how high a link's crest stands over the water it hangs in.
func (f walker) crestText(l *faults.Link) string {
	if math.IsNaN(l.Crest) {
		return ""
	}
	if l.Crest <= l.Upper {
		return "; its crest is under water"
	}
	return fmt.Sprintf("; its crest is %s over the water", quantity.Length(l.Crest-l.Upper).Show(f.e.Units))
}

// levelName names the level to which a link can draw its upper water.
func (f walker) levelName(l *faults.Link) string {
	floor := f.e.Pool.Floor
	if l.From != "pool" {
		floor = f.e.Sump.Bottom
	}
	return fmt.Sprintf("the %s stands at %s", l.From, quantity.Length(math.Max(l.Stop[2]-floor, 0)).Show(f.e.Units))
}

func (f walker) linkVerdict(l *faults.Link) (Verdict, string) {
	toFloor := l.Place.Kind == enclosure.AtFloor
	text := sentence(fmt.Sprintf("the %s %s.", l.Name, f.linkText(l)))
	switch {
	case l.Flow[2]*oneDay < aDay:
		return Holds, ""
	case l.Kind == "return":
		return Tight, text + " End it above the water, or drill a break hole at the waterline."
	case toFloor && l.Kind == "hose":
		return Fails, text + " Hang its end higher than the water."
	case toFloor && l.Flow[1]*oneDay >= aDay:
		return Fails, text + " Lead it over a drip edge, or leave 20 mm between it and the water."
	case toFloor:
		return Tight, text + " Lay a tissue under it overnight."
	}
	return Tight, text
}
