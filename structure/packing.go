package structure

import "math"

// disc is a round thing in its place, from the opening's centre.
type disc struct{ x, y, r float64 }

// packing searches places for round things in an opening.
type packing struct {
	o    Opening
	at   []disc
	left int // nodes of the search that may still be looked at
}

// touching is how far things may overlap by rounding, as a share of the opening.
const touching = 1e-9

// place puts the things, diameters in order, and reports whether it could.
func (p *packing) place(d []float64) bool {
	if len(d) == 0 {
		return true
	}
	for _, c := range p.candidates(d[0] / 2) {
		p.left--
		if p.left < 0 {
			return false
		}
		if !p.free(c) {
			continue
		}
		p.at = append(p.at, c)
		if p.place(d[1:]) {
			return true
		}
		p.at = p.at[:len(p.at)-1]
	}
	return false
}

// free reports whether a thing lies in the opening and on no other thing.
func (p *packing) free(c disc) bool {
	slack := touching * max(p.o.Width, p.o.Height)
	if !p.o.holds(c, slack) {
		return false
	}
	for _, q := range p.at {
		if math.Hypot(c.x-q.x, c.y-q.y) < c.r+q.r-slack {
			return false
		}
	}
	return true
}

// holds reports whether a round thing lies within the opening.
func (o Opening) holds(c disc, slack float64) bool {
	w, h := o.Width/2, o.Height/2
	x, y := math.Abs(c.x), math.Abs(c.y)
	if x+c.r > w+slack || y+c.r > h+slack {
		return false
	}
	dx, dy := x-(w-o.Corner), y-(h-o.Corner)
	return dx <= 0 || dy <= 0 || math.Hypot(dx, dy)+c.r <= o.Corner+slack
}

// candidates are the places in which a thing touches two of walls and things.
func (p *packing) candidates(r float64) []disc {
	w, h, k := p.o.Width/2-r, p.o.Height/2-r, p.o.Corner-r
	var lines [][3]float64 // its centre lies on a x + b y = c
	var rings []disc       // its centre lies on a circle
	if !p.o.round() {
		lines = [][3]float64{{1, 0, -w}, {0, 1, -h}, {1, 0, w}, {0, 1, h}}
	}
	if k > 0 {
		x, y := p.o.Width/2-p.o.Corner, p.o.Height/2-p.o.Corner
		for _, c := range [][2]float64{{-x, -y}, {x, -y}, {-x, y}, {x, y}} {
			rings = append(rings, disc{c[0], c[1], k})
			if p.o.round() {
				break
			}
		}
	}
	for _, q := range p.at {
		rings = append(rings, disc{q.x, q.y, q.r + r})
	}
	var out []disc
	add := func(x, y float64) { out = append(out, disc{x, y, r}) }
	if len(p.at) == 0 && p.o.round() { // all places at the wall are alike
		add(-max(k, 0), 0)
		return out
	}
	if p.o.round() && len(p.at) == 1 { // straight opposite the first
		add(max(k, 0), 0)
	}
	for i, l := range lines {
		for _, m := range lines[i+1:] {
			if l[0] != m[0] {
				add(l[0]*l[2]+m[0]*m[2], l[1]*l[2]+m[1]*m[2])
			}
		}
		for _, c := range rings {
			lineRing(l, c, add)
		}
	}
	for i, a := range rings {
		for _, b := range rings[i+1:] {
			twoRings(a, b, add)
		}
	}
	return out
}

// lineRing gives the points of a circle that lie on a line along an axis.
func lineRing(l [3]float64, c disc, add func(x, y float64)) {
	off := l[2] - l[0]*c.x - l[1]*c.y
	if math.Abs(off) > c.r*(1+touching) {
		return
	}
	s := math.Sqrt(max(0, c.r*c.r-off*off)) // 0 where an arc runs into its wall
	x, y := c.x+l[0]*off, c.y+l[1]*off
	add(x+l[1]*s, y+l[0]*s)
	add(x-l[1]*s, y-l[0]*s)
}

// twoRings gives the points that lie on two circles.
func twoRings(a, b disc, add func(x, y float64)) {
	dx, dy := b.x-a.x, b.y-a.y
	d := math.Hypot(dx, dy)
	if slack := touching * (a.r + b.r); d == 0 || d > a.r+b.r+slack || d < math.Abs(a.r-b.r)-slack {
		return
	}
	along := (d*d + a.r*a.r - b.r*b.r) / (2 * d)
	s := math.Sqrt(max(0, a.r*a.r-along*along))
	dx, dy = dx/d, dy/d
	add(a.x+along*dx-s*dy, a.y+along*dy+s*dx)
	add(a.x+along*dx+s*dy, a.y+along*dy-s*dx)
}
