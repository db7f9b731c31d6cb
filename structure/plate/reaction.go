package plate

// The forces at supports are what the equations leave over on the functions
// that supports make 0: matrix times deflection less load. As all functions add
// up to 1, and a pane moved as a whole has no energy, these forces add up to the
// load to rounding on any mesh. The line load along an edge is the spline whose
// products with the functions are those forces; it converges faster than third
// derivatives of w would.

// leftOver returns load less inner forces on each function: what supports must
// take, inwards.
func (m *model) leftOver() []float64 {
	out := make([]float64, len(m.w))
	m.forces(out)
	if m.stress != nil {
		pushed := make([]float64, len(m.w))
		m.evaluate(m.bent, m.stretch.xs, m.stretch.ys, &m.stretch.u)
		m.stretch.push(m.stress, &m.stretch.u, pushed)
		add(out, pushed)
	}
	for i := range out {
		out[i] = m.force[i] - out[i]
	}
	return out
}

// end says how the line load of an edge behaves where it meets another edge.
type end uint8

const (
	open   end = iota // beside a free edge: any value
	zero              // 0: w is 0 on the other edge too, and with it the third derivatives
	flat              // no slope: a held edge cannot be told from the moment of the clamped one it meets
	starts            // 0 with its slope: two clamped edges
)

// edgeLine is a supported edge and the line load along it.
type edgeLine struct {
	a        *axis
	products []float64
	force    []float64 // on each function along the edge, N
	line     []float64 // coefficients of the line load, N/m
	ends     [2]end
}

// edge collects what the functions along an edge must take. A clamped edge holds
// the functions of two rows; moving it without turning moves both.
func (m *model) edge(s Side, left []float64) *edgeLine {
	e := &edgeLine{a: m.y, products: m.yy[0]}
	if s == Bottom || s == Top {
		e.a, e.products = m.x, m.xx[0]
	}
	e.force, e.line = make([]float64, e.a.n), make([]float64, e.a.n)
	for i := range e.force {
		for depth := range int(m.pane.Edges[s]) {
			e.force[i] += left[m.inward(s, i, depth)]
		}
	}
	return e
}

// inward returns the number of function i along an edge, depth rows in.
func (m *model) inward(s Side, i, depth int) int {
	nx, ny := m.x.n, m.y.n
	switch s {
	case Bottom:
		return i*ny + depth
	case Top:
		return i*ny + ny - 1 - depth
	case Left:
		return depth*ny + i
	default:
		return (nx-1-depth)*ny + i
	}
}

// from returns the number of the function k places from an end.
func (e *edgeLine) from(last, k int) int {
	if last == 1 {
		return e.a.n - 1 - k
	}
	return k
}

// share returns what the line load gives a function, N.
func (e *edgeLine) share(i int) float64 {
	sum := 0.0
	for j := max(0, i-degree); j <= min(e.a.n-1, i+degree); j++ {
		sum += e.products[i*width+j-i+degree] * e.line[j]
	}
	return sum
}

// solve finds the line load whose products with the functions are the forces.
func (e *edgeLine) solve() {
	of := make([]int, e.a.n)
	for last, k := range e.ends {
		if k == zero || k == starts {
			of[e.from(last, 0)] = -1
		}
		if k == starts {
			of[e.from(last, 1)] = -1
		}
	}
	n := 0
	for i := range of {
		joined := i == 1 && e.ends[0] == flat || i == e.a.n-1 && (e.ends[1] == flat || e.a.mirror)
		switch {
		case of[i] < 0:
		case joined:
			of[i] = of[i-1]
		default:
			of[i] = n
			n++
		}
	}
	k, b := newBand(n, min(degree, n-1)), make([]float64, n)
	for i, u := range of {
		if u < 0 {
			continue
		}
		b[u] += e.force[i]
		for j := max(0, i-degree); j <= min(e.a.n-1, i+degree); j++ {
			if v := of[j]; v >= 0 && v <= u {
				k.row(u)[v-u+k.reach] += e.products[i*width+j-i+degree]
			}
		}
	}
	k.factor()
	k.solve(b)
	for i, u := range of {
		if u >= 0 {
			e.line[i] = b[u]
		}
	}
}

