package cli

import (
	"errors"
	"fmt"
	"io"
	"time"

	"rillwright/asbuilt"
	"rillwright/internal/wire"
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
		return printJSON(std.Out, wire.DiagnosisOf(r.File, d, r.Enclosure.Units))
	}
	if len(before) == 0 {
		fmt.Fprintln(std.Err, "there are no readings from before: suspects are set against the design alone")
	}
	printDiagnosis(std.Out, r.Name, r.Enclosure.Units, d, now)
	return nil
}

func printDiagnosis(w io.Writer, name string, sys quantity.System, d *asbuilt.Diagnosis, now []record.Reading) {
	fmt.Fprintf(w, "%s, from %s\n", name, howMany(d.Used))
	for _, c := range d.Changes {
		fmt.Fprintf(w, "  %s\n", c.Words(sys))
	}
	printTwo(w, d)
	for i := range d.Suspects[:d.Worth()] {
		s := &d.Suspects[i]
		fmt.Fprintf(w, "  %6s  %s [%s]\n", s.Share(), s.What, s.ID)
		if i == 0 && s.ID != "nothing" {
			fmt.Fprintf(w, "          first: %s\n", s.Do)
		}
	}
	if n := d.Next; n != nil {
		fmt.Fprintf(w, "  measure next: %s, about %.0f min\n    %s if it is %s, %s if it is %s\n",
			n.ID, n.Minutes, asbuilt.Show(n.ID, n.First, sys), n.Split[0], asbuilt.Show(n.ID, n.Second, sys), n.Split[1])
		if !n.Settles() {
			fmt.Fprintln(w, "    "+asbuilt.NotAlone)
		}
	}
	printUnused(w, d.Unused, now)
}

// printTwo tells that no one suspect explains the readings, and which two do.
func printTwo(w io.Writer, d *asbuilt.Diagnosis) {
	if d.Chance >= asbuilt.Unexplained {
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
	switch say := d.Pairing(); {
	case say == "":
	case len(d.Pairs) == 0:
		fmt.Fprintln(w, "  "+say)
	default:
		fmt.Fprintln(w, "    "+say)
	}
	fmt.Fprintln(w, "  one alone, the likeliest")
}
