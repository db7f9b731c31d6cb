package workbench

import (
	"context"
	"encoding/json"
	"net/http"
	"sync"
	"time"

	"rillwright/internal/wire"
	"rillwright/weigh"
)

// progress is one line of a stream: how far the work is, and with the last line
// what came of it or why not.
type progress struct {
	Done    int           `json:"done"`
	Of      int           `json:"of"`
	Faults  *wire.Faults  `json:"faults,omitempty"`
	Weighed *weigh.Result `json:"weighed,omitempty"`
	Sought  *wire.Sought  `json:"sought,omitempty"`
	File    string        `json:"file,omitempty"` // base64
	Fault   string        `json:"fault,omitempty"`
}

// often is how long a page waits at least for the next word on how far a work is.
const often = 80 * time.Millisecond

// stream does work that takes seconds and sends a line of JSON now and then, the
// last of which is what the work returns. A caller who goes away ends it by the
// request's context, which the work is to look at.
func stream(w http.ResponseWriter, r *http.Request, work func(far func(done, of int)) (progress, error)) {
	w.Header().Set("Content-Type", "application/x-ndjson")
	out := http.NewResponseController(w)
	_ = out.SetReadDeadline(time.Time{}) // the request is read; the work may take longer
	var mu sync.Mutex
	var last time.Time
	send := func(p progress) {
		data, err := json.Marshal(p)
		if err != nil { // a number that is not finite: a mistake of ours
			data, _ = json.Marshal(progress{Fault: "the result could not be written down: " + err.Error()})
		}
		_, _ = w.Write(append(data, '\n')) // a caller who is gone is seen by its context
		_ = out.Flush()
	}
	p, err := work(func(done, of int) {
		mu.Lock()
		defer mu.Unlock()
		if now := time.Now(); now.Sub(last) > often && r.Context().Err() == nil {
			last = now
			send(progress{Done: done, Of: of})
		}
	})
	mu.Lock()
	defer mu.Unlock()
	switch {
	case r.Context().Err() != nil:
	case err != nil:
		send(progress{Fault: err.Error()})
	default:
		p.Done, p.Of = 1, 1
		send(p)
	}
}

// enter waits until a room, b.work or b.slow, has a place for one more. The function it
// returns, which is to be called, gives the place to the next one.
func enter(ctx context.Context, room chan struct{}) (leave func(), err error) {
	select {
	case room <- struct{}{}:
		return func() { <-room }, nil
	case <-ctx.Done():
		return nil, ctx.Err()
	}
}
