package asbuilt

import (
	"fmt"
	"math"

	"rillwright/commission"
	"rillwright/enclosure"
	"rillwright/study"
)

// Site is one thing that can be measured: a place in the vector of what a state
// foretells.
type Site struct {
	ID  string // of its check: "bare[main pump]"
	Cup int    // of a row of cups: which outlet, from the left; else -1
	// Flow says that the figure goes with the flow, so that its doubts do too.
	Flow bool
}

// Sites lists what is foretold of an enclosure.
func Sites(e *enclosure.Enclosure) []Site {
	var out []Site
	one := func(id string, flow bool) { out = append(out, Site{id, -1, flow}) }
	for i := range e.Pumps {
		n := "[" + e.Pumps[i].Name + "]"
		one("bare"+n, true)
		one("no-strainer"+n, true)
		one("no-barb"+n, true)
		one("shut-off"+n, false)
	}
	one("hose", true)
	one("hose-low", true)
	one("manifold", true)
	one("wall", true)
	one("rise", false)
	one("draw", false)
	one("top-up", false)
	for i := range e.Manifolds {
		for k := range e.Manifolds[i].Outlets {
			out = append(out, Site{"even[" + e.Manifolds[i].Name + "]", k, true})
		}
	}
	return out
}

// The pump's label: how far flow and head may be from it, as a standard deviation.
// Within 20 % of the flow and 10 % of the head is common practice; that two
// deviations are meant is assumed.
const (
	labelFlow = 0.10
	labelHead = 0.05
)

// model is an enclosure ready to foretell readings for any choice of its doubts.
// The vector u holds how far each is from its likely value, in standard deviations
// of what is thought of it: first the doubts, then flow and head of each pump.
type model struct {
	e     *enclosure.Enclosure
	off   [2]*enclosure.Enclosure // with the manifolds off, hoses held high and low
	ends  []int                   // runs that then end open
	wick  float64
	space *study.Workspace
	near  [3]*study.State // where searches begin: of e and of both of off
}

func newModel(e *enclosure.Enclosure) *model {
	m := &model{e: e, space: &study.Workspace{}}
	m.off[0], m.ends = commission.Unplugged(e)
	m.off[1] = m.off[0].Clone()
	for _, i := range m.ends { // an end in the sump is level with its water
		r := &m.off[1].Runs[i]
		r.To, r.EndHeight = enclosure.Place{Kind: enclosure.AtSump, Name: "sump"}, e.Sump.Bottom
	}
	return m
}

// unknowns is the length of u.
func (m *model) unknowns() int { return len(m.e.Doubts) + 2*len(m.e.Pumps) }

// bandEnd is how many deviations an end of a band is from its likely value: bands
// are taken to hold nine of ten (assumed).
const bandEnd = 1.645

// at returns a doubt's value for its u. Bands that are one-sided do not go beyond
// their likely value on the other side, and none far beyond its end, since many ends
// are those of what can be.
func at(d *enclosure.Doubt, u float64) float64 {
	side := d.High - d.Likely
	if u < 0 {
		side = d.Likely - d.Low
	}
	const bends, rest = 0.8, 0.4 // straight up to the first, then towards their sum
	t := math.Abs(u) / bandEnd
	if t > bends {
		t = bends + rest*math.Tanh((t-bends)/rest)
	}
	return d.Likely + side*math.Copysign(t, u)
}

// posed returns the case and the enclosure of u: pumps are changed in copies.
func (m *model) posed(u []float64) (c enclosure.Case, e *enclosure.Enclosure, off [2]*enclosure.Enclosure) {
	c = make(enclosure.Case, len(m.e.Doubts))
	for i := range c {
		c[i] = at(&m.e.Doubts[i], u[i])
	}
	e, off = m.e, m.off
	for i := range m.e.Pumps {
		flow, head := m.scales(u, i)
		if flow == 1 && head == 1 {
			continue
		}
		if e == m.e { // only the pumps are changed
			a, high, low := *m.e, *m.off[0], *m.off[1]
			e, off = &a, [2]*enclosure.Enclosure{&high, &low}
			e.Pumps = append([]enclosure.Pump(nil), m.e.Pumps...)
			high.Pumps, low.Pumps = e.Pumps, e.Pumps
		}
		e.Pumps[i].Curve = scaled(&m.e.Pumps[i].Curve, flow, head)
	}
	return c, e, off
}

