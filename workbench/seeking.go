package workbench

import (
	"net/http"
	"runtime"
	"slices"
	"strings"
	"time"

	"rillwright"
	"rillwright/internal/wire"
	"rillwright/seek"
	"rillwright/works"
)

// seekRequest asks for the best design among all that what is open allows, or for those
// of which none is both cheaper and has more margin.
type seekRequest struct {
	Name  string   `json:"name"`
	Text  string   `json:"text"`
	Open  []string `json:"open"`
	For   string   `json:"for"` // one of seek.Goals
	Front bool     `json:"front"`
}

// mostSought is how many designs a page looks at.
const mostSought = 50_000

// mostOpen is how many things a page may leave open.
const mostOpen = 12

// seek looks for a design, as the command does.
func (b *Bench) seek(w http.ResponseWriter, r *http.Request) {
	q, ok := take[seekRequest](w, r)
	if !ok {
		return
	}
	goal := slices.Index(seek.Goals(), q.For)
	switch {
	case goal < 0:
		refuse(w, http.StatusBadRequest, "nothing is known that is wanted most", "ask for one of: "+strings.Join(seek.Goals(), ", "))
		return
	case len(q.Open) == 0:
		refuse(w, http.StatusBadRequest, "nothing is open", "tick what may be chosen")
		return
	case len(q.Open) > mostOpen:
		refuse(w, http.StatusBadRequest, "too much is open", "leave less of it open")
		return
	}
	stream(w, r, func(far func(done, of int)) (progress, error) {
		leave, err := enter(r.Context(), b.slow)
		if err != nil {
			return progress{}, err
		}
		defer leave()
		// One processor is left for edits, whose answers are waited for.
		res, rep, err := rillwright.Seek(r.Context(), q.Name, []byte(q.Text), b.shelf.beside(q.Name), works.Today(time.Now()), q.Open, seek.Options{
			Goal: seek.Goal(goal), Front: q.Front, Most: mostSought, Workers: max(1, runtime.GOMAXPROCS(0)-1), Progress: far,
		})
		if err != nil {
			return progress{}, err
		}
		if rep.Findings.HasErrors() {
			return progress{}, errFile
		}
		out := wire.SoughtOf(rep.Enclosure, res)
		return progress{Sought: &out}, nil
	})
}
