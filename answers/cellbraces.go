package answers

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"rillwright/design"
	"rillwright/geom"
	"rillwright/layout"
	"rillwright/quantity"
	"rillwright/study"
)

// betweenSlots is how many whole cells stay between a slot and the next slot or notch,
// and between it and the panel's edge: common practice, no source.
const betweenSlots = 1

// slotFault is one thing that is wrong with a brace's slot or its end.
type slotFault struct {
	say  string
	line int
}

// braceFigures adds what the slots of braces take, and says what is wrong with them.
func (s *Survey) braceFigures(a *Answer, l *layout.Layout) {
	sys := s.E.Units
	for i := range l.GridBraces {
		b := &l.GridBraces[i]
		for k := range l.Grids {
			g := &l.Grids[k]
			for j := range g.Slots {
				slot := &g.Slots[j]
				if slot.Brace != i {
					continue
				}
				across, up := slot.Cells()
				a.Figures = append(a.Figures,
					counted(fmt.Sprintf("cells cut out of the %s for the brace %s, %s", g.Name, b.Name, inCells([]layout.Cell{slot.Lo, slot.Hi})), across*up),
					bounded(counted(fmt.Sprintf("whole cells left beside that slot of the brace %s in the %s", b.Name, g.Name), max(beside(g, slot), 0)), betweenSlots))
			}
		}
		a.Figures = append(a.Figures,
			figure("length of the brace "+b.Name+" along its longer side", quantity.Exactly(quantity.Length(b.Length)), sys),
			figure("lean of the brace "+b.Name+" from straight out of its panel", quantity.Exactly(quantity.Angle(b.Angle)), sys))
		faults := s.slotFaults(l, i)
		for _, f := range faults {
			a.raise(Fails, f.say, f.line)
		}
		if len(faults) > 0 {
			if f, ok := s.movedBrace(l, b); ok {
				a.Fixes = append(a.Fixes, f)
			}
		}
	}
	for k := range l.Grids {
		if g := &l.Grids[k]; len(g.Slots) > 0 {
			a.Figures = append(a.Figures, counted("walls to snip for the slots of braces in the "+g.Name, g.SlotCuts()))
		}
	}
	for _, x := range l.Left {
		if !strings.Contains(x.Field, "].braces[") {
			continue
		}
		say := fmt.Sprintf("The brace %s is not placed: %s%s.", x.Name, x.Say, lines(x.Line, 0))
		if strings.HasSuffix(x.Say, ".leans") {
			say = fmt.Sprintf("Which way does the brace %s lean%s? Write %s: up, down, left, right, front or rear.", x.Name, lines(x.Line, 0), x.Say)
		}
		a.raise(Unknown, say, x.Line)
	}
	if len(l.GridBraces) > 0 {
		a.Cautions = append(a.Cautions, "What a slotted brace bears is not reckoned, and grid of polystyrene is brittle: tie each brace to the cells beside its slot, and bond its end to glass, before anything leans on it (common practice, no source).")
	}
}

// beside returns how many whole cells stay between a slot and what is nearest of the
// panel's edges, notches and other slots; below 0 if they run into one another.
func beside(g *layout.Grid, slot *layout.Slot) int {
	least := min(slot.Lo.Column, slot.Lo.Row, g.Across-1-slot.Hi.Column, g.Up-1-slot.Hi.Row)
	for i := range g.Notches {
		least = min(least, cellsApart(slot.Box, g.Notches[i].Box, g.Pitch))
	}
	for i := range g.Slots {
		if x := &g.Slots[i]; x != slot {
			least = min(least, cellsApart(slot.Box, x.Box, g.Pitch))
		}
	}
	return least
}

// cellsApart counts the whole cells between two groups of cells, side by side or one over
// the other.
func cellsApart(a, b geom.Box, pitch float64) int {
	most := math.Inf(-1)
	for _, on := range []geom.Axis{geom.X, geom.Y, geom.Z} {
		most = math.Max(most, math.Max(a.Min.On(on)-b.Max.On(on), b.Min.On(on)-a.Max.On(on)))
	}
	return int(math.Floor(most/pitch + 1e-6))
}

// slotFaults lists what is wrong with one brace: its slots at an edge of a panel, into
// a notch or another slot, before a stand-off; its end beyond what it is to meet.
func (s *Survey) slotFaults(l *layout.Layout, brace int) []slotFault {
	b := &l.GridBraces[brace]
	var out []slotFault
	add := func(line int, form string, of ...any) { out = append(out, slotFault{fmt.Sprintf(form, of...), line}) }
	if b.Misses > drawnSame {
		add(b.Line, "The end of the brace %s stands %s beyond the %s that it is to meet%s.", b.Name, tenths(b.Misses, s.E.Units), l.Parts[b.To].Name, lines(b.Line, l.Parts[b.To].Line))
	}
	for i := range l.Grids {
		g := &l.Grids[i]
		for k := range g.Slots {
			slot := &g.Slots[k]
			if slot.Brace != brace {
				continue
			}
			where := inCells([]layout.Cell{slot.Lo, slot.Hi})
			if min(slot.Lo.Column, slot.Lo.Row, g.Across-1-slot.Hi.Column, g.Up-1-slot.Hi.Row) < betweenSlots {
				add(b.Line, "The slot for the brace %s, %s, opens the edge of the %s (line %d): nothing closes it there.", b.Name, where, g.Name, b.Line)
			}
			for j := range g.Notches {
				if n := &g.Notches[j]; cellsApart(slot.Box, n.Box, g.Pitch) < betweenSlots {
					add(b.Line, "The slot for the brace %s, %s, runs into the notch for the %s in the %s%s: no whole cell stays between.", b.Name, where, n.For, g.Name, lines(b.Line, n.Line))
				}
			}
			for j := range g.Slots {
				if x := &g.Slots[j]; x != slot && cellsApart(slot.Box, x.Box, g.Pitch) < betweenSlots {
					add(b.Line, "The slots for the braces %s and %s run into one another in the %s%s: no whole cell stays between.", b.Name, l.GridBraces[x.Brace].Name, g.Name, lines(b.Line, l.GridBraces[x.Brace].Line))
				}
			}
			if n := s.standOffsAt(g, slot); n > 0 {
				add(b.Line, "The slot for the brace %s, %s, takes cells of the %s that %s bonded to (line %d).", b.Name, where, g.Name, count(n, "stand-off is", "stand-offs are"), b.Line)
			}
		}
	}
	return out
}

