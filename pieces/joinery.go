package pieces

import (
	"math"

	"rillwright/geom"
	"rillwright/layout"
)

// side is a side of the box, in the order of sideNames.
type side int

var sideNames = [6]string{"left", "right", "back", "front", "bottom", "top"}

func sideOf(at string) (side, bool) {
	for i, n := range sideNames {
		if n == at {
			return side(i), true
		}
	}
	return 0, false
}

func (f side) axis() geom.Axis { return geom.Axis(f / 2) }

// along returns the axes of a pane's width and height.
func (f side) along() [2]geom.Axis {
	switch f.axis() {
	case geom.X:
		return [2]geom.Axis{geom.Y, geom.Z}
	case geom.Y:
		return [2]geom.Axis{geom.X, geom.Z}
	}
	return [2]geom.Axis{geom.X, geom.Y}
}

// box is the glass box as its pieces have to fit: outside and inside sizes, and how
// thick each side is.
type box struct {
	out, in [3]float64
	has     [6]bool
	thick   [6]float64
	size    [6][2]float64 // typed width and height
	gap     [3]float64    // thinnest, likely and thickest bond line
}

// partial is by how much a pane falls short of every way to join it when it does not
// reach from side to side at all: a strip, a pane below a door.
const partial = 0.03

// corner is one edge of the box, where two sides meet.
type corner struct{ a, b side }

// corners are the twelve edges of a box; where nothing tells them apart, a runs
// through: the floor pane under all others, the back over the sides, the top last.
func corners() []corner {
	return []corner{
		{4, 2},
		{4, 0},
		{4, 1},
		{4, 3},
		{2, 0},
		{2, 1},
		{3, 0},
		{3, 1},
		{2, 5},
		{0, 5},
		{1, 5},
		{3, 5},
	}
}

// joinery says at each edge of the box which side runs through: under[f][g] is set
// if side f ends at the inner face of side g.
type joinery struct{ under [6][6]bool }

// infer returns the way to join the box that comes nearest to the typed sizes. All
// ways are compared: which pane covers which edge is not in the file, but a builder
// who has worked the sizes out has decided it.
func (b *box) infer() joinery {
	var open []corner
	var base joinery
	for _, c := range corners() {
		if b.has[c.a] && b.has[c.b] {
			open = append(open, c)
		}
	}
	// A size that no way reaches is that of a pane which does not go from side to side.
	var loose [6][2]bool
	for f := range b.has {
		for k, a := range side(f).along() {
			lo, hi := 2*a, 2*a+1
			least := b.out[a] - b.thick[lo] - b.thick[hi] - 2*b.gap[2]
			loose[f][k] = !b.has[f] || b.size[f][k] < least-partial
		}
	}
	best, least := base, math.Inf(1)
	for bits := range 1 << len(open) {
		j := base
		for i, c := range open {
			if bits>>i&1 == 0 {
				j.under[c.b][c.a] = true
			} else {
				j.under[c.a][c.b] = true
			}
		}
		sum := 0.0
		for f := range b.has {
			for k := range 2 {
				if !loose[f][k] {
					lo, _, hi := b.span(&j, side(f), k)
					sum += math.Max(0, math.Max(lo-b.size[f][k], b.size[f][k]-hi))
				}
			}
		}
		if sum < least-1e-9 {
			best, least = j, sum
		}
	}
	return best
}

// ends tells how many ends of a side's width (k 0) or height (1) butt onto another
// pane, and which.
func (b *box) ends(j *joinery, f side, k int) (butts []side) {
	a := f.along()[k]
	for _, g := range []side{side(2 * a), side(2*a + 1)} {
		if b.has[g] && j.under[f][g] {
			butts = append(butts, g)
		}
	}
	return butts
}

// span returns the least, exact and greatest size. A side that butts at one end may
// leave that gap out: its other end then stands that much farther out.
func (b *box) span(j *joinery, f side, k int) (lo, exact, hi float64) {
	a := f.along()[k]
	switch butts := b.ends(j, f, k); len(butts) {
	case 0:
		return b.out[a], b.out[a], b.out[a]
	case 1:
		v := b.out[a] - b.thick[butts[0]]
		return v - b.gap[2], v - b.gap[1], v
	}
	v := b.in[a]
	return v - 2*b.gap[2], v - 2*b.gap[1], v - 2*b.gap[0]
}

// boxOf reads the box out of a layout.
func boxOf(l *layout.Layout, gap [3]float64) *box {
	b := &box{gap: gap}
	for a := range 3 {
		b.out[a] = l.Outside.Max.On(geom.Axis(a)) - l.Outside.Min.On(geom.Axis(a))
		b.in[a] = l.Inside.Max.On(geom.Axis(a)) - l.Inside.Min.On(geom.Axis(a))
	}
	for i := range l.Panes {
		p := &l.Panes[i]
		f, ok := sideOf(p.At)
		if !ok || b.has[f] {
			continue
		}
		b.has[f], b.thick[f], b.size[f] = true, p.Thick, [2]float64{p.Width, p.Height}
	}
	return b
}
