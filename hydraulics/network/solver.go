package network

import (
	"errors"
	"fmt"
	"math"

	"rillwright/num/sparse"
)

// Settings steer a solution. The zero value means the documented defaults.
type Settings struct {
	// MaxIterations bounds the Newton steps of one call of Solve; 0 for 400.
	MaxIterations int
	// Tolerance is the largest head residual of a link, as a share of the
	// largest head difference in the circuit; 0 for 1e-11. Where rounding does
	// not let the residual fall so far, 1e-8 is taken; Result.Residual tells.
	Tolerance float64
}

// Status tells how a solution ended.
type Status int

// The ways a solution can end.
const (
	// Converged: all residuals are within tolerance.
	Converged Status = iota
	// Stalled: the iteration limit was reached; Result.Residual tells how far
	// off it is.
	Stalled
)

func (s Status) String() string {
	if s == Converged {
		return "converged"
	}
	return "stalled"
}

// Result is the state of a circuit. Its slices belong to the Solver and are
// overwritten by its next Solve.
type Result struct {
	Head     []float64 // total head at each node, m; 0 for Isolated nodes
	Flow     []float64 // flow of each link, m3/s, positive From to To
	Isolated []bool    // nodes that closed links cut off from every given head
	Status   Status
	// Iterations counts Newton steps; each is one factorisation.
	Iterations int
	// Residual is the largest head residual of a link, m.
	Residual float64
	// Imbalance is the largest difference between what flows into and out of
	// a node, m3/s.
	Imbalance float64
}

// Solver solves one circuit, again and again if need be: its laws, heads,
// demands and one-way flags may be changed between calls of Solve, its shape
// (nodes, ends and closed flags of links, fixed flags) may not. A Solver must
// not be used by two goroutines at once.
//
// Method: Newton's method on heads and flows together, in the form of Todini &
// Pilati 1987 ("A gradient method for the analysis of pipe networks", from
// memory), written for corrections so that rounding shrinks with them. Each step
// solves one symmetric positive definite system in the free nodes' heads. Once
// the flows balance at the nodes, the step is a descent direction of the
// content, a convex function; a line search on its slope then makes the method
// converge from any start. One-way links are given a steep slope for reverse
// flow, made steeper in stages. Couplings (tees) are held at the last known
// flows within a step and brought up to date between steps.
type Solver struct {
	p        *Problem
	settings Settings

	free     []int32 // node index of each unknown
	unknown  []int32 // unknown of each node, or -1
	open     []int32 // links that can carry water between anchored nodes
	entry    []int32 // off-diagonal entry of each open link, or -1
	isolated []bool
	matrix   *sparse.Laplacian

	head, flow            []float64
	loss, slope           []float64 // of each link at flow
	extra, stiff          []float64 // of couplings at flow
	step                  []float64
	trial, trialLoss      []float64 // along a step
	trialSlope            []float64
	ground, between       []float64
	rhs, bal              []float64
	wall                  float64
	damping               float64 // multiplies stiff; 0 while steps go well
	tied                  []int32 // links on which couplings put a loss
	ties                  *krylov
	tiedRHS, tiedLoss     []float64
	acting, dflow, dextra []float64
	conductance, drop     []float64
	coupled, solvedOnce   bool
}

// NewSolver prepares to solve p, which the Solver keeps. The error is an
// *InvalidError that says what is wrong with the circuit.
func NewSolver(p *Problem, settings Settings) (*Solver, error) {
	if err := p.check(); err != nil {
		return nil, err
	}
	if settings.MaxIterations <= 0 {
		settings.MaxIterations = 400
	}
	if settings.Tolerance <= 0 {
		settings.Tolerance = 1e-11
	}
	s := &Solver{p: p, settings: settings}
	joined := p.reach()
	s.unknown = make([]int32, len(p.Nodes))
	s.isolated = make([]bool, len(p.Nodes))
	for i := range p.Nodes {
		s.unknown[i] = -1
		switch n := &p.Nodes[i]; {
		case n.Fixed:
		case joined[i]:
			s.unknown[i] = int32(len(s.free))
			s.free = append(s.free, int32(i))
		default:
			if n.Demand != 0 {
				return nil, &InvalidError{n.ID, fmt.Sprintf("nothing open leads to it, yet it asks for %g m3/s", n.Demand)}
			}
			s.isolated[i] = true
		}
	}
	s.entry = make([]int32, len(p.Links))
	var rows, cols []int32
	for k := range p.Links {
		l := &p.Links[k]
		s.entry[k] = -1
		if l.Closed || s.isolated[l.From] {
			continue
		}
		s.open = append(s.open, int32(k))
		if f, t := s.unknown[l.From], s.unknown[l.To]; f >= 0 && t >= 0 {
			s.entry[k] = int32(len(rows))
			rows = append(rows, f)
			cols = append(cols, t)
		}
	}
	s.matrix = sparse.Analyze(len(s.free), rows, cols)
	s.allocate(len(rows))
	return s, nil
}

