package layout

import (
	"fmt"
	"math"
	"slices"

	"rillwright/design"
	"rillwright/geom"
)

// What a slot for a brace leaves; m.
const (
	// SlotWall is how thick a wall of grid is at most: 1 to 2 mm, from memory.
	SlotWall = 0.002
	// SlotClear is left between a brace and the walls beside its slot, each side:
	// assumed, no source.
	SlotClear = 0.0005
)

// GridBrace is a strip of grid that goes through a slot in a panel and leans on a
// pane, the dam or another panel.
type GridBrace struct {
	Name  string
	Field string // grid[wall grid].braces[strut]
	Line  int
	Grid  int // whose, in Layout.Grids
	Index int // in the design's list of that panel
	Part  int // in Layout.Parts
	Solid geom.Prism
	// To is the part that it leans on, in Layout.Parts; ToGrid its place in
	// Layout.Grids, -1 if it is no panel.
	To, ToGrid int
	Wide       int // cells
	// Width is across the strip, Thick through it, Length from one end to the other
	// along its longer side; m.
	Width, Thick, Length float64
	Leans                string // left, right, rear, front, down or up
	// Angle is from straight out of the panel, rad; Bevels are by how much its ends,
	// that in its panel and the other, are cut off square, through its thickness.
	Angle  float64
	Bevels [2]float64
	// Bond is where it meets glass: as wide as the strip, and so high, m; 0 on a panel.
	Bond float64
	// Misses is how far its end stands out beyond what it is to meet, m; 0 or less if
	// all of it meets.
	Misses float64
}

// Slot is where a brace goes through a panel.
type Slot struct {
	Brace int // in Layout.GridBraces
	Lo    Cell
	Hi    Cell // the last cell in it
	Box   geom.Box
}

// Cells returns how many cells the slot is across and up.
func (s *Slot) Cells() (across, up int) {
	return s.Hi.Column - s.Lo.Column + 1, s.Hi.Row - s.Lo.Row + 1
}

// gridBraces places the braces of every panel that has a place.
func (l *Layout) gridBraces() {
	list := l.e.Design.Grid
	for i := range list {
		at := slices.IndexFunc(l.Grids, func(g Grid) bool { return g.Index == i })
		for k := range list[i].Braces {
			if b := &list[i].Braces[k]; at < 0 {
				l.left(b.Name.Value, braceField(list[i].Name.Value, b), b.Pos.Line, "its panel has no place")
			} else {
				l.gridBrace(at, k, b)
			}
		}
	}
}

func braceField(panel string, b *design.GridBrace) string {
	return "grid[" + panel + "].braces[" + b.Name.Value + "]"
}

// bracing is a brace on its way: along out it leaves the panel, along lean it leans,
// and its width lies along the third axis.
type bracing struct {
	g               *Grid
	b               *design.GridBrace
	out, lean, wide geom.Axis
	outward, way    float64 // +1 or -1 along out and lean
	thick           float64
	near            float64 // from the middle of the panel's depth, or of the slot, to the target's near face; m, above 0
	faces           bool    // the target faces the panel
	slotted         bool    // the target is a panel
	target          geom.Box
}

