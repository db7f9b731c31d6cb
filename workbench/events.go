package workbench

import (
	"encoding/json"
	"fmt"
	"net/http"
	"sync"
	"time"
)

// hub passes on to every open page that a file changed.
type hub struct {
	mu    sync.Mutex
	pages map[chan string]bool
	done  chan struct{}
}

func newHub() *hub { return &hub{pages: map[chan string]bool{}, done: make(chan struct{})} }

func (h *hub) close() { close(h.done) }

// changed never waits for a page: one that does not listen misses a word and
// looks again when it wakes.
func (h *hub) changed(name string) {
	h.mu.Lock()
	defer h.mu.Unlock()
	for c := range h.pages {
		select {
		case c <- name:
		default:
		}
	}
}

func (h *hub) join() (chan string, bool) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if len(h.pages) >= maxStreams {
		return nil, false
	}
	c := make(chan string, 16)
	h.pages[c] = true
	return c, true
}

func (h *hub) leave(c chan string) {
	h.mu.Lock()
	defer h.mu.Unlock()
	delete(h.pages, c)
}

// changeEvent says that a design was written, moved or deleted by something else
// or by another page. The revision is "" if it is gone.
type changeEvent struct {
	Name     string `json:"name"`
	Revision string `json:"revision"`
}

// events is a stream of changeEvent, with a word now and then so that both ends
// know that the other is there.
func (b *Bench) events(w http.ResponseWriter, r *http.Request) {
	c, ok := b.hub.join()
	if !ok {
		refuse(w, http.StatusServiceUnavailable, "too many pages are open", "close some of them")
		return
	}
	defer b.hub.leave(c)
	w.Header().Set("Content-Type", "text/event-stream")
	out := http.NewResponseController(w)
	send := func(format string, a ...any) bool {
		_ = out.SetWriteDeadline(time.Now().Add(readTimeout)) // not every writer has one
		if _, err := fmt.Fprintf(w, format, a...); err != nil {
			return false
		}
		return out.Flush() == nil
	}
	if !send("retry: 1000\n\n") {
		return
	}
	beat := time.NewTicker(20 * time.Second)
	defer beat.Stop()
	for {
		select {
		case <-b.hub.done:
			return
		case <-r.Context().Done():
			return
		case <-beat.C:
			if !send(": still here\n\n") {
				return
			}
		case name := <-c:
			e := changeEvent{Name: name}
			if d, err := b.shelf.read(name); err == nil {
				e.Revision = d.Revision
			}
			data, err := json.Marshal(e)
			if err != nil || !send("event: change\ndata: %s\n\n", data) {
				return
			}
		}
	}
}