func (s *Solver) allocate(entries int) {
	nodes, links, free := len(s.p.Nodes), len(s.p.Links), len(s.free)
	block := make([]float64, nodes+14*links+3*free+entries)
	take := func(n int) []float64 {
		part := block[:n:n]
		block = block[n:]
		return part
	}
	s.head = take(nodes)
	s.flow, s.loss, s.slope = take(links), take(links), take(links)
	s.extra, s.stiff = take(links), take(links)
	s.step, s.trial, s.trialLoss, s.trialSlope = take(links), take(links), take(links), take(links)
	s.conductance, s.drop = take(links), take(links)
	s.acting, s.dflow, s.dextra = take(links), take(links), take(links)
	s.ground, s.rhs, s.bal = take(free), take(free), take(free)
	s.between = take(entries)
	tied := make([]bool, links)
	for _, c := range s.p.Couplings {
		for _, k := range c.Links() {
			tied[k] = true
		}
	}
	for _, k := range s.open {
		if tied[k] {
			s.tied = append(s.tied, k)
		}
	}
	s.ties = newKrylov(len(s.tied))
	s.tiedRHS, s.tiedLoss = make([]float64, len(s.tied)), make([]float64, len(s.tied))
}

// The slopes given to reverse flow through one-way links, s/m2, in the order
// they are tried: the first is of the order of a small outlet's own slope, so
// that Newton's steps are not hindered by it; at the last, a metre of head
// drives 1e-14 m3/s, far below rounding of any flow that matters.
var walls = [...]float64{1e6, 1e10, 1e14}

const (
	// Laws that are flat at rest (a square law, a pump) are given a slope, so
	// that no conductance is infinite: leastShare of the circuit's own scale
	// of head over flow, and no more than leastSlope, s/m2, in a circuit at
	// rest, where that scale is a ratio of roundings.
	leastSlope = 1e-3
	leastShare = 1e-6
	roughly    = 1e-3 // couplings are let in once heads agree to this share
	goodEnough = 1e-8 // share of the heads, once rounding stops the descent
	patience   = 10   // steps without progress before couplings are damped more
)

// Solve brings the circuit to rest and returns its state. It starts from the
// state last found, or from the links' guesses the first time. It returns an
// error only if the laws give numbers that are none or the circuit asks for
// flows that its one-way links forbid; otherwise look at Result.Status.
func (s *Solver) Solve() (Result, error) {
	if !s.solvedOnce {
		s.start()
	}
	for i := range s.p.Nodes {
		if s.p.Nodes[i].Fixed {
			s.head[i] = s.p.Nodes[i].Head
		}
	}
	s.solvedOnce = false
	res := Result{Isolated: s.isolated}
	for stage, wall := range walls {
		s.wall = wall
		if err := s.descend(&res); err != nil {
			return res, err
		}
		if stage == 0 && !s.anyReverse() {
			break
		}
	}
	if res.Status != Converged && s.wall > walls[1] {
		// Where flows are large, rounding of them against the steepest slope
		// may be metres of head.
		s.wall = walls[1]
		if err := s.descend(&res); err != nil {
			return res, err
		}
	}
	res.Head, res.Flow = s.head, s.flow
	for _, i := range s.free {
		if math.Abs(s.head[i]) > 1e7 {
			return res, &InvalidError{s.p.Nodes[i].ID, "the flow it asks for can only come through a one-way link against its direction"}
		}
	}
	s.solvedOnce = res.Status == Converged
	return res, nil
}

// Reset forgets the state last found, so that the next Solve starts from the
// links' guesses.
func (s *Solver) Reset() { s.solvedOnce = false }

// start sets flows and heads to begin with: the links' guesses or, for a link
// without one, a flow at which it loses about a third of the head there is.
func (s *Solver) start() {
	s.coupled = false
	clear(s.extra)
	clear(s.stiff)
	clear(s.flow)
	lo, hi := math.Inf(1), math.Inf(-1)
	for i := range s.p.Nodes {
		if n := &s.p.Nodes[i]; n.Fixed {
			lo, hi = min(lo, n.Head), max(hi, n.Head)
		}
	}
	for _, i := range s.free {
		s.head[i] = lo
	}
	available := max((hi-lo)/3, 0.01)
	for _, k := range s.open {
		l := &s.p.Links[k]
		if s.flow[k] = l.Guess; l.Guess == 0 {
			s.flow[k] = flowLosing(l.Law, available)
		}
	}
}

// flowLosing returns, to within a factor of four, the flow at which a law loses
// h more than at rest.
func flowLosing(law Law, h float64) float64 {
	q := 1e-5
	at := func(q float64) float64 { v, _ := law.Loss(q); return v }
	h += at(0)
	for at(q) > h && q > 1e-12 {
		q /= 4
	}
	for at(q) < h && q < 1 {
		q *= 4
	}
	return q
}

