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
	m.apply(m.w, out)
	if m.stress != nil {
		pushed := make([]float64, len(m.w))
		m.evaluate(m.w, m.stretch.xs, m.stretch.ys, &m.stretch.u)
		m.stretch.push(m.stress, &m.stretch.u, pushed)
		add(out, pushed)
	}
	for i := range out {
		out[i] = m.force[i] - out[i]
	}
	return out
}

// edgeLine is a supported edge and the line load along it.
type edgeLine struct {
	a        *axis
	products []float64
	force    []float64 // on each function along the edge, N
	line     []float64 // coefficients of the line load, N/m
	zero     [2]bool   // whether the line load is 0 at its start and end
}

// edge collects what the functions along an edge must take.
func (m *model) edge(s Side, left []float64) *edgeLine {
	nx, ny := m.x.n, m.y.n
	e := &edgeLine{a: m.y, products: m.yy[0]}
	from, step := 0, 1
	switch s {
	case Right:
		from = (nx - 1) * ny
	case Bottom, Top:
		e.a, e.products, step = m.x, m.xx[0], ny
		if s == Top {
			from = ny - 1
		}
	}
	e.force, e.line = make([]float64, e.a.n), make([]float64, e.a.n)
	for i := range e.force {
		e.force[i] = left[from+i*step]
	}
	return e
}

// end returns the number of the function that is not 0 at an end.
func (e *edgeLine) end(last bool) int {
	if last {
		return e.a.n - 1
	}
	return 0
}

// share returns what the line load gives the function at an end, N.
func (e *edgeLine) share(last bool) float64 {
	i, sum := e.end(last), 0.0
	for j := max(0, i-degree); j <= min(e.a.n-1, i+degree); j++ {
		sum += e.products[i*width+j-i+degree] * e.line[j]
	}
	return sum
}

// solve finds the line load whose products with the functions are the forces.
func (e *edgeLine) solve() {
	of := make([]int, e.a.n)
	n := 0
	for i := range of {
		switch {
		case i == 0 && e.zero[0], i == e.a.n-1 && e.zero[1] && !e.a.mirror:
			of[i] = -1
		case i == e.a.n-1 && e.a.mirror:
			of[i] = of[i-1] // no slope at a line of symmetry
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
	p := e.a.evenPoints(8)
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
	last  [2]bool // which end of each
	sign  float64 // of the twist that pulls the corner
}

func meetings() [4]meeting {
	return [4]meeting{
		BottomLeft:  {[2]Side{Bottom, Left}, [2]bool{false, false}, 1},
		BottomRight: {[2]Side{Bottom, Right}, [2]bool{true, false}, -1},
		TopRight:    {[2]Side{Top, Right}, [2]bool{true, true}, 1},
		TopLeft:     {[2]Side{Top, Left}, [2]bool{false, true}, -1},
	}
}

// reactions fills in what the edges and corners take. Where two like edges meet,
// both line loads end at 0 and the corner takes the rest; a clamped edge has no
// twist, so no force at its ends; beside a free edge the twist of the held one
// gives the force.
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
			other := p.Edges[k.edges[1-i]]
			switch e := lines[s]; {
			case e == nil || !modelled(c):
			case other == p.Edges[s] || p.Edges[s] == Clamped && other != Free:
				end := 0
				if k.last[i] {
					end = 1
				}
				e.zero[end] = true
			case other == Free && p.Edges[s] == Held:
				x := 0.0
				if k.edges[1] == Right {
					x = p.Width
				}
				y := 0.0
				if k.edges[0] == Top {
					y = p.Height
				}
				twist := m.at(m.w, x, y)[dxy]
				r.Corners[c] = -k.sign * 2 * p.Rigidity() * (1 - p.Poisson) * twist
				e.force[e.end(k.last[i])] -= r.Corners[c]
			}
		}
	}
	for s, e := range lines {
		if e != nil && p.Edges[s] == Clamped {
			e.solve()
		}
	}
	for c, k := range corners {
		for i, s := range k.edges {
			if o := k.edges[1-i]; modelled(c) && p.Edges[s] == Held && p.Edges[o] == Clamped {
				lines[s].force[lines[s].end(k.last[i])] -= lines[o].share(k.last[1-i])
			}
		}
	}
	for s, e := range lines {
		if e != nil && p.Edges[s] == Held {
			e.solve()
		}
	}
	for c, k := range corners {
		u, v := lines[k.edges[0]], lines[k.edges[1]]
		if modelled(c) && p.Edges[k.edges[0]] == p.Edges[k.edges[1]] && u != nil {
			r.Corners[c] = u.force[u.end(k.last[0])] - u.share(k.last[0]) - v.share(k.last[1])
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
