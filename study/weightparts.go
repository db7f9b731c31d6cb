package study

import (
	"fmt"
	"math"
	"strings"

	"rillwright/design"
	"rillwright/layout"
	"rillwright/quantity"
	"rillwright/structure"
)

func massBand(low, likely, high float64) quantity.Band[float64] {
	return quantity.Band[float64]{Low: low, Likely: likely, High: high}
}

// panes weighs every pane of the file, and the dam if no pane is it. Holes are not
// taken off.
func (b *weigher) panes() {
	dam := false
	for i := range b.e.Design.Enclosure.Panes {
		p := &b.e.Design.Enclosure.Panes[i]
		b.Panes++
		dam = dam || p.At.Value == "dam" || strings.Contains(strings.ToLower(p.Name.Value), "dam")
		b.pane(p.Name.Value, GlassKind(p.Glass.Value), float64(p.Width.Value)*float64(p.Height.Value), max(1, p.Count.Value), p.Thickness, p.Pos.Line, b.panePlace(i, p.Name.Value), b.swing(p))
	}
	if d := &b.e.Design.Dam; d.Pos.Line > 0 && d.Thickness.Given() && !dam {
		b.pane("dam", structure.Annealed, b.e.Pool.DamWidth*float64(d.Height.Value), 1, d.Thickness, d.Thickness.Pos.Line, point(b.at.Dam.Centre()), door{})
		b.assume("the dam is glass")
	}
}

// door is how the centre of a door's weight moves when it is opened wide.
type door struct {
	is    bool
	swing structure.Point
}

// swing is that of a pane: a hinged door turns a right angle about its edge,
// towards whoever opens it.
func (b *weigher) swing(p *design.Pane) door {
	if !p.Opens.Given() {
		return door{}
	}
	half, up := float64(p.Width.Value)/2, float64(p.Height.Value)/2
	d := door{is: true}
	switch p.Opens.Value {
	case "hinged left":
		d.swing = structure.Point{X: -half, Y: half}
	case "hinged right":
		d.swing = structure.Point{X: half, Y: half}
	case "hinged top":
		d.swing = structure.Point{Y: up, Z: up}
	case "hinged bottom":
		d.swing = structure.Point{Y: up, Z: -up}
	}
	return d
}

func (b *weigher) pane(name string, kind structure.Kind, area float64, count int, t design.Field[quantity.Length], line int, at structure.Point, d door) {
	m, ok := structure.MaterialOf(kind)
	if !ok { // glass is the heaviest that it can be
		m, _ = structure.MaterialOf(structure.Annealed)
		b.assume(fmt.Sprintf("pane %q, which nobody has looked at, weighs as glass", name))
	}
	actual, named := thickness(t)
	why := "as the file has it"
	if named {
		why = "the name is not the size"
	}
	density := m.Density.Likely
	thick := b.doubt(WeightDoubt{What: "true thickness of the " + t.Text + " panes", Band: actual, Unit: Thick, Why: why, Settle: "callipers on the edge", Line: line})
	b.add(Bare, func(v sides, _ Stage) Load {
		each := area * v.of(thick) * density
		return Load{Kind: PaneLoad, Name: name, Mass: each * float64(count), Each: each, Centre: at, Line: line, Door: d.is, Swing: d.swing}
	})
}

// stuff is the density of rims and braces, kg/m3, all from memory.
func stuff(word string) quantity.Band[float64] {
	switch word {
	case "glass":
		return massBand(2500, 2500, 2500)
	case "acrylic":
		return massBand(1190, 1190, 1190)
	case "polycarbonate":
		return massBand(1200, 1200, 1200)
	case "aluminium":
		return massBand(2700, 2700, 2700)
	case "steel":
		return massBand(7850, 7850, 7850)
	}
	return massBand(1000, 1100, 1400) // the plastics of rims
}

// frames weighs rims and braces.
func (b *weigher) frames() {
	size := b.at.Outside.Size()
	for i := range b.e.Design.Enclosure.Rims {
		r := &b.e.Design.Enclosure.Rims[i]
		c := point(b.at.Outside.Centre())
		round := 2 * (size.X + size.Z)
		switch r.At.Value {
		case "top":
			c.Z, round = b.at.Outside.Max.Z, 2*(size.X+size.Y)
		case "bottom":
			c.Z, round = b.at.Outside.Min.Z, 2*(size.X+size.Y)
		case "front":
			c.Y = b.at.Outside.Max.Y
		case "back":
			c.Y = b.at.Outside.Min.Y
		}
		volume := round * float64(r.Wall.Value) * float64(r.Flat.Value+r.Over.Value)
		b.frame(r.At.Value+" rim", volume, r.Of.Value, c, r.Pos.Line)
	}
	for i := range b.e.Design.Enclosure.Braces {
		s := &b.e.Design.Enclosure.Braces[i]
		p, ok := b.at.Find(layout.KindBrace, s.Name.Value)
		if !ok {
			b.Left = append(b.Left, "the brace "+s.Name.Value)
			continue
		}
		box := p.Solid.Bounds()
		b.frame(s.Name.Value, box.Volume(), s.Of.Value, point(box.Centre()), s.Pos.Line)
	}
}

