package answers

import (
	"math"
	"slices"
	"strings"

	"rillwright/geom"
	"rillwright/layout"
)

// touch is by how much things may overlap as drawn and still pass each other, m: half
// a millimetre, about what a tape tells.
const touch = 0.0005

// Sizes that things are taken to have where the file gives none, m; assumed, no
// source.
const (
	lampThick = 0.03 // of a lamp that hangs inside
	lampWide  = 0.04
	boardWall = 0.005 // of a sump
	topBoard  = 0.018 // of a stand
)

// Densities, kg/m3, of wood that has lain wet and of stone: from memory.
const (
	wetWood = 1100.0
	stone   = 2700.0
)

// stage is when a thing comes to be in the way, by the rule of the step.
type stage string

// The stages, in the order in which they come.
const (
	byPanes  stage = "bond"
	byDam    stage = "dam"
	byGrid   stage = "bond-grid"
	byPipes  stage = "plumb-dry"
	byFoam   stage = "foam"
	byPieces stage = "" // wood and rock: no step of its own
)

// obstacle is something solid that stays where it is when another is taken out.
type obstacle struct {
	what  string // with its article
	line  int
	boxes []geom.Box
	at    stage
	part  *layout.Part // nil for foam
	door  bool         // a door in its tracks, which can be lifted out
}

// obstacles lists what is solid, with doors slid to the left or to the right. Doors
// that turn or lift out are open, and so is a pane that the file says opens.
func (s *Survey) obstacles(l *layout.Layout, slid int) []obstacle {
	var out []obstacle
	add := func(p *layout.Part, what string, at stage, boxes ...geom.Box) {
		out = append(out, obstacle{what: what, line: p.Line, boxes: boxes, at: at, part: p})
	}
	var doors []obstacle
	for i := range l.Panes {
		q := &l.Panes[i]
		pane := &s.E.Design.Enclosure.Panes[q.Index]
		p := &l.Parts[q.Part]
		switch slides := pane.Opens.Value == "slides" || !pane.Opens.Given() && pane.Count.Value > 1; {
		case q.At == "door" && slides:
			doors = append(doors, obstacle{what: thing(p), line: p.Line, boxes: []geom.Box{q.Box}, at: byPieces, part: p, door: true})
		case q.At == "door", q.At != "dam" && pane.Opens.Given():
		case q.At == "dam":
			add(p, thing(p), byDam, q.Box)
		default:
			add(p, thing(p), byPanes, q.Box)
		}
	}
	out = append(out, slide(doors, slid)...)
	for i := range l.Parts {
		p := &l.Parts[i]
		switch p.Kind {
		case layout.KindDam:
			if !slices.ContainsFunc(out, func(o obstacle) bool { return o.part == p }) {
				add(p, thing(p), byDam, p.Solid.Bounds())
			}
		case layout.KindRim, layout.KindBrace:
			add(p, thing(p), byPanes, p.Solid.Bounds())
		case layout.KindFlange, layout.KindNut, layout.KindElbow, layout.KindStandpipe, layout.KindStrainer, layout.KindManifold, layout.KindTail, layout.KindDrainPipe:
			add(p, thing(p), byPipes, boxesOf(p.Solid)...)
		}
	}
	for i := range l.Grids {
		g := &l.Grids[i]
		add(&l.Parts[g.Part], "the "+g.Name, byGrid, g.Bars()...)
	}
	for i := range l.GridBraces {
		b := &l.GridBraces[i]
		add(&l.Parts[b.Part], thing(&l.Parts[b.Part]), byGrid, sliced(b.Solid)...)
	}
	out = append(out, s.foamed(l)...)
	return append(out, s.hung(l)...)
}

// settled reports whether the file gives a part's place and size but for what hardly
// moves it.
func settled(p *layout.Part) bool {
	for _, a := range p.Assumed {
		if a != layout.Middle && a != layout.OnLine {
			return false
		}
	}
	return true
}

// slide pushes all doors to one side, as far as one of them stands; -1 to the left.
func slide(doors []obstacle, side int) []obstacle {
	if len(doors) < 2 {
		return doors
	}
	lo, hi := math.Inf(1), math.Inf(-1)
	for i := range doors {
		lo, hi = min(lo, doors[i].boxes[0].Min.X), max(hi, doors[i].boxes[0].Max.X)
	}
	for i := range doors {
		b := doors[i].boxes[0]
		by := lo - b.Min.X
		if side > 0 {
			by = hi - b.Max.X
		}
		doors[i].boxes = []geom.Box{b.Moved(geom.Vec{X: by})}
	}
	return doors
}

// boxesOf returns the boxes round a solid: of a path one for each straight piece.
func boxesOf(s geom.Solid) []geom.Box {
	p, ok := s.(geom.Path)
	if !ok || len(p.Points) < 2 {
		return []geom.Box{s.Bounds()}
	}
	var out []geom.Box
	for i := 1; i < len(p.Points); i++ {
		out = append(out, geom.BoxOf(p.Points[i-1], p.Points[i]).Grown(p.Radius))
	}
	return out
}

