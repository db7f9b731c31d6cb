package asbuilt

import (
	"fmt"
	"math"
	"slices"

	"rillwright/enclosure"
	"rillwright/num/fit"
	"rillwright/record"
)

// Fact is what is known of a figure in doubt after the readings.
type Fact struct {
	ID   string         `json:"id"`
	What string         `json:"what"`
	Unit enclosure.Unit `json:"-"`
	// Before and After are low, likely and high, SI; of pumps, shares of the label.
	Before [3]float64 `json:"before"`
	After  [3]float64 `json:"after"`
	// Told says that the readings settle it. If not, After is only where it most
	// probably lies, given all the others.
	Told bool `json:"told"`
	// With are figures from which the readings do not tell it, by what they are,
	// and Measure what would tell; "" if the readings say nothing of it at all.
	With    []string `json:"with,omitempty"`
	Measure string   `json:"measure,omitempty"`
}

// Outlier is a reading that does not go with the others.
type Outlier struct {
	Reading int     `json:"reading"`
	Cup     int     `json:"cup"`    // -1 where there is only one figure
	Read    float64 `json:"read"`   // SI
	Others  float64 `json:"others"` // what the others foretell, SI
	Doubts  float64 `json:"doubts"` // by which it is off
}

// Fit is what readings tell.
type Fit struct {
	Facts    []Fact
	Outliers []Outlier
	Unused   []Unused
	Used     int // figures read
	Settled  bool

	from *enclosure.Enclosure
	u    []float64
	cov  [][]float64
}

// The limits of judgement: a figure is told if its doubt has shrunk to this share,
// two are not told apart if what is left of their doubts goes together by this
// much, a reading does not belong beyond this many doubts. Chosen, no source.
const (
	toldShare = 0.7
	together  = 0.4
	outlying  = 4.0
	huber     = 2.0
)

// nothing is the fit to no readings at all.
func nothing(e *enclosure.Enclosure) *Fit {
	m := newModel(e)
	n := m.unknowns()
	f := &Fit{from: e, u: make([]float64, n), cov: make([][]float64, n), Settled: true}
	for i := range f.cov {
		f.cov[i] = make([]float64, n)
		f.cov[i][i] = 1
	}
	f.facts(m, nil)
	return f
}

// Of fits the figures in doubt of an enclosure to readings. What was thought of
// them before counts as a reading of each (the most probable values given both), so
// that what the readings do not tell stays as it was. The error is of an enclosure
// that cannot be computed.
func Of(e *enclosure.Enclosure, readings []record.Reading) (*Fit, error) {
	d, unused := data(e, readings)
	if len(d) == 0 {
		f := nothing(e)
		f.Unused = unused
		return f, nil
	}
	m := newModel(e)
	n := m.unknowns()
	sites := Sites(e)
	y := make([]float64, len(sites))
	steps := make([]float64, n)
	for i := range steps {
		steps[i] = 0.1
	}
	res, err := fit.Solve(fit.Problem{
		Parameters: n, Residuals: len(d) + n, Step: steps,
		Of: func(u, r []float64) error {
			if err := m.foretell(u, y); err != nil {
				return err
			}
			for i := range d {
				x := &d[i]
				r[i] = (y[x.site] - x.value) / x.total(sites)
			}
			copy(r[len(d):], u)
			return nil
		},
	}, make([]float64, n), fit.Settings{Huber: huber, Trusted: len(d), Tolerance: 1e-3, MaxSteps: 40, Damping: 1e-3})
	if err != nil {
		return nil, fmt.Errorf("as built: %w", err)
	}
	f := &Fit{Unused: unused, Used: len(d), Settled: res.Status == fit.Converged, from: e, u: res.P, cov: res.Cov}
	for _, o := range res.Outliers(len(d), outlying) {
		x := &d[o.Index]
		f.Outliers = append(f.Outliers, Outlier{
			Reading: x.reading, Cup: sites[x.site].Cup, Read: x.value,
			Others: x.value + res.R[o.Index]*x.total(sites), Doubts: math.Abs(o.T),
		})
	}
	moved := make([]bool, n) // the readings say something of it
	for k := range n {
		s := 0.0
		for i := range d {
			s = math.Hypot(s, res.J[i][k])
		}
		moved[k] = s > 0.3
	}
	f.facts(m, moved)
	return f, nil
}

// total is the doubt of a datum with that of the laws.
func (x *datum) total(sites []Site) float64 {
	if sites[x.site].Flow {
		return math.Hypot(x.doubt, inexact*x.value)
	}
	return x.doubt
}

// facts puts what is known into words and figures.
func (f *Fit) facts(m *model, moved []bool) {
	e := m.e
	for k := range f.u {
		sd := math.Sqrt(f.cov[k][k])
		fact := Fact{Told: sd < toldShare, Unit: enclosure.Times}
		value := func(u float64) float64 { return at(&e.Doubts[k], u) }
		measure := ""
		if k < len(e.Doubts) {
			d := &e.Doubts[k]
			fact.ID, fact.What, fact.Unit, measure = d.ID, d.What, d.Unit, d.Settle
			fact.Before = [3]float64{d.Low, d.Likely, d.High}
		} else {
			p := &e.Pumps[(k-len(e.Doubts))/2]
			fact.ID, fact.What, measure = "pump-flow["+p.Name+"]", "flow of the "+p.Name+", of its label's", "flow into a bucket level with the sump's water"
			scale := labelFlow
			if (k-len(e.Doubts))%2 == 1 {
				fact.ID, fact.What, measure = "pump-head["+p.Name+"]", "greatest head of the "+p.Name+", of its label's", "raise the hose until the flow stops"
				scale = labelHead
			}
			value = func(u float64) float64 { return math.Exp(scale * u) }
			fact.Before = [3]float64{value(-bandEnd), 1, value(bandEnd)}
		}
		fact.After = fact.Before
		if moved != nil && (moved[k] || fact.Told) {
			fact.After = [3]float64{value(f.u[k] - bandEnd*sd), value(f.u[k]), value(f.u[k] + bandEnd*sd)}
			if !fact.Told {
				fact.Measure = measure
			}
		}
		f.Facts = append(f.Facts, fact)
	}
	for k := range f.Facts {
		if f.Facts[k].Measure == "" {
			continue
		}
		for i := range f.Facts {
			r := f.cov[k][i] / math.Sqrt(f.cov[k][k]*f.cov[i][i])
			if i != k && !f.Facts[i].Told && math.Abs(r) > together {
				f.Facts[k].With = append(f.Facts[k].With, f.Facts[i].What)
			}
		}
		slices.Sort(f.Facts[k].With)
	}
}

// Enclosure returns the enclosure as built, for every answer to work from: each
// doubt of which the readings say anything about its likeliest value, in the band
// that is left of it, and the pumps' curves as they were found. The bands are each
// figure's own; that what is left of two doubts may go together is not kept, which
// makes answers more cautious, not less.
func (f *Fit) Enclosure() *enclosure.Enclosure {
	e := f.from.Clone()
	for k := range e.Doubts {
		if x := &f.Facts[k]; x.After != x.Before {
			e.Narrow(k, x.After[0], x.After[1], x.After[2], "fitted to your readings")
		}
	}
	for i := range e.Pumps {
		k := len(e.Doubts) + 2*i
		e.Pumps[i].Curve = scaled(&e.Pumps[i].Curve, f.Facts[k].After[1], f.Facts[k+1].After[1])
	}
	return e
}
