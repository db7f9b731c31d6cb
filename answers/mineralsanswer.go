package answers

import (
	"fmt"
	"math"

	"rillwright/minerals"
	"rillwright/quantity"
)

// gathers is by how much more than tap water the water may hold before it is too
// much: twice as much. Assumed, no source.
const gathers = 2.0

// minerals answers what gathers in the water and crusts the outlets.
func (a *air) minerals() Answer {
	x := Answer{ID: "minerals", Question: "What gathers in the water, and when do outlets crust?"}
	w := &a.e.Design.Water
	if !w.Given() {
		x.Verdict = Unknown
		x.Say = "The file does not say what is dissolved in your water: your supplier's report or a test kit does. Write it as water.solids, with water.hardness and water.carbonate, and how you change water."
		return x
	}
	x.LimitingLine = w.Pos.Line
	b := a.band("make-up")
	tap := tapSolids(a.e)
	in := a.l.Inputs(a.l.Likely())
	pure := in.PureTopUp
	regime := func(kg float64) minerals.Regime { return regimeOf(&in, tap, kg/waterDensity/86400) }
	year := func(kg float64) float64 {
		r := regime(kg)
		return r.After(tap, 365*86400)
	}
	c := quantity.Band[float64]{Low: year(b.Low), Likely: year(b.Likely), High: year(b.High)}
	mg := func(v float64) string { return fmt.Sprintf("%.0f mg/L", 1000*v) }
	limit := mostDissolved(tap)
	k := c.Scale(1000)
	x.Figures = []Figure{bounded(Figure{Name: "dissolved after a year", Low: k.Low, Likely: k.Likely, High: k.High, Unit: "mg/L", Text: span(mg, c)}, 1000*limit)}
	share := usualShare
	if in.ChangeShare > 0 {
		share = in.ChangeShare
	}
	r := regime(b.High)
	r.Share = share
	if every := r.EveryFor(limit); !math.IsInf(every, 1) {
		x.Figures = append(x.Figures, Figure{Name: fmt.Sprintf("days between changes of %.0f %% that keep it, at the bad end", 100*share), Low: every / 86400, Likely: every / 86400, High: every / 86400, Unit: "days", Text: fmt.Sprintf("%.0f days", every/86400)})
	}
	if w.Hardness.Given() {
		hard := float64(w.Hardness.Value) * minerals.GermanDegree
		alk := hard
		if w.Carbonate.Given() {
			alk = float64(w.Carbonate.Value) * minerals.GermanDegree
		}
		if pure {
			hard, alk = 0.01, 0.01
		}
		month := func(kg float64) float64 { return minerals.ScaleRate(regime(kg).Evaporation, hard, alk) * 30 * 86400 }
		s := quantity.Band[float64]{Low: month(b.Low), Likely: month(b.Likely), High: month(b.High)}
		g := s.Scale(1000)
		x.Figures = append(x.Figures, Figure{Name: "scale left behind in a month, at most", Low: g.Low, Likely: g.Likely, High: g.High, Unit: "g", Text: span(func(v float64) string { return fmt.Sprintf("%.1f g", 1000*v) }, s)})
	}
	x.Limit = Limit{Text: "twice what your tap water holds", Mark: assumedMark}
	x.Margin = fmt.Sprintf("%.0f %% of that, %.0f %% at the bad end", 100*c.Likely/limit, 100*c.High/limit)
	x.Score = -c.High
	switch {
	case c.Likely > 2*limit:
		x.Verdict = Fails
	case c.High > limit:
		x.Verdict = Tight
	}
	x.Say = fmt.Sprintf("After a year the water likely holds %s, tap water %s.", mg(c.Likely), mg(tap))
	if !pure && w.Hardness.Value > 0 {
		x.Say += " Scale gathers where outlets and glass dry: look at the drip holes every month, and soak them in vinegar away from the enclosure."
	}
	x.Matters = a.matters("make-up", a.perDay)
	return x
}
