// Package fit finds the parameters of a model that come nearest to readings, by
// least squares, and says how well they are known, which cannot be told apart, and
// which readings do not belong.
package fit

import (
	"errors"
	"fmt"
	"math"
)

// Problem is what is fitted. A prior is a residual like any other: how far a
// parameter lies from what was thought of it, over its doubt.
type Problem struct {
	Parameters, Residuals int
	// Of puts the residuals at p into r: of a reading, model less reading over
	// the reading's doubt. An error means that p is out of the model's range; the
	// step is then made shorter.
	Of func(p, r []float64) error
	// Step is the change of each parameter by which the slopes are found; nil, or
	// 0, takes 6e-6 of the parameter or of what moves the residuals by 1, whichever
	// is more. Two calls of Of go to each.
	Step []float64
}

// Settings steer Solve. The zero value is good for most.
type Settings struct {
	MaxSteps int // 0 means 400
	// Tolerance is the change of every parameter, as a share of itself, of what moves
	// the residuals by 1 and its Step,
	// and of the sum of squares at which all has settled; 0 means 1e-10.
	Tolerance float64
	// Damping is how short the first step is held; 0 means 100, which starts far
	// from the answer ask for. 1e-3 saves steps where it is near.
	Damping float64
	// Huber, if not 0, is the residual beyond which a reading is trusted less, in
	// doubts; 1.345 loses 5 % where nothing is wrong. Only the first Trusted
	// residuals are weighed so, or all if that is 0.
	// Source: Huber 1964, Ann. Math. Stat. 35:73; the 1.345 from memory.
	Huber   float64
	Trusted int
}

// Status says how a fit ended.
type Status int

// The ways to end.
const (
	Converged Status = iota
	StepLimit        // the best so far; not settled
)

// Result is a fit.
type Result struct {
	Status Status
	Steps  int
	P      []float64
	R      []float64   // residuals at P, unweighed
	J      [][]float64 // slopes at P, by residual and parameter, unweighed
	W      []float64   // weight of each residual, 0 to 1; 1 without Huber
	Sum    float64     // of the squares of R, each by its weight
	// Rank counts the directions that the residuals tell of.
	Rank int
	// Cov is the inverse of J'WJ: the covariance if the residuals are in units
	// of their doubt, and to be multiplied by Variance if not. Infinite for
	// parameters that are not told of.
	Cov [][]float64
}

// Variance returns the residuals' variance, Sum over the degrees of freedom; NaN
// if there are none.
func (r *Result) Variance() float64 {
	free := len(r.R) - len(r.P)
	if free <= 0 {
		return math.NaN()
	}
	return r.Sum / float64(free)
}

// Solve fits by the method of Levenberg and Marquardt: steps of Gauss and Newton,
// held short by a damping that each good step lessens, the slopes scaled by the
// greatest that each parameter has shown.
//
// Source: Marquardt 1963, J. SIAM 11:431; scaling after Moré 1978, Lecture Notes in
// Mathematics 630:105; damping after Nielsen 1999, IMM-REP-1999-05 (all from
// memory). Checked against certified values of the NIST Statistical Reference
// Datasets for nonlinear regression (TestCertified).
func Solve(pr Problem, start []float64, s Settings) (*Result, error) {
	if pr.Parameters < 1 || pr.Residuals < pr.Parameters || len(start) != pr.Parameters {
		return nil, fmt.Errorf("%d parameters cannot be fitted to %d residuals from a start of %d", pr.Parameters, pr.Residuals, len(start))
	}
	if s.MaxSteps == 0 {
		s.MaxSteps = 400
	}
	if s.Tolerance == 0 {
		s.Tolerance = 1e-10
	}
	if s.Damping == 0 {
		s.Damping = 100
	}
	f := newFitter(pr, start)
	if err := f.of(f.p, f.r); err != nil {
		return nil, fmt.Errorf("at the start: %w", err)
	}
	trusted := s.Trusted
	if trusted == 0 {
		trusted = pr.Residuals
	}
	res := &Result{Status: StepLimit}
	for res.Steps < s.MaxSteps {
		f.weigh(s.Huber, trusted)
		old := append([]float64(nil), f.p...)
		settled, steps, err := f.descend(s.Tolerance, s.Damping, s.MaxSteps-res.Steps)
		res.Steps += steps
		if err != nil {
			return nil, err
		}
		// With weights the squares are minimised again until the weights stay.
		if settled && (s.Huber == 0 || f.near(old, f.p, math.Max(1e-8, s.Tolerance))) {
			res.Status = Converged
			break
		}
	}
	if err := f.slopes(); err != nil {
		return nil, err
	}
	res.P, res.R, res.J, res.W, res.Sum = f.p, f.r, f.j, f.w, f.sum(f.r)
	res.Rank, res.Cov = covariance(f.j, f.w)
	return res, nil
}

// near reports whether two choices of parameters are the same but for a share of
// each, or of what moves the residuals by 1, or of the step by which its slopes are
// found.
func (f *fitter) near(a, b []float64, tolerance float64) bool {
	for i := range a {
		size := math.Max(f.size(i), math.Max(math.Abs(a[i]), math.Abs(b[i])))
		if f.pr.Step != nil {
			size += f.pr.Step[i]
		}
		if math.Abs(a[i]-b[i]) > tolerance*size {
			return false
		}
	}
	return true
}

