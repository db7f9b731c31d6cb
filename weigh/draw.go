package weigh

import (
	"fmt"
	"strings"

	"rillwright/answers"
	"rillwright/enclosure"
	"rillwright/num/chance"
	"rillwright/study"
)

// outcome is what one draw gives for one question. There are as many as draws times
// questions: words are kept apart.
type outcome struct {
	figure  float64
	verdict int8
}

// heading is what all draws say alike of one question.
type heading struct{ id, question, name, unit string }

// drawer runs an enclosure of its own with draw after draw. Every run starts from the
// likely states, so that no draw feels the one before.
type drawer struct {
	e            *enclosure.Enclosure
	spread       []chance.Spread
	at           enclosure.Case
	shares, room []float64
	space        [2]study.Workspace // valves as set, open
	likely       [2]*study.State
	headings     []heading
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
		d.likely, d.headings = like.likely, like.headings
		return d, nil
	}
	var err error
	if d.likely, err = d.run(); err != nil {
		return nil, err
	}
	d.headings = headingsOf(answers.Pinned(d.e, d.likely[0], d.likely[1]).Water())
	return d, nil
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

// draw answers with every doubt where its share stands, into out: one for each heading.
func (d *drawer) draw(out []outcome) error {
	for i := range d.at {
		d.at[i] = d.spread[i].At(d.shares[i])
		x := &d.e.Doubts[i]
		x.Low, x.Likely, x.High = d.at[i], d.at[i], d.at[i]
	}
	st, err := d.run()
	if err != nil {
		return err
	}
	list := answers.Pinned(d.e, st[0], st[1]).Water()
	if len(list) != len(out) {
		return fmt.Errorf("a draw answers %d questions, the likely case %d", len(list), len(out))
	}
	for i := range list {
		a := &list[i]
		if a.ID != d.headings[i].id {
			return fmt.Errorf("a draw answers %s where the likely case answers %s", a.ID, d.headings[i].id)
		}
		out[i].verdict = int8(a.Verdict)
		if f := keyFigure(a); f != nil {
			out[i].figure = f.Likely
		}
	}
	return nil
}

// keyFigure is the figure that an answer's verdict turns on, nil if words alone tell it.
func keyFigure(a *answers.Answer) *answers.Figure {
	if a.Key >= len(a.Figures) || a.Figures[a.Key].Words {
		return nil
	}
	return &a.Figures[a.Key]
}

// headingsOf names the questions about the water. What is said of the bad end is left
// out of the names of figures: in a draw nothing is in doubt.
func headingsOf(list []answers.Answer) []heading {
	out := make([]heading, len(list))
	for i := range list {
		a := &list[i]
		out[i] = heading{id: a.ID, question: a.Question}
		if f := keyFigure(a); f != nil {
			out[i].name, out[i].unit = strings.Replace(f.Name, " at the bad end", "", 1), f.Unit
		}
	}
	return out
}
