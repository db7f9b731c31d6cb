package geom

import "slices"

// Leg is one straight move along an axis, m; below 0 towards smaller coordinates.
type Leg struct {
	Along Axis
	By    float64
}

// To returns the box moved along a leg.
func (b Box) To(l Leg) Box { return b.Moved(Vec{}.With(l.Along, l.By)) }

// WayOut returns the moves by which a box, never turned, gets clear of all others:
// the fewest there are, at most so many, of as many the first in the order of the
// directions right, left, front, back, up, down. It may touch others and slide along
// them. out is false if there is no such way; start tells whether it overlaps one of
// them where it is, and then it has none either.
//
// Derived: the others grown by the box's size make it a point; a way of a point among
// boxes needs to turn at the coordinates of their faces alone, so a search of the
// lattice of those finds one if there is one, and that with the fewest turns.
func WayOut(b Box, others []Box, most int) (legs []Leg, out, start bool) {
	w := newWays(b, others)
	if w.within(b.Min) {
		return nil, false, true
	}
	legs, out = w.search(most)
	return legs, out, false
}

// ways is the lattice of the places at which a point may turn.
type ways struct {
	lo, hi []Vec // the others, grown
	at     [3][]float64
	home   [3]int
	shut   [3][]bool // by axis: the way from a place to the next one along it is blocked
}

func newWays(b Box, others []Box) *ways {
	w := &ways{}
	size := b.Size()
	for _, o := range others {
		w.lo, w.hi = append(w.lo, o.Min.Sub(size)), append(w.hi, o.Max)
	}
	for a := range 3 {
		axis := Axis(a)
		c := []float64{b.Min.On(axis)}
		for i := range w.lo {
			c = append(c, w.lo[i].On(axis), w.hi[i].On(axis))
		}
		slices.Sort(c)
		c = slices.Compact(c)
		// Beyond the first and the last it is clear of all.
		w.at[a] = append(append([]float64{c[0] - 0.01}, c...), c[len(c)-1]+0.01)
		w.home[a], _ = slices.BinarySearch(w.at[a], b.Min.On(axis))
	}
	n := len(w.at[0]) * len(w.at[1]) * len(w.at[2])
	for a := range w.shut {
		w.shut[a] = make([]bool, n)
	}
	for i := range w.lo {
		w.block(i)
	}
	return w
}

// within reports whether a point lies inside one of the others.
func (w *ways) within(p Vec) bool {
	for i := range w.lo {
		if p.X > w.lo[i].X && p.X < w.hi[i].X && p.Y > w.lo[i].Y && p.Y < w.hi[i].Y && p.Z > w.lo[i].Z && p.Z < w.hi[i].Z {
			return true
		}
	}
	return false
}

func (w *ways) place(i [3]int) int {
	return (i[2]*len(w.at[1])+i[1])*len(w.at[0]) + i[0]
}

// block shuts the ways that lead through one of the others.
func (w *ways) block(i int) {
	var first, last [3]int // of the coordinates from its lower to its upper face
	for a := range 3 {
		first[a], _ = slices.BinarySearch(w.at[a], w.lo[i].On(Axis(a)))
		last[a], _ = slices.BinarySearch(w.at[a], w.hi[i].On(Axis(a)))
		if first[a] == last[a] {
			return // it has no size
		}
	}
	for a := range 3 {
		// Strictly inside across the axis, face to face along it.
		from, to := first, last
		for c := range 3 {
			if c != a {
				from[c]++
			}
		}
		for z := from[2]; z < to[2]; z++ {
			for y := from[1]; y < to[1]; y++ {
				for x := from[0]; x < to[0]; x++ {
					w.shut[a][w.place([3]int{x, y, z})] = true
				}
			}
		}
	}
}

// directions are right, left, front, back, up and down.
var directions = [6]struct{ axis, step int }{{0, 1}, {0, -1}, {1, 1}, {1, -1}, {2, 1}, {2, -1}}

// search goes from place to place, one leg further each time.
func (w *ways) search(most int) ([]Leg, bool) {
	from := make([]int, len(w.shut[0])) // by place: one more than that from which it was reached first
	home := w.place(w.home)
	from[home] = home + 1
	front := [][3]int{w.home}
	stride := [3]int{1, len(w.at[0]), len(w.at[0]) * len(w.at[1])}
	for range most {
		var next [][3]int
		for _, d := range directions {
			last := len(w.at[d.axis]) - 1
			for _, p := range front {
				start := w.place(p)
				for q, at := p, start; ; {
					low := at
					if d.step < 0 {
						low -= stride[d.axis]
					}
					if q[d.axis]+d.step < 0 || q[d.axis]+d.step > last || w.shut[d.axis][low] {
						break
					}
					q[d.axis] += d.step
					at += d.step * stride[d.axis]
					if from[at] == 0 {
						from[at] = start + 1
						next = append(next, q)
					}
					if q[d.axis] == 0 || q[d.axis] == last {
						return w.legs(from, at), true
					}
				}
			}
		}
		front = next
	}
	return nil, false
}

// legs follows a way back.
func (w *ways) legs(from []int, at int) []Leg {
	index := func(n int) [3]int {
		x, y := len(w.at[0]), len(w.at[1])
		return [3]int{n % x, n / x % y, n / (x * y)}
	}
	var out []Leg
	for at != from[at]-1 {
		p := from[at] - 1
		i, k := index(p), index(at)
		for a := range 3 {
			if i[a] != k[a] {
				out = append(out, Leg{Axis(a), w.at[a][k[a]] - w.at[a][i[a]]})
			}
		}
		at = p
	}
	slices.Reverse(out)
	return out
}
