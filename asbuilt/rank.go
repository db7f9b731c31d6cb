package asbuilt

import (
	"errors"
	"math"
	"slices"

	"rillwright/num/fit"
	"rillwright/record"
)

// Suspect is a fault with how probable the readings make it.
type Suspect struct {
	Fault
	Probability float64 // of all suspects together 1
	// Flow is what it leaves of the outlets' flow, a share, where it explains the
	// readings best.
	Flow float64
}

// Change is one thing measured before and now.
type Change struct {
	ID          string
	Before, Now float64 // SI; Before as it was read then, or NaN
	Share       float64 // Now of Before, or of what was foretold
}

// Diagnosis is what readings say of what is wrong.
type Diagnosis struct {
	Suspects []Suspect // most probable first
	Changes  []Change
	Next     *Next // nil if one suspect is all but sure
	// Chance is how often readings as far as these from what the first suspect
	// foretells come about if it is right, 0 to 1.
	Chance float64
	// Pairs are two things wrong at once, most probable first; they are looked for
	// where no one thing explains the readings, and told if they explain them better.
	Pairs  []Pair
	Unused []Unused
	Used   int
}

// steps is how many degrees of a fault are tried; between them its effect is taken
// to be straight.
const steps = 8

// part is a fault of one degree: what is then read, and how that moves with the
// degree.
type part struct {
	bad    float64 // degree
	y      []float64
	slope  []float64
	second []float64 // slope of the other fault, where there are two; else nil
	weight float64
	like   float64
}

type hypothesis struct {
	Fault
	parts []part
	of    [2]*hypothesis // of two at once
	flow  float64
	like  float64
}

// ErrNoReadings says that there is nothing to go by.
var ErrNoReadings = errors.New("nothing was read that tells of a fault")

// Diagnose ranks what may be wrong by readings taken now, with what was known as
// built. Each suspect's readings are computed in the whole circuit at several
// degrees; the doubts of the figures are carried to first order about the fit, so
// the probabilities are of a normal law about each. f comes from Of with readings
// taken before; of those, before may be given again to tell changes.
func Diagnose(f *Fit, before, now []record.Reading) (*Diagnosis, error) {
	e := f.from
	d, unused := data(e, now)
	if len(d) == 0 {
		return nil, ErrNoReadings
	}
	j, err := newJudge(f, before)
	if err != nil {
		return nil, err
	}
	out := &Diagnosis{Unused: unused, Used: len(d)}
	list := j.hypotheses(d)
	j.weigh(list, d)
	slices.SortStableFunc(list, func(a, b hypothesis) int {
		switch {
		case a.like > b.like:
			return -1
		case a.like < b.like:
			return 1
		}
		return 0
	})
	total := 0.0
	for i := range list {
		total += math.Exp(list[i].like - list[0].like)
	}
	for i := range list {
		h := &list[i]
		out.Suspects = append(out.Suspects, Suspect{h.Fault, math.Exp(h.like-list[0].like) / total, h.flow})
	}
	out.Chance = j.chance(&list[0], d)
	if out.Chance < Unexplained {
		out.Pairs = j.pairs(list, d)
	}
	out.Changes = j.changes(before, d)
	if len(list) > 1 && out.Suspects[0].Probability < 0.95 {
		out.Next = j.next(&list[0], &list[1], d)
	}
	return out, nil
}

// hypotheses computes what each suspect would read.
func (j *judge) hypotheses(d []datum) []hypothesis {
	faults := suspects(j.m, j.f.u, j.low(d))
	out := make([]hypothesis, 0, len(faults))
	for i := range faults {
		f := &faults[i]
		h := hypothesis{Fault: *f}
		n := steps
		if f.from == f.to {
			n = 1
		}
		for k := range n {
			bad := f.from
			if n > 1 {
				bad *= math.Pow(f.to/f.from, float64(k)/float64(n-1))
			}
			y := make([]float64, len(j.sites))
			if err := j.m.with(f, bad).foretell(j.f.u, y); err != nil {
				continue // so bad that it could not run like that
			}
			for s := range y {
				y[s] *= j.ratio[s]
			}
			h.parts = append(h.parts, part{bad: bad, y: y, weight: 1 / float64(n)})
		}
		h.slopes()
		if len(h.parts) > 0 {
			out = append(out, h)
		}
	}
	return out
}

