package workbench

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"strings"
	"time"

	"rillwright"
	"rillwright/asbuilt"
	"rillwright/commission"
	"rillwright/enclosure"
	"rillwright/internal/wire"
	"rillwright/layout"
	"rillwright/quantity"
	"rillwright/record"
)

// troubleRequest asks what explains the readings of a design's log, with its text as it
// stands on the page. Since is from when readings count as of now: "2026-11-26"; "" for
// three days before the last.
type troubleRequest struct {
	Name  string `json:"name"`
	Text  string `json:"text"`
	Since string `json:"since"`
}

// troubleReply is what they say.
type troubleReply struct {
	Log      string          `json:"log"`  // address of the log's page; "" if the design keeps none
	Says     []string        `json:"says"` // what it is from, what stands in the way, what weakens it
	Found    *wire.Diagnosis `json:"found,omitempty"`
	Suspects []suspectShown  `json:"suspects"` // as in Found
	Worth    int             `json:"worth"`    // how many of them are worth a look
	Together []suspectsShown `json:"together"` // two at once, where one does not explain it
	Pairing  string          `json:"pairing,omitempty"`
	Measure  *measureShown   `json:"measure,omitempty"`
	Unused   []string        `json:"unused"`
	Choices  []logChoice     `json:"choices"` // what can be noted
}

// suspectShown is how a suspect is told and which parts of the scene it is about.
type suspectShown struct {
	ID    string     `json:"id"`
	Share string     `json:"share"`
	Parts []lostPart `json:"parts"`
}

// suspectsShown is two at once.
type suspectsShown struct {
	Share string     `json:"share"`
	What  string     `json:"what"`
	Do    string     `json:"do"`
	Parts []lostPart `json:"parts"`
}

// measureShown is what to measure next.
type measureShown struct {
	ID    string   `json:"id"`
	Value string   `json:"value"` // among the choices
	How   string   `json:"how"`
	Takes string   `json:"takes"`
	Tells []string `json:"tells"` // what it comes to if each of the first two is right
}

// trouble sends a diagnosis.
func (b *Bench) trouble(w http.ResponseWriter, r *http.Request) {
	q, ok := take[troubleRequest](w, r)
	if !ok {
		return
	}
	since, err := sinceOf(q.Since)
	if err != nil {
		refuse(w, http.StatusBadRequest, err.Error(), "write a day as 2026-11-26")
		return
	}
	d, err := b.openForLog(q.Name)
	if errors.Is(err, errBuiltIn) {
		reply(w, troubleReply{Says: []string{"This design comes with the program and has no log. Keep a copy of it, and note there what you measure."}, Suspects: []suspectShown{}, Together: []suspectsShown{}, Unused: []string{}, Choices: []logChoice{}})
		return
	}
	if err != nil {
		fail(w, err)
		return
	}
	log, found, err := b.logOf(d.Name)
	if err != nil {
		fail(w, err)
		return
	}
	rep, ok := b.sound(w, r, q.Name, q.Text)
	if !ok {
		return
	}
	out := troubleReply{
		Log: logPath(d.Name), Says: []string{}, Suspects: []suspectShown{}, Together: []suspectsShown{}, Unused: []string{},
		Choices: choices(namesOf(rep.Design), ""),
	}
	for i := range found {
		out.Says = append(out.Says, found[i].String())
	}
	l, err := b.look(r.Context(), rep, log, since)
	switch {
	case r.Context().Err() != nil:
		return // nobody waits for it any more
	case errors.Is(err, asbuilt.ErrNoReadings):
		out.Says = append(out.Says, "Nothing is noted yet that tells of a fault. A flow into a bucket is a good first one: 10 L in 43 s.")
	case err != nil:
		refuse(w, http.StatusUnprocessableEntity, err.Error(), "look at the answers about the water first")
		return
	default:
		l.tell(&out, rep)
	}
	reply(w, out)
}

func sinceOf(text string) (time.Time, error) {
	if text == "" {
		return time.Time{}, nil
	}
	return record.ParseTime(text, time.Local)
}

func logPath(name string) string { return "/log/" + url.PathEscape(name) }

// looked is a diagnosis with what it is set against.
type looked struct {
	*asbuilt.Diagnosis
	before, now []record.Reading
	settled     bool
}

// look sets the readings of a log against the design.
func (b *Bench) look(ctx context.Context, rep *rillwright.Report, log *record.Log, since time.Time) (*looked, error) {
	leave, err := enter(ctx, b.slow)
	if err != nil {
		return nil, err
	}
	defer leave()
	l := &looked{}
	l.before, l.now = asbuilt.Split(log.Readings, since)
	f, err := asbuilt.Of(rep.Enclosure, l.before)
	if err != nil {
		return nil, err
	}
	l.settled = f.Settled
	l.Diagnosis, err = asbuilt.Diagnose(f, l.before, l.now)
	return l, err
}

