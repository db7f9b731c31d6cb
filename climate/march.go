package climate

import (
	"fmt"
	"math"
	"slices"

	"rillwright/climate/moistair"
)

// march goes through pretended time to the steady state.
type march struct {
	b    *Box
	o    outside
	n    int
	f    Flows
	x    [3 + MaxPanes]float64 // water, air, ratio, panes
	mass [3 + MaxPanes]float64 // what a unit of each holds: J/K, kg of dry air
	g    [3 + MaxPanes]float64 // gains at x
	size float64               // what flows
	vap  float64
	a    [3 + MaxPanes][3 + MaxPanes]float64

	steps int
}

// latent turns kg of vapour into J, to compare them.
const latent = 2.5e6

// begin stands at the room's state, the air half as moist again as it could be.
func (m *march) begin() {
	t := m.o.celsius
	m.x = [3 + MaxPanes]float64{t, t, (m.o.ratio + full(t, m.b.Pressure)) / 2}
	for i := range m.b.Panes {
		m.x[3+i] = t
	}
	m.weigh()
}

// weigh sets the masses. Pretended time may have any: such that nothing waits for
// the water.
func (m *march) weigh() {
	m.mass = [3 + MaxPanes]float64{500, 500, 0.2}
	for i := range m.b.Panes {
		m.mass[3+i] = 200 * m.b.Panes[i].Area
	}
}

// Where the laws are used, C.
const coldest, hottest = -30.0, 90.0

// keep holds figures where formulas hold.
func (m *march) keep(x *[3 + MaxPanes]float64) {
	for i := range m.n {
		if i == 2 {
			x[i] = min(max(x[i], 0), 2)
		} else {
			x[i] = min(max(x[i], coldest), hottest)
		}
	}
}

// at works out the gains at x. That of the air is its sensible part: what warms it
// at the humidity it has. Then whatever is warmer or damper makes its neighbours so
// too, and steps in time cannot swing.
func (m *march) at(x, g *[3 + MaxPanes]float64) (size, vap float64) {
	s := State{Water: x[0], Air: x[1], Ratio: x[2]}
	copy(s.Panes[:], x[3:])
	m.b.flows(&m.f, &s, &m.o, m.b.Heater.share(s.Water), nil)
	size, vap = m.b.gains(&m.f, &m.b.Always, g)
	g[1] -= moistair.VapourEnthalpy(s.Air) * g[2]
	return size, vap
}

// left returns the largest gain at x, as part of what flows.
func (m *march) left() (bad float64) {
	for i := range m.n {
		r := math.Abs(m.g[i]) / (m.size + 1e-6)
		if i == 2 {
			r = math.Abs(m.g[i]) / m.vap
		}
		if !(r <= bad) {
			bad = r
		}
	}
	return bad
}

// hurry returns the sum of the gains, whatever their sign, in W, vapour by its
// heat. In time it can only fall: what one part loses another gains or the room
// does, and gains of both signs eat each other up.
func (m *march) hurry(g *[3 + MaxPanes]float64) (sum float64) {
	for i := range m.n {
		if i == 2 {
			sum += latent * math.Abs(g[i])
		} else {
			sum += math.Abs(g[i])
		}
	}
	return sum
}

// run looks for the first flow of air that the vents let through at the state it
// makes.
func (m *march) run() (Balance, error) {
	low, _ := m.b.Vents.Flow(m.o.virtual, m.o.virtual)
	if excess := m.excess(low); excess > 1e-12*low {
		from, was := low, excess
		high := max(2*low, 1e-6)
		for range 60 {
			if excess = m.excess(high); excess <= 0 {
				break
			}
			from, was = high, excess
			high *= 2
		}
		m.narrow(from, was, high, excess)
	}
	m.o.fixed = -1
	start := m.x
	bad := m.settle(30)
	if far := math.Abs(m.x[1] - start[1]); far > 0.01 { // it fell into another state
		m.x = start
		m.size, m.vap = m.at(&m.x, &m.g)
		bad = m.left()
	}
	m.at(&m.x, &m.g)
	out := Balance{State: State{Water: m.x[0], Air: m.x[1], Ratio: m.x[2]}, Flows: m.f, Residual: bad, Iterations: m.steps}
	copy(out.Panes[:], m.x[3:m.n])
	if !(bad <= closes) {
		if hot := slices.Max(m.x[:m.n]); hot >= hottest {
			return out, fmt.Errorf("%w: something gets hotter than %g C, where the laws used here end", ErrNoBalance, hottest)
		}
		return out, fmt.Errorf("%w in %d steps: %.2g of what flows is left over", ErrNoBalance, m.steps, bad)
	}
	return out, nil
}