// slopes takes how each part's figures move from one degree to the next, so that a
// degree between two is believed as much as the two.
func (h *hypothesis) slopes() {
	n := len(h.parts)
	for k := range h.parts {
		p := &h.parts[k]
		p.slope = make([]float64, len(p.y))
		if n < 2 {
			continue
		}
		a, b := max(k-1, 0), min(k+1, n-1)
		for s := range p.slope {
			p.slope[s] = (h.parts[b].y[s] - h.parts[a].y[s]) / float64(b-a)
		}
	}
}

// between is the standard deviation of where the degree lies about a part, in
// steps.
const between = 0.5

// covariance returns that of the figures at places, with the doubts of reading.
func (j *judge) covariance(p *part, places []datum) [][]float64 {
	n, m := len(places), len(j.f.u)
	g := make([][]float64, n)
	for a := range g {
		g[a] = make([]float64, m)
		for k, v := range j.move[places[a].site] {
			g[a][k] = v
			if j.sites[places[a].site].Flow {
				g[a][k] *= p.y[places[a].site]
			}
		}
	}
	c := make([][]float64, n)
	for a := range c {
		c[a] = make([]float64, n)
		t := make([]float64, m)
		for k := range t {
			for l, v := range g[a] {
				t[k] += v * j.f.cov[l][k]
			}
		}
		for b := range a + 1 {
			s := between * between * p.slope[places[a].site] * p.slope[places[b].site]
			if p.second != nil {
				s += between * between * p.second[places[a].site] * p.second[places[b].site]
			}
			for k, v := range t {
				s += v * g[b][k]
			}
			c[a][b] = s
		}
		x := &places[a]
		noise := x.total(j.sites)
		if j.sites[x.site].Flow {
			noise = math.Hypot(noise, inexact*p.y[x.site])
		}
		if w := j.was[x.site]; w > 0 { // the hole's own share is known, as well as a cup is read
			noise = math.Hypot(cupRead*math.Max(x.value, p.y[x.site]), w*p.y[x.site])
			noise = math.Hypot(noise, 0.01*j.y[x.site])
		}
		c[a][a] += noise * noise
	}
	for a := range c {
		for b := a + 1; b < n; b++ {
			c[a][b] = c[b][a]
		}
	}
	return c
}

// weigh gives each hypothesis the logarithm of how probable the readings are by it.
func (j *judge) weigh(list []hypothesis, d []datum) {
	for i := range list {
		h := &list[i]
		best := h.parts[0].like
		for k := range h.parts {
			p := &h.parts[k]
			p.like = normal(j.covariance(p, d), p.miss(d)) + math.Log(p.weight)
			if k == 0 || p.like > best {
				best = p.like
				h.flow = j.outlets(p) / j.outlets(&part{y: j.y})
			}
		}
		sum := 0.0
		for k := range h.parts {
			sum += math.Exp(h.parts[k].like - best)
		}
		h.like = best + math.Log(sum)
	}
}

// miss is what was read less what a part foretells of it.
func (p *part) miss(d []datum) []float64 {
	out := make([]float64, len(d))
	for a := range d {
		out[a] = d[a].value - p.y[d[a].site]
	}
	return out
}

// best is the likeliest part.
func (h *hypothesis) best() *part {
	p := &h.parts[0]
	for k := range h.parts {
		if h.parts[k].like > p.like {
			p = &h.parts[k]
		}
	}
	return p
}

// chance returns how often readings are so far from a hypothesis that is right.
func (j *judge) chance(h *hypothesis, d []datum) float64 {
	p := h.best()
	_, square := decompose(j.covariance(p, d), p.miss(d))
	return fit.Beyond(square, len(d))
}

// outlets is the flow of all outlets.
func (j *judge) outlets(p *part) float64 {
	i := slices.IndexFunc(j.sites, func(s Site) bool { return s.ID == "manifold" })
	return p.y[i]
}

// changes sets what is read now against what was read before.
func (j *judge) changes(before []record.Reading, d []datum) []Change {
	old, _ := data(j.m.e, before)
	var out []Change
	for i := range d {
		s := d[i].site
		if !j.sites[s].Flow || j.sites[s].Cup >= 0 {
			continue
		}
		c := Change{ID: j.sites[s].ID, Before: math.NaN(), Now: d[i].value}
		sum, n := 0.0, 0.0
		for k := range old {
			if old[k].site == s {
				sum += old[k].value
				n++
			}
		}
		base := j.y[s]
		if n > 0 {
			c.Before = sum / n
			base = c.Before
		}
		c.Share = c.Now / base
		out = append(out, c)
	}
	return out
}
