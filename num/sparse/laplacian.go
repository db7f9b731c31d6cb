// Package sparse solves the linear systems of networks: symmetric matrices made
// of conductances between nodes and from nodes to ground. Their pattern stays
// while their numbers change, as in Newton's method on a pipe circuit, so the
// elimination order and the fill are worked out once and each factorisation
// touches only numbers and allocates nothing.
package sparse

import (
	"errors"
	"fmt"
)

// ErrFloating reports that some node has no way to ground, so that its value is
// not determined.
var ErrFloating = errors.New("not joined to ground")

// Laplacian is the factorisation P A P' = L D L' of a matrix A whose entry
// (i, j) is minus the conductance between nodes i and j and whose diagonal is
// the sum of a node's conductances, that to ground included. Make one with
// Analyze. It must not be used by two goroutines at once.
//
// Pivots are not found by subtracting from the diagonal but by adding up what
// is left of a node's conductances, to ground and to nodes not yet eliminated.
// Every operation adds positive numbers, so that the factors are right to the
// last digits even when conductances differ by a factor of 1e20 and a cluster
// hangs on ground by the smallest alone (Grassmann, Taksar & Heyman 1985 and
// Alfa, Xue & Ye 2002 for the principle; from memory, the code is our own).
type Laplacian struct {
	n    int
	perm []int32 // perm[k] is the caller's index of pivot k

	// Conductances of the permuted matrix below the diagonal, by columns:
	// entry e of the caller is added into slot[e] of ax.
	ap   []int32
	ai   []int32
	ax   []float64
	slot []int32

	// -L by columns, without its unit diagonal, and the pattern of its rows.
	lp, li []int32
	lx     []float64
	rp, ri []int32
	block  []int32 // number of the run of columns of one pattern that a column is in
	next   []int32
	d      []float64
	ground []float64 // conductance to ground left at each pivot
	work   []float64
}

// Analyze prepares to factor Laplacians of n nodes with conductances between
// rows[e] and cols[e]; several between the same two nodes add up. It panics if
// the lengths differ, an index is out of range or joins a node to itself, which
// are mistakes of the caller.
func Analyze(n int, rows, cols []int32) *Laplacian {
	if len(rows) != len(cols) {
		panic("sparse: rows and cols differ in length")
	}
	for e := range rows {
		if rows[e] == cols[e] || rows[e] < 0 || cols[e] < 0 || int(rows[e]) >= n || int(cols[e]) >= n {
			panic(fmt.Sprintf("sparse: entry %d joins %d and %d, which are not two of %d nodes", e, rows[e], cols[e], n))
		}
	}
	f := &Laplacian{n: n, perm: minimumDegree(n, rows, cols)}
	f.layOut(rows, cols)
	f.symbolic()
	f.d = make([]float64, n)
	f.ground = make([]float64, n)
	f.work = make([]float64, n)
	return f
}

// N returns the order of the matrix.
func (f *Laplacian) N() int { return f.n }

// Fill returns the number of entries below the diagonal of L.
func (f *Laplacian) Fill() int { return len(f.li) }

// layOut arranges the conductances of the permuted matrix by columns and tells
// each of the caller's entries which slot it adds to.
func (f *Laplacian) layOut(rows, cols []int32) {
	inv := make([]int32, f.n)
	for k, i := range f.perm {
		inv[i] = int32(k)
	}
	start := make([]int32, f.n+1)
	for e := range rows {
		start[min(inv[rows[e]], inv[cols[e]])+1]++
	}
	for k := range f.n {
		start[k+1] += start[k]
	}
	order := make([]int32, len(rows))
	fillAt := append([]int32(nil), start...)
	for e := range rows {
		c := min(inv[rows[e]], inv[cols[e]])
		order[fillAt[c]] = int32(e)
		fillAt[c]++
	}
	f.ap = make([]int32, f.n+1)
	f.slot = make([]int32, len(rows))
	seenIn := make([]int32, f.n)
	seenAt := make([]int32, f.n)
	for k := range f.n {
		for _, e := range order[start[k]:start[k+1]] {
			r := max(inv[rows[e]], inv[cols[e]])
			if seenIn[r] != int32(k)+1 {
				seenIn[r] = int32(k) + 1
				seenAt[r] = int32(len(f.ai))
				f.ai = append(f.ai, r)
			}
			f.slot[e] = seenAt[r]
		}
		f.ap[k+1] = int32(len(f.ai))
	}
	f.ax = make([]float64, len(f.ai))
}

