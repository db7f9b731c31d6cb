package plate

// numbering gives each function of x times function of y the number of its
// unknown, -1 if it is 0. Numbers run fastest along the axis with fewer
// functions, so that the matrix is narrow.
type numbering struct {
	of    []int
	n     int
	reach int
}

// number leaves out the functions that supports make 0, and makes two into one
// at a line of symmetry, where the slope across it is 0.
func number(x, y *axis, edges [4]Support) numbering {
	nx, ny := x.n, y.n
	first := func(s Support) int { return int(s) } // functions lost: none, one, two
	x0, x1 := first(edges[Left]), nx-first(edges[Right])
	if x.mirror {
		x1 = nx
	}
	y0, y1 := first(edges[Bottom]), ny-first(edges[Top])
	f := numbering{of: make([]int, nx*ny)}
	for i := range f.of {
		f.of[i] = -1
	}
	visit := func(a, c int) {
		if x.mirror && a == nx-1 {
			f.of[a*ny+c] = f.of[(a-1)*ny+c]
			return
		}
		f.of[a*ny+c] = f.n
		f.n++
	}
	if nx > ny {
		for a := x0; a < x1; a++ {
			for c := y0; c < y1; c++ {
				visit(a, c)
			}
		}
		f.reach = degree*(y1-y0) + degree
	} else {
		for c := y0; c < y1; c++ {
			for a := x0; a < x1; a++ {
				visit(a, c)
			}
		}
		wide := x1 - x0
		if x.mirror {
			wide--
		}
		f.reach = degree*wide + degree
	}
	f.reach = min(f.reach, f.n-1)
	return f
}

// gather adds the parts of a field on each unknown.
func (f *numbering) gather(field, out []float64) {
	clear(out)
	for i, k := range f.of {
		if k >= 0 {
			out[k] += field[i]
		}
	}
}

// scatter is the field that has the given unknowns.
func (f *numbering) scatter(unknowns, out []float64) {
	for i, k := range f.of {
		out[i] = 0
		if k >= 0 {
			out[i] = unknowns[k]
		}
	}
}
