package asbuilt

import (
	"fmt"
	"math"
	"slices"

	"rillwright/enclosure"
	"rillwright/hydraulics"
)

// Fault is one thing that may have gone wrong since the readings that the
// enclosure was fitted to.
type Fault struct {
	ID   string // "kink[riser]"
	What string
	Do   string // what to do first
	// Outlets are those of its manifold that it is about, from the left from 0; nil if
	// no row of cups tells which.
	Outlets []int
	// from and to are how bad it may be; each step between them by a factor is
	// as probable as the next.
	from, to float64
	change   func(m *model, bad float64)
}

// suspects lists what may be wrong. All are taken to be as probable before anything
// is read (assumed, no source). low are the outlets that gave less than their
// share, by manifold; nil if none was caught.
func suspects(m *model, u []float64, low []map[int]float64) []Fault {
	e := m.e
	out := []Fault{{ID: "nothing", What: "nothing is wrong", Do: "nothing", from: 1, to: 1, change: func(*model, float64) {}}}
	for i := range e.Pumps {
		out = append(out, pumpFaults(e, i)...)
	}
	for i := range e.Runs {
		if r := &e.Runs[i]; r.From.Kind == enclosure.AtPump || r.To.Kind == enclosure.AtManifold {
			out = append(out, Fault{
				ID: "kink[" + r.Name + "]", What: "a kink or something stuck in the " + r.Name,
				Do: "follow the " + r.Name + " by hand from end to end; blow through it", from: 2, to: 400,
				change: func(m *model, bad float64) { m.e.Runs[i].Heads += bad },
			})
		}
	}
	for i := range e.Manifolds {
		out = append(out, manifoldFaults(e, i, low)...)
	}
	c, _, _ := m.posed(u)
	lost := c.Of(e.WaterLost)
	out = append(out,
		Fault{
			ID: "leak", What: "water leaves between the outlets and the pool", Do: "dry tissues along the panel, the rims and the doors", from: 0.03, to: 0.6,
			change: func(m *model, bad float64) { m.e.WaterLost = enclosure.Known(math.Min(lost+bad, 1)) },
		},
		Fault{
			ID: "wick", What: "something wicks or drips water away", Do: "look for moss, wood, mesh or cord over a rim, and for drips under unions", from: 0.5e-3 / 86400, to: 20e-3 / 86400,
			change: func(m *model, bad float64) { m.wick = bad },
		})
	for i := range e.Drains {
		out = append(out, drainFault(e, i))
	}
	return out
}

func pumpFaults(e *enclosure.Enclosure, i int) []Fault {
	n := e.Pumps[i].Name
	id := func(what string) string { return what + "[" + n + "]" }
	bore := e.Pumps[i].OutletBore
	if bore == 0 {
		bore = 0.013 // as wide as small pumps mostly are: only the scale of bad
	}
	a := hydraulics.CircleArea(bore)
	heads := 1 / (2 * hydraulics.G * a * a)
	out := []Fault{
		{
			ID: id("worn"), What: "the " + n + " turns too slowly: worn, or low voltage", Do: "the voltage first, then the rotor and its shaft", from: 0.04, to: 0.5,
			change: func(m *model, bad float64) { m.e.Pumps[i].Speed *= 1 - bad },
		},
		{
			// That scale takes flow and leaves the greatest head is assumed, no source.
			ID: id("scale"), What: "scale or slime in the rotor of the " + n, Do: "the rotor and its chamber into citric acid or vinegar, then a bottle brush", from: 0.05, to: 0.7,
			change: func(m *model, bad float64) { m.e.Pumps[i].Curve = scaled(&m.e.Pumps[i].Curve, 1-bad, 1) },
		},
		{
			ID: id("strainer"), What: "the strainer of the " + n + " is clogged", Do: "rinse the strainer", from: 1, to: 400,
			change: func(m *model, bad float64) { m.e.Pumps[i].StrainerLoss += bad * heads },
		},
		{
			ID: id("barb"), What: "the outlet or barb of the " + n + " has grown narrow", Do: "take the hose off and look into the barb", from: 1, to: 400,
			change: func(m *model, bad float64) { m.e.Pumps[i].OutletLoss += bad * heads },
		},
		{
			ID: id("air"), What: "air is locked in the hose of the " + n, Do: "stop the pump, start it again, several times; then a vent at the highest point", from: 0.03, to: 1,
			change: func(m *model, bad float64) { m.e.Pumps[i].AirHead = bad },
		},
	}
	return out
}

