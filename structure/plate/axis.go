package plate

const (
	degree = 5
	order  = degree + 1
	width  = 2*degree + 1 // of the band of a matrix of one axis
)

// gaussRule returns places on -1 to 1 and their weights, exact to degree 11 with
// six and to 7 with four. Source: Abramowitz & Stegun 1964, table 25.4 (from
// memory; TestGauss integrates the powers).
func gaussRule(points int) [][2]float64 {
	if points == 4 {
		return [][2]float64{
			{-0.8611363115940526, 0.3478548451374538},
			{-0.3399810435848563, 0.6521451548625461},
			{0.3399810435848563, 0.6521451548625461},
			{0.8611363115940526, 0.3478548451374538},
		}
	}
	return [][2]float64{
		{-0.9324695142031521, 0.1713244923791704},
		{-0.6612093864662645, 0.3607615730481386},
		{-0.2386191860831969, 0.4679139345726910},
		{0.2386191860831969, 0.4679139345726910},
		{0.6612093864662645, 0.3607615730481386},
		{0.9324695142031521, 0.1713244923791704},
	}
}

// shape holds the values, slopes and second derivatives of the functions that
// are not 0 in one span.
type shape [3][order]float64

// axis is a space of splines in one direction.
type axis struct {
	breaks []float64 // ends of the spans, rising
	knots  []float64
	first  []int     // of each span, the number of the first function that is not 0
	n      int       // number of functions
	centre []float64 // of each function; as coefficients these are x itself
	mirror bool      // the far end is a line of symmetry
	even   *samples  // eight in each span, once they were asked for
}

// newAxis returns the splines on spans; multiple says how often a break is a
// knot: 1 leaves four derivatives continuous, each more takes one away.
func newAxis(breaks []float64, multiple []int, mirror bool) *axis {
	a := &axis{breaks: breaks, mirror: mirror}
	last := len(breaks) - 1
	a.knots = make([]float64, 0, 3*len(breaks)+2*order)
	a.first = make([]int, last)
	for i, b := range breaks {
		m := multiple[i]
		if i == 0 || i == last {
			m = order
		}
		for range m {
			a.knots = append(a.knots, b)
		}
		if i < last {
			a.first[i] = len(a.knots) - order
		}
	}
	a.n = len(a.knots) - order
	a.centre = make([]float64, a.n)
	for i := range a.centre {
		for _, k := range a.knots[i+1 : i+1+degree] {
			a.centre[i] += k / degree
		}
	}
	return a
}

func (a *axis) length() float64 { return a.breaks[len(a.breaks)-1] }

// span returns the span that holds x, the nearest one for x outside.
func (a *axis) span(x float64) int {
	s := len(a.first) - 1
	for s > 0 && x < a.breaks[s] {
		s--
	}
	return s
}

// shape computes the functions of a span at x, by the recurrence of Cox and de
// Boor (de Boor, A Practical Guide to Splines, 1978; from memory).
func (a *axis) shape(s int, x float64, out *shape) {
	k := a.first[s] + degree // knots[k] <= x <= knots[k+1]
	t := a.knots
	var b [order + 1]float64 // b[r] is function k-d+r of degree d
	b[0] = 1
	for d := 1; d <= degree; d++ {
		switch d {
		case degree - 1:
			out[2] = a.slope(k, d, b)
		case degree:
			out[1] = a.slope(k, d, b)
			// Second derivatives: slopes of the slopes of one degree less.
			var low [order + 1]float64
			copy(low[:], out[2][:])
			out[2] = a.slope(k, d, low)
		}
		carry := 0.0
		for r := range d {
			right, left := t[k+1+r], t[k+1+r-d]
			q := b[r] / (right - left)
			b[r] = carry + (right-x)*q
			carry = (x - left) * q
		}
		b[d] = carry
	}
	copy(out[0][:], b[:order])
}

// slope turns functions of degree d-1 at a point into slopes of those of degree d.
func (a *axis) slope(k, d int, low [order + 1]float64) (out [order]float64) {
	for r := 0; r <= d; r++ {
		i := k - d + r
		if r > 0 {
			out[r] += float64(d) * low[r-1] / (a.knots[i+d] - a.knots[i])
		}
		if r < d {
			out[r] -= float64(d) * low[r] / (a.knots[i+d+1] - a.knots[i+1])
		}
	}
	return out
}

