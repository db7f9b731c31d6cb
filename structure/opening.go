package structure

import (
	"math"
	"slices"
)

// Opening is a hole that things pass through.
type Opening struct {
	Width, Height float64 // m, each over 0; a round one has its diameter as both
	Corner        float64 // radius of its corners, m; half of its diameter if it is round
}

// RoundHole returns the opening that is a circle of some diameter (m).
func RoundHole(d float64) Opening { return Opening{d, d, d / 2} }

func (o Opening) round() bool { return o.Width == o.Height && 2*o.Corner >= o.Width }

// Area returns the area of the opening (m2), its corners rounded.
func (o Opening) Area() float64 {
	if o.round() {
		return math.Pi / 4 * o.Width * o.Width
	}
	return o.Width*o.Height - (4-math.Pi)*o.Corner*o.Corner
}

// Spare returns by how much larger both ways (m) a thing could be whose end is w
// by h (m) and that still passes straight through the empty opening, negative by
// how much it would have to be smaller; h is 0 for a round thing of diameter w. Of
// a round opening it is what RoundOpening wants less than its diameter. A box may
// be turned in an opening with corners; rounded corners are then taken as cut
// off square where the box comes to them, which is cautious.
func (o Opening) Spare(w, h float64) float64 {
	if o.round() {
		return o.Width - RoundOpening(w, h, 0)
	}
	if h == 0 {
		return min(o.Width, o.Height) - w
	}
	low, high := -max(w, h), max(o.Width, o.Height)
	for range 60 { // halves some metres down to rounding
		mid := (low + high) / 2
		if a, b := w+mid, h+mid; a <= 0 || b <= 0 || o.passes(a, b) {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}

// passes reports whether a box's end lies in an opening with corners.
func (o Opening) passes(w, h float64) bool {
	square := func(w, h float64) bool {
		dx, dy := o.Corner-(o.Width-w)/2, o.Corner-(o.Height-h)/2
		return w <= o.Width && h <= o.Height && (dx <= 0 || dy <= 0 || math.Hypot(dx, dy) <= o.Corner)
	}
	if square(w, h) || square(h, w) {
		return true
	}
	cut := (2 - math.Sqrt2) * o.Corner // leaves a box whose corners touch the arcs at 45 degrees
	return RectangleFits(w, h, o.Width-cut, o.Height-cut)
}

// RectangleFits reports whether a rectangle of p by q lies within one of a by b (m,
// in any order), turned if need be: with p >= q, a >= b it does if p <= a and
// q <= b, or if p > a, q <= b and
//
//	b >= (2 p q a + (p^2 - q^2) sqrt(p^2 + q^2 - a^2))/(p^2 + q^2)
//
// Source: Carver 1957 (Wetzel 2000), from memory; checked by turning.
func RectangleFits(p, q, a, b float64) bool {
	p, q = max(p, q), min(p, q)
	a, b = max(a, b), min(a, b)
	if q > b || b <= 0 {
		return false
	}
	if p <= a {
		return true
	}
	s := p*p + q*q
	return b >= (2*p*q*a+(p*p-q*q)*math.Sqrt(s-a*a))/s
}

// searchNodes bounds the search for places of round things side by side; four or
// five things need a few thousand.
const searchNodes = 20000

// Takes reports whether round things of some diameters (m) lie side by side in the
// opening. The things are put one by one, the widest first, where each touches two
// of walls and things; so fits is only said where they do lie. If they do not, sure
// tells that they cannot: one is wider than the opening, two do not go beside each
// other, or their areas together are more than its own. Otherwise no place was
// found, which is no proof. Derived.
func (o Opening) Takes(d ...float64) (fits, sure bool) {
	d = slices.Clone(d)
	slices.Sort(d)
	slices.Reverse(d)
	for len(d) > 0 && d[len(d)-1] <= 0 {
		d = d[:len(d)-1]
	}
	if len(d) == 0 {
		return true, true
	}
	p := packing{o: o, left: searchNodes, at: make([]disc, 0, len(d))}
	if p.place(d) {
		return true, true
	}
	return false, o.cannot(d)
}

// cannot tells of things, widest first, for which no place was found, whether there
// surely is none.
func (o Opening) cannot(d []float64) bool {
	area := 0.0
	for _, x := range d {
		area += math.Pi / 4 * x * x
	}
	if d[0] > min(o.Width, o.Height) || area > o.Area() {
		return true
	}
	if len(d) < 2 {
		return true
	}
	// Two lie in line or in opposite corners, if they go in at all; corners rounder
	// than they are may hold them in other places.
	p := packing{o: o, left: searchNodes}
	return (o.round() || 2*o.Corner <= d[1]) && !p.place(d[:2])
}

// LargestGap returns the diameter (m) of the largest round thing that still passes
// the opening beside round things (diameters, m) that stay in it, which may be
// pushed aside; 0 if they do not lie in it themselves. A least value: see Takes.
func (o Opening) LargestGap(stay ...float64) float64 {
	if ok, _ := o.Takes(stay...); !ok {
		return 0
	}
	low, high := 0.0, min(o.Width, o.Height)
	if len(stay) == 0 {
		return high
	}
	for range 40 {
		mid := (low + high) / 2
		if ok, _ := o.Takes(append(slices.Clone(stay), mid)...); ok {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}