func (l *Layout) gridBrace(grid, index int, b *design.GridBrace) {
	g := &l.Grids[grid]
	field := braceField(g.Name, b)
	miss := func(say string) { l.left(b.Name.Value, field, b.Pos.Line, say) }
	w := bracing{g: g, b: b, out: g.Face, thick: g.Box.Size().On(g.Face)}
	to, toGrid, say := l.meets(&w, b)
	if say != "" {
		if say == "leans" {
			say = field + ".leans"
		}
		miss(say)
		return
	}
	prism, slot, angle, say := w.lay()
	if say != "" {
		miss(say)
		return
	}
	p := GridBrace{
		Name: b.Name.Value, Field: field, Line: b.Pos.Line, Grid: grid, Index: index, Part: len(l.Parts), Solid: prism, To: to, ToGrid: toGrid,
		Wide: b.Wide.Value, Width: w.width(), Thick: w.thick, Angle: angle, Bevels: [2]float64{angle, angle},
	}
	if !w.faces {
		p.Bevels[1] = math.Pi/2 - angle
	}
	for word, to := range leanWays {
		if to.axis == w.lean && to.way == w.way {
			p.Leans = word
		}
	}
	p.Length = w.long(prism, angle)
	if toGrid < 0 {
		p.Bond = w.thick / math.Cos(p.Bevels[1])
	}
	p.Misses = w.misses(prism)
	slot.Brace = len(l.GridBraces)
	g.Slots = append(g.Slots, slot)
	if toGrid >= 0 {
		other := &l.Grids[toGrid]
		if cells, _ := other.Near(prism, SlotWall/2+SlotClear); len(cells) > 0 {
			other.Slots = append(other.Slots, other.slotOf(slot.Brace, cells))
		}
	}
	l.GridBraces = append(l.GridBraces, p)
	l.add(Part{Kind: KindGridBrace, Name: p.Name, Field: field, Line: p.Line, Solid: prism, Assumed: l.Parts[g.Part].Assumed})
}

// slotOf is the slot that takes in some cells.
func (g *Grid) slotOf(brace int, cells []Cell) Slot {
	s := Slot{Brace: brace, Lo: cells[0], Hi: cells[0]}
	for _, c := range cells {
		s.Lo.Column, s.Lo.Row = min(s.Lo.Column, c.Column), min(s.Lo.Row, c.Row)
		s.Hi.Column, s.Hi.Row = max(s.Hi.Column, c.Column), max(s.Hi.Row, c.Row)
	}
	s.Box = g.CellBox(s.Lo).Union(g.CellBox(s.Hi))
	return s
}

// width is that of the strip: its cells and a wall more.
func (w *bracing) width() float64 { return float64(w.b.Wide.Value)*w.g.Pitch + SlotWall }

// leanWays are the words for a way along the axes.
var leanWays = map[string]struct {
	axis geom.Axis
	way  float64
}{
	"left": {geom.X, -1}, "right": {geom.X, 1}, "rear": {geom.Y, -1}, "front": {geom.Y, 1}, "down": {geom.Z, -1}, "up": {geom.Z, 1},
}

// meets finds what a brace meets, and which way it leans to meet it. say tells why
// there is none; "leans" that the way must be told.
func (l *Layout) meets(w *bracing, b *design.GridBrace) (to, toGrid int, say string) {
	type found struct {
		box    geom.Box
		part   int
		across geom.Axis
	}
	var list []found
	toGrid = -1
	for i := range l.Grids {
		if g := &l.Grids[i]; g.Name == b.To.Value {
			list, toGrid = append(list, found{g.Box, g.Part, g.Face}), i
		}
	}
	w.slotted = toGrid >= 0
	opens := false
	for i := range l.Panes {
		p := &l.Panes[i]
		if w.slotted || p.Name != b.To.Value && (b.To.Value != "dam" || p.At != "dam") {
			continue
		}
		if opens = p.At == "door" || l.e.Design.Enclosure.Panes[p.Index].Opens.Given(); !opens {
			list = append(list, found{p.Box, p.Part, p.Across()})
		}
	}
	if len(list) == 0 && b.To.Value == "dam" && l.HasDam {
		if i := l.partOf(KindDam); i >= 0 {
			list = append(list, found{l.Dam, i, geom.Y})
		}
	}
	switch {
	case opens:
		return 0, -1, "the " + b.To.Value + " opens, so nothing can lean on it"
	case len(list) == 0:
		return 0, -1, "the " + b.To.Value + " that it leans on has no place"
	}
	lean, told := leanWays[b.Leans.Value]
	say = "the " + b.To.Value + " does not lie that way: leans: " + b.Leans.Value
	if !told {
		say = "leans"
	}
	fits := 0
	for _, f := range list {
		v := *w
		if !v.aim(f.box, f.across, lean.axis, lean.way, told) {
			continue
		}
		fits++
		*w, to = v, f.part
	}
	switch fits {
	case 1:
		return to, toGrid, ""
	case 0:
		return 0, -1, say
	}
	return 0, -1, "leans" // one of a pair
}

