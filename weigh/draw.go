package weigh

import (
	"rillwright/answers"
	"rillwright/enclosure"
	"rillwright/num/chance"
	"rillwright/study"
)

// outcome is what one draw gives: an entry for each answer, in the same order.
type outcome struct{ list []entry }

type entry struct {
	id, question, name, unit string
	verdict                  answers.Verdict
	figure                   float64
}

// drawer runs an enclosure of its own with draw after draw. Every run starts from the
// likely states, so that no draw feels the one before.
type drawer struct {
	e            *enclosure.Enclosure
	spread       []chance.Spread
	at           enclosure.Case
	shares, room []float64
	space        [2]study.Workspace // valves as set, open
	likely       [2]*study.State
}

// newDrawer takes the likely states from another drawer, or runs them.
func newDrawer(e *enclosure.Enclosure, like *drawer) (*drawer, error) {
	k := len(e.Doubts)
	d := &drawer{e: e.Clone(), at: e.Likely(), shares: make([]float64, k), room: make([]float64, 2*k)}
	for i := range e.Doubts {
		x := &e.Doubts[i]
		d.spread = append(d.spread, chance.Spread{Shape: chance.Triangular, Low: x.Low, Likely: x.Likely, High: x.High})
	}
	if like != nil {
		d.likely = like.likely
		return d, nil
	}
	var err error
	d.likely, err = d.run()
	return d, err
}

// run runs the case at hand with the valves as set and open.
func (d *drawer) run() (st [2]*study.State, err error) {
	st[0], err = study.Run(d.e, d.at, study.Setting{Near: d.likely[0], Workspace: &d.space[0]})
	if err != nil {
		return st, err
	}
	st[1] = st[0]
	if answers.Throttled(d.e) {
		st[1], err = study.Run(d.e, d.at, study.Setting{OpenValves: true, Near: d.likely[1], Workspace: &d.space[1]})
	}
	return st, err
}

// draw answers with every doubt where its share stands.
func (d *drawer) draw() (out outcome, err error) {
	for i := range d.at {
		d.at[i] = d.spread[i].At(d.shares[i])
		x := &d.e.Doubts[i]
		x.Low, x.Likely, x.High = d.at[i], d.at[i], d.at[i]
	}
	st, err := d.run()
	if err != nil {
		return out, err
	}
	list := answers.Pinned(d.e, st[0], st[1]).Water()
	out.list = make([]entry, 0, len(list))
	for i := range list {
		a := &list[i]
		x := entry{id: a.ID, question: a.Question, verdict: a.Verdict}
		if a.Key < len(a.Figures) && !a.Figures[a.Key].Words {
			f := &a.Figures[a.Key]
			x.name, x.unit, x.figure = f.Name, f.Unit, f.Likely
		}
		out.list = append(out.list, x)
	}
	return out, nil
}