// standOffsAt counts the stand-offs behind a panel that meet a slot.
func (s *Survey) standOffsAt(g *layout.Grid, slot *layout.Slot) int {
	p := &s.E.Design.Grid[g.Index]
	if !p.Bond.Given() || g.At == "floor" {
		return 0
	}
	bond, err := study.GridBond(s.E, p)
	if err != nil {
		return 0 // [bond] says what is wrong with it
	}
	n := 0
	x0, x1 := float64(slot.Lo.Column)*g.Pitch, float64(slot.Hi.Column+1)*g.Pitch
	y0, y1 := float64(slot.Lo.Row)*g.Pitch, float64(slot.Hi.Row+1)*g.Pitch
	for _, q := range bond.Patches {
		if q.X < x1 && q.X+q.Width > x0 && q.Y < y1 && q.Y+q.Height > y0 {
			n++
		}
	}
	return n
}

// braceSteps is how many cells a brace is moved at most to find room for its slot.
const braceSteps = 6

// movedBrace moves a brace by whole cells, the fewest that leave nothing wrong with it
// and nothing in its way.
func (s *Survey) movedBrace(l *layout.Layout, b *layout.GridBrace) (Fix, bool) {
	g := &l.Grids[b.Grid]
	was := &s.E.Design.Grid[g.Index].Braces[b.Index]
	for far := 1; far <= braceSteps; far++ {
		for dx := -far; dx <= far; dx++ {
			for _, dy := range []int{far - abs(dx), abs(dx) - far} {
				left, bottom := was.Left.Value+dx, was.Bottom.Value+dy
				if left < 0 || bottom < 0 || !s.bracedAt(b.Name, g.Index, b.Index, left, bottom) {
					continue
				}
				path := b.Field
				f := Fix{
					Do:   fmt.Sprintf("move the brace %s: its slot begins in column %d, row %d of the %s", b.Name, left+1, bottom+1, g.Name),
					Cost: "nothing", Before: fmt.Sprintf("column %d, row %d", was.Left.Value+1, was.Bottom.Value+1), After: fmt.Sprintf("column %d, row %d", left+1, bottom+1), Verdict: Holds,
				}
				var words []string
				for _, x := range []struct {
					key      string
					from, to int
				}{{".left", was.Left.Value, left}, {".bottom", was.Bottom.Value, bottom}} {
					if x.from != x.to {
						words = append(words, fmt.Sprintf("%s%s: %d", path, x.key, x.to))
						f.Edits = append(f.Edits, Edit{Path: path + x.key, To: fmt.Sprint(x.to)})
					}
				}
				f.Change = strings.Join(words, ", ")
				return f, true
			}
		}
	}
	return Fix{}, false
}

func abs(n int) int { return max(n, -n) }

// bracedAt reports whether a brace with its slot elsewhere has nothing wrong with it.
func (s *Survey) bracedAt(name string, panel, index, left, bottom int) bool {
	e := s.E.Clone()
	d := *e.Design
	d.Grid = slices.Clone(d.Grid)
	list := slices.Clone(d.Grid[panel].Braces)
	d.Grid[panel].Braces = list
	for _, x := range []struct {
		into *design.Field[int]
		v    int
	}{{&list[index].Left, left}, {&list[index].Bottom, bottom}} {
		x.into.Value, x.into.Text = x.v, fmt.Sprint(x.v)
	}
	e.Design = &d
	t := &Survey{E: e}
	l := layout.Of(e)
	i := slices.IndexFunc(l.GridBraces, func(b layout.GridBrace) bool { return b.Name == name })
	if i < 0 || len(t.slotFaults(l, i)) > 0 {
		return false
	}
	own := &l.Parts[l.GridBraces[i].Part]
	for _, m := range meetings(l) {
		if (m.a == own || m.b == own) && m.gap < handBuilt {
			return false
		}
	}
	return true
}

// sliced returns the boxes round slices of a strip that leans, end to end:
// one box round it all would shut off what it only passes by.
func sliced(p geom.Prism) []geom.Box {
	const n = 16
	out := make([]geom.Box, 0, n)
	for i := range n {
		part := p
		part.Base = nil
		for _, t := range []float64{float64(i) / n, float64(i+1) / n} {
			part.Base = append(part.Base, p.Base[0].Between(p.Base[3], t), p.Base[1].Between(p.Base[2], t))
		}
		out = append(out, part.Bounds())
	}
	return out
}
