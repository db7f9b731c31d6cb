package workbench

import (
	"errors"
	"fmt"
	"net/http"
	"sync"
	"time"
)

// Options say what is served and to whom.
type Options struct {
	// Folder holds the designs that are shown and saved; "" for the built-in ones
	// alone.
	Folder string
	// Key must come with every request if it is not "", as ?key= once and as a
	// cookie from then on.
	Key string
	// Hosts are names and addresses besides those of the loopback under which the
	// page may be asked for, without port.
	Hosts []string
	// Assets, if not "", is a folder from which the page's files are read anew at
	// every request, in place of those built in; for work on them.
	Assets string
}

// Limits of what is taken. A design file is far below each of them, and one page in a
// drag, which asks some 100 times a second, below the pace.
const (
	maxBody     = 1 << 20 // bytes of a request
	perSecond   = 240     // requests, of all callers together
	burst       = 480
	maxStreams  = 24 // open event streams
	readTimeout = 10 * time.Second
	idleTimeout = 2 * time.Minute
)

// Bench serves one folder. Make it with New and end it with Close.
type Bench struct {
	options Options
	shelf   *shelf
	hub     *hub
	pace    *pace
	work    chan struct{} // as many computations at once as it holds
	slow    chan struct{} // likewise for those that take seconds
	seen    *seen
	firsts  firsts
	small   sync.Map // files of the page, packed, by name
	stop    sync.Once
}

// New opens the folder. The error says that it cannot be read.
func New(o Options) (*Bench, error) {
	s, err := openShelf(o.Folder)
	if err != nil {
		return nil, err
	}
	b := &Bench{options: o, shelf: s, hub: newHub(), pace: newPace(perSecond, burst, time.Now), work: make(chan struct{}, 2), slow: make(chan struct{}, 1), seen: newSeen()}
	if o.Folder == "" {
		return b, nil
	}
	if err := s.watch(b.hub.changed); err != nil {
		return nil, errors.Join(fmt.Errorf("the folder cannot be watched: %w", err), s.close())
	}
	return b, nil
}

// Close ends all streams and lets go of the folder.
func (b *Bench) Close() (err error) {
	b.stop.Do(func() {
		b.hub.close()
		err = b.shelf.close()
	})
	return err
}

// Handler answers all requests, guarded.
func (b *Bench) Handler() http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", b.page)
	mux.HandleFunc("GET /app/{file}", b.asset)
	mux.HandleFunc("GET /log/{name}", b.showLog)
	mux.HandleFunc("POST /log/{name}", b.addToLog)
	mux.HandleFunc("GET /api/designs", b.list)
	mux.HandleFunc("GET /api/designs/{name}", b.read)
	mux.HandleFunc("PUT /api/designs/{name}", b.save)
	mux.HandleFunc("PUT /api/drafts/{name}", b.keepDraft)
	mux.HandleFunc("DELETE /api/drafts/{name}", b.dropDraft)
	mux.HandleFunc("POST /api/compute", b.compute)
	mux.HandleFunc("POST /api/set", b.set)
	mux.HandleFunc("POST /api/faults", b.faults)
	mux.HandleFunc("POST /api/course", b.course)
	mux.HandleFunc("POST /api/everything", b.everything)
	mux.HandleFunc("POST /api/plan", b.plan)
	mux.HandleFunc("POST /api/climate", b.climate)
	mux.HandleFunc("POST /api/weigh", b.weigh)
	mux.HandleFunc("POST /api/seek", b.seek)
	mux.HandleFunc("POST /api/aisle", b.aisle)
	mux.HandleFunc("POST /api/drawings", b.drawings)
	mux.HandleFunc("POST /api/cutting", b.cutting)
	mux.HandleFunc("GET /api/parts", b.parts)
	mux.HandleFunc("GET /api/schema", b.schema)
	mux.HandleFunc("GET /api/events", b.events)
	return b.guard(mux)
}

// Server is an HTTP server with this handler and with limits on slow callers.
func (b *Bench) Server() *http.Server {
	return &http.Server{
		Handler: b.Handler(), ReadTimeout: readTimeout, ReadHeaderTimeout: readTimeout, IdleTimeout: idleTimeout,
		MaxHeaderBytes: 32 << 10,
	}
}
