package commission

import (
	"fmt"
	"math"
	"strings"

	"rillwright/answers"
	"rillwright/enclosure"
	"rillwright/quantity"
	"rillwright/study"
)

// Limits of the trade, each with how far to trust it.
const (
	labelShare = 0.2 // how far a pump may be from its label with no lift
	labelRule  = "within 20 % of the label with no lift: from memory of the trade"
	headShare  = 0.1
	headRule   = "within 10 % of the greatest head: assumed, no source"
	bandRule   = "computed: the band over all doubts"
)

// power is what keeps people whole, first of all.
func (p *planner) power() []Check {
	b := p.breaker()
	return []Check{
		{
			ID: "breaker", Name: b + " button", Unit: Seen,
			How:      "Plug a lamp into the socket of the enclosure, press the test button of the " + b + ", then reset it.",
			PassSeen: "The lamp goes out at once and comes back after the reset",
			From:     "common practice, no source", IfNot: "Plug nothing in. A licensed electrician sees to it.",
		},
		{
			ID: "loops", Name: "Drip loops", Unit: Seen,
			How:      "Follow every cord from its wet end to its plug.",
			PassSeen: "Each cord hangs lower than its socket on the way, and no plug or adapter is under water, hose or joint",
			From:     "common practice, no source", IfNot: "Lead the cord anew, or move the socket: that is for an electrician.",
		},
	}
}

// flow is the supply by halves: pump bare, with its hose, with the manifold, on the
// wall. The step with the biggest drop beyond its band is where to look.
func (p *planner) flow() []Check {
	e := p.s.E
	var out []Check
	for i := range e.Pumps {
		q := &e.Pumps[i]
		out = append(out, p.bare(q), p.shutOff(q))
	}
	out = append(out, p.hose(), p.manifold(), p.wall())
	for i := range e.Manifolds {
		out = append(out, p.even(&e.Manifolds[i]))
	}
	return out
}

// named adds a name where there are several of a kind.
func named(what, name string, n int) string {
	if n == 1 {
		return what
	}
	return what + ": " + name
}

// bare is a pump without lift. Flow goes with its speed, head with the square of
// that (affinity laws; see hydraulics.PumpSet).
func (p *planner) bare(q *enclosure.Pump) Check {
	c := Check{
		ID: "bare[" + q.Name + "]", Name: named("Pump bare", q.Name, len(p.s.E.Pumps)), Unit: Flow, Readings: 3,
		How:   "A short hose of the pump's own width into a bucket whose rim is level with the sump's water. Time it three times.",
		From:  labelRule,
		IfNot: "Rinse the strainer, shake the air out, look at the voltage on the label. Still low: the pump is worn or mislabelled; give its curve by two measured points.",
	}
	most := q.Curve.QMax
	if n := len(q.Curve.Flow); !q.Curve.Label && n > 0 {
		most = q.Curve.Flow[n-1]
		if q.Curve.Head[n-1] > 0.05*q.Curve.Head[0] {
			c.Lacks = "its curve ends before it has no lift"
		}
	}
	most *= q.Speed
	if most <= 0 {
		c.Lacks = "the flow with no lift is not in the file"
	}
	if c.Lacks == "" {
		c.Pass = Range{(1 - labelShare) * most, (1 + labelShare) * most}
	}
	return c
}

func (p *planner) shutOff(q *enclosure.Pump) Check {
	c := Check{
		ID: "shut-off[" + q.Name + "]", Name: named("Shut-off head", q.Name, len(p.s.E.Pumps)), Unit: Head, Readings: 1,
		How:   "Raise the hose's open end until the flow just stops. Measure from the sump's water up to the water in the hose. A minute at most.",
		From:  headRule,
		IfNot: "Lower: a worn pump, or its label is of another. Give its curve by this point and the bare flow, then check again.",
	}
	most := q.Curve.HMax
	if !q.Curve.Label && len(q.Curve.Flow) > 0 {
		most = q.Curve.Head[0]
		if q.Curve.Flow[0] > 0 {
			c.Lacks = "its curve does not begin at no flow"
		}
	}
	if most *= q.Speed * q.Speed; most <= 0 {
		c.Lacks = "the greatest head is not in the file"
	}
	if c.Lacks == "" {
		c.Pass = Range{(1 - headShare) * most, (1 + headShare) * most}
	}
	return c
}

// Unplugged returns the enclosure with its manifolds taken off: the runs that feed them
// end open, at the same height, over the pool; ends are the indices of those runs.
func Unplugged(e *enclosure.Enclosure) (n *enclosure.Enclosure, ends []int) {
	n = e.Clone()
	var runs []enclosure.Run
	for _, r := range n.Runs {
		if r.From.Kind == enclosure.AtManifold {
			continue // what comes back from a manifold has nothing to bring
		}
		if r.To.Kind == enclosure.AtManifold {
			r.EndHeight = e.Manifolds[r.To.Index].Height
			r.To = enclosure.Place{Kind: enclosure.AtPool, Name: "pool"}
			ends = append(ends, len(runs))
		}
		runs = append(runs, r)
	}
	n.Runs, n.Manifolds = runs, nil
	return n, ends
}

