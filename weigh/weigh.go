// Package weigh asks how likely it is that an answer about the water holds. It draws
// every doubt of an enclosure from its band many times, runs the enclosure with each
// draw, and counts. It also ranks the doubts by how much of an answer's spread each
// one makes.
//
// Bands are taken as triangles: most likely at the likely figure, nothing beyond the
// ends (assumed, no source: a band is all that is known). Doubts are drawn as if
// none had to do with another.
package weigh

import (
	"context"
	"errors"
	"slices"
	"sync"

	"rillwright/answers"
	"rillwright/enclosure"
	"rillwright/num/chance"
)

// Options say how much is drawn.
type Options struct {
	Draws int    // above 0
	Seed  uint64 // the same seed gives the same result, whatever the machine
	// Rows is the number of draws each input is mixed into for the ranking; for every
	// row the enclosure is run once for each doubt and twice more. 0 for no ranking.
	Rows    int
	Workers int // 0 for one; their number changes no digit
	// Progress, if given, is told how far it is; calls do not overlap.
	Progress func(done, of int)
}

// Result is what came of the draws.
type Result struct {
	Draws   int      `json:"draws"`
	Seed    uint64   `json:"seed"`
	Answers []Answer `json:"answers"`
	// Open lists the answers that come out one way in some draws and another in others.
	Open []string `json:"open"`
	// First is what to measure first to settle them; nil if nothing is open or nothing
	// that can be measured matters.
	First *Measure `json:"first,omitempty"`
}

// Answer is how often one answer held.
type Answer struct {
	ID       string `json:"id"`
	Question string `json:"question"`
	// Holds and Fails are shares of the draws, each with its standard error; the rest
	// are tight or not known.
	Holds chance.Share `json:"holds"`
	Fails chance.Share `json:"fails"`
	// Figure is the key figure with nine of ten draws between Low and High.
	Figure string  `json:"figure,omitempty"`
	Unit   string  `json:"unit,omitempty"`
	Low    float64 `json:"low"`
	Median float64 `json:"median"`
	High   float64 `json:"high"`
	Matter []Doubt `json:"doubts,omitempty"` // by Total, largest first
}

// Doubt is one doubt's share of the variance of an answer's figure.
type Doubt struct {
	What   string       `json:"what"`
	Settle string       `json:"settle,omitempty"`
	Index  chance.Index `json:"index"`
}

// Weigh draws the doubts of e. The error is of ctx, or of a draw whose circuit cannot
// be solved.
func Weigh(ctx context.Context, e *enclosure.Enclosure, o Options) (*Result, error) {
	if o.Draws < 1 {
		return nil, errors.New("no draws: ask for 1 at least")
	}
	k := len(e.Doubts)
	net, err := chance.NewNet(max(1, 2*k), o.Seed)
	if err != nil {
		return nil, err
	}
	likely, err := newDrawer(e, nil)
	if err != nil {
		return nil, err
	}
	jobs, each := o.Draws+o.Rows*(k+2), len(likely.headings)
	all := make([]outcome, jobs*each)
	work := func(d *drawer, i int) error {
		if i < o.Draws {
			net.At(uint32(i), d.shares)
		} else {
			row, part := (i-o.Draws)/(k+2), (i-o.Draws)%(k+2)-2
			chance.Mix(net, uint32(row), part, d.shares, d.room)
		}
		return d.draw(all[i*each : (i+1)*each])
	}
	if err := share(ctx, likely, jobs, &o, work); err != nil {
		return nil, err
	}
	r := collect(e, &o, likely.headings, all)
	r.First, r.Open = first(e, &o, net, likely.headings, all)
	return r, nil
}

// share gives jobs out to workers, each with its own memory.
func share(ctx context.Context, likely *drawer, jobs int, o *Options, work func(*drawer, int) error) error {
	workers := max(1, o.Workers)
	errs := make([]error, workers)
	var wg sync.WaitGroup
	for w := range workers {
		wg.Go(func() {
			d, err := newDrawer(likely.e, likely)
			for i := w; i < jobs && err == nil; i += workers {
				if err = ctx.Err(); err == nil {
					err = work(d, i)
				}
				if w == 0 && o.Progress != nil {
					o.Progress(i, jobs)
				}
			}
			errs[w] = err
		})
	}
	wg.Wait()
	if err := ctx.Err(); err != nil {
		return err
	}
	if o.Progress != nil {
		o.Progress(jobs, jobs)
	}
	return errors.Join(errs...)
}

func collect(e *enclosure.Enclosure, o *Options, headings []heading, all []outcome) *Result {
	r := &Result{Draws: o.Draws, Seed: o.Seed}
	each := len(headings)
	figure := make([]float64, len(all)/max(1, each))
	for a, h := range headings {
		holds, fails := 0, 0
		for i := range figure {
			x := &all[i*each+a]
			figure[i] = x.figure
			if i >= o.Draws {
				continue
			}
			switch answers.Verdict(x.verdict) {
			case answers.Holds:
				holds++
			case answers.Fails:
				fails++
			case answers.Tight, answers.Unknown:
			}
		}
		sum := chance.Sum(figure[:o.Draws])
		out := Answer{
			ID: h.id, Question: h.question, Figure: h.name, Unit: h.unit,
			Holds: chance.ShareOf(holds, o.Draws), Fails: chance.ShareOf(fails, o.Draws),
			Low: sum.Quantile(0.05), Median: sum.Quantile(0.5), High: sum.Quantile(0.95),
		}
		if o.Rows > 0 {
			out.Matter = ranked(e, figure[o.Draws:], len(e.Doubts))
		}
		r.Answers = append(r.Answers, out)
	}
	return r
}

// ranked returns the doubts that make more of the spread than their own error.
func ranked(e *enclosure.Enclosure, figure []float64, k int) (out []Doubt) {
	parts := make([][]float64, k+2)
	for i, v := range figure {
		parts[i%(k+2)] = append(parts[i%(k+2)], v)
	}
	for j, x := range chance.Indices(parts[0], parts[1], parts[2:]) {
		if x.Total > 0.005 && x.Total > 2*x.Error {
			out = append(out, Doubt{What: e.Doubts[j].What, Settle: e.Doubts[j].Settle, Index: x})
		}
	}
	slices.SortStableFunc(out, func(x, y Doubt) int {
		switch {
		case x.Index.Total > y.Index.Total:
			return -1
		case x.Index.Total < y.Index.Total:
			return 1
		}
		return 0
	})
	return out
}