// products returns the integrals from one place to another of derivative d1 of
// function i times derivative d2 of function j, at [i*width + j-i+degree].
func (a *axis) products(d1, d2 int, from, to float64) []float64 {
	out := make([]float64, a.n*width)
	a.integrate(from, to, order, func(s int, _, weight float64, b *shape) {
		f := a.first[s]
		for i, u := range b[d1] {
			row := out[(f+i)*width+degree-i:]
			for j, v := range b[d2] {
				row[j] += weight * u * v
			}
		}
	})
	return out
}

// allProducts returns the products over the whole axis of derivatives 0 0, 1 1,
// 2 2 and 0 2.
func (a *axis) allProducts() (out [4][]float64) {
	all := make([]float64, 4*a.n*width)
	for k := range out {
		out[k] = all[k*a.n*width:][:a.n*width]
	}
	a.integrate(0, a.length(), order, func(s int, _, weight float64, b *shape) {
		f := a.first[s]
		for i := range order {
			at := (f+i)*width + degree - i
			u0, u1, u2 := weight*b[0][i], weight*b[1][i], weight*b[2][i]
			r0, r1, r2, r3 := out[0][at:][:order], out[1][at:][:order], out[2][at:][:order], out[3][at:][:order]
			for j := range order {
				r0[j] += u0 * b[0][j]
				r1[j] += u1 * b[1][j]
				r2[j] += u2 * b[2][j]
				r3[j] += u0 * b[2][j]
			}
		}
	})
	return out
}

// addLoad adds to out the integrals of each function times c0 + c1 x.
func (a *axis) addLoad(out []float64, from, to, c0, c1 float64) {
	a.integrate(from, to, order, func(s int, x, weight float64, b *shape) {
		for i, u := range b[0] {
			out[a.first[s]+i] += weight * (c0 + c1*x) * u
		}
	})
}

// integrate visits the Gauss points of what each span has between from and to.
func (a *axis) integrate(from, to float64, points int, visit func(s int, x, weight float64, b *shape)) {
	rule := gaussRule(points)
	var b shape
	for s := range a.first {
		lo, hi := max(a.breaks[s], from), min(a.breaks[s+1], to)
		if hi <= lo {
			continue
		}
		for _, g := range rule {
			x := (lo+hi)/2 + (hi-lo)/2*g[0]
			a.shape(s, x, &b)
			visit(s, x, (hi-lo)/2*g[1], &b)
		}
	}
}

// samples are places on an axis with the functions there.
type samples struct {
	at     []float64
	weight []float64 // for integration; nil if the places are not Gauss points
	first  []int
	shape  []shape
}

// gaussPoints returns the places at which products of three fields are
// integrated. Four in each span do not integrate them exactly, but six move bow
// and stress by less than 1e-4 of themselves.
func (a *axis) gaussPoints() *samples {
	p := &samples{}
	a.integrate(0, a.length(), 4, func(s int, x, weight float64, b *shape) {
		p.at, p.weight = append(p.at, x), append(p.weight, weight)
		p.first, p.shape = append(p.first, a.first[s]), append(p.shape, *b)
	})
	return p
}

// evenPoints returns places that cut each span in parts, both ends included.
func (a *axis) evenPoints(parts int) *samples {
	count := len(a.first)*parts + 1
	p := &samples{at: make([]float64, count), first: make([]int, count), shape: make([]shape, count)}
	for i := range count {
		s := min(i/parts, len(a.first)-1)
		share := float64(i-s*parts) / float64(parts)
		p.at[i] = a.breaks[s] + (a.breaks[s+1]-a.breaks[s])*share
		p.first[i] = a.first[s]
		a.shape(s, p.at[i], &p.shape[i])
	}
	return p
}

// eighths returns places that cut each span in eight.
func (a *axis) eighths() *samples {
	if a.even == nil {
		a.even = a.evenPoints(8)
	}
	return a.even
}

// places returns evenly spread places of a stretch, its ends included; fold, if
// given, says where a place of the whole pane lies on the axis.
func (a *axis) places(from, to float64, parts int, fold func(float64) float64) *samples {
	p := &samples{at: make([]float64, parts+1), first: make([]int, parts+1), shape: make([]shape, parts+1)}
	for i := range p.at {
		x := from + (to-from)*float64(i)/float64(parts)
		if fold != nil {
			x = fold(x)
		}
		s := a.span(x)
		p.at[i], p.first[i] = x, a.first[s]
		a.shape(s, x, &p.shape[i])
	}
	return p
}
