package asbuilt

import "math"

// Next is what to measure next.
type Next struct {
	ID      string
	Minutes float64 // it takes: assumed, no source
	// Apart is how far the two leading suspects lie apart in it, in doubts; below
	// 2 it will not settle the matter alone.
	Apart float64
	// First and Second are what the two leading suspects foretell of it, SI; of
	// cups, of the one that differs most.
	First, Second float64
	Split         [2]string // the suspects that it splits
}

// effort is what a measurement takes, in minutes: assumed, no source.
func effort(what string) float64 {
	switch what {
	case "rise", "draw":
		return 3
	case "shut-off":
		return 4
	case "bare", "manifold", "wall":
		return 5
	case "no-strainer":
		return 8
	case "no-barb":
		return 12
	case "hose", "hose-low":
		return 12
	case "top-up":
		return 30 // and a day of waiting
	}
	return 15 // a row of cups
}

// next returns the cheapest measurement not yet made that lays the two leading
// suspects two doubts apart; failing that, the one that lays them furthest apart
// for its effort.
func (j *judge) next(a, b *hypothesis, d []datum) *Next {
	read := map[string]bool{}
	for i := range d {
		read[j.sites[d[i].site].ID] = true
	}
	var best *Next
	better := func(n *Next) bool {
		switch {
		case best == nil:
			return true
		case n.Apart >= 2 != (best.Apart >= 2):
			return n.Apart >= 2
		case n.Apart >= 2:
			return n.Minutes < best.Minutes
		}
		return n.Apart/math.Sqrt(n.Minutes) > best.Apart/math.Sqrt(best.Minutes)
	}
	for i := 0; i < len(j.sites); {
		id := j.sites[i].ID
		k := i
		var more []datum
		for ; i < len(j.sites) && j.sites[i].ID == id; i++ {
			more = append(more, j.wouldRead(i))
		}
		if read[id] || math.IsNaN(j.y[k]) || j.y[k] == 0 {
			continue
		}
		n := j.apart(a, b, d, more)
		n.ID, n.Minutes, n.Split = id, effort(word(id)), [2]string{a.ID, b.ID}
		if better(&n) {
			best = &n
		}
	}
	return best
}

// word is the id of a check without its part.
func word(id string) string {
	for i := range id {
		if id[i] == '[' {
			return id[:i]
		}
	}
	return id
}

// wouldRead is a datum of a site with the doubt that a reading of it would have.
func (j *judge) wouldRead(s int) datum {
	v := j.y[s]
	x := datum{site: s, value: v}
	switch w := word(j.sites[s].ID); {
	case j.sites[s].Cup >= 0:
		x.doubt = cupRead * v
	case w == "shut-off":
		x.doubt = math.Hypot(tape, 0.01*v)
	case w == "rise" || w == "draw":
		x.doubt = mark * math.Sqrt2
	case w == "top-up":
		x.doubt = daily * v
	default:
		x.doubt = math.Hypot(jug, timed/math.Sqrt(3)) * v
	}
	return x
}

// apart tells how far two suspects lie apart in what would be read, given what was.
func (j *judge) apart(a, b *hypothesis, d, more []datum) Next {
	ma, ca := j.given(a, d, more)
	mb, cb := j.given(b, d, more)
	n := len(more)
	miss := make([]float64, n)
	most := 0
	for i := range n {
		miss[i] = ma[i] - mb[i]
		for k := range n {
			ca[i][k] = (ca[i][k] + cb[i][k]) / 2
		}
		if math.Abs(miss[i]) > math.Abs(miss[most]) {
			most = i
		}
	}
	_, square := decompose(ca, miss)
	return Next{Apart: math.Sqrt(math.Max(square, 0)), First: ma[most], Second: mb[most]}
}

// given returns mean and covariance of what would be read by the likeliest degree
// of a suspect, given what was read.
func (j *judge) given(h *hypothesis, d, more []datum) (mean []float64, cov [][]float64) {
	p := h.best()
	all := append(append([]datum(nil), d...), more...)
	c := j.covariance(p, all)
	n, m := len(d), len(more)
	known := make([][]float64, n)
	miss := make([]float64, n)
	for i := range known {
		known[i] = c[i][:n]
		miss[i] = d[i].value - p.y[d[i].site]
	}
	l := cholesky(known)
	w := forward(l, miss)
	mean, cov = make([]float64, m), make([][]float64, m)
	v := make([][]float64, m)
	for i := range m {
		v[i] = forward(l, c[n+i][:n])
		mean[i] = p.y[more[i].site]
		for k := range n {
			mean[i] += v[i][k] * w[k]
		}
	}
	for i := range m {
		cov[i] = make([]float64, m)
		for k := range m {
			cov[i][k] = c[n+i][n+k]
			for q := range n {
				cov[i][k] -= v[i][q] * v[k][q]
			}
		}
	}
	return mean, cov
}