// scales returns the flow and the head of a pump as shares of its label's.
func (m *model) scales(u []float64, pump int) (flow, head float64) {
	k := len(m.e.Doubts) + 2*pump
	return math.Exp(labelFlow * u[k]), math.Exp(labelHead * u[k+1])
}

// scaled returns a curve with all its flows and all its heads multiplied.
func scaled(c *enclosure.Curve, flow, head float64) enclosure.Curve {
	out := *c
	out.QMax, out.HMax = c.QMax*flow, c.HMax*head
	out.Flow, out.Head = make([]float64, len(c.Flow)), make([]float64, len(c.Head))
	for i := range c.Flow {
		out.Flow[i], out.Head[i] = c.Flow[i]*flow, c.Head[i]*head
	}
	return out
}

// foretell puts what each of Sites reads at u into y.
func (m *model) foretell(u, y []float64) error {
	c, e, off := m.posed(u)
	st, err := study.Run(e, c, study.Setting{Workspace: m.space, Near: m.near[0]})
	if err != nil {
		return err
	}
	if st.Spills {
		return fmt.Errorf("the pool runs over the dam")
	}
	if m.near[0] == nil {
		m.near[0] = st
	}
	k := 0
	put := func(v float64) { y[k] = v; k++ }
	for i := range e.Pumps {
		if err := pumpAlone(e, c, i, put); err != nil {
			return err
		}
	}
	for i := range off {
		q, err := m.hose(off[i], c, i)
		if err != nil {
			return err
		}
		put(q)
	}
	put(st.Outlets)
	put(st.Inflow)
	put(st.PoolLevel - st.RestLevel)
	put(st.StopLevel - st.SumpLevel)
	put(c.Of(e.Evaporation)*(e.Wall.Width*e.Wall.Height+e.Pool.Width*e.Pool.Depth) + st.Outlets*c.Of(e.WaterLost) + m.wick)
	for i := range st.Manifolds {
		for _, q := range st.Manifolds[i].Flow {
			put(q)
		}
	}
	return nil
}

// hose returns what the hoses of all manifolds give with their ends open, held high
// or low; NaN where there are none.
func (m *model) hose(off *enclosure.Enclosure, c enclosure.Case, low int) (float64, error) {
	if len(m.ends) == 0 {
		return math.NaN(), nil
	}
	st, err := study.Run(off, c, study.Setting{Workspace: m.space, Near: m.near[1+low]})
	if err != nil {
		return 0, err
	}
	if m.near[1+low] == nil {
		m.near[1+low] = st
	}
	sum := 0.0
	for _, i := range m.ends {
		sum += st.Runs[i].Flow
	}
	return sum, nil
}

// pumpAlone tells what a pump gives without lift, as it is, without its strainer
// and without its barb too, and the head at which it gives nothing. Air in its hose
// counts in none of them.
func pumpAlone(e *enclosure.Enclosure, c enclosure.Case, i int, put func(float64)) error {
	one := enclosure.Enclosure{
		WaterTemperature: e.WaterTemperature, StrainerDirt: e.StrainerDirt, Fittings: e.Fittings, Friction: e.Friction,
		Runs: e.Runs, Pumps: append([]enclosure.Pump(nil), e.Pumps...),
	}
	p := &one.Pumps[i]
	p.AirHead = 0
	var head func(q float64) (h, slope float64)
	for _, takeOff := range []func(){
		func() {},
		func() { p.StrainerK, p.StrainerLoss = 0, 0 },
		func() { p.OutletLoss = 0 },
	} {
		takeOff()
		parts, err := study.NewParts(&one, c, study.Setting{})
		if err != nil {
			return err
		}
		head = parts.Pump(i)
		put(noLift(head, &p.Curve, p.Speed))
	}
	h, _ := head(0)
	put(h)
	return nil
}

// noLift returns the flow at which a pump's head is 0, by halving: heads fall.
func noLift(head func(float64) (float64, float64), c *enclosure.Curve, speed float64) float64 {
	low, high := 0.0, c.QMax
	if !c.Label && len(c.Flow) > 0 {
		high = c.Flow[len(c.Flow)-1]
	}
	for high *= 1.5 * math.Max(speed, 0.01); high-low > 1e-12; {
		mid := (low + high) / 2
		if h, _ := head(mid); h > 0 {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}