func (b *weigher) frame(name string, volume float64, of string, at structure.Point, line int) {
	density := b.doubt(WeightDoubt{What: "density of the " + of + " of rims and braces", Band: stuff(of), Unit: PerVolume, Why: "from memory", Settle: "weigh a piece", Line: line})
	b.add(Bare, func(v sides, _ Stage) Load {
		return Load{Kind: FrameLoad, Name: name, Mass: volume * v.of(density), Centre: at, Line: line}
	})
}

// BeforePanel is how far before a grid panel the centre of what hangs on it is
// taken to lie, m: assumed, no source.
const BeforePanel = 0.03

// wall weighs each grid panel with what hangs on it; without panels, the wall.
func (b *weigher) wall() {
	upright := false
	for i := range b.e.Design.Grid {
		g := &b.e.Design.Grid[i]
		upright = upright || g.At.Value != "floor"
		place, area := b.place(layout.KindGrid, g.Name.Value), float64(g.Across.Value)*float64(g.Up.Value)*float64(g.Pitch.Value)*float64(g.Pitch.Value)
		at := before(place, g.At.Value, BeforePanel)
		switch {
		case g.Mass.Given():
			b.fixed(Drained, Load{Kind: WallLoad, Name: g.Name.Value, Mass: float64(g.Mass.Value), Centre: at, Line: g.Mass.Pos.Line, On: g.Name.Value})
		case g.At.Value == "floor":
			b.areal(g.Name.Value, area, b.bareGrid(), place, g.Pos.Line)
		default:
			b.areal(g.Name.Value, area, b.wetWall(), at, g.Pos.Line)
			b.assume(fmt.Sprintf("what hangs on the %s, by its area: grid[%s].weight would say it", g.Name.Value, g.Name.Value))
		}
	}
	for i := range b.at.GridBraces {
		s := &b.at.GridBraces[i]
		// Its middle plane, from end to end: what a bevel takes off one side it leaves on the other.
		area := s.Solid.Volume() / s.Thick
		bare, at := b.bareGrid(), point(s.Solid.Centre())
		b.add(Drained, func(v sides, _ Stage) Load {
			return Load{Kind: WallLoad, Name: "brace " + s.Name, Mass: area * v.of(bare), Centre: at, Line: s.Line}
		})
	}
	wall := &b.e.Wall
	if area := wall.Width * wall.Height; !upright && area > 0 {
		at := point(b.at.Inside.Centre())
		at.Y = BeforePanel
		b.areal("planted wall", area, b.wetWall(), at, wall.Pos.Line)
		b.assume("the planted wall by its area, at the back: list its grid panels with their weight")
	}
}

func (b *weigher) areal(name string, area float64, doubt int, at structure.Point, line int) {
	b.add(Drained, func(v sides, _ Stage) Load {
		return Load{Kind: WallLoad, Name: name, Mass: area * v.of(doubt), Centre: at, Line: line, On: name}
	})
}

func (b *weigher) wetWall() int {
	return b.doubt(WeightDoubt{What: "weight of the wet planted wall", Band: massBand(10, 20, 35), Unit: PerArea, Why: "assumed, no source", Settle: "weigh a wet piece of it"})
}

func (b *weigher) bareGrid() int {
	// Sheets of 2 by 4 ft weigh 2 to 4 lb.
	return b.doubt(WeightDoubt{What: "weight of bare grid", Band: massBand(1.2, 1.8, 2.5), Unit: PerArea, Why: "from memory", Settle: "weigh a sheet"})
}

// fixtures weighs lamps, and the water in hose and pipe up to the manifolds.
func (b *weigher) fixtures() {
	for i := range b.e.Design.Lights {
		l := &b.e.Design.Lights[i]
		each := b.doubt(WeightDoubt{What: "weight of each lamp", Band: massBand(0.5, 1.5, 4), Unit: Kilograms, Why: "assumed, no source", Settle: "weigh one"})
		at := b.place(layout.KindLamp, l.Name.Value)
		b.add(Drained, func(v sides, _ Stage) Load {
			return Load{Kind: LampLoad, Name: l.Name.Value, Mass: v.of(each), Centre: at, Line: l.Pos.Line}
		})
	}
	volume, high := 0.0, b.e.Pool.DamTop
	for i := range b.e.Runs {
		for k := range b.e.Runs[i].Pieces {
			p := &b.e.Runs[i].Pieces[k]
			volume += math.Pi / 4 * p.Bore.Value * p.Bore.Value * p.Length * float64(max(1, p.Count))
		}
	}
	for i := range b.e.Manifolds {
		m := &b.e.Manifolds[i]
		volume += math.Pi / 4 * m.Bore.Value * m.Bore.Value * (m.Length + m.Ring)
		high = math.Max(high, m.Height)
	}
	at := point(b.at.Outside.Centre())
	at.Y = b.at.Outside.Min.Y
	at.Z = b.at.Z((high + b.st.SumpLevel) / 2)
	b.fixed(Running, Load{Kind: PipeLoad, Name: "water in hose and pipe", Mass: volume * b.st.Density, Centre: at})
}
