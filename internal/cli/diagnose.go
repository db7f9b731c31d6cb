package cli

import (
	"errors"
	"fmt"
	"io"
	"math"
	"strings"
	"time"

	"rillwright/asbuilt"
	"rillwright/quantity"
	"rillwright/record"
)

type diagnoseCommand struct {
	Design string `arg:"" help:"A design file whose log stands beside it."`
	Since  string `help:"The time from which readings count as of now; if left out, three days before the last." placeholder:"TIME"`
	JSON   bool   `name:"json" help:"Print JSON."`
}

// Help tells how suspects are ranked.
func (*diagnoseCommand) Help() string {
	return "Computes what each thing that may be wrong would do to what you measured, in the whole circuit, and ranks them by how well they explain it. Readings of the first month, if there are any, tell how it was when all was well. Probabilities are among the suspects listed: what is not on the list is not looked for. Where no one suspect explains the readings, two at once are tried.\n" + exitHelp
}

// Run prints what has gone wrong.
func (c *diagnoseCommand) Run(std *Streams) error {
	r, log, err := openLog(std, c.Design)
	if err != nil {
		return err
	}
	var since time.Time
	if c.Since != "" {
		if since, err = record.ParseTime(c.Since, time.Local); err != nil {
			return refuse(std, err)
		}
	}
	before, now := asbuilt.Split(log.Readings, since)
	f, err := asbuilt.Of(r.Enclosure, before)
	if err != nil {
		return refuse(std, err)
	}
	d, err := asbuilt.Diagnose(f, before, now)
	switch {
	case err != nil && !errors.Is(err, asbuilt.ErrNoReadings):
		return refuse(std, fmt.Errorf("%w\n  do: look at what rillwright check says of the design first", err))
	case err != nil:
		return refuse(std, fmt.Errorf("%w\n  do: note what you can measure: manifold 10 L in 43 s, a row of cups, bare, shut-off", err))
	}
	if !f.Settled {
		fmt.Fprintf(std.Err, "the first readings do not go with the design, so what follows is worth little\n  do: see which: rillwright built %s\n", quoted(c.Design))
	}
	if c.JSON {
		return printJSON(std.Out, diagnosisOf(r.File, d))
	}
	if len(before) == 0 {
		fmt.Fprintln(std.Err, "there are no readings from before: suspects are set against the design alone")
	}
	printDiagnosis(std.Out, r.Name, r.Enclosure.Units, d, now)
	return nil
}

// suspectJSON and what follows are a diagnosis as JSON.
type suspectJSON struct {
	ID          string  `json:"id"`
	What        string  `json:"what"`
	Do          string  `json:"do"`
	Probability float64 `json:"probability"`
	Flow        float64 `json:"flow"` // of the outlets, as a share
}

type pairJSON struct {
	IDs         [2]string `json:"ids"`
	Probability float64   `json:"probability"`
	Chance      float64   `json:"chance"`
	Flow        float64   `json:"flow"`
}

type changeJSON struct {
	ID     string   `json:"id"`
	Before *float64 `json:"before,omitempty"` // SI
	Now    float64  `json:"now"`
	Share  float64  `json:"share"`
}

type diagnosisJSON struct {
	Design   string        `json:"design"`
	Used     int           `json:"used"`
	Suspects []suspectJSON `json:"suspects"`
	Chance   float64       `json:"chance"` // of such readings if the first suspect is right
	Pairs    []pairJSON    `json:"pairs,omitempty"`
	Changes  []changeJSON  `json:"changes"`
	Next     *nextJSON     `json:"next,omitempty"`
}

type nextJSON struct {
	ID      string  `json:"id"`
	Minutes float64 `json:"minutes"`
	Apart   float64 `json:"apart"`
	First   float64 `json:"first"` // SI
	Second  float64 `json:"second"`
}

