package answers

import (
	"fmt"
	"slices"
	"strings"

	"rillwright/design"
	"rillwright/document"
	"rillwright/geom"
	"rillwright/layout"
	"rillwright/quantity"
)

// halfWall is half of a grid's wall, by which a cell that stays reaches into a notch
// beside it, m: walls are 1 to 2 mm, from memory.
const halfWall = 0.001

// throughGrid is what must have a hole in a panel: one thing with all its parts.
type throughGrid struct {
	name   string
	line   int
	needs  []layout.Cell // to be cut out
	left   []layout.Cell // of these, those that are not
	gap    float64       // from the nearest of the parts to the cells that stay, m
	placed bool
	worst  *layout.Part
}

// Cells answers whether the grid's notches make room for all that passes it. There is
// none without a panel in its place.
func (s *Survey) Cells() (Answer, bool) {
	l := layout.Of(s.E)
	if len(l.Grids) == 0 {
		return Answer{}, false
	}
	a := Answer{ID: "cells", Question: "Is there room in the grid for what passes it?", Figures: []Figure{}}
	const room = handBuilt + halfWall
	a.Limit = Limit{Text: quantity.Length(room).Show(s.E.Units) + " from each cell that stays: what hand building is off by, and half a wall", Mark: "assumed, no source"}
	a.Score = room
	passes := 0
	for i := range l.Grids {
		g := &l.Grids[i]
		list := through(l, g, room)
		for k := range list {
			t := &list[k]
			passes++
			s.cellFigures(&a, g, t)
			a.Score = min(a.Score, t.gap)
			s.cellVerdict(&a, l, g, t)
		}
		cuts, round := g.Cuts()
		a.Figures = append(a.Figures, counted("walls to snip for the notches of the "+g.Name, cuts-g.SlotCuts()), counted("walls to snip round the "+g.Name+", at most", round))
		a.Cautions = append(a.Cautions, idleNotches(g, list)...)
	}
	s.braceFigures(&a, l)
	yes := fmt.Sprintf("Yes: %s through the grid, and every cell in the way is cut out.", count(passes, "thing passes", "things pass"))
	if passes == 0 {
		yes = "Yes: nothing that is drawn passes through the grid."
	}
	if n := len(l.GridBraces); n > 0 {
		yes += fmt.Sprintf(" %s slotted with room to spare.", upperFirst(count(n, "brace is", "braces are")))
	}
	a.sayWorst(yes, "Only just.", "No.")
	return a, true
}

// counted is a figure that is a number of things.
func counted(name string, n int) Figure {
	return Figure{Name: name, Low: float64(n), Likely: float64(n), High: float64(n), Text: fmt.Sprint(n)}
}

// through lists what passes a panel, in the order of the file.
func through(l *layout.Layout, g *layout.Grid, room float64) []throughGrid {
	var out []throughGrid
	bars := g.Bars()
	own := &l.Parts[g.Part]
	for i := range l.Parts {
		p := &l.Parts[i]
		switch p.Kind {
		case layout.KindGrid, layout.KindPane, layout.KindDam, layout.KindRim:
			continue
		}
		if !mayNot(layout.KindGrid, p.Kind) || slotted(l, g, i) {
			continue
		}
		needs, _ := g.Near(p.Solid, room)
		if len(needs) == 0 {
			continue
		}
		name := strings.TrimSuffix(strings.TrimPrefix(thing(p), "the "), " inside")
		if ofDrain(p.Kind) {
			name = p.Name
		}
		k := slices.IndexFunc(out, func(t throughGrid) bool { return t.name == name })
		if k < 0 {
			k = len(out)
			out = append(out, throughGrid{name: name, line: p.Line, gap: room, placed: true})
		}
		t := &out[k]
		gap := room
		for _, b := range bars {
			gap = min(gap, geom.Gap(b, p.Solid))
		}
		if gap < t.gap {
			t.gap, t.worst, t.placed = gap, p, certain(l, own, p, gap)
		}
		for _, c := range needs {
			if slices.Contains(t.needs, c) {
				continue
			}
			t.needs = append(t.needs, c)
			if !g.Open(c) {
				t.left = append(t.left, c)
			}
		}
	}
	return out
}

// slotted reports whether a part is a brace that goes through a slot of the panel.
func slotted(l *layout.Layout, g *layout.Grid, part int) bool {
	return slices.ContainsFunc(g.Slots, func(x layout.Slot) bool { return l.GridBraces[x.Brace].Part == part })
}

func (s *Survey) cellFigures(a *Answer, g *layout.Grid, t *throughGrid) {
	a.Figures = append(a.Figures, bounded(counted(fmt.Sprintf("cells of the %s in the way of the %s", g.Name, t.name), len(t.left)), 0))
	a.Figures = append(a.Figures, counted(fmt.Sprintf("cells that it needs cut out, %s", inCells(t.needs)), len(t.needs)))
}

