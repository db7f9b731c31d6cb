package workbench

import (
	"context"
	"net/http"
	"time"

	"rillwright"
	"rillwright/finding"
	"rillwright/internal/wire"
	"rillwright/works"
)

// computeRequest asks for the answers of a text. Name says beside which files it
// stands.
type computeRequest struct {
	Name string `json:"name"`
	Text string `json:"text"`
	// Fixes looks at everything anew and also for what would help, which takes
	// longer. Without it what an edit does not touch is taken from the last text
	// that was looked at so.
	Fixes bool `json:"fixes"`
	// Curves asks for those of pump and circuit.
	Curves bool `json:"curves"`
	// Measured answers from what the log's readings of the first month tell, where
	// there are any.
	Measured bool `json:"measured"`
}

// outcome is what a text comes to. Report and what follows are missing if the
// text cannot be computed: then the findings, or Fault, say why.
type outcome struct {
	Revision string       `json:"revision"` // of the text
	Took     float64      `json:"took"`     // ms
	Findings finding.List `json:"findings"`
	Form     []formField  `json:"form"`
	Fault    string       `json:"fault,omitempty"`
	Report   *wire.Report `json:"report,omitempty"`
	Water    *water       `json:"water,omitempty"`
	Curves   bool         `json:"curves"` // whether they were asked for
	Rough    bool         `json:"rough"`  // taken in part from the text before; a closer look is worth while
	Pump     *pumpCurves  `json:"pump,omitempty"`
	Scene    *scene       `json:"scene,omitempty"`
	Readings int          `json:"readings"` // of the log's first month
	Measured bool         `json:"measured"` // whether answers are from them
}

// HeapGrowth is by how many per cent the heap of a program that serves the page may grow
// before it is swept: an edit makes some 30 MB of it, and sweeping so much as often as is
// usual takes a fifth of the time until it is answered.
const HeapGrowth = 400

// build runs the chain, a few at a time.
func (b *Bench) build(ctx context.Context, name, text string, o rillwright.Options) (*rillwright.Report, error) {
	room := b.work
	if !o.NoFixes || o.Faults == rillwright.FaultPairs {
		room = b.slow
	}
	leave, err := enter(ctx, room)
	if err != nil {
		return nil, err
	}
	defer leave()
	o.Beside, o.Stop = b.shelf.beside(name), ctx.Err
	return rillwright.Build(name, []byte(text), o)
}

func (b *Bench) compute(w http.ResponseWriter, r *http.Request) {
	q, ok := take[computeRequest](w, r)
	if !ok {
		return
	}
	start := time.Now()
	o := rillwright.Options{Structure: true, Living: true, Faults: rillwright.MainFaults, NoFixes: !q.Fixes, Today: works.Today(time.Now())}
	readings := b.measured(q.Name)
	seenAs := q.Name
	if q.Measured && len(readings) > 0 {
		o.AsBuilt = builtFrom(readings)
		seenAs += "\x00measured" // no file is called so
	}
	if last := b.seen.get(seenAs); !q.Fixes {
		o.Like = last
	} else if last != nil {
		o.Lived = last.Living
	}
	rep, err := b.build(r.Context(), q.Name, q.Text, o)
	if r.Context().Err() != nil {
		return // nobody waits for it any more
	}
	out := outcome{Curves: q.Curves, Rough: o.Like != nil, Revision: revision([]byte(q.Text)), Findings: finding.List{}, Form: []formField{}, Readings: len(readings), Measured: o.AsBuilt != nil}
	if rep != nil {
		out.Findings = append(out.Findings, rep.Findings...)
		out.Form = form(rep.Design)
	}
	switch {
	case err != nil:
		out.Fault = err.Error()
	case !rep.Findings.HasErrors():
		v := wire.Of(rep, rep.Answers)
		out.Report = &v
		out.Water = waterOf(rep.Survey)
		if q.Curves {
			out.Pump = curvesOf(rep.Survey)
		}
		out.Scene = sceneOf(rep.Survey)
	}
	if err == nil && rep.Faults != nil && o.Like == nil {
		b.seen.put(seenAs, rep)
	}
	out.Took = float64(time.Since(start).Microseconds()) / 1000
	reply(w, out)
}
