package sheets

import (
	"math"

	"rillwright/drawing"
)

// placer finds room for labels in a plot.
type placer struct {
	room  drawing.Box
	texts []drawing.Box     // never to be covered
	lines [][]drawing.Point // better not crossed
	grid  [][]drawing.Point // crossed if need be
	areas []area            // better left clear
	// lead makes every label that is given one draw its leader, however near.
	lead bool
}

// apart is the distance beyond which a label gets a leader.
func (p *placer) apart() float64 {
	if p.lead {
		return 1
	}
	return leaderFrom
}

// area is a part of the plot with what it costs a label to lie on it.
type area struct {
	polygon []drawing.Point
	cost    float64
}

// Weights of what a label had better not do, as mm of distance from the point
// that it names.
const (
	crossLine  = 60.0
	crossGrid  = 5.0
	coverHatch = 200.0 // all of the label
	coverShade = 10.0  // all of the label
	leaderLine = 3.0   // the leader crosses a line
	nextAnchor = 2.0   // it stands at a later one of the points offered
	leaderFrom = 4.5   // a label farther away than this gets a leader
)

// place returns a label near the first of some points with room about it, and a
// leader if it stands apart and one is wanted, nil if there is no room at all.
func (p *placer) place(text string, height float64, leader bool, at []drawing.Point) []drawing.Item {
	t := &drawing.Text{Text: text, Height: height}
	size := t.Bounds()
	w, h := size.Right-size.Left, size.Bottom-size.Top
	best := math.Inf(1)
	var box drawing.Box
	var from drawing.Point
	for i, a := range at {
		for _, r := range []float64{2.5, 4, 6, 9, 13, 18, 24, 31, 38, 46} {
			for k := range 16 {
				sin, cos := math.Sincos((45 - 22.5*float64(k)) * math.Pi / 180)
				// The label's nearest corner or side is at distance r.
				x, y := a.X+r*cos+sign(cos)*w/2, a.Y-r*sin-sign(sin)*h/2
				b := drawing.Box{Left: x - w/2, Top: y - h/2, Right: x + w/2, Bottom: y + h/2}
				cost := nextAnchor*float64(i) + r
				if cost < best && b.Within(p.room) {
					if cost += p.cost(b, a, r, best-cost); cost < best {
						best, box, from = cost, b, a
					}
				}
			}
		}
	}
	if math.IsInf(best, 1) {
		return nil
	}
	p.texts = append(p.texts, box)
	t.At = drawing.Point{X: box.Left - size.Left, Y: box.Top - size.Top}
	if to := nearest(box, from); leader && math.Hypot(to.X-from.X, to.Y-from.Y) > p.apart() {
		return []drawing.Item{drawing.Line(from, to, drawing.Thin), t}
	}
	return []drawing.Item{t}
}

// cost returns what speaks against a label's box, besides its distance r from
// the point at. It stops counting at a limit.
func (p *placer) cost(b drawing.Box, at drawing.Point, r, limit float64) float64 {
	around := b.Grown(0.8)
	to := nearest(b, at)
	for _, t := range p.texts {
		if around.Overlaps(t) {
			return math.Inf(1)
		}
		// The leader may begin at the edge of what it points to.
		if _, _, ok := drawing.ClipSegment(at, to, t); ok && r > p.apart() && nearest(t, at) != at {
			return math.Inf(1)
		}
	}
	cost := 0.0
	for _, l := range p.lines {
		crossed, leader := false, false
		for i := 1; i < len(l); i++ {
			if _, _, ok := drawing.ClipSegment(l[i-1], l[i], around); ok {
				crossed = true
			}
			leader = leader || r > p.apart() && cross(l[i-1], l[i], at, to)
		}
		if crossed {
			cost += crossLine
		}
		if leader {
			cost += leaderLine
		}
	}
	for _, l := range p.grid {
		for i := 1; i < len(l); i++ {
			if _, _, ok := drawing.ClipSegment(l[i-1], l[i], b); ok {
				cost += crossGrid
				break
			}
		}
	}
	const across, down = 12, 3
	for _, a := range p.areas {
		if cost >= limit {
			break
		}
		n := 0
		for i := range across {
			for k := range down {
				q := drawing.Point{
					X: around.Left + float64(i)/(across-1)*(around.Right-around.Left),
					Y: around.Top + float64(k)/(down-1)*(around.Bottom-around.Top),
				}
				if drawing.Inside(q, a.polygon) {
					n++
				}
			}
		}
		cost += a.cost * float64(n) / (across * down)
	}
	return cost
}

// sign is -1, 0 or 1; what is nearly 0 counts as 0.
func sign(v float64) float64 {
	switch {
	case v > 1e-9:
		return 1
	case v < -1e-9:
		return -1
	}
	return 0
}

// nearest returns the point of a box nearest to another.
func nearest(b drawing.Box, p drawing.Point) drawing.Point {
	return drawing.Point{X: min(max(p.X, b.Left), b.Right), Y: min(max(p.Y, b.Top), b.Bottom)}
}

// cross reports whether two segments cross.
func cross(a, b, c, d drawing.Point) bool {
	side := func(p, q, r drawing.Point) bool { return (q.X-p.X)*(r.Y-p.Y) > (q.Y-p.Y)*(r.X-p.X) }
	return side(a, b, c) != side(a, b, d) && side(c, d, a) != side(c, d, b)
}