func (l *Layout) partOf(k Kind) int {
	for i := range l.Parts {
		if l.Parts[i].Kind == k {
			return i
		}
	}
	return -1
}

// aim sets the axes to a target; false if the brace does not lead there, or if it is
// not told which way it leans.
func (w *bracing) aim(target geom.Box, across, lean geom.Axis, way float64, told bool) bool {
	w.target, w.faces = target, across == w.out
	mid := w.g.Box.Centre()
	if w.faces {
		if !told {
			return false
		}
		w.lean, w.way = lean, way
		w.outward = 1.0
		w.near = target.Min.On(w.out) - mid.On(w.out)
		if behind := mid.On(w.out) - target.Max.On(w.out); behind > w.near {
			w.outward, w.near = -1, behind
		}
		w.wide = 3 - w.out - w.lean
		return w.near > 0
	}
	w.lean, w.outward = across, w.g.Out
	w.wide = 3 - w.out - w.lean
	w.way = 1
	if target.Centre().On(w.lean) < w.slotFrom() {
		w.way = -1
	}
	return !told || lean == w.lean && way == w.way
}

// slotFrom is where the slot begins along the lean, m.
func (w *bracing) slotFrom() float64 {
	cells := w.b.Left.Value
	if _, rows := w.g.along(); rows == w.lean {
		cells = w.b.Bottom.Value
	}
	return w.g.Box.Min.On(w.lean) + float64(cells)*w.g.Pitch
}

// lay finds the slot, in whole cells, and the strip through its middle. The slot is as
// many cells along the lean as the strip takes through the panel's depth, with what it
// must be clear of; how it leans may depend on where its middle then is.
func (w *bracing) lay() (p geom.Prism, s Slot, angle float64, say string) {
	g := w.g
	depth := w.thick
	columns, rows := g.along()
	for k := 1; k <= max(g.Across, g.Up); k++ {
		middle := w.slotFrom() + float64(k)/2*g.Pitch
		reach := w.near
		if !w.faces {
			reach = w.target.Min.On(w.lean) - middle
			if w.way < 0 {
				reach = middle - w.target.Max.On(w.lean)
			}
			if reach <= 0 {
				return p, s, 0, "its slot lies beyond what it is to meet"
			}
		}
		if angle, say = w.angle(reach, depth); say != "" {
			return p, s, 0, say
		}
		// What it keeps clear of the walls counts square to it: more along a steep lean.
		half := (w.thick/2+SlotWall/2+SlotClear)/math.Cos(angle) + depth/2*math.Tan(angle)
		if float64(k)*g.Pitch < 2*half-1e-9 {
			continue
		}
		s.Lo = Cell{w.b.Left.Value, w.b.Bottom.Value}
		s.Hi = Cell{s.Lo.Column + w.b.Wide.Value, s.Lo.Row + w.b.Wide.Value}
		if rows == w.lean {
			s.Hi.Row = s.Lo.Row + k - 1
		}
		if columns == w.lean {
			s.Hi.Column = s.Lo.Column + k - 1
		}
		if s.Hi.Column >= g.Across || s.Hi.Row >= g.Up {
			break
		}
		s.Box = g.CellBox(s.Lo).Union(g.CellBox(s.Hi))
		if p, say = w.prism(s.Box.Centre(), reach, angle); say != "" {
			return p, s, 0, say
		}
		return p, s, angle, ""
	}
	return p, s, 0, "its slot reaches beyond the panel: fewer cells before it, or a smaller angle"
}