func (s *Survey) cellVerdict(a *Answer, l *layout.Layout, g *layout.Grid, t *throughGrid) {
	if len(t.left) == 0 {
		return
	}
	sys := s.E.Units
	where := fmt.Sprintf("%s of the %s%s: %s", count(len(t.left), "cell", "cells"), g.Name, lines(l.Parts[g.Part].Line, t.line), inCells(t.left))
	verdict := Tight
	switch {
	case t.gap >= -drawnSame:
		a.raise(Tight, fmt.Sprintf("The %s comes within %s of %s.", t.name, tenths(max(t.gap, 0), sys), where), t.line)
	case t.placed:
		verdict = Fails
		a.raise(Fails, fmt.Sprintf("The %s meets %s. Cut them out.", t.name, where), t.line)
	default:
		verdict = Unknown
		a.raise(Unknown, fmt.Sprintf("The %s meets %s, as far as they can be drawn: %s. Measure them.", t.name, where, guesses(&l.Parts[g.Part], t.worst)), t.line)
	}
	lo, hi := extent(t.needs)
	// What takes whole rows or columns is no notch: the panel is then too large.
	if whole := hi.Column-lo.Column+1 == g.Across || hi.Row-lo.Row+1 == g.Up; verdict != Unknown && !whole {
		a.Fixes = append(a.Fixes, s.notchFix(g, t))
	}
}

// Notching is a notch to be cut, and the panel's name.
type Notching struct {
	Panel string
	Notch design.Notch
}

// notchFix is a notch of all the cells that a thing needs.
func (s *Survey) notchFix(g *layout.Grid, t *throughGrid) Fix {
	lo, hi := extent(t.needs)
	across, up := hi.Column-lo.Column+1, hi.Row-lo.Row+1
	path := "grid[" + g.Name + "].notches"
	entry := fmt.Sprintf("{ for: %s, across: %d, up: %d, left: %d, bottom: %d }", yamlWord(t.name), across, up, lo.Column, lo.Row)
	n := design.Notch{Pos: design.Pos{Line: 1, Column: 1, Width: len(entry)}}
	for _, x := range []struct {
		into document.Leaf
		text string
	}{{&n.For, t.name}, {&n.Across, fmt.Sprint(across)}, {&n.Up, fmt.Sprint(up)}, {&n.Left, fmt.Sprint(lo.Column)}, {&n.Bottom, fmt.Sprint(lo.Row)}} {
		// A text of ours has a meaning; if it had none, reading the file would say so.
		_ = x.into.Read(x.text, n.Pos)
	}
	return Fix{
		Notch:   &Notching{g.Name, n},
		Do:      fmt.Sprintf("cut a notch of %d x %d cells out of the %s for the %s, %s", across, up, g.Name, t.name, inCells([]layout.Cell{lo, hi})),
		Change:  path + ": " + entry,
		Edits:   []Edit{{Path: path, To: entry, Kind: design.EditAppend}},
		Cost:    "nothing but snipping",
		Before:  fmt.Sprint(len(t.left)),
		After:   "0",
		Verdict: Holds,
	}
}

// yamlWord is a name as it stands in a list of a design file.
func yamlWord(s string) string {
	if strings.ContainsAny(s, `:#,{}[]"'&*!|>%@`) {
		return fmt.Sprintf("%q", s)
	}
	return s
}

// extent returns the least and the greatest column and row of some cells.
func extent(list []layout.Cell) (lo, hi layout.Cell) {
	lo, hi = list[0], list[0]
	for _, c := range list {
		lo.Column, lo.Row = min(lo.Column, c.Column), min(lo.Row, c.Row)
		hi.Column, hi.Row = max(hi.Column, c.Column), max(hi.Row, c.Row)
	}
	return lo, hi
}

// inCells tells where cells are, counted from 1 as a cell map is.
func inCells(list []layout.Cell) string {
	lo, hi := extent(list)
	span := func(what string, a, b int) string {
		if a == b {
			return fmt.Sprintf("%s %d", what, a+1)
		}
		return fmt.Sprintf("%ss %d to %d", what, a+1, b+1)
	}
	return span("column", lo.Column, hi.Column) + ", " + span("row", lo.Row, hi.Row)
}

// idleNotches tells which notches nothing that is drawn passes.
func idleNotches(g *layout.Grid, list []throughGrid) []string {
	var out []string
	for i := range g.Notches {
		n := &g.Notches[i]
		used := slices.ContainsFunc(list, func(t throughGrid) bool {
			return slices.ContainsFunc(t.needs, func(c layout.Cell) bool { return n.Box.Has(g.CellBox(c).Centre()) })
		})
		if !used {
			out = append(out, fmt.Sprintf("Nothing that is drawn passes the notch for the %s in the %s (line %d): it stays open for a hand, or is not needed.", n.For, g.Name, n.Line))
		}
	}
	return out
}
