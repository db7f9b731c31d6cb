package answers

import (
	"fmt"
	"math"
	"slices"

	"rillwright/design"
	"rillwright/layout"
	"rillwright/quantity"
)

// Opened adds to the answer about access what frees those parts that are kept in:
// each change is put into the design and all ways are looked for again.
func (s *Survey) Opened(a *Answer, plan *Plan) {
	if a.Verdict == Holds {
		return
	}
	_, list := s.access(plan)
	l := layout.Of(s.E)
	for i := range list {
		w := &list[i]
		by := w.by
		if w.foam != nil {
			by = []*obstacle{w.foam}
		}
		if w.met != nil {
			by = []*obstacle{w.met}
		}
		for _, o := range by {
			for _, f := range s.freeing(l, w, o) {
				s.tryFree(a, i, plan, f)
			}
		}
	}
	slices.SortStableFunc(a.Fixes, func(x, y Fix) int { return int(x.Verdict) - int(y.Verdict) })
	a.Fixes = a.Fixes[:min(len(a.Fixes), 4)]
}

// freeFix is a change that may free a part.
type freeFix struct {
	Fix

	apply func(d *design.Design)
}

// tryFree keeps a change after which a part has a way out, or has it without more ado.
func (s *Survey) tryFree(a *Answer, part int, plan *Plan, f freeFix) {
	e := s.E.Clone()
	d := *e.Design
	d.Grid, d.Hardscape = slices.Clone(d.Grid), slices.Clone(d.Hardscape)
	f.apply(&d)
	e.Design = &d
	t := s.Rebuilt(e, false)
	now, list := t.access(plan)
	if part >= len(list) || !list[part].ok || list[part].foam != nil || list[part].long() || now.Verdict > a.Verdict || now.Score <= a.Score {
		return
	}
	edits, ok := s.E.Design.Replanned(f.Edits)
	if !ok || slices.ContainsFunc(a.Fixes, func(x Fix) bool { return x.Do == f.Do }) {
		return
	}
	f.Edits, f.Verdict = edits, now.Verdict
	f.Before, f.After = a.Figures[part].Text, now.Figures[part].Text
	a.Fixes = append(a.Fixes, f.Fix)
}

// freeing lists what may be changed of something that keeps a part in.
func (s *Survey) freeing(l *layout.Layout, w *wayOut, o *obstacle) []freeFix {
	var out []freeFix
	for i := range l.Grids {
		g := &l.Grids[i]
		own := o.at == byGrid && o.what == "the "+g.Name
		if !own && o.at != byFoam {
			continue
		}
		if f, ok := s.window(g, w); ok {
			out = append(out, f)
		}
	}
	if o.part != nil && o.part.Kind == layout.KindHardscape {
		out = append(out, s.aside(o.part.Name)...)
	}
	return out
}

// windowRoom is what a window in a panel is wider than the part, all round, m: a
// finger's breadth, assumed.
const windowRoom = 0.015

// window cuts the cells out of a panel that stand before a part, and above it as far
// as it must be lifted.
func (s *Survey) window(g *layout.Grid, w *wayOut) (freeFix, bool) {
	through := w.box
	for _, leg := range w.legs {
		if leg.Along == g.Face {
			break
		}
		through = through.Union(through.To(leg))
	}
	// Along the panel's depth it reaches through it.
	through = through.Grown(windowRoom)
	through.Min, through.Max = through.Min.With(g.Face, g.Box.Min.On(g.Face)), through.Max.With(g.Face, g.Box.Max.On(g.Face))
	cells, _ := g.Near(through, 0)
	if len(cells) == 0 {
		return freeFix{}, false
	}
	t := throughGrid{name: "the way of the " + w.name, needs: cells}
	f := s.notchFix(g, &t)
	notch := f.Notch
	f.Notch = nil // the drawing of the panel shows notches for what passes it
	lo, hi := extent(cells)
	f.Do = fmt.Sprintf("leave a window of %d x %d cells in the %s for the way of the %s, %s", hi.Column-lo.Column+1, hi.Row-lo.Row+1, g.Name, w.name, inCells([]layout.Cell{lo, hi}))
	f.Cost = "nothing but snipping, and a piece to hang before it"
	return freeFix{f, func(d *design.Design) {
		p := &d.Grid[g.Index]
		p.Notches = append(slices.Clone(p.Notches), notch.Notch)
	}}, true
}

// aside hangs a piece of wood or rock further to one side, in steps.
func (s *Survey) aside(name string) []freeFix {
	const step = 0.05
	i := slices.IndexFunc(s.E.Design.Hardscape, func(h design.Hardscape) bool { return h.Name.Value == name })
	g := slices.IndexFunc(s.E.Design.Grid, func(g design.GridPanel) bool { return i >= 0 && g.Name.Value == s.E.Design.Hardscape[i].On.Value })
	if i < 0 || g < 0 {
		return nil
	}
	panel := &s.E.Design.Grid[g]
	wide := float64(panel.Across.Value) * float64(panel.Pitch.Value)
	from := wide / 2
	if h := &s.E.Design.Hardscape[i]; h.Left.Given() {
		from = float64(h.Left.Value)
	}
	var out []freeFix
	for n := 1; float64(n)*step <= wide/2; n++ {
		for _, to := range []float64{from - float64(n)*step, from + float64(n)*step} {
			if to < 0 || to > wide {
				continue
			}
			text := quantity.Length(math.Round(to*1000) / 1000).ShowIn(map[bool]string{false: "mm", true: "in"}[s.E.Units == quantity.US])
			path := fmt.Sprintf("hardscape[%s].left", name)
			out = append(out, freeFix{
				Fix{Do: fmt.Sprintf("hang the %s with its weight %s from the panel's left end", name, text), Change: path + ": " + text, Edits: []Edit{{Path: path, To: text}}, Cost: "nothing before it is foamed in"},
				func(d *design.Design) {
					into := &d.Hardscape[i].Left
					_ = into.Read(text, design.Pos{Line: 1, Column: 1, Width: len(text)}) // a text of ours has a meaning
				},
			})
		}
	}
	return out
}