// steepest is how far a brace may lean from straight out of its panel: 75 deg. Beyond it
// the slot takes more of the panel than the brace holds; assumed, no source.
const steepest = 75 * math.Pi / 180

// leastLean is the least that a brace leans that is to meet something beside its panel: no
// bevel is set out finer, and less would meet it far outside; assumed, no source.
const leastLean = 1 * math.Pi / 180

// angle returns how far the brace leans, rad: the file's, or what leads to its other
// end.
func (w *bracing) angle(reach, depth float64) (a float64, say string) {
	end := float64(w.b.End.Value)
	switch {
	case w.b.Angle.Given():
		a = float64(w.b.Angle.Value)
	case w.faces:
		a = math.Atan2(end, reach)
	default:
		a = math.Atan2(reach, depth/2+end)
	}
	switch {
	case a > steepest+1e-9:
		return a, fmt.Sprintf("it would lean by %.0f deg from straight out of the panel, and 75 deg is the most that a slot bears: its end nearer, or its slot", a*180/math.Pi)
	case !w.faces && a < 1e-9:
		return a, "straight out of the panel it never meets the " + w.b.To.Value + ": write the angle it leans by"
	case !w.faces && a < leastLean:
		return a, "leaning by less than 1 deg it does not meet the " + w.b.To.Value + " within reach: lean it more, or write where its end is"
	}
	return a, ""
}

// prism is the strip from the far face of its panel to the target: to the near face
// of glass, to the far face of a panel.
func (w *bracing) prism(middle geom.Vec, reach, angle float64) (p geom.Prism, say string) {
	half, slope := w.thick/2/math.Cos(angle), math.Tan(angle)
	far := reach
	if w.slotted {
		far += w.target.Size().On(w.targetAxis())
	}
	begin := -w.thick / 2
	// Along out and lean from the slot's middle; the two sides of the strip.
	var corner [4][2]float64
	for i, side := range []float64{-half, half} {
		n, r := far, far*slope+side
		if !w.faces {
			n, r = (far-side)/slope, far
		}
		if !w.faces && (reach-half)/slope <= w.thick/2 {
			return p, "it meets the " + w.b.To.Value + " within its own panel: a smaller angle, or its slot further off"
		}
		corner[i] = [2]float64{begin, begin*slope + side}
		corner[3-i] = [2]float64{n, r}
	}
	p.Along, p.Length = w.wide, w.width()
	for _, c := range corner {
		v := middle.With(w.out, middle.On(w.out)+w.outward*c[0]).With(w.lean, middle.On(w.lean)+w.way*c[1])
		p.Base = append(p.Base, v.With(w.wide, middle.On(w.wide)-w.width()/2))
	}
	return p, ""
}

// targetAxis is the axis that the target's depth lies along.
func (w *bracing) targetAxis() geom.Axis {
	if w.faces {
		return w.out
	}
	return w.lean
}

// long is the strip's length from end to end, bevels and all, m.
func (w *bracing) long(p geom.Prism, angle float64) float64 {
	d := geom.Vec{}.With(w.out, w.outward*math.Cos(angle)).With(w.lean, w.way*math.Sin(angle))
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, v := range p.Base {
		x := v.Dot(d)
		lo, hi = math.Min(lo, x), math.Max(hi, x)
	}
	return hi - lo
}

// misses is how far the strip's end stands out beyond the face that it meets, m.
func (w *bracing) misses(p geom.Prism) float64 {
	end := p
	end.Base = p.Base[2:]
	b, worst := end.Bounds(), math.Inf(-1)
	for _, a := range []geom.Axis{geom.X, geom.Y, geom.Z} {
		if a != w.targetAxis() {
			worst = math.Max(worst, math.Max(w.target.Min.On(a)-b.Min.On(a), b.Max.On(a)-w.target.Max.On(a)))
		}
	}
	return worst
}
