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
	"fmt"
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
}

// Result is what came of the draws.
type Result struct {
	Draws   int      `json:"draws"`
	Seed    uint64   `json:"seed"`
	Answers []Answer `json:"answers"`
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

// Weigh draws the doubts of e. The error is of ctx, of more doubts than can be
// ranked, or of a draw whose circuit cannot be solved.
func Weigh(ctx context.Context, e *enclosure.Enclosure, o Options) (*Result, error) {
	if o.Draws < 1 {
		return nil, errors.New("no draws: ask for 1 at least")
	}
	k := len(e.Doubts)
	net, err := chance.NewNet(max(1, 2*k), o.Seed)
	if err != nil {
		return nil, err
	}
	jobs := o.Draws + o.Rows*(k+2)
	all := make([]outcome, jobs)
	work := func(d *drawer, i int) error {
		u := d.shares
		if i < o.Draws {
			net.At(uint32(i), u)
		} else {
			row, part := (i-o.Draws)/(k+2), (i-o.Draws)%(k+2)-2
			chance.Mix(net, uint32(row), part, u, d.room)
		}
		var err error
		all[i], err = d.draw()
		return err
	}
	if err := share(ctx, e, jobs, o.Workers, work); err != nil {
		return nil, err
	}
	return collect(e, o, all)
}

// share gives jobs out to workers, each with its own memory.
func share(ctx context.Context, e *enclosure.Enclosure, jobs, workers int, work func(*drawer, int) error) error {
	if workers < 1 {
		workers = 1
	}
	likely, err := newDrawer(e, nil)
	if err != nil {
		return err
	}
	errs := make([]error, workers)
	var wg sync.WaitGroup
	for w := range workers {
		wg.Go(func() {
			d, err := newDrawer(e, likely)
			for i := w; i < jobs && err == nil; i += workers {
				if err = ctx.Err(); err == nil {
					err = work(d, i)
				}
			}
			errs[w] = err
		})
	}
	wg.Wait()
	return errors.Join(errs...)
}

func collect(e *enclosure.Enclosure, o Options, all []outcome) (*Result, error) {
	r := &Result{Draws: o.Draws, Seed: o.Seed}
	k := len(e.Doubts)
	for a, first := range all[0].list {
		holds, fails := 0, 0
		figure := make([]float64, len(all))
		for i := range all {
			if a >= len(all[i].list) || all[i].list[a].id != first.id {
				return nil, fmt.Errorf("draw %d answers other questions than the first", i)
			}
			x := all[i].list[a]
			figure[i] = x.figure
			if i < o.Draws {
				switch x.verdict {
				case answers.Holds:
					holds++
				case answers.Fails:
					fails++
				case answers.Tight, answers.Unknown:
				}
			}
		}
		sum := chance.Sum(figure[:o.Draws])
		out := Answer{
			ID: first.id, Question: first.question, Figure: first.name, Unit: first.unit,
			Holds: chance.ShareOf(holds, o.Draws), Fails: chance.ShareOf(fails, o.Draws),
			Low: sum.Quantile(0.05), Median: sum.Quantile(0.5), High: sum.Quantile(0.95),
		}
		if o.Rows > 0 {
			out.Matter = ranked(e, figure[o.Draws:], k)
		}
		r.Answers = append(r.Answers, out)
	}
	return r, nil
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