// reaction sums a line load up; both halves of it where one is modelled.
func (e *edgeLine) reaction() Reaction {
	whole := make([]float64, e.a.n)
	e.a.addLoad(whole, 0, e.a.length(), 1, 0)
	r := Reaction{Total: dot(whole, e.line)}
	length := e.a.length()
	if e.a.mirror {
		r.Total, length = 2*r.Total, 2*length
	}
	r.Mean = r.Total / length
	p := e.a.eighths()
	for i := range p.at {
		v := dot(p.shape[i][0][:], e.line[p.first[i]:p.first[i]+order])
		if i == 0 || v > r.Peak {
			r.Peak, r.At = v, p.at[i]
		}
		if i == 0 || v < r.Least {
			r.Least = v
		}
	}
	return r
}

// meeting is a corner and the two edges that end there.
type meeting struct {
	edges [2]Side
	last  [2]int  // 1 if the corner is the far end of that edge
	sign  float64 // of the twist that pulls the corner
}

func meetings() [4]meeting {
	return [4]meeting{
		BottomLeft:  {[2]Side{Bottom, Left}, [2]int{0, 0}, 1},
		BottomRight: {[2]Side{Bottom, Right}, [2]int{1, 0}, -1},
		TopRight:    {[2]Side{Top, Right}, [2]int{1, 1}, 1},
		TopLeft:     {[2]Side{Top, Left}, [2]int{0, 1}, -1},
	}
}

// reactions fills in what the edges and corners take. Where two like edges meet,
// both line loads end at 0 and the corner takes the rest; a clamped edge has no
// twist, so no force at its ends beside another kind; beside a free edge the
// twist of the held one gives the force.
func (m *model) reactions(r *Result) {
	p := &m.pane
	left := m.leftOver()
	var lines [4]*edgeLine
	for s := Bottom; s <= Left; s++ {
		if p.Edges[s] != Free && !(s == Right && m.x.mirror) {
			lines[s] = m.edge(s, left)
		}
	}
	corners := meetings()
	modelled := func(c int) bool {
		return !m.x.mirror || Corner(c) == BottomLeft || Corner(c) == TopLeft
	}
	for c, k := range corners {
		for i, s := range k.edges {
			e, other := lines[s], p.Edges[k.edges[1-i]]
			if e == nil || !modelled(c) {
				continue
			}
			switch {
			case other == Held:
				e.ends[k.last[i]] = zero
			case other == Clamped && p.Edges[s] == Clamped:
				e.ends[k.last[i]] = starts
			case other == Clamped:
				e.ends[k.last[i]] = flat
			case p.Edges[s] == Held:
				x, y := float64(k.last[0])*p.Width, float64(k.last[1])*p.Height
				r.Corners[c] = -k.sign * 2 * p.Rigidity() * (1 - p.Poisson) * m.at(m.w, x, y)[dxy]
				e.force[e.from(k.last[i], 0)] -= r.Corners[c]
			}
		}
	}
	// Held edges need to know what the clamped ones that they meet have taken.
	for s, e := range lines {
		if e != nil && p.Edges[s] == Clamped {
			e.solve()
		}
	}
	for c, k := range corners {
		for i, s := range k.edges {
			if o := k.edges[1-i]; modelled(c) && p.Edges[s] == Held && p.Edges[o] == Clamped {
				e := lines[s]
				e.force[e.from(k.last[i], 0)] -= lines[o].share(lines[o].from(k.last[1-i], 0))
			}
		}
	}
	for s, e := range lines {
		if e != nil && p.Edges[s] == Held {
			e.solve()
		}
	}
	for c, k := range corners {
		if modelled(c) && p.Edges[k.edges[0]] == p.Edges[k.edges[1]] && p.Edges[k.edges[0]] != Free {
			r.Corners[c] = m.rest(k, lines, left)
		}
	}
	for s, e := range lines {
		if e != nil {
			r.Edges[s] = e.reaction()
		}
	}
	if m.x.mirror {
		r.Edges[Right] = r.Edges[Left]
		r.Corners[BottomRight], r.Corners[TopRight] = r.Corners[BottomLeft], r.Corners[TopLeft]
	}
}

// rest returns what the line loads of two like edges leave to their corner: the
// forces on the functions at whose ends they are 0, each counted once.
func (m *model) rest(k meeting, lines [4]*edgeLine, left []float64) float64 {
	sum := 0.0
	depth := int(m.pane.Edges[k.edges[0]])
	u, v := lines[k.edges[0]], lines[k.edges[1]]
	for i := range depth {
		iu, iv := u.from(k.last[0], i), v.from(k.last[1], i)
		sum += u.force[iu] - u.share(iu) + v.force[iv] - v.share(iv)
		for j := range depth {
			sum -= left[m.inward(k.edges[0], iu, j)]
		}
	}
	return sum
}
