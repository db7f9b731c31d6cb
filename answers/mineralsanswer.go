package answers

import (
	"fmt"
	"math"

	"rillwright/minerals"
	"rillwright/quantity"
	"rillwright/study"
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
	regime := func(kg float64) minerals.Regime { return regimeOf(&in, tap, kg/waterDensity/86400) }
	c := a.dissolved(365)
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
		hard, alk := a.hardness(&in)
		month := func(kg float64) float64 { return minerals.ScaleRate(regime(kg).Evaporation, hard, alk) * 30 * 86400 }
		s := quantity.Band[float64]{Low: month(b.Low), Likely: month(b.Likely), High: month(b.High)}
		g := s.Scale(1000)
		x.Figures = append(x.Figures, Figure{Name: "scale left behind in a month, at most", Low: g.Low, Likely: g.Likely, High: g.High, Unit: "g", Text: span(func(v float64) string { return fmt.Sprintf("%.1f g", 1000*v) }, s)})
	}
	clog, clogs := a.crusts()
	if clogs {
		x.Figures = append(x.Figures, daysFigure(fmt.Sprintf("until scale has cost the outlets %.0f %% of their flow", 100*crustCosts), clog))
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
	if clogs {
		x.Say += fmt.Sprintf(" Scale gathers where outlets and glass dry. Clean the drip holes first after %s, and soak them in vinegar away from the enclosure; look at them every month.", span(inDays, clog))
	}
	x.Matters = a.matters("make-up", a.perDay)
	return x
}

// hardness is the hardness and the alkalinity of what makes good the loss, kg/m3 as
// calcium carbonate.
func (l *living) hardness(in *study.Inputs) (hard, alk float64) {
	w := &l.e.Design.Water
	if in.PureTopUp {
		return 0.01, 0.01
	}
	hard = float64(w.Hardness.Value) * minerals.GermanDegree
	if alk = hard; w.Carbonate.Given() {
		alk = float64(w.Carbonate.Value) * minerals.GermanDegree
	}
	return hard, alk
}

// dissolved is what is dissolved after some days if it began as tap water, kg/m3.
func (a *air) dissolved(days float64) quantity.Band[float64] {
	in, tap, b := a.l.Inputs(a.l.Likely()), tapSolids(a.e), a.band("make-up")
	at := func(kg float64) float64 {
		r := regimeOf(&in, tap, kg/waterDensity/86400)
		return r.After(tap, days*86400)
	}
	return quantity.Band[float64]{Low: at(b.Low), Likely: at(b.Likely), High: at(b.High)}
}

// crustCosts is what share of its flow an outlet may lose to scale before it is
// cleaned: a test that falls 10 to 15 % under its first is when the lines are flushed.
// Common practice, from memory.
const crustCosts = 0.10

// gathersAtHoles is how many times thicker scale lies at a hole, where water dries on
// its rim, than spread over all that is wet. Assumed, no source.
func gathersAtHoles() quantity.Band[float64] {
	return quantity.Band[float64]{Low: 1, Likely: 3, High: 10}
}

// crusts returns the time (s) until scale has narrowed the narrowest outlets so far that
// they cost crustCosts of their flow, which goes as the area of the hole; false without
// hardness or holes, or where it takes years.
func (a *air) crusts() (quantity.Band[float64], bool) {
	b, k := a.band("make-up"), gathersAtHoles()
	out := quantity.Band[float64]{Low: a.crustsIn(b.High, k.High), Likely: a.crustsIn(b.Likely, k.Likely), High: a.crustsIn(b.Low, k.Low)}
	return out, out.Low < 5*365*86400
}

// crustsIn is that time with a loss of water, kg a day, and scale so many times thicker at
// the holes; +Inf where there is none.
func (l *living) crustsIn(kg, times float64) float64 {
	in := l.l.Inputs(l.l.Likely())
	bore := math.Inf(1)
	for _, h := range l.bores() {
		bore = math.Min(bore, h[0])
	}
	hard, alk := l.hardness(&in)
	if !l.e.Design.Water.Hardness.Given() || math.IsInf(bore, 1) {
		return math.Inf(1)
	}
	rate := minerals.ScaleRate(math.Max(kg, 0)/waterDensity/86400, hard, alk) * times
	return minerals.NarrowsIn(rate, in.WetArea(), bore, bore*math.Sqrt(1-crustCosts))
}

// MineralsPoint is what is dissolved after some days, kg/m3.
type MineralsPoint struct {
	Days      float64
	Dissolved quantity.Band[float64]
}

// Minerals follows what is dissolved through a year, a point every so many days, with
// what it should stay under, kg/m3; nil where the file does not say what is in the water.
func (r *LivingReport) Minerals(every float64) (points []MineralsPoint, most float64) {
	if !r.air.e.Design.Water.Given() {
		return nil, 0
	}
	for d := 0.0; d <= 365; d += every {
		points = append(points, MineralsPoint{d, r.air.dissolved(d)})
	}
	return points, mostDissolved(tapSolids(r.air.e))
}