// tell writes a diagnosis down for the page.
func (l *looked) tell(out *troubleReply, rep *rillwright.Report) {
	e, sys := rep.Enclosure, rep.Enclosure.Units
	found := wire.DiagnosisOf(rep.File, l.Diagnosis, sys)
	out.Found, out.Worth, out.Pairing = &found, l.Worth(), l.Pairing()
	out.Says = append(out.Says, l.from()...)
	place := layout.Of(e)
	for i := range l.Suspects {
		s := &l.Suspects[i]
		out.Suspects = append(out.Suspects, suspectShown{s.ID, s.Share(), suspectParts(e, place, &s.Fault)})
	}
	for i := range l.Pairs {
		p := &l.Pairs[i]
		f := &p.Faults
		one := asbuilt.Suspect{Probability: p.Probability}
		out.Together = append(out.Together, suspectsShown{
			one.Share(), f[0].What + ", and " + f[1].What, "first: " + f[0].Do + "; then: " + f[1].Do,
			append(suspectParts(e, place, &f[0]), suspectParts(e, place, &f[1])...),
		})
	}
	if l.Next != nil {
		plan := commission.Of(rep.Survey, nil)
		m := measureOf(l.Diagnosis, &plan, sys)
		out.Measure = &m
	}
	for _, u := range l.Unused {
		out.Unused = append(out.Unused, fmt.Sprintf("%s of %s: %s", l.now[u.Reading].ID(), l.now[u.Reading].Time.Format("2006-01-02 15:04"), u.Why))
	}
}

// from says what a diagnosis is from, and what weakens it.
func (l *looked) from() []string {
	many := "one figure"
	if l.Used != 1 {
		many = fmt.Sprintf("%d figures", l.Used)
	}
	out := []string{fmt.Sprintf("From %s, read from %s on.", many, l.now[0].Time.Format(time.DateOnly))}
	if len(l.before) == 0 {
		out = append(out, "There are no readings from before: suspects are set against the design alone.")
	}
	if !l.settled {
		out = append(out, "The first readings do not go with the design, so what follows is worth little: see which with rillwright built.")
	}
	return out
}

// measureOf tells what to measure next, how, and what each of the two that it splits
// foretells.
func measureOf(d *asbuilt.Diagnosis, plan *commission.Plan, sys quantity.System) measureShown {
	n := d.Next
	word, _, _ := strings.Cut(n.ID, "[")
	m := measureShown{ID: n.ID, Value: n.ID, Takes: fmt.Sprintf("about %.0f min", n.Minutes), Tells: []string{}}
	if c := plan.Find(n.ID); c != nil {
		m.How = c.How
	} else if w, ok := record.FindWord(word); ok {
		m.How = w.Help
	}
	if m.How != "" {
		m.How = strings.ToUpper(m.How[:1]) + strings.TrimSuffix(m.How[1:], ".") + "."
	}
	for k, v := range []float64{n.First, n.Second} {
		m.Tells = append(m.Tells, asbuilt.Show(n.ID, v, sys)+" if "+whatOf(d, n.Split[k]))
	}
	if !n.Settles() {
		m.Tells = append(m.Tells, asbuilt.NotAlone)
	}
	return m
}

// whatOf is a suspect in words.
func whatOf(d *asbuilt.Diagnosis, id string) string {
	for i := range d.Suspects {
		if s := &d.Suspects[i]; s.ID == id {
			return s.What
		}
	}
	return id
}

// suspectParts lists the parts of the scene that a fault is in.
func suspectParts(e *enclosure.Enclosure, l *layout.Layout, f *asbuilt.Fault) []lostPart {
	word, name, _ := strings.Cut(strings.TrimSuffix(f.ID, "]"), "[")
	outlets := map[string]bool{}
	for _, k := range f.Outlets {
		outlets[layout.OutletName(name, k)] = true
	}
	is := func(p *layout.Part) bool {
		switch word {
		case "worn", "scale", "strainer":
			return p.Kind == layout.KindPump && p.Name == name
		case "barb", "air":
			return p.Kind == layout.KindPump && p.Name == name || fromPump(e, p, name)
		case "kink":
			return (p.Kind == layout.KindRun || p.Kind == layout.KindTail) && p.Name == name
		case "right-high", "left-high":
			return p.Kind == layout.KindManifold && p.Name == name
		case "blocked":
			return p.Kind == layout.KindOutlet && (outlets[p.Name] || f.Outlets == nil && strings.HasPrefix(p.Name, name+", "))
		case "leak":
			return p.Kind == layout.KindGrid || p.Kind == layout.KindDam
		case "wick":
			return p.Kind == layout.KindDam || p.Kind == layout.KindHardscape || p.Kind == layout.KindRim
		case "fouled":
			return p.Name == name && (p.Kind == layout.KindStrainer || p.Kind == layout.KindStandpipe || p.Kind == layout.KindFlange)
		}
		return false
	}
	out := []lostPart{}
	for i := range l.Parts {
		if p := &l.Parts[i]; is(p) {
			out = append(out, lostPart{string(p.Kind), p.Name, p.Field})
		}
	}
	return out
}

// fromPump reports whether a part is hose or pipe that leads away from a pump.
func fromPump(e *enclosure.Enclosure, p *layout.Part, pump string) bool {
	if p.Kind != layout.KindRun && p.Kind != layout.KindTail {
		return false
	}
	for i := range e.Runs {
		if r := &e.Runs[i]; r.Name == p.Name {
			return r.From.Kind == enclosure.AtPump && r.From.Name == pump
		}
	}
	return false
}
