package fixes

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"

	"rillwright/answers"
	"rillwright/catalogue"
	"rillwright/enclosure"
	"rillwright/quantity"
)

// candidates lists the changes that could help an answer.
func (f *finder) candidates(a *answers.Answer) []change {
	var out []change
	id, _, _ := strings.Cut(a.ID, "[")
	switch id {
	case "lift":
		out = append(out, f.openValves()...)
		out = append(out, f.pumps(true)...)
		out = append(out, f.hoses()...)
		out = append(out, f.moreWater()...)
	case "too-strong":
		out = append(out, f.throttle()...)
		out = append(out, f.pumps(false)...)
	case "pump-size":
		out = append(out, f.pumps(true)...)
		out = append(out, f.hoses()...)
	case "even", "outlets":
		out = append(out, f.feeds()...)
		out = append(out, f.manifoldBores()...)
		out = append(out, f.holes()...)
		// Which outlet is the driest may change, and with it what hurts it.
		for i := range out {
			out[i].anew = true
		}
	case "drain", "levels":
		out = append(out, f.drains()...)
		out = append(out, f.throttle()...)
		out = append(out, f.lowerLips()...)
	case "quiet":
		out = append(out, f.vent()...)
		out = append(out, f.drains()...)
		out = append(out, f.throttle()...)
	}
	return out
}

// pumps tries the pumps on the shelf and the next classes of the catalogue.
func (f *finder) pumps(bigger bool) []change {
	if len(f.s.E.Pumps) != 1 || !f.s.E.Pumps[0].Curve.Label {
		return nil
	}
	have := f.s.E.Pumps[0].Curve
	var out []change
	add := func(name, cost string, weight float64, edit string, curve enclosure.Curve) {
		if curve.Label && bigger != (curve.QMax*curve.HMax > have.QMax*have.HMax) {
			return
		}
		out = append(out, change{
			do: name, edit: edit, cost: cost, weight: weight,
			apply: func(e *enclosure.Enclosure) bool {
				p := &e.Pumps[0]
				if curve.Label {
					p.Curve.HMax, p.Curve.QMax = curve.HMax, curve.QMax
				} else {
					p.Curve = curve
				}
				return true
			},
		})
	}
	sys := f.s.E.Units
	for i := range f.s.E.Shelf {
		p := &f.s.E.Shelf[i]
		cost, w := money(p.Price)
		label := quantity.Flow(p.Curve.QMax).Show(sys) + " / " + showHead(p.Curve.HMax, sys)
		add(fmt.Sprintf("take the %s pump from the shelf (%s)", p.Name, label), cost, w, "pumps: label of the "+p.Name, p.Curve)
	}
	n := 0
	for _, p := range f.classes(bigger, have) {
		if f.onShelf(&p) {
			continue
		}
		if n++; n > 2 {
			break
		}
		cost, w := price(&p, 0)
		add("take a "+p.Name, cost, w, "pumps: part: "+p.Name, enclosure.Curve{HMax: float64(p.Label.Head), QMax: float64(p.Label.Flow), Label: true})
	}
	return out
}

// onShelf reports whether a class is one of the pumps on the shelf.
func (f *finder) onShelf(p *catalogue.Part) bool {
	for i := range f.s.E.Shelf {
		c := &f.s.E.Shelf[i].Curve
		if math.Abs(c.QMax/float64(p.Label.Flow)-1) < 0.02 && math.Abs(c.HMax/float64(p.Label.Head)-1) < 0.02 {
			return true
		}
	}
	return false
}

func showHead(h float64, sys quantity.System) string {
	if sys == quantity.US {
		return fmt.Sprintf("%.1f ft", h/0.3048)
	}
	return fmt.Sprintf("%.1f m", h)
}

