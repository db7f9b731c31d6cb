package workbench

import (
	"rillwright/answers"
	"rillwright/internal/wire"
	"rillwright/study"
)

// water is how the water stands and runs while everything works as is likely. SI
// units, heights above the room floor.
type water struct {
	Pool      float64        `json:"pool"` // level
	PoolFloor float64        `json:"poolFloor"`
	DamTop    float64        `json:"damTop"`
	Sump      float64        `json:"sump"`
	SumpFloor float64        `json:"sumpFloor"`
	SumpRim   float64        `json:"sumpRim"`
	Chambers  []string       `json:"chambers"` // of the sump, by name
	Spills    bool           `json:"spills"`
	Runs      []runWater     `json:"runs"`
	Drains    []drainWater   `json:"drains"`
	Manifolds []outletsWater `json:"manifolds"`
}

type runWater struct {
	Name  string  `json:"name"`
	Flow  float64 `json:"flow"`
	Speed float64 `json:"speed"`
	Shut  bool    `json:"shut"`
}

type drainWater struct {
	Name     string  `json:"name"`
	Flow     float64 `json:"flow"`
	Limit    string  `json:"limit"` // what holds the flow back
	Capacity float64 `json:"capacity"`
}

// outletsWater is one manifold, with what each outlet gives as text for those who
// see no colours.
type outletsWater struct {
	Name  string    `json:"name"`
	At    []float64 `json:"at"` // from its left end
	Flow  []float64 `json:"flow"`
	Low   []float64 `json:"low"`
	High  []float64 `json:"high"`
	Total float64   `json:"total"`
}

func waterOf(s *answers.Survey) *water {
	e, st := s.E, s.Likely
	w := &water{
		Pool: wire.Round(st.PoolLevel), PoolFloor: wire.Round(e.Pool.Floor), DamTop: wire.Round(e.Pool.DamTop), Sump: wire.Round(st.SumpLevel),
		SumpFloor: wire.Round(e.Sump.Bottom), SumpRim: wire.Round(e.Sump.Bottom + e.Sump.Height), Spills: st.Spills,
		Chambers: []string{}, Runs: []runWater{}, Drains: []drainWater{}, Manifolds: []outletsWater{},
	}
	for i := range e.Sump.Chambers {
		w.Chambers = append(w.Chambers, e.Sump.Chambers[i].Name)
	}
	for i := range e.Runs {
		w.Runs = append(w.Runs, runWater{e.Runs[i].Name, wire.Round(st.Runs[i].Flow), wire.Round(st.Runs[i].Speed), st.Runs[i].Shut})
	}
	for i := range e.Drains {
		d := &st.Drains[i]
		w.Drains = append(w.Drains, drainWater{e.Drains[i].Name, wire.Round(d.Flow), answers.LimitWords(d.Limit, d.Reaches), wire.Round(d.Capacity)})
	}
	for i := range e.Manifolds {
		w.Manifolds = append(w.Manifolds, outletsOf(s, st, i))
	}
	return w
}

func outletsOf(s *answers.Survey, st *study.State, i int) outletsWater {
	m := &s.E.Manifolds[i]
	low, high := s.OutletRange(i)
	out := outletsWater{Name: m.Name, At: []float64{}, Flow: []float64{}, Low: []float64{}, High: []float64{}, Total: wire.Round(st.Manifolds[i].Total)}
	for k := range m.Outlets {
		out.At = append(out.At, wire.Round(m.Outlets[k].At))
		out.Flow = append(out.Flow, wire.Round(st.Manifolds[i].Flow[k]))
		out.Low = append(out.Low, wire.Round(low[k]))
		out.High = append(out.High, wire.Round(high[k]))
	}
	return out
}

// pumpCurves are head over flow, m and m3/s: what the pump gives and what the
// circuit asks for, at the bad end, likely and at the good end.
type pumpCurves struct {
	Flow   []float64    `json:"flow"` // the same for all
	Pump   [3][]float64 `json:"pump"`
	System [3][]float64 `json:"system"`
	AtFlow float64      `json:"atFlow"` // where it runs
	AtHead float64      `json:"atHead"`
	Target float64      `json:"target"` // 0 if none is given
}

// How many points a curve has: a phone shows no more.
const curvePoints = 32

// curvesOf is nil for a design with several pumps, or one whose circuit does not
// settle at every flow: then there is no such picture.
func curvesOf(s *answers.Survey) *pumpCurves {
	if len(s.E.Pumps) != 1 {
		return nil
	}
	p := &pumpCurves{AtFlow: wire.Round(s.Likely.Pumps[0].Flow), AtHead: wire.Round(s.Likely.Pumps[0].Head), Target: wire.Round(s.Target())}
	var heads [3]func(float64) float64
	end := 0.0
	for side := -1; side <= 1; side++ {
		head, most, err := s.PumpCurve(side)
		if err != nil {
			return nil
		}
		heads[side+1], end = head, max(end, most)
	}
	if used := 2.2 * max(float64(s.PumpFlow().High), s.Target()); used > 0 && used < end {
		end = used
	}
	for i := range curvePoints + 1 {
		q := end * float64(i) / curvePoints
		p.Flow = append(p.Flow, wire.Round(q))
		for k := range 3 {
			h, err := s.SystemHead(k-1, q)
			if err != nil {
				return nil
			}
			p.Pump[k] = append(p.Pump[k], wire.Round(heads[k](q)))
			p.System[k] = append(p.System[k], wire.Round(h))
		}
	}
	return p
}
