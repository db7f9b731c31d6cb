package plate

import (
	"math"
	"slices"
)

// mark is a place on an axis where the solution changes its character.
type mark struct {
	at       float64
	size     float64 // of the spans beside it on the coarse mesh, m
	multiple int     // of the knot
	local    bool    // what it changes dies out over its own size
}

// The spans beside an edge, as a share of the pane's shorter side (or half its
// width under symmetry), and how fast spans grow away from a mark. The tests of
// accuracy and the benchmarks chose them.
const (
	edgeSpan = 0.22
	growth   = 0.35
	steep    = 0.5 // beside what is local
)

// place returns the breaks of an axis from 0 to length, and the multiplicity of
// each: all marks, and between them spans that grow away from marks, each cut
// in refine parts.
func place(length float64, marks []mark, refine int) (breaks []float64, multiple []int) {
	slices.SortStableFunc(marks, func(a, b mark) int {
		switch {
		case a.at < b.at:
			return -1
		case a.at > b.at:
			return 1
		}
		return 0
	})
	// Marks that all but meet become one; the ends stay where they are. Spans much
	// shorter than their neighbours would cost digits, and integrals end where they
	// should all the same.
	kept := marks[:0]
	for _, m := range marks {
		if k := len(kept) - 1; k >= 0 && m.at-kept[k].at < 0.3*min(m.size, kept[k].size) {
			if m.size < kept[k].size {
				kept[k].size, kept[k].local = m.size, m.local
			}
			kept[k].multiple = max(kept[k].multiple, m.multiple)
			if m.at == length {
				kept[k].at = length
			}
			continue
		}
		kept = append(kept, m)
	}
	size := func(x float64) float64 {
		h := math.Inf(1)
		for _, m := range kept {
			g := growth
			if m.local {
				g = steep
			}
			h = min(h, m.size+g*math.Abs(x-m.at))
		}
		return h
	}
	breaks, multiple = append(breaks, 0), append(multiple, 1)
	for i := 1; i < len(kept); i++ {
		from, to := kept[i-1].at, kept[i].at
		// The number of spans is the integral of 1/size; each gets its share.
		const steps = 64
		var sum [steps + 1]float64
		for k := range steps {
			sum[k+1] = sum[k] + (to-from)/steps/size(from+(to-from)*(float64(k)+0.5)/steps)
		}
		spans := max(1, int(math.Ceil(sum[steps]-1e-6)))
		k := 0
		for s := 1; s <= spans; s++ {
			end := to
			if s < spans {
				want := sum[steps] * float64(s) / float64(spans)
				for sum[k+1] < want {
					k++
				}
				end = from + (to-from)/steps*(float64(k)+(want-sum[k])/(sum[k+1]-sum[k]))
			}
			begin := breaks[len(breaks)-1]
			for r := 1; r < refine; r++ {
				breaks, multiple = append(breaks, begin+(end-begin)*float64(r)/float64(refine)), append(multiple, 1)
			}
			breaks, multiple = append(breaks, end), append(multiple, 1)
		}
		multiple[len(multiple)-1] = kept[i].multiple
	}
	return breaks, multiple
}

// axes lays out the splines of a pane.
func axes(p *Pane, l Load, refine int) (x, y *axis) {
	mirror := p.even(l)
	length := p.Width
	if mirror {
		length /= 2
	}
	unit := edgeSpan * min(p.Width, p.Height)
	xs := []mark{{0, unit, 1, false}, {length, unit, 1, false}}
	if mirror {
		// Nothing happens at a line of symmetry: no mesh need gather there.
		xs[1].size = unit + growth*length
	}
	ys := []mark{{0, unit, 1, false}, {p.Height, unit, 1, false}}
	for _, level := range []float64{l.Inner, l.Outer} {
		if level > 0 && level < p.Height && l.Inner != l.Outer {
			ys = append(ys, mark{level, unit, 1, false})
		}
	}
	d := p.Rigidity()
	for _, b := range p.Braces {
		// Bending beside the end of a spring dies out over (D/k)^(1/3); the push
		// ends abruptly, so the third derivative of w may jump.
		size := min(unit, 1.5*math.Cbrt(d/stiffness(p, b)))
		if b.Side == Bottom || b.Side == Top {
			xs = append(xs, mark{b.From, size, 3, size < unit}, mark{b.To, size, 3, size < unit})
			_, at := p.point(b.Side, 0)
			ys = append(ys, mark{at, size, 1, size < unit})
		} else {
			ys = append(ys, mark{b.From, size, 3, size < unit}, mark{b.To, size, 3, size < unit})
			at, _ := p.point(b.Side, 0)
			xs = append(xs, mark{at, size, 1, size < unit})
		}
	}
	for _, b := range p.Beds {
		// On an elastic bed it dies out over (D/k)^(1/4); the pressure, and with it
		// the fourth derivative, jumps at the border.
		size := min(unit, math.Pow(d/b.Stiffness, 0.25))
		xs = append(xs, mark{b.X0, size, 2, size < unit}, mark{b.X1, size, 2, size < unit})
		ys = append(ys, mark{b.Y0, size, 2, size < unit}, mark{b.Y1, size, 2, size < unit})
	}
	for _, q := range l.Patches {
		// The pressure jumps at its border. Thin plates know nothing that is smaller
		// than their thickness.
		size := min(unit, max(p.Thickness, min(q.X1-q.X0, q.Y1-q.Y0)))
		xs = append(xs, mark{q.X0, size, 2, size < unit}, mark{q.X1, size, 2, size < unit})
		ys = append(ys, mark{q.Y0, size, 2, size < unit}, mark{q.Y1, size, 2, size < unit})
	}
	xs = slices.DeleteFunc(xs, func(m mark) bool { return m.at > length })
	bx, mx := place(length, xs, refine)
	by, my := place(p.Height, ys, refine)
	return newAxis(bx, mx, mirror), newAxis(by, my, false)
}

// stiffness returns the stiffness of a brace with its default filled in, Pa.
func stiffness(p *Pane, b Brace) float64 {
	if b.Stiffness > 0 {
		return b.Stiffness
	}
	return p.Rigidity() / (p.Thickness * p.Thickness * p.Thickness)
}
