package workbench

import (
	"bytes"
	"cmp"
	"context"
	"errors"
	"fmt"
	"html/template"
	"io"
	"io/fs"
	"net/http"
	"net/url"
	"os"
	"strings"
	"time"

	"rillwright"
	"rillwright/asbuilt"
	"rillwright/commission"
	"rillwright/design"
	"rillwright/finding"
	"rillwright/internal/logbook"
	"rillwright/keeping"
	"rillwright/quantity"
	"rillwright/record"
)

// The log of a design is a page of its own, plain and without scripts, so that a
// phone at the floor has it at once: choose, type, send.

// maxLog is the length of a log, in bytes, up to which it is shown: some 400,000
// readings.
const maxLog = 48 << 20

// shownReadings is how many of the last readings are shown.
const shownReadings = 40

// logOf reads the log beside a design.
func (b *Bench) logOf(name string) (*record.Log, finding.List, error) {
	file := logbook.Name(name)
	f, err := b.shelf.root.Open(file)
	if errors.Is(err, fs.ErrNotExist) {
		return &record.Log{}, nil, nil
	}
	if err != nil {
		return nil, nil, err
	}
	defer func() { _ = f.Close() }() // only read from
	data, err := io.ReadAll(io.LimitReader(f, maxLog+1))
	if err != nil {
		return nil, nil, err
	}
	if len(data) > maxLog {
		return nil, nil, errors.New("the log is too long for this page")
	}
	l, found := record.Read(file, data)
	return l, found, nil
}

// openForLog returns a design of the folder that may keep a log.
func (b *Bench) openForLog(name string) (stored, error) {
	d, err := b.shelf.read(name)
	switch {
	case err != nil:
		return d, err
	case d.ReadOnly:
		return d, errBuiltIn
	}
	return d, nil
}

// showLog is the page of a log.
func (b *Bench) showLog(w http.ResponseWriter, r *http.Request) {
	d, err := b.openForLog(r.PathValue("name"))
	if err != nil {
		fail(w, err)
		return
	}
	b.logPage(w, r, &d, http.StatusOK, logTyped{Noted: r.URL.Query().Get("noted")})
}

// logTyped is what was typed and not taken, with why; or what was noted last.
type logTyped struct{ What, Value, Note, Fault, Do, Noted string }

// addToLog notes what a form sends.
func (b *Bench) addToLog(w http.ResponseWriter, r *http.Request) {
	d, err := b.openForLog(r.PathValue("name"))
	if err != nil {
		fail(w, err)
		return
	}
	t := logTyped{What: r.PostFormValue("what"), Value: r.PostFormValue("value"), Note: r.PostFormValue("note")}
	reading, err := b.noteIn(&d, t)
	if err != nil {
		t.Fault, t.Do, _ = strings.Cut(err.Error(), "\n  do: ")
		b.logPage(w, r, &d, http.StatusUnprocessableEntity, t)
		return
	}
	// Sent on, so that loading the page again notes nothing twice.
	http.Redirect(w, r, "/log/"+url.PathEscape(d.Name)+"?noted="+url.QueryEscape(reading.ID()+" "+reading.Text), http.StatusSeeOther)
}

// noteIn adds a reading to the log of a design.
func (b *Bench) noteIn(d *stored, t logTyped) (record.Reading, error) {
	read, _ := design.Read(d.Name, []byte(d.Text))
	reading, err := record.Typed(t.What+" "+strings.ReplaceAll(t.Value, "#", " "), namesOf(read))
	if err != nil {
		return reading, err
	}
	reading.Time, reading.Note = time.Now().Truncate(time.Second), strings.Join(strings.Fields(t.Note), " ")
	reading.Design = revision([]byte(d.Text))[:8]
	return reading, logbook.AddTo(func() (*os.File, error) { return b.shelf.root.OpenFile(logbook.Name(d.Name), logbook.Flags, 0o644) }, reading)
}

// noteRequest is a reading as it is typed.
type noteRequest struct {
	Name  string `json:"name"`
	What  string `json:"what"`
	Value string `json:"value"`
	Note  string `json:"note"`
}

// noteReply says what was noted, or what is wrong with what was typed and what to do.
type noteReply struct {
	Noted string `json:"noted"`
	Fault string `json:"fault"`
	Do    string `json:"do"`
}

// note notes what the page sends.
func (b *Bench) note(w http.ResponseWriter, r *http.Request) {
	q, ok := take[noteRequest](w, r)
	if !ok {
		return
	}
	d, err := b.openForLog(q.Name)
	if err != nil {
		fail(w, err)
		return
	}
	reading, err := b.noteIn(&d, logTyped{What: q.What, Value: q.Value, Note: q.Note})
	if err != nil {
		what, do, _ := strings.Cut(err.Error(), "\n  do: ")
		reply(w, noteReply{Fault: what, Do: cmp.Or(do, "type it as in the example")})
		return
	}
	reply(w, noteReply{Noted: reading.ID() + " " + reading.Text})
}