func (p *planner) hose() Check {
	c := Check{
		ID: "hose", Name: "With hose", Unit: Flow, Readings: 3, From: bandRule,
		How:   "Manifold off, the hose's end held at the manifold's height, valves as planned. Time a bucket three times" + p.heights() + ".",
		IfNot: "The pump alone was right: look for a kink, a barb or a valve that is narrower than planned, air at a high point.",
	}
	n, ends := Unplugged(p.s.E)
	if len(ends) == 0 {
		c.Lacks = "no hose leads to a manifold"
		return c
	}
	s, err := answers.NewSurvey(n)
	if err != nil {
		c.Lacks = "the circuit without its manifold cannot be computed"
		return c
	}
	low, likely, high := s.Band(answers.Measure{ID: "commission hose", Of: func(st *study.State) float64 {
		sum := 0.0
		for _, i := range ends {
			sum += st.Runs[i].Flow
		}
		return sum
	}})
	if s.Err() != nil {
		c.Lacks = "the circuit without its manifold cannot be computed"
		return c
	}
	c.Expect, c.Computed, c.Pass = [3]float64{low, likely, high}, true, Range{low, high}
	return c
}

// heights tells how high the manifolds are over the sump's running level.
func (p *planner) heights() string {
	var out []string
	for i := range p.s.E.Manifolds {
		m := &p.s.E.Manifolds[i]
		out = append(out, fmt.Sprintf("%s %s over the sump's water", m.Name, Show(Height, m.Height-p.s.Likely.SumpLevel, p.sys)))
	}
	if len(out) == 0 {
		return ""
	}
	return " (" + strings.Join(out, ", ") + ")"
}

func flowBand(b quantity.Band[quantity.Flow]) [3]float64 {
	return [3]float64{float64(b.Low), float64(b.Likely), float64(b.High)}
}

func (p *planner) manifold() Check {
	c := Check{
		ID: "manifold", Name: "With manifold", Unit: Flow, Readings: 3, Expect: flowBand(p.s.Flow()), Computed: true,
		How:   "All in place, wall bare. Catch all that the outlets give, in a gutter or by the drop of the sump in a minute.",
		From:  "at least what you want; not more than computed",
		IfNot: "The hose was right: the outlets hold it back. Poke the holes, look for swarf and for air, compare their size with a drill shank.",
	}
	target := p.s.Target()
	if target <= 0 {
		c.Pass, c.From = Range{c.Expect[0], c.Expect[2]}, bandRule
		return c
	}
	c.Pass = Range{target, math.Max(target, c.Expect[2])}
	if c.Expect[2] < target {
		c.Hold = "Computed to give less than you want however the doubts fall: change the design first."
	}
	return c
}

func (p *planner) wall() Check {
	m := answers.Measure{ID: "commission wall", Of: func(st *study.State) float64 { return st.Inflow }}
	c := Check{
		ID: "wall", Name: "On the wall", Unit: Flow, Readings: 3, From: bandRule,
		How:   "After an hour of running catch what comes back at the end of the drain. Time it three times.",
		IfNot: "Less than the manifold gave: water leaves the wall on its way. Look behind the panel, along rims and at the doors.",
	}
	if len(p.s.E.Drains) > 1 {
		c.How = "After an hour of running catch what comes back at the ends of all drains. Time it three times."
	}
	c.Expect, c.Computed = p.band(m), true
	c.Pass = Range{c.Expect[0], c.Expect[2]}
	return c
}

func (p *planner) even(m *enclosure.Manifold) Check {
	id := "even[" + m.Name + "]"
	c := Check{
		ID: id, Name: named("Evenness", m.Name, len(p.s.E.Manifolds)), Unit: Share, Readings: 1,
		How:   fmt.Sprintf("One cup under each of the %d outlets for the same time. Mean of the lowest quarter over the mean of all.", len(m.Outlets)),
		IfNot: "Level the manifold, poke the holes, let the air out at its ends; then drill the low ones one size up.",
	}
	a, ok := p.s.One(id)
	if !ok || len(a.Figures) == 0 || a.Figures[0].Bound == nil {
		c.Lacks = "evenness cannot be computed"
		return c
	}
	f := &a.Figures[0]
	scale := 1.0
	if f.Unit == "%" {
		scale = 0.01
	}
	c.Expect, c.Computed = [3]float64{f.Low * scale, f.Likely * scale, f.High * scale}, true
	c.Pass, c.From = AtLeast(*f.Bound*scale), a.Limit.Text+": "+a.Limit.Mark
	return c
}
