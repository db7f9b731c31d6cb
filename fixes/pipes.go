package fixes

import (
	"fmt"
	"slices"

	"rillwright/catalogue"
	"rillwright/enclosure"
)

// hoses tries every hose and pipe of a run one size up.
func (f *finder) hoses() []change {
	var out []change
	for i := range f.s.E.Runs {
		u := &f.s.E.Runs[i]
		next := map[string]catalogue.Part{}
		from, to := "", ""
		length := 0.0
		for k := range u.Pieces {
			p, ok := f.cat.NextBore(u.Pieces[k].Part, true)
			if !ok {
				continue
			}
			next[u.Pieces[k].Name] = p
			if u.Pieces[k].Kind.HasLength() {
				from, to = u.Pieces[k].Name, p.Name
				length += u.Pieces[k].Length
			}
		}
		if from == "" {
			continue
		}
		p := next[from]
		out = append(out, change{
			do: fmt.Sprintf("make the %s of %s in place of %s, fittings to match and a reducer at each end", u.Name, to, from), cost: f.price(&p, length).and(" and fittings", 10),
			edit: fmt.Sprintf("runs[%s].pieces: part: %s", u.Name, to), edits: f.hoseEdits(i, next),
			apply: func(e *enclosure.Enclosure) bool {
				pieces := e.Runs[i].Pieces
				first, last := pieces[0], pieces[len(pieces)-1]
				for k := range pieces {
					if p, ok := next[pieces[k].Name]; ok {
						swap(e, &pieces[k], p)
					}
				}
				e.Runs[i].Pieces = f.reduced(e, pieces, first, last)
				e.Rejoin()
				return true
			},
		})
	}
	return out
}

// reduced joins pieces that have grown a size to what they were joined to: a
// short length of the old hose and a reducer at each end, where the run began
// and ended with hose and the catalogue has the reducer.
func (f *finder) reduced(e *enclosure.Enclosure, pieces []enclosure.Piece, first, last enclosure.Piece) []enclosure.Piece {
	end := func(old, grown enclosure.Piece) []enclosure.Piece {
		p, ok := f.reducer(grown.Part, old.Part)
		if !ok || old.Kind != catalogue.KindHose || grown.Name == old.Name {
			return nil
		}
		old.Length = stub
		r := enclosure.Piece{Count: 1, Open: 1, Kind: p.Kind}
		swap(e, &r, p)
		return []enclosure.Piece{old, r}
	}
	out := end(first, pieces[0])
	out = append(out, pieces...)
	tail := end(last, pieces[len(pieces)-1])
	slices.Reverse(tail)
	return append(out, tail...)
}

// stub is the length of old hose that is left at an end, m: assumed, enough for
// two barbs.
const stub = 0.05

// reducer finds what joins hose of one size to hose of another.
func (f *finder) reducer(grown, old catalogue.Part) (catalogue.Part, bool) {
	return f.cat.Find("reducer barb " + grown.Size.Text + " to " + old.Size.Text)
}

// swap puts another part in the place of a piece.
func swap(e *enclosure.Enclosure, p *enclosure.Piece, by catalogue.Part) {
	p.Name, p.Part, p.Loss, p.Ends = by.Name, by, by.Loss, by.Ends
	p.Bore = e.PartBore(by)
	if by.Roughness > 0 {
		p.Roughness = float64(by.Roughness)
	}
}

// manifoldBores tries a manifold of the next size of pipe.
func (f *finder) manifoldBores() []change {
	var out []change
	for i := range f.s.E.Manifolds {
		m := &f.s.E.Manifolds[i]
		part, ok := f.cat.Find(m.Part)
		if !ok {
			continue
		}
		next, ok := f.cat.NextBore(part, true)
		if !ok {
			continue
		}
		out = append(out, change{
			do: fmt.Sprintf("make the %s of %s", m.Name, next.Name), cost: f.price(&next, m.Length),
			edit: fmt.Sprintf("manifolds[%s].part: %s", m.Name, next.Name), edits: f.barEdits(i, next.Name),
			apply: func(e *enclosure.Enclosure) bool {
				e.Repipe(i, next)
				return true
			},
		})
	}
	return out
}
