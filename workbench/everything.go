package workbench

import (
	"encoding/json"
	"net/http"
	"sync"
	"time"

	"rillwright"
	"rillwright/internal/wire"
)

// progress is one line of a stream: how far the work is, and with the last line
// what came of it or why not.
type progress struct {
	Done   int          `json:"done"`
	Of     int          `json:"of"`
	Faults *wire.Faults `json:"faults,omitempty"`
	Fault  string       `json:"fault,omitempty"`
}

// everything follows all faults over all doubts, and every two at once, which takes
// seconds. It streams a line of JSON now and then; a caller who goes away ends it.
func (b *Bench) everything(w http.ResponseWriter, r *http.Request) {
	q, ok := take[courseRequest](w, r)
	if !ok {
		return
	}
	w.Header().Set("Content-Type", "application/x-ndjson")
	out := http.NewResponseController(w)
	_ = out.SetReadDeadline(time.Time{}) // the request is read; the work may take longer
	var mu sync.Mutex
	var last time.Time
	send := func(p progress) {
		data, err := json.Marshal(p)
		if err != nil {
			return // only numbers and texts that are shown elsewhere
		}
		_, _ = w.Write(append(data, '\n')) // a caller who is gone is seen by its context
		_ = out.Flush()
	}
	rep, err := b.build(r.Context(), q.Name, q.Text, rillwright.Options{
		Faults: rillwright.FaultPairs, NoFixes: true,
		Progress: func(done, of int) {
			mu.Lock()
			defer mu.Unlock()
			if now := time.Now(); now.Sub(last) > 80*time.Millisecond {
				last = now
				send(progress{Done: done, Of: of})
			}
		},
	})
	mu.Lock()
	defer mu.Unlock()
	switch {
	case r.Context().Err() != nil:
	case err != nil:
		send(progress{Fault: err.Error()})
	case rep.Findings.HasErrors():
		send(progress{Fault: errFile.Error()})
	default:
		f := wire.OfFaults(rep, rep.Faults.Answers, nil)
		send(progress{Done: 1, Of: 1, Faults: &f})
	}
}