// namesOf lists the parts of a design that readings may be of.
func namesOf(d *design.Design) (n record.Names) {
	for i := range d.Pumps {
		n.Pumps = append(n.Pumps, d.Pumps[i].Name.Value)
	}
	for i := range d.Manifolds {
		n.Manifolds = append(n.Manifolds, d.Manifolds[i].Name.Value)
	}
	return n
}

// logPage writes the page.
func (b *Bench) logPage(w http.ResponseWriter, r *http.Request, d *stored, status int, t logTyped) {
	log, found, err := b.logOf(d.Name)
	if err != nil {
		fail(w, err)
		return
	}
	read, _ := design.Read(d.Name, []byte(d.Text))
	p := logView{Name: d.Name, Title: read.Name.Value, Path: "/log/" + url.PathEscape(d.Name), Back: "/#" + url.PathEscape(d.Name), Typed: t, Choices: choices(namesOf(read), t.What), Style: template.CSS(logStyle)}
	for i := range found {
		p.Findings = append(p.Findings, found[i].String())
	}
	rep, err := b.build(r.Context(), d.Name, d.Text, rillwright.Options{NoFixes: true})
	if r.Context().Err() != nil {
		return // nobody waits for it any more
	}
	sys := quantity.Metric
	if err == nil && !rep.Findings.HasErrors() {
		sys = rep.Enclosure.Units
		plan := commission.Of(rep.Survey, nil)
		p.rows(log, &plan, sys)
		now := time.Now()
		chores, _ := rillwright.Chores(rep.Enclosure, log.Readings, now)
		p.due(keeping.DueAt(chores, log.Readings, now), now)
		if r.URL.Query().Get("look") != "" {
			if err := p.diagnose(r.Context(), b, rep, log); err != nil {
				p.LookFault = err.Error()
			}
		}
	} else {
		p.Fault = "The design has faults, so nothing is set against it. What is noted is kept all the same."
		p.rows(log, &commission.Plan{}, sys)
	}
	p.trends(keeping.Trends(log.Readings), sys)
	var out bytes.Buffer
	if err := logTemplate.Execute(&out, &p); err != nil {
		fail(w, err)
		return
	}
	h := w.Header()
	h.Set("Content-Type", "text/html; charset=utf-8")
	h.Set("Content-Security-Policy", "default-src 'none'; style-src 'sha256-"+hashOf(logStyle)+"'; frame-ancestors 'none'; base-uri 'none'; form-action 'self'")
	w.WriteHeader(status)
	_, _ = w.Write(out.Bytes()) // the caller is gone if this fails
}

// diagnose fills in what explains the last readings.
func (p *logView) diagnose(ctx context.Context, b *Bench, rep *rillwright.Report, log *record.Log) error {
	d, err := b.look(ctx, rep, log, time.Time{})
	if err != nil {
		return err
	}
	for i := range d.Suspects[:d.Worth()] {
		s := &d.Suspects[i]
		p.Suspects = append(p.Suspects, logSuspect{s.Share(), s.What, s.Do})
	}
	if d.Chance < asbuilt.Unexplained {
		p.Two = "No one thing that is looked for explains what was read, nor do two at once: measure again what looks odd."
		if len(d.Pairs) > 0 {
			f := &d.Pairs[0].Faults
			p.Two = fmt.Sprintf("No one thing explains what was read. Two at once do it better: %s, and %s. First: %s; then: %s.", f[0].What, f[1].What, f[0].Do, f[1].Do)
		}
	}
	if d.Next != nil {
		p.Next = fmt.Sprintf("Measure next: %s, about %.0f min.", d.Next.ID, d.Next.Minutes)
	}
	return nil
}

// rows are the last readings, newest first.
func (p *logView) rows(log *record.Log, plan *commission.Plan, sys quantity.System) {
	p.Count = len(log.Readings)
	for i := len(log.Readings) - 1; i >= 0 && len(p.Rows) < shownReadings; i-- {
		e := &log.Readings[i]
		row := logRow{When: e.Time.Format("2006-01-02 15:04"), ID: e.ID(), Text: e.Text, Note: e.Note}
		if row.Text == "-" {
			row.Text = ""
		}
		if v, _, ok := commission.Measured(e); ok {
			row.Figure = commission.ShowReading(e, sys)
			if c := plan.Find(row.ID); c != nil {
				if passed, ok := c.Passed(v); ok {
					row.Verdict = "does not pass: " + c.PassText(sys)
					if passed {
						row.Verdict = "passes: " + c.PassText(sys)
					}
				}
			}
		}
		p.Rows = append(p.Rows, row)
	}
}