func (s *Solver) anyReverse() bool {
	for _, k := range s.open {
		if s.p.Links[k].OneWay && s.flow[k] < 0 {
			return true
		}
	}
	return false
}

// evaluate fills loss and slope of every open link at the flows q.
func (s *Solver) evaluate(q, loss, slope []float64) {
	for _, k := range s.open {
		l := &s.p.Links[k]
		if l.OneWay && q[k] < 0 {
			h, _ := l.Law.Loss(0)
			loss[k], slope[k] = h+s.wall*q[k], s.wall
			continue
		}
		loss[k], slope[k] = l.Law.Loss(q[k])
	}
}

var errNotNumber = errors.New("a law gave a head that is not a number")

// descend runs Newton steps until the circuit is at rest with the present
// slope for reverse flow.
func (s *Solver) descend(res *Result) error {
	s.damping = 0
	best, since := math.Inf(1), 0
	lowest, stuck := math.Inf(1), 0
	s.evaluate(s.flow, s.loss, s.slope)
	s.couple()
	for range s.settings.MaxIterations {
		largest, scale, bad := s.residuals()
		if bad >= 0 {
			return fmt.Errorf("circuit: %s: %w", s.p.Links[bad].ID, errNotNumber)
		}
		imbalance, through := s.balance()
		res.Residual, res.Imbalance = largest, imbalance
		settled := imbalance <= 1e-12*through
		if !s.coupled && settled && largest <= roughly*scale {
			s.coupled = true
			s.couple()
			if len(s.p.Couplings) > 0 {
				continue
			}
		}
		if settled && largest <= s.settings.Tolerance*scale {
			res.Status = Converged
			return nil
		}
		// Where laws are steep, rounding may keep the residual above the
		// tolerance: once it no longer falls, what is good enough is taken.
		if stuck++; largest < lowest {
			lowest, stuck = largest, 0
		} else if stuck > 3*patience && settled && largest <= goodEnough*scale {
			res.Status = Converged
			return nil
		}
		// A coupling's answer to other links' flows is not in the system of a
		// step. If that makes the steps swing, they are held back more.
		if since++; largest < best/2 {
			best, since = largest, 0
		} else if since > patience && s.coupled {
			s.damping = min(max(2*s.damping, 0.25), 1<<12)
			best, since = largest, 0
		}
		if err := s.newton(min(leastSlope, leastShare*scale/through)); err != nil {
			return err
		}
		res.Iterations++
		// The search along a step needs flows that balance, but not to the last
		// digit: near rest, rounding of the flows before may be all there is.
		s.advance(imbalance <= 1e-6*through)
	}
	if largest, scale, _ := s.residuals(); largest <= goodEnough*scale {
		res.Status = Converged
		return nil
	}
	res.Status = Stalled
	return nil
}

// residuals returns the largest head residual of a link, less what rounding
// alone can make of it, and the scale of head differences in the circuit, or
// the index of a link whose law gave no number.
func (s *Solver) residuals() (largest, scale float64, bad int) {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, k := range s.open {
		l := &s.p.Links[k]
		hf, ht := s.head[l.From], s.head[l.To]
		lo, hi = min(lo, hf, ht), max(hi, hf, ht)
		r := math.Abs(hf - ht - s.loss[k] - s.extra[k])
		if !(r < math.MaxFloat64) {
			return 0, 0, int(k)
		}
		const eps = 1.0 / (1 << 50)
		rounding := eps * (math.Abs(hf) + math.Abs(ht) + math.Abs(s.extra[k]) + (s.slope[k]+s.stiff[k])*math.Abs(s.flow[k]))
		largest = max(largest, r-rounding)
	}
	return largest, max(hi-lo, 1e-2), -1
}

// balance computes what is missing at each free node and returns the largest
// imbalance and the scale of flows through nodes, at least a drop an hour.
func (s *Solver) balance() (largest, through float64) {
	for u, i := range s.free {
		s.bal[u] = -s.p.Nodes[i].Demand
		through = max(through, math.Abs(s.p.Nodes[i].Demand))
	}
	for _, k := range s.open {
		l := &s.p.Links[k]
		q := s.flow[k]
		through = max(through, math.Abs(q))
		if f := s.unknown[l.From]; f >= 0 {
			s.bal[f] -= q
		}
		if t := s.unknown[l.To]; t >= 0 {
			s.bal[t] += q
		}
	}
	for _, b := range s.bal {
		largest = max(largest, math.Abs(b))
	}
	return largest, max(through, 1e-9)
}

// couple evaluates the couplings at the present flows.
func (s *Solver) couple() {
	if !s.coupled || len(s.p.Couplings) == 0 {
		return
	}
	clear(s.extra)
	clear(s.stiff)
	for _, c := range s.p.Couplings {
		c.Add(s.flow, s.extra, s.stiff)
	}
}