func diagnosisOf(file string, d *asbuilt.Diagnosis) diagnosisJSON {
	out := diagnosisJSON{Design: file, Used: d.Used, Suspects: []suspectJSON{}, Changes: []changeJSON{}, Chance: rounded(d.Chance, 2)}
	for i := range d.Pairs {
		x := &d.Pairs[i]
		out.Pairs = append(out.Pairs, pairJSON{[2]string{x.Faults[0].ID, x.Faults[1].ID}, math.Round(x.Probability*1e4) / 1e4, rounded(x.Chance, 2), rounded(x.Flow, 3)})
	}
	for i := range d.Suspects {
		s := &d.Suspects[i]
		out.Suspects = append(out.Suspects, suspectJSON{s.ID, s.What, s.Do, math.Round(s.Probability*1e4) / 1e4, rounded(s.Flow, 3)})
	}
	for _, x := range d.Changes {
		j := changeJSON{ID: x.ID, Now: x.Now, Share: rounded(x.Share, 3)}
		if !math.IsNaN(x.Before) {
			j.Before = &x.Before
		}
		out.Changes = append(out.Changes, j)
	}
	if n := d.Next; n != nil {
		out.Next = &nextJSON{n.ID, n.Minutes, rounded(n.Apart, 2), rounded(n.First, 4), rounded(n.Second, 4)}
	}
	return out
}

// least is the share of probability below which a suspect is not worth a line.
const least = 0.01

func printDiagnosis(w io.Writer, name string, sys quantity.System, d *asbuilt.Diagnosis, now []record.Reading) {
	fmt.Fprintf(w, "%s, from %s\n", name, howMany(d.Used))
	for _, c := range d.Changes {
		fmt.Fprintf(w, "  %s %s, %.0f %% of what ", c.ID, showSite(wordOf(c.ID), c.Now, sys), 100*c.Share)
		if math.IsNaN(c.Before) {
			fmt.Fprintln(w, "was to be expected")
		} else {
			fmt.Fprintf(w, "it was: %s\n", showSite(wordOf(c.ID), c.Before, sys))
		}
	}
	printTwo(w, d)
	for i := range d.Suspects {
		s := &d.Suspects[i]
		if i > 2 && s.Probability < 0.05 || i > 0 && s.Probability < least {
			break
		}
		shown := fmt.Sprintf("%.0f %%", 100*s.Probability)
		if s.Probability > 0.99 { // of what is on the list; nobody is surer than that
			shown = "> 99 %"
		}
		fmt.Fprintf(w, "  %6s  %s [%s]\n", shown, s.What, s.ID)
		if i == 0 && s.ID != "nothing" {
			fmt.Fprintf(w, "          first: %s\n", s.Do)
		}
	}
	if n := d.Next; n != nil {
		fmt.Fprintf(w, "  measure next: %s, about %.0f min\n    %s if it is %s, %s if it is %s\n",
			n.ID, n.Minutes, showSite(wordOf(n.ID), n.First, sys), n.Split[0], showSite(wordOf(n.ID), n.Second, sys), n.Split[1])
		if n.Apart < 2 {
			fmt.Fprintln(w, "    that alone may not settle it: clean what is easiest, and measure again")
		}
	}
	printUnused(w, d.Unused, now)
}

// printTwo tells that no one suspect explains the readings, and which two do.
func printTwo(w io.Writer, d *asbuilt.Diagnosis) {
	if d.Chance >= 0.01 {
		return
	}
	fmt.Fprintln(w, "  no one thing that is looked for explains what was read")
	for i := range d.Pairs {
		x := &d.Pairs[i]
		if i > 0 && x.Probability < 0.05 {
			break
		}
		fmt.Fprintf(w, "  two at once: %s, and %s [%s] [%s]\n", x.Faults[0].What, x.Faults[1].What, x.Faults[0].ID, x.Faults[1].ID)
		if i == 0 {
			fmt.Fprintf(w, "          first: %s; then: %s\n", x.Faults[0].Do, x.Faults[1].Do)
		}
	}
	switch {
	case len(d.Pairs) == 0:
		fmt.Fprintln(w, "  nor do two at once, of what is looked for: measure again what looks odd, and look for what is not on the list")
	case d.Pairs[0].Chance < 0.01:
		fmt.Fprintln(w, "    they explain it better, but not well: measure again what looks odd")
	}
	fmt.Fprintln(w, "  one alone, the likeliest")
}

// wordOf is what stands before the part in an id.
func wordOf(id string) string {
	w, _, _ := strings.Cut(id, "[")
	return w
}
