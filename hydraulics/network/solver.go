package network

import (
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
	open     []wire  // links that can carry water between anchored nodes
	isolated []bool
	shape    shape
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

// wire is an open link as the inner loops see it.
type wire struct {
	link     int32
	from, to int32 // nodes
	// tail and head are the unknowns of the two nodes; given heads all share
	// the place after the last unknown, which nobody reads.
	tail, head int32
	entry      int32 // off-diagonal entry, or -1 if a head is given
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
	s := &Solver{p: p, settings: settings, shape: shapeOf(p)}
	joined := p.reach()
	unknown := make([]int32, len(p.Nodes))
	s.isolated = make([]bool, len(p.Nodes))
	for i := range p.Nodes {
		unknown[i] = -1
		switch n := &p.Nodes[i]; {
		case n.Fixed:
		case joined[i]:
			unknown[i] = int32(len(s.free))
			s.free = append(s.free, int32(i))
		default:
			if n.Demand != 0 {
				return nil, &InvalidError{n.ID, fmt.Sprintf("nothing open leads to it, yet it asks for %g m3/s", n.Demand)}
			}
			s.isolated[i] = true
		}
	}
	given := int32(len(s.free))
	for i := range unknown {
		if unknown[i] < 0 {
			unknown[i] = given
		}
	}
	var rows, cols []int32
	for k := range p.Links {
		l := &p.Links[k]
		if l.Closed || s.isolated[l.From] {
			continue
		}
		w := wire{link: int32(k), from: int32(l.From), to: int32(l.To), tail: unknown[l.From], head: unknown[l.To], entry: -1}
		if w.tail < given && w.head < given {
			w.entry = int32(len(rows))
			rows = append(rows, w.tail)
			cols = append(cols, w.head)
		}
		s.open = append(s.open, w)
	}
	s.matrix = sparse.Analyze(len(s.free), rows, cols)
	s.allocate(len(rows))
	return s, nil
}

func (s *Solver) allocate(entries int) {
	nodes, links, free := len(s.p.Nodes), len(s.p.Links), len(s.free)
	block := make([]float64, nodes+14*links+3*(free+1)+entries)
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
	s.ground, s.rhs, s.bal = take(free+1), take(free+1), take(free+1) // one place more for given heads
	s.between = take(entries)
	tied := make([]bool, links)
	for _, k := range s.shape.tied {
		tied[k] = true
	}
	for i := range s.open {
		if k := s.open[i].link; tied[k] {
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
	for i := range s.open {
		k := s.open[i].link
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