// foamed places each body of foam that has sizes before the panel at the back that is
// most like it, with the notches of that left open, as they are when it is masked.
func (s *Survey) foamed(l *layout.Layout) []obstacle {
	var out []obstacle
	for i := range s.E.Design.Foam {
		f := &s.E.Design.Foam[i]
		w, h, thick := float64(f.Width.Value), float64(f.Height.Value), float64(f.Thickness.Value)
		if thick == 0 {
			continue
		}
		var on *layout.Grid
		off := math.Inf(1)
		for k := range l.Grids {
			g := &l.Grids[k]
			size := g.Box.Size()
			wide := size.X
			if g.Face == geom.X {
				wide = size.Y
			}
			if d := math.Abs(wide-w) + math.Abs(size.Z-h); g.Face != geom.Z && d < off {
				on, off = g, d
			}
		}
		if on == nil {
			continue
		}
		body := on.Box
		for _, a := range []geom.Axis{geom.X, geom.Y, geom.Z} {
			want := w
			if a == geom.Z {
				want = h
			}
			if a == on.Face {
				continue
			}
			mid, half := body.Centre().On(a), min(want, body.Size().On(a))/2
			body.Min, body.Max = body.Min.With(a, mid-half), body.Max.With(a, mid+half)
		}
		o := obstacle{what: "the " + f.Name.Value, line: f.Pos.Line, at: byFoam}
		for _, b := range on.Bars() {
			m, ok := b.Meet(body)
			if !ok {
				continue
			}
			if on.Out > 0 {
				m.Min, m.Max = m.Min.With(on.Face, m.Max.On(on.Face)), m.Max.With(on.Face, m.Max.On(on.Face)+thick)
			} else {
				m.Min, m.Max = m.Min.With(on.Face, m.Min.On(on.Face)-thick), m.Max.With(on.Face, m.Min.On(on.Face))
			}
			o.boxes = append(o.boxes, m)
		}
		out = append(out, o)
	}
	return out
}

// hung are pieces of wood and rock on a panel, as cubes of their weight. What stands
// in the pool is lifted out first.
func (s *Survey) hung(l *layout.Layout) []obstacle {
	var out []obstacle
	for i := range s.E.Design.Hardscape {
		h := &s.E.Design.Hardscape[i]
		p, ok := l.Find(layout.KindHardscape, h.Name.Value)
		if !ok || h.On.Value == "pool" {
			continue
		}
		density := wetWood
		for _, word := range []string{"stone", "rock", "slate", "granite", "boulder"} {
			if strings.Contains(strings.ToLower(h.Name.Value), word) {
				density = stone
			}
		}
		half := math.Cbrt(float64(h.Mass.Value)/density) / 2
		out = append(out, obstacle{what: "the " + p.Name, line: p.Line, boxes: []geom.Box{p.Solid.Bounds().Grown(half)}, at: byPieces, part: p})
	}
	return out
}

// served is something that must come out some day.
type served struct {
	name string // without article
	line int
	box  geom.Box
	tool string
	keep bool // it needs service now and then; else only when it fails
	sure bool // its place and size are the file's
	mine func(o *obstacle) bool
	// first is what is taken off it before.
	first string
}

// servedParts lists what the file places inside and will need service.
func (s *Survey) servedParts(l *layout.Layout) []served {
	var out []served
	for i := range l.Parts {
		p := &l.Parts[i]
		v := served{name: strings.TrimPrefix(thing(p), "the "), line: p.Line, box: p.Solid.Bounds(), sure: settled(p), keep: true}
		// Its own fittings come apart with it.
		drain := func(o *obstacle) bool {
			return o.part != nil && o.part.Name == p.Name && (ofDrain(o.part.Kind) || o.part.Kind == layout.KindDrainPipe)
		}
		_, strained := l.Find(layout.KindStrainer, p.Name)
		_, stands := l.Find(layout.KindStandpipe, p.Name)
		switch p.Kind {
		case layout.KindStrainer:
			v.tool, v.mine = "by hand", drain
		case layout.KindStandpipe:
			v.tool, v.mine = "by hand, with a turn", drain
			if strained {
				v.first = "its strainer"
			}
		case layout.KindFlange:
			v.name, v.keep = "bulkhead of the "+p.Name, false
			v.tool, v.mine = "a spanner on the nut outside", drain
			if stands {
				v.first = "its standpipe"
			}
		case layout.KindManifold:
			v.tool = "its clips by hand, its hose off the barb"
			v.mine = func(o *obstacle) bool {
				return o.part == p || o.part != nil && o.part.Kind == layout.KindTail
			}
		default:
			continue
		}
		out = append(out, v)
	}
	return append(out, s.lampsInside(l)...)
}

// lampsInside are lamps that hang inside, by the sizes that the file gives.
func (s *Survey) lampsInside(l *layout.Layout) []served {
	var out []served
	for i := range s.E.Design.Lights {
		d := &s.E.Design.Lights[i]
		if d.Sits.Value != "inside" || !d.Up.Given() {
			continue
		}
		in := l.Inside
		long, wide := float64(d.Length.Value), float64(d.Width.Value)
		if long == 0 {
			long = in.Size().X / 2
		}
		wide = max(wide, lampWide)
		at := geom.Vec{X: (in.Size().X - long) / 2, Y: in.Centre().Y, Z: float64(d.Up.Value)}
		if d.Left.Given() {
			at.X = float64(d.Left.Value)
		}
		if d.Out.Given() {
			at.Y = float64(d.Out.Value)
		}
		b := geom.Box{Min: at.Sub(geom.Vec{Y: wide / 2}), Max: at.Add(geom.Vec{X: long, Y: wide / 2, Z: lampThick})}
		out = append(out, served{
			name: d.Name.Value, line: d.Pos.Line, box: b, tool: "its plug first, then its clips", keep: true, sure: d.Length.Given() && d.Out.Given(),
			mine: func(*obstacle) bool { return false },
		})
	}
	return out
}
