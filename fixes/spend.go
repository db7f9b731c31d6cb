package fixes

import (
	"fmt"
	"slices"

	"rillwright/answers"
	"rillwright/enclosure"
	"rillwright/shopping"
)

// Spend adds to the answer about cost those pumps on the shelf that cost less than the
// one in the design, with what the water makes of each. List are the answers so far,
// prices those of the builder's price file. Stop is that of Find.
func Spend(s *answers.Survey, list []answers.Answer, cost *answers.Answer, prices []shopping.Price, stop func() error) error {
	if cost.Verdict == answers.Holds || cost.Verdict == answers.Unknown || len(s.E.Pumps) != 1 {
		return nil
	}
	f := &finder{s: s, stop: stop, base: map[string]answers.Answer{}}
	for i := range list {
		f.base[list[i].ID] = list[i]
	}
	have := s.E.Design.Pumps[0].Price
	for i := range s.E.Shelf {
		p := &s.E.Shelf[i]
		if !have.Given() || p.Price.Currency != have.Value.Currency || p.Price.Amount >= have.Value.Amount {
			continue
		}
		if err := f.stopped(); err != nil {
			return err
		}
		shelf := f.shelfPump(p.Name)
		c := change{
			do: fmt.Sprintf("take the %s pump from the shelf", p.Name), edits: f.shelfEdits(shelf),
			cost: nothing(fmt.Sprintf("saves %.0f %s", have.Value.Amount-p.Price.Amount, p.Price.Currency)),
			apply: func(e *enclosure.Enclosure) bool {
				pumping(e, &p.Curve)
				d := *e.Design
				d.Pumps = slices.Clone(d.Pumps)
				d.Pumps[0].Price, d.Pumps[0].Label, d.Pumps[0].Power = shelf.Price, shelf.Label, shelf.Power
				e.Design = &d
				return true
			},
		}
		e := s.E.Clone()
		c.apply(e)
		// A weaker pump may turn what moves what: nothing is taken from before.
		t, err := s.Again(e, true)
		if err != nil {
			continue // such a circuit cannot be run
		}
		after, err := t.Structure()
		after = append(after, t.Water()...)
		if err != nil || t.Err() != nil {
			continue
		}
		_, told, err := t.Purchases(prices, false)
		if err != nil {
			return fmt.Errorf("fixes: %w", err)
		}
		at := slices.IndexFunc(told, func(a answers.Answer) bool { return a.ID == cost.ID })
		now := &told[at]
		fix := f.fix(&c)
		fix.Before, fix.After, fix.Verdict = headline(cost), headline(now), now.Verdict
		fix.Breaks = f.breaks(after, cost)
		fix.Weight = float64(len(cost.Fixes)) // behind what breaks nothing
		cost.Fixes = append(cost.Fixes, fix)
	}
	return nil
}