type fitter struct {
	pr       Problem
	p, r, w  []float64
	try, rt  []float64
	lo, hi   []float64
	j        [][]float64
	d        []float64 // greatest slope of each parameter
	system   *triangle
	gradient []float64
}

func newFitter(pr Problem, start []float64) *fitter {
	n, m := pr.Parameters, pr.Residuals
	f := &fitter{
		pr: pr, p: append([]float64(nil), start...), r: make([]float64, m), w: make([]float64, m),
		try: make([]float64, n), rt: make([]float64, m), lo: make([]float64, m), hi: make([]float64, m),
		j: make([][]float64, m), d: make([]float64, n), system: newTriangle(n), gradient: make([]float64, n),
	}
	for i := range f.j {
		f.j[i] = make([]float64, n)
		f.w[i] = 1
	}
	return f
}

var errNotFinite = errors.New("a residual is not a number")

func (f *fitter) of(p, r []float64) error {
	if err := f.pr.Of(p, r); err != nil {
		return err
	}
	for _, v := range r {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return errNotFinite
		}
	}
	return nil
}

func (f *fitter) sum(r []float64) float64 {
	s := 0.0
	for i, v := range r {
		s += f.w[i] * v * v
	}
	return s
}

// weigh gives each trusted residual the weight of Huber.
func (f *fitter) weigh(k float64, trusted int) {
	for i := range trusted {
		if a := math.Abs(f.r[i]); k > 0 && a > k {
			f.w[i] = k / a
		} else {
			f.w[i] = 1
		}
	}
}

// slopes finds the slopes at p by central differences, one-sided where one side is
// out of range.
func (f *fitter) slopes() error {
	copy(f.try, f.p)
	for k := range f.p {
		h := 0.0
		if f.pr.Step != nil {
			h = f.pr.Step[k]
		}
		if h == 0 {
			h = 6e-6 * f.size(k)
		}
		up, down := f.p[k]+h, f.p[k]-h
		f.try[k] = up
		errUp := f.of(f.try, f.hi)
		if errUp != nil {
			up = f.p[k]
			copy(f.hi, f.r)
		}
		f.try[k] = down
		if err := f.of(f.try, f.lo); err != nil {
			if errUp != nil {
				return fmt.Errorf("parameter %d can be moved neither way: %w", k, err)
			}
			down = f.p[k]
			copy(f.lo, f.r)
		}
		f.try[k] = f.p[k]
		for i := range f.j {
			f.j[i][k] = (f.hi[i] - f.lo[i]) / (up - down)
		}
	}
	return nil
}

// size is what a small step of a parameter is small against. Of the parameter alone
// it would be next to nothing where the answer happens to lie near 0, and the slope
// would drown in the residuals' rounding.
func (f *fitter) size(k int) float64 {
	size := math.Abs(f.p[k])
	if f.d[k] > 1e-12 {
		size = math.Max(size, 1/f.d[k])
	}
	if size == 0 {
		return 1 // at the start nothing is known yet
	}
	return size
}

// descend goes down to the least sum of squares with the present weights.
func (f *fitter) descend(tolerance, damping float64, most int) (settled bool, steps int, err error) {
	mu, grow := damping, 2.0
	for steps = 1; steps <= most; steps++ {
		if err := f.slopes(); err != nil {
			return false, steps, err
		}
		f.scale()
		was := f.sum(f.r)
		for {
			step := f.system.step(f.j, f.r, f.w, f.d, mu)
			for k := range f.p {
				f.try[k] = f.p[k] + step[k]
			}
			small := f.near(f.p, f.try, tolerance)
			now := math.Inf(1)
			if f.of(f.try, f.rt) == nil {
				now = f.sum(f.rt)
			}
			gain := f.foretold(step)
			if now <= was {
				copy(f.p, f.try)
				copy(f.r, f.rt)
				x := 2*(was-now)/math.Max(gain, 1e-300) - 1
				mu *= math.Max(1.0/3, 1-x*x*x)
				grow = 2
				if small || was == 0 || gain <= tolerance*tolerance*was {
					return true, steps, nil
				}
				break
			}
			if small || mu > 1e30 {
				return true, steps, nil
			}
			mu *= grow
			grow *= 2
		}
	}
	return false, most, nil
}

// scale takes the greatest slope that each parameter has shown.
func (f *fitter) scale() {
	for k := range f.d {
		s := 0.0
		for i := range f.j {
			s += f.w[i] * f.j[i][k] * f.j[i][k]
		}
		if f.d[k] = math.Max(f.d[k], math.Sqrt(s)); f.d[k] == 0 {
			f.d[k] = 1e-12
		}
	}
}

// foretold is what a step gains if the slopes stay.
func (f *fitter) foretold(step []float64) float64 {
	gain := 0.0
	for i := range f.j {
		s := 0.0
		for k, v := range step {
			s += f.j[i][k] * v
		}
		gain += f.w[i] * (f.r[i]*f.r[i] - (f.r[i]+s)*(f.r[i]+s))
	}
	return gain
}