// excess returns what the vents let through over a flow (m3/s), at the state that
// the flow makes.
func (m *march) excess(flow float64) float64 {
	m.o.fixed = flow
	if m.settle(200) > closes { // stuck at a corner: come to it another way
		m.begin()
		for i := range m.n {
			m.mass[i] *= 20
			m.x[i] *= 1.5
		}
		m.settle(1000)
		m.weigh()
	}
	pv := moistair.VapourPressure(m.x[2], m.b.Pressure)
	let, _ := m.b.Vents.Flow(moistair.VirtualTemperature(m.x[1], pv, m.b.Pressure), m.o.virtual)
	return let - flow
}

// narrow brings the two ends of a bracket together, by false position with the
// weight of an end that stays halved.
func (m *march) narrow(lo, fl, hi, fh float64) {
	side := 0
	for range 80 {
		x := lo + (hi-lo)*fl/(fl-fh)
		if !(x > lo && x < hi) {
			x = lo + (hi-lo)/2
		}
		f := m.excess(x)
		if math.Abs(f) <= 1e-11*x || hi-lo <= 1e-13*hi {
			return
		}
		if f > 0 {
			if lo, fl = x, f; side > 0 {
				fh /= 2
			}
			side = 1
		} else {
			if hi, fh = x, f; side < 0 {
				fl /= 2
			}
			side = -1
		}
	}
}

// settle marches for at most so many steps, and returns what is left over.
func (m *march) settle(steps int) (bad float64) {
	dt := 60.0
	m.size, m.vap = m.at(&m.x, &m.g)
	for range steps {
		if bad = m.left(); bad <= closes/100 {
			return bad
		}
		m.steps++
		m.slopes()
		before := m.hurry(&m.g)
		for {
			trial, ok := m.step(dt)
			var g [3 + MaxPanes]float64
			size, vap := m.at(&trial, &g)
			// The rest of 1.01 is for what is not quite as hurry says.
			if after := m.hurry(&g); ok && after <= 1.01*before {
				m.x, m.g, m.size, m.vap = trial, g, size, vap
				dt = min(dt*min(max(2*before/after, 1.2), 50), 1e12)
				break
			}
			if dt /= 4; dt < 1e-9 {
				return bad
			}
		}
	}
	return m.left()
}

// slopes takes the slopes of all gains by differences.
func (m *march) slopes() {
	for j := range m.n {
		x := m.x
		d := 1e-6
		if j == 2 {
			d = 1e-9
		}
		x[j] += d
		d = x[j] - m.x[j]
		var g [3 + MaxPanes]float64
		m.at(&x, &g)
		for i := range m.n {
			m.a[i][j] = (g[i] - m.g[i]) / d
		}
	}
}

// step returns where a linearly implicit step of a length (s) leads, and whether
// it leads anywhere.
func (m *march) step(dt float64) (x [3 + MaxPanes]float64, ok bool) {
	a, n := m.a, m.n
	var y [3 + MaxPanes]float64
	for i := range n {
		for j := range n {
			a[i][j] = -a[i][j]
		}
		a[i][i] += m.mass[i] / dt
		y[i] = m.g[i]
		// Rows and columns of like size.
		if i == 2 {
			y[i] *= latent
			for j := range n {
				a[i][j] *= latent
			}
		}
	}
	for i := range n {
		a[i][2] *= 1e-3 // unknown 2 in g/kg
	}
	if !solve(&a, &y, n) {
		return m.x, false
	}
	y[2] *= 1e-3
	// No step leads further than a day's weather.
	share := 1.0
	for i := range n {
		most := 15.0
		if i == 2 {
			most = 0.02
		}
		if s := math.Abs(y[i]); s*share > most {
			share = most / s
		}
	}
	x = m.x
	for i := range n {
		x[i] += share * y[i]
	}
	m.keep(&x)
	return x, true
}

// solve replaces y by the solution of a y = y, by elimination with row exchanges.
func solve(a *[3 + MaxPanes][3 + MaxPanes]float64, y *[3 + MaxPanes]float64, n int) bool {
	for c := range n {
		best := c
		for r := c + 1; r < n; r++ {
			if math.Abs(a[r][c]) > math.Abs(a[best][c]) {
				best = r
			}
		}
		a[c], a[best] = a[best], a[c]
		y[c], y[best] = y[best], y[c]
		p := a[c][c]
		if p == 0 || math.IsNaN(p) || math.IsInf(p, 0) {
			return false
		}
		for r := c + 1; r < n; r++ {
			if f := a[r][c] / p; f != 0 {
				for j := c; j < n; j++ {
					a[r][j] -= f * a[c][j]
				}
				y[r] -= f * y[c]
			}
		}
	}
	for r := n - 1; r >= 0; r-- {
		for j := r + 1; j < n; j++ {
			y[r] -= a[r][j] * y[j]
		}
		y[r] /= a[r][r]
	}
	return true
}
