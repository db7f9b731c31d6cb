package stiff

import "math"

// Coefficients of RODAS3 in the form that needs no product with the matrix.
const gamma = 0.5

var (
	stageA = [4][3]float64{{}, {0}, {2, 0}, {2, 0, 1}}
	stageC = [4][3]float64{{}, {4}, {1, -1}, {1, -1, -8.0 / 3}}
	stageT = [4]float64{0, 0, 1, 1}           // time of each stage
	stageD = [4]float64{0.5, 1.5, 0, 0}       // weight of the slope by time
	result = [4]float64{2, 0, 1, 1}           // weights of the stages
	anew   = [4]bool{true, false, true, true} // whether a stage asks for rates
)

// slopes takes the slopes of all rates by each store felt, and by time.
func (s *Solver) slopes() {
	if s.slopesKnown {
		return
	}
	copy(s.xs, s.x)
	for j := range s.slope {
		d := 1e-7 * max(math.Abs(s.x[j]), 1e-3)
		s.xs[j] = s.x[j] + d
		d = s.xs[j] - s.x[j] // as it was rounded
		s.sys.Rates(s.t, s.xs, s.slope[j])
		for k := range s.slope[j] {
			s.slope[j][k] = (s.slope[j][k] - s.rate[k]) / d
		}
		s.xs[j] = s.x[j]
	}
	if s.sys.Changing {
		d := 1e-6 * max(s.h, 1e-3)
		t := s.t + d
		d = t - s.t
		s.sys.Rates(t, s.x, s.rateT)
		for k := range s.rateT {
			s.rateT[k] = (s.rateT[k] - s.rate[k]) / d
		}
	}
	s.slopesKnown = true
}

// try takes a trial step of length h and returns its error as a multiple of the
// tolerance.
func (s *Solver) try(h float64) (bad float64) {
	if !s.factor(1 / (h * gamma)) {
		return math.NaN()
	}
	copy(s.stage, s.rate)
	for i := range s.u {
		if i > 0 && anew[i] {
			copy(s.xs, s.x)
			for j := range i {
				if a := stageA[i][j]; a != 0 {
					s.add(s.xs, s.u[j], a)
				}
			}
			s.sys.Rates(s.t+stageT[i]*h, s.xs, s.stage)
		}
		u := s.u[i]
		copy(u, s.stage)
		for j := range i {
			if c := stageC[i][j] / h; c != 0 {
				for k, v := range s.u[j] {
					u[k] += c * v
				}
			}
		}
		if s.sys.Changing && stageD[i] != 0 {
			for k, v := range s.rateT {
				u[k] += h * stageD[i] * v
			}
		}
		// What the stores gain, from (1/(h gamma) - J) du = B u, gives what
		// moves along the paths: h gamma (u + R du).
		clear(s.sum)
		s.addFelt(s.sum, u)
		s.solve(s.sum)
		for j, du := range s.sum {
			if du == 0 {
				continue
			}
			for k, r := range s.slope[j] {
				u[k] += r * du
			}
		}
		for k := range u {
			u[k] *= h * gamma
		}
	}
	clear(s.trialMoved)
	for i, m := range result {
		if m != 0 {
			for k, v := range s.u[i] {
				s.trialMoved[k] += m * v
			}
		}
	}
	copy(s.trial, s.x)
	s.add(s.trial, s.trialMoved, 1)
	clear(s.sum)
	s.addFelt(s.sum, s.u[3])
	for _, e := range s.sum {
		if e = math.Abs(e) / s.tolerance; !(e <= bad) {
			bad = e
		}
	}
	return bad
}

// add moves a times the amounts u along the paths in x.
func (s *Solver) add(x, u []float64, a float64) {
	for k, p := range s.sys.Paths {
		v := a * u[k]
		x[p.From] -= v
		x[p.To] += v
	}
}

// addFelt is add for the stores felt.
func (s *Solver) addFelt(x, u []float64) {
	for k, p := range s.sys.Paths {
		if p.From < len(x) {
			x[p.From] -= u[k]
		}
		if p.To < len(x) {
			x[p.To] += u[k]
		}
	}
}

// factor prepares to solve (d I - J) y = b by elimination with row exchanges; it
// reports whether the matrix is not singular.
func (s *Solver) factor(d float64) bool {
	n := s.sys.Felt
	a := s.lu
	clear(a)
	for k, p := range s.sys.Paths {
		for j := range n {
			r := s.slope[j][k]
			if p.From < n {
				a[p.From*n+j] += r
			}
			if p.To < n {
				a[p.To*n+j] -= r
			}
		}
	}
	for i := range n {
		a[i*n+i] += d
	}
	for c := range n {
		best := c
		for r := c + 1; r < n; r++ {
			if math.Abs(a[r*n+c]) > math.Abs(a[best*n+c]) {
				best = r
			}
		}
		s.pivot[c] = best
		if best != c {
			for j := range n {
				a[c*n+j], a[best*n+j] = a[best*n+j], a[c*n+j]
			}
		}
		p := a[c*n+c]
		if p == 0 || math.IsNaN(p) || math.IsInf(p, 0) {
			return false
		}
		for r := c + 1; r < n; r++ {
			f := a[r*n+c] / p
			a[r*n+c] = f
			if f != 0 {
				for j := c + 1; j < n; j++ {
					a[r*n+j] -= f * a[c*n+j]
				}
			}
		}
	}
	return true
}

// solve replaces b by the solution of the factored system.
func (s *Solver) solve(b []float64) {
	n := s.sys.Felt
	a := s.lu
	for c := range n {
		if p := s.pivot[c]; p != c {
			b[c], b[p] = b[p], b[c]
		}
	}
	for r := 1; r < n; r++ {
		for c := range r {
			b[r] -= a[r*n+c] * b[c]
		}
	}
	for r := n - 1; r >= 0; r-- {
		for c := r + 1; c < n; c++ {
			b[r] -= a[r*n+c] * b[c]
		}
		b[r] /= a[r*n+r]
	}
}