func manifoldFaults(e *enclosure.Enclosure, i int, low []map[int]float64) []Fault {
	n := e.Manifolds[i].Name
	tilt := func(sign float64) func(m *model, bad float64) {
		return func(m *model, bad float64) { m.e.Manifolds[i].LevelError = enclosure.Known(sign * bad) }
	}
	out := []Fault{
		{ID: "right-high[" + n + "]", What: "the right end of the " + n + " hangs high", Do: "level it with water in a clear hose", from: 0.005, to: 0.06, change: tilt(1)},
		{ID: "left-high[" + n + "]", What: "the left end of the " + n + " hangs high", Do: "level it with water in a clear hose", from: 0.005, to: 0.06, change: tilt(-1)},
	}
	outlets := len(e.Manifolds[i].Outlets)
	if outlets == 0 {
		return out
	}
	f := Fault{ID: "blocked[" + n + "]", What: "outlets of the " + n + " are blocked", Do: "poke every outlet with a wire; flush the ends", from: 1 / float64(outlets), to: 0.8}
	f.change = func(m *model, bad float64) { // every so manyth, since nobody knows which
		k := max(1, int(math.Round(bad*float64(outlets))))
		for j := range k {
			narrow(m.e, i, (2*j+1)*outlets/(2*k), 0)
		}
	}
	if low != nil && low[i] != nil {
		if len(low[i]) == 0 {
			return out // all were caught and none gives little
		}
		which := make([]int, 0, len(low[i]))
		for k := range low[i] {
			which = append(which, k)
		}
		slices.Sort(which)
		f.What = fmt.Sprintf("blocked or half blocked, of the outlets of the %s from the left: %s", n, listed(which))
		f.Do = "poke those outlets with a wire, then flush the ends"
		f.from, f.to, f.Outlets = 1, 1, which
		f.change = func(m *model, _ float64) {
			for _, k := range which {
				narrow(m.e, i, k, low[i][k])
			}
		}
	}
	return append(out, f)
}

// listed writes outlets as people count them.
func listed(which []int) string {
	s := ""
	for i, k := range which {
		if i > 0 {
			s += ", "
		}
		s += fmt.Sprint(k + 1)
	}
	return s
}

// narrow makes an outlet give a share of what it gave.
func narrow(e *enclosure.Enclosure, manifold, outlet int, share float64) {
	m := &e.Manifolds[manifold]
	g := m.Groups[m.Outlets[outlet].Group]
	const least = 1e-3 // of a hole stopped up: a circuit wants some way out
	share = math.Max(share, least)
	g.Hole = enclosure.Known(g.Hole.Value * math.Sqrt(share))
	g.EmitterK *= share
	m.Groups = append(m.Groups, g)
	m.Outlets[outlet].Group = len(m.Groups) - 1
}

func drainFault(e *enclosure.Enclosure, i int) Fault {
	d := &e.Drains[i]
	a := hydraulics.CircleArea(d.LipBore.Value)
	clean := d.StrainerLoss
	if clean == 0 && d.StrainerArea > 0 {
		open := 0.6 * d.StrainerArea * a
		clean = 1 / (2 * hydraulics.G * open * open)
	}
	return Fault{
		ID: "fouled[" + d.Name + "]", What: "the strainer or mouth of the " + d.Name + " is fouled", Do: "clear the strainer of the " + d.Name, from: 2, to: 400,
		change: func(m *model, bad float64) {
			m.e.Drains[i].StrainerLoss = clean + bad/(2*hydraulics.G*a*a)
		},
	}
}

// with returns the model with a fault, so bad.
func (m *model) with(f *Fault, bad float64) *model {
	n := &model{e: m.e.Clone(), wick: m.wick}
	f.change(n, bad)
	w := newModel(n.e)
	w.space, w.near, w.wick = m.space, m.near, n.wick
	return w
}