// symbolic finds the elimination tree and from it the pattern of L.
func (f *Laplacian) symbolic() {
	n := f.n
	// The entries left of the diagonal, by rows.
	up := make([]int32, n+1)
	for _, r := range f.ai {
		up[r+1]++
	}
	for k := range n {
		up[k+1] += up[k]
	}
	left := make([]int32, len(f.ai))
	fillAt := append([]int32(nil), up...)
	for k := range n {
		for _, r := range f.ai[f.ap[k]:f.ap[k+1]] {
			left[fillAt[r]] = int32(k)
			fillAt[r]++
		}
	}
	parent := make([]int32, n)
	flag := make([]int32, n)
	f.rp = make([]int32, n+1)
	f.lp = make([]int32, n+1)
	for k := range n {
		parent[k] = -1
		flag[k] = int32(k)
		for _, i := range left[up[k]:up[k+1]] {
			// Row k holds all that is met on the way from i to the root of
			// its subtree so far.
			for flag[i] != int32(k) {
				if parent[i] < 0 {
					parent[i] = int32(k)
				}
				flag[i] = int32(k)
				f.ri = append(f.ri, i)
				f.lp[i+1]++
				i = parent[i]
			}
		}
		f.rp[k+1] = int32(len(f.ri))
	}
	for k := range n {
		f.lp[k+1] += f.lp[k]
	}
	f.li = make([]int32, len(f.ri))
	f.lx = make([]float64, len(f.ri))
	f.next = make([]int32, n)
	copy(f.next, f.lp[:n])
	for k := range n {
		for _, i := range f.ri[f.rp[k]:f.rp[k+1]] {
			f.li[f.next[i]] = int32(k)
			f.next[i]++
		}
	}
	// The rows again, now in ascending order, so that columns of one block
	// stand side by side in them.
	copy(flag, f.rp[:n])
	for i := range n {
		for _, k := range f.li[f.lp[i]:f.lp[i+1]] {
			f.ri[flag[k]] = int32(i)
			flag[k]++
		}
	}
	// Column i+1 belongs with column i if that holds nothing but i+1 and the
	// pattern of i+1.
	f.block = make([]int32, n)
	for i := 1; i < n; i++ {
		f.block[i] = f.block[i-1]
		before, own := f.lp[i]-f.lp[i-1], f.lp[i+1]-f.lp[i]
		if parent[i-1] != int32(i) || before != own+1 {
			f.block[i]++
		}
	}
}

// Factor computes the factorisation for the given conductances: ground[i] from
// node i to ground and between[e] along entry e as given to Analyze, none of
// them negative. It allocates nothing. The error is ErrFloating, wrapped with
// the node at fault; a conductance that is not a number gives it too.
func (f *Laplacian) Factor(ground, between []float64) error {
	clear(f.ax)
	for e, s := range f.slot {
		f.ax[s] += between[e]
	}
	c := f.work
	copy(f.next, f.lp[:f.n])
	for k := range f.n {
		// c gathers the conductances from k to the nodes after it.
		own := f.li[f.lp[k]:f.lp[k+1]]
		for _, j := range own {
			c[j] = 0
		}
		for p := f.ap[k]; p < f.ap[k+1]; p++ {
			c[f.ai[p]] = f.ax[p]
		}
		g := ground[f.perm[k]]
		for row := f.ri[f.rp[k]:f.rp[k+1]]; len(row) > 0; {
			// Node i, already gone, joined k to the others after it in
			// proportion to its conductances. Nodes of one block joined the
			// same others and are added four at a time.
			i := row[0]
			if n := len(row); n >= 4 && row[3] == i+3 && f.block[i+3] == f.block[i] {
				w0, v0, g0 := f.passed(i)
				w1, v1, g1 := f.passed(i + 1)
				w2, v2, g2 := f.passed(i + 2)
				w3, v3, g3 := f.passed(i + 3)
				g += g0 + g1 + g2 + g3
				rows := f.li[f.next[i]:f.lp[i+1]]
				v0, v1, v2, v3 = v0[:len(rows)], v1[:len(rows)], v2[:len(rows)], v3[:len(rows)]
				for p, j := range rows {
					c[j] += v0[p]*w0 + v1[p]*w1 + v2[p]*w2 + v3[p]*w3
				}
				row = row[4:]
				continue
			}
			w, vals, gi := f.passed(i)
			g += gi
			rows := f.li[f.next[i]:f.lp[i+1]]
			vals = vals[:len(rows)]
			for p, j := range rows {
				c[j] += vals[p] * w
			}
			row = row[1:]
		}
		d := g
		for _, j := range own {
			d += c[j]
		}
		if !(d > 0) {
			return fmt.Errorf("node %d: %w", f.perm[k], ErrFloating)
		}
		f.ground[k] = g
		f.d[k] = d
		inv := 1 / d
		vals := f.lx[f.lp[k]:f.lp[k+1]]
		vals = vals[:len(own)]
		for p, j := range own {
			vals[p] = c[j] * inv
		}
	}
	return nil
}

// passed moves on to the next entry of column i, that of the row now being
// computed. It returns what multiplies the entries after it, those entries, and
// the share of the node's conductance to ground that the row's node takes over.
func (f *Laplacian) passed(i int32) (weight float64, vals []float64, ground float64) {
	at := f.next[i]
	f.next[i] = at + 1
	share := f.lx[at]
	return share * f.d[i], f.lx[at+1 : f.lp[i+1]], share * f.ground[i]
}

// Solve replaces b by the solution x of A x = b for the matrix last factored.
// It allocates nothing.
func (f *Laplacian) Solve(b []float64) {
	x := f.work
	for k, i := range f.perm {
		x[k] = b[i]
	}
	for k := range f.n {
		xk := x[k]
		if xk == 0 {
			continue
		}
		rows := f.li[f.lp[k]:f.lp[k+1]]
		vals := f.lx[f.lp[k]:f.lp[k+1]]
		vals = vals[:len(rows)]
		for p, r := range rows {
			x[r] += vals[p] * xk
		}
	}
	for k := f.n - 1; k >= 0; k-- {
		xk := x[k] / f.d[k]
		rows := f.li[f.lp[k]:f.lp[k+1]]
		vals := f.lx[f.lp[k]:f.lp[k+1]]
		vals = vals[:len(rows)]
		for p, r := range rows {
			xk += vals[p] * x[r]
		}
		x[k] = xk
	}
	for k, i := range f.perm {
		b[i] = x[k]
	}
}