// classes returns the pump classes next to one, in the builder's units.
func (f *finder) classes(bigger bool, have enclosure.Curve) []catalogue.Part {
	var out []catalogue.Part
	all := f.cat.PumpsAtLeast(0, 0)
	if bigger {
		all = f.cat.PumpsAtLeast(quantity.Flow(have.QMax), quantity.Length(have.HMax))
	}
	for _, p := range all {
		us := p.Price.Currency == "USD"
		if p.Price.Given() && us != (f.s.E.Units == quantity.US) {
			continue
		}
		q, h := float64(p.Label.Flow), float64(p.Label.Head)
		if bigger && (q > have.QMax*1.001 || h > have.HMax*1.001) || !bigger && q < have.QMax*0.999 && h <= have.HMax {
			out = append(out, p)
		}
	}
	if !bigger {
		for i, k := 0, len(out)-1; i < k; i, k = i+1, k-1 {
			out[i], out[k] = out[k], out[i]
		}
	}
	return out
}

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
		cost, w := price(&p, length)
		out = append(out, change{
			do: fmt.Sprintf("make the %s of %s in place of %s, fittings to match and a reducer at each end", u.Name, to, from), cost: cost + " and fittings", weight: w + 10,
			edit: fmt.Sprintf("runs[%s].pieces: part: %s", u.Name, to),
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
		p, ok := f.cat.Find("reducer barb " + grown.Part.Size.Text + " to " + old.Part.Size.Text)
		if !ok || old.Kind != catalogue.KindHose || grown.Name == old.Name {
			return nil
		}
		old.Length = 0.05
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

// swap puts another part in the place of a piece.
func swap(e *enclosure.Enclosure, p *enclosure.Piece, by catalogue.Part) {
	p.Name, p.Part, p.Loss, p.Ends = by.Name, by, by.Loss, by.Ends
	p.Bore = e.PartBore(by)
	if by.Roughness > 0 {
		p.Roughness = float64(by.Roughness)
	}
}

// openValves tries every part-closed valve open.
func (f *finder) openValves() []change {
	var out []change
	for i := range f.s.E.Runs {
		for k := range f.s.E.Runs[i].Pieces {
			p := &f.s.E.Runs[i].Pieces[k]
			if p.Open >= 1 {
				continue
			}
			out = append(out, change{
				do: fmt.Sprintf("open the %s in the %s fully", p.Name, f.s.E.Runs[i].Name), cost: "nothing",
				edit: fmt.Sprintf("runs[%s].pieces[%d].open: 100 %%", f.s.E.Runs[i].Name, k+1),
				apply: func(e *enclosure.Enclosure) bool {
					e.Runs[i].Pieces[k].Open = 1
					return true
				},
			})
		}
	}
	return out
}

// throttle closes a valve until the likely flow is the one wanted.
func (f *finder) throttle() []change {
	if !f.throttlingDone {
		f.throttling, f.throttlingDone = f.findThrottle(), true
	}
	return f.throttling
}

func (f *finder) findThrottle() []change {
	target := f.s.Target()
	for i := range f.s.E.Runs {
		for k := range f.s.E.Runs[i].Pieces {
			p := &f.s.E.Runs[i].Pieces[k]
			if p.Kind != catalogue.KindValve || target <= 0 || f.s.Likely.Outlets <= target*1.02 {
				continue
			}
			open, ok := f.opening(i, k, target)
			if !ok {
				continue
			}
			text := quantity.Ratio(open).Show(f.s.E.Units)
			return []change{{
				do: fmt.Sprintf("close the %s to about %s open, until the bucket shows what you want", p.Name, text), cost: "nothing",
				edit: fmt.Sprintf("runs[%s].pieces[%d].open: %s", f.s.E.Runs[i].Name, k+1, text),
				apply: func(e *enclosure.Enclosure) bool {
					e.Runs[i].Pieces[k].Open = open
					return true
				},
			}}
		}
	}
	return nil
}

// opening finds the opening of a valve, from 10 % in steps of 2 %, at which the
// likely flow is nearest to the target.
func (f *finder) opening(run, piece int, target float64) (float64, bool) {
	const least, step = 5, 0.02
	var failed error
	steps := sort.Search(1/step-least, func(k int) bool {
		e := f.s.E.Clone()
		e.Runs[run].Pieces[piece].Open = (least + float64(k) + 0.5) * step
		q, err := f.s.LikelyFlow(e)
		failed = errors.Join(failed, err)
		return q > target
	})
	return float64(least+steps) * step, failed == nil && steps < 1/step-least
}

// moreWater tries bigger holes, which cost the pump less head.
func (f *finder) moreWater() []change {
	var out []change
	for i := range f.s.E.Manifolds {
		out = append(out, f.holeChange(i, 1)...)
	}
	return out
}

// holes tries smaller holes, which even the outlets out.
func (f *finder) holes() []change {
	var out []change
	for i := range f.s.E.Manifolds {
		out = append(out, f.holeChange(i, -1)...)
	}
	return out
}

func (f *finder) holeChange(i, step int) []change {
	m := &f.s.E.Manifolds[i]
	if len(m.Groups) == 0 || m.Groups[0].Hole.Value == 0 {
		return nil
	}
	have := m.Groups[0].Hole.Value
	size, ok := answers.NextDrill(have, step, f.s.E.Units)
	if !ok {
		return nil
	}
	name := answers.DrillName(size, f.s.E.Units)
	word := "larger"
	if step < 0 {
		word = "smaller"
	}
	return []change{{
		do: fmt.Sprintf("drill the %s %s, %s holes", m.Name, word, name), cost: "nothing before drilling",
		edit: fmt.Sprintf("manifolds[%s].outlets[1].hole: %s", m.Name, name),
		apply: func(e *enclosure.Enclosure) bool {
			e.Redrill(i, size)
			return true
		},
	}}
}

// feeds tries an end-fed manifold fed at its centre.
func (f *finder) feeds() []change {
	var out []change
	for i := range f.s.E.Runs {
		u := &f.s.E.Runs[i]
		if u.To.Kind != enclosure.AtManifold {
			continue
		}
		m := &f.s.E.Manifolds[u.To.Index]
		if u.At > 0 && u.At < m.Length {
			continue
		}
		cost := "a tee and some hose"
		out = append(out, change{
			do: fmt.Sprintf("feed the %s at its centre", m.Name), cost: cost, weight: 6,
			edit: fmt.Sprintf("manifolds[%s].feed: centre", m.Name),
			apply: func(e *enclosure.Enclosure) bool {
				e.Runs[i].At = m.Length / 2
				return true
			},
		})
	}
	return out
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
		cost, w := price(&next, m.Length)
		out = append(out, change{
			do: fmt.Sprintf("make the %s of %s", m.Name, next.Name), cost: cost, weight: w,
			edit: fmt.Sprintf("manifolds[%s].part: %s", m.Name, next.Name),
			apply: func(e *enclosure.Enclosure) bool {
				e.Repipe(i, next)
				return true
			},
		})
	}
	return out
}
