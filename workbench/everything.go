package workbench

import (
	"net/http"
	"runtime"

	"rillwright"
	"rillwright/internal/wire"
	"rillwright/weigh"
)

// everything follows all faults over all doubts, and every two at once.
func (b *Bench) everything(w http.ResponseWriter, r *http.Request) {
	q, ok := take[courseRequest](w, r)
	if !ok {
		return
	}
	stream(w, r, func(far func(done, of int)) (progress, error) {
		rep, err := b.build(r.Context(), q.Name, q.Text, rillwright.Options{Faults: rillwright.FaultPairs, NoFixes: true, Progress: far})
		if err != nil {
			return progress{}, err
		}
		if rep.Findings.HasErrors() {
			return progress{}, errFile
		}
		f := wire.OfFaults(rep, rep.Faults.Answers, nil)
		return progress{Faults: &f}, nil
	})
}

// How much the page weighs, as the command does where nothing else is asked for.
const (
	weighDraws = 10000
	weighRows  = 256
	weighSeed  = 1
)

// weigh draws everything in doubt many times and counts how often each answer holds.
func (b *Bench) weigh(w http.ResponseWriter, r *http.Request) {
	q, ok := take[textRequest](w, r)
	if !ok {
		return
	}
	stream(w, r, func(far func(done, of int)) (progress, error) {
		rep, err := b.build(r.Context(), q.Name, q.Text, rillwright.Options{NoFixes: true})
		if err != nil {
			return progress{}, err
		}
		if rep.Findings.HasErrors() {
			return progress{}, errFile
		}
		leave, err := enter(r.Context(), b.slow)
		if err != nil {
			return progress{}, err
		}
		defer leave()
		// One processor is left for edits, whose answers are waited for.
		res, err := weigh.Weigh(r.Context(), rep.Enclosure, weigh.Options{
			Draws: weighDraws, Rows: weighRows, Seed: weighSeed, Workers: max(1, runtime.GOMAXPROCS(0)-1), Progress: far,
		})
		return progress{Weighed: res}, err
	})
}
