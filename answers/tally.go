package answers

import "sync"

// tally counts what is done, for whoever waits.
type tally struct {
	mu       sync.Mutex
	done, of int
	tell     func(done, of int)
}

func newTally(of int, tell func(done, of int)) *tally { return &tally{of: of, tell: tell} }

func (t *tally) one() {
	if t == nil || t.tell == nil {
		return
	}
	t.mu.Lock()
	defer t.mu.Unlock()
	t.done++
	t.tell(t.done, t.of)
}
