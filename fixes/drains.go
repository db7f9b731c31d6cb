package fixes

import (
	"fmt"
	"strings"

	"rillwright/catalogue"
	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/quantity"
)

// drains tries each drain one size up, and a second one like the first a little
// higher.
func (f *finder) drains() []change {
	var out []change
	for i := range f.s.E.Drains {
		d := &f.s.E.Drains[i]
		next, ok := f.cat.NextBore(d.Part, true)
		if d.Part.Name == "" || !ok {
			continue
		}
		out = append(out, change{
			do:   fmt.Sprintf("make the %s one size up: %s, hole %s, with pipe to match", d.Name, next.Name, next.Hole.Show(f.s.E.Units)),
			cost: f.price(&next, 0).and(", pipe and a hole saw", 15), edit: fmt.Sprintf("drains[%s].part: %s", d.Name, next.Name),
			edits: f.grownEdits(i, "drains["+d.Name+"]", 0, next), byHand: f.lipUnknown(i, next),
			apply: func(e *enclosure.Enclosure) bool {
				f.grow(e, &e.Drains[i], next)
				e.Rejoin()
				return true
			},
		})
	}
	if len(f.s.E.Drains) == 1 {
		out = append(out, f.second()...)
	}
	return out
}

// grow gives a drain of a clone a larger bulkhead, with standpipe, pipe and
// fittings of its size, or of the next size where there is none of that.
func (f *finder) grow(e *enclosure.Enclosure, d *enclosure.Drain, next catalogue.Part) {
	ratio := float64(next.Bore.Likely) / d.Bulkhead.Value
	size := next.Size.Text
	lip := d.LipBore == d.Bulkhead // there is no pipe on it
	d.Part, d.Bulkhead = next, e.PartBore(next)
	if d.Kind == "wall opening" {
		d.BulkheadAt = d.Lip + d.Bulkhead.Value/2
	}
	if next.Hole.High > 0 {
		d.Hole.Size.Value = next.Hole.Likely
	}
	if pipe, ok := f.sized(d.Standpipe, size); ok {
		d.Standpipe, d.LipBore = pipe, e.PartBore(pipe)
	} else if lip {
		d.LipBore = d.Bulkhead
	} else {
		d.LipBore = enclosure.Known(d.LipBore.Value * ratio)
	}
	for k := range d.Pieces {
		if p, ok := f.sized(d.Pieces[k].Part, size); ok {
			swap(e, &d.Pieces[k], p)
		}
	}
}

// sized returns the part of the same family in another size.
func (f *finder) sized(p catalogue.Part, size string) (catalogue.Part, bool) {
	if p.Family == "" || p.Size.Text == "" {
		return p, false
	}
	if q, ok := f.cat.Find(strings.Replace(p.Name, p.Size.Text, size, 1)); ok && q.Family == p.Family {
		return q, true
	}
	return f.cat.NextBore(p, true)
}

// second adds a drain like the first, 15 mm or 5/8 in higher, which also takes
// over when the first blocks.
func (f *finder) second() []change {
	d := f.s.E.Drains[0]
	higher := 0.015
	if f.s.E.Units == quantity.US {
		higher = 5.0 / 8 * 0.0254
	}
	if d.Lip+higher >= f.s.E.Pool.DamTop {
		return nil
	}
	rise := quantity.Length(higher).Show(f.s.E.Units)
	edits, byHand := f.secondEdits(d.Lip + higher - f.s.E.Pool.Floor)
	return []change{{
		do:   fmt.Sprintf("add a second drain like the %s with its lip %s higher; it also carries the water when the first blocks", d.Name, rise),
		cost: f.price(&d.Part, 0).and(", pipe and one more hole", 20), edit: "drains: one more entry",
		edits: edits, byHand: byHand,
		apply: func(e *enclosure.Enclosure) bool {
			n := d
			n.Name = secondName
			n.Lip += higher
			if n.Kind == "wall opening" {
				n.BulkheadAt += higher
			}
			n.Pieces = append([]enclosure.Piece(nil), d.Pieces...)
			e.Drains = append(e.Drains, n)
			e.Rejoin()
			return true
		},
	}}
}

// lowerLips tries a standpipe 10 mm or 3/8 in shorter.
func (f *finder) lowerLips() []change {
	var out []change
	for i := range f.s.E.Drains {
		d := &f.s.E.Drains[i]
		by := 0.010
		if f.s.E.Units == quantity.US {
			by = 3.0 / 8 * 0.0254
		}
		if d.Kind != "standpipe" || d.Lip-by <= f.s.E.Pool.Floor {
			continue
		}
		to := quantity.Length(d.Lip - by - f.s.E.Pool.Floor).Show(f.s.E.Units)
		out = append(out, change{
			do:   fmt.Sprintf("cut the standpipe of the %s to %s", d.Name, to),
			cost: cost{words: "nothing", amount: 0.1}, // after what needs no saw
			edit: fmt.Sprintf("drains[%s].lip: %s", d.Name, to), edits: []design.Edit{put("drains["+d.Name+"].lip", to)},
			apply: func(e *enclosure.Enclosure) bool {
				e.Drains[i].Lip -= by
				return true
			},
		})
	}
	return out
}

// vent lets air in at the top of standpipes.
func (f *finder) vent() []change {
	var out []change
	for i := range f.s.E.Drains {
		d := &f.s.E.Drains[i]
		if d.Kind != "standpipe" || d.Vented {
			continue
		}
		elbow := catalogue.Part{}
		for _, p := range f.cat.Search("elbow", "90", "solvent") {
			if p.Bore.Likely >= d.Part.Bore.Likely {
				elbow = p
				break
			}
		}
		out = append(out, change{
			do: fmt.Sprintf("put an elbow with a vent hole on the %s", d.Name), cost: f.price(&elbow, 0),
			edit: fmt.Sprintf("drains[%s].vented: yes", d.Name), edits: []design.Edit{put("drains["+d.Name+"].vented", "yes")},
			apply: func(e *enclosure.Enclosure) bool {
				e.Drains[i].Vented = true
				return true
			},
		})
	}
	return out
}
