package cli

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"rillwright"
	"rillwright/answers"
	"rillwright/finding"
	"rillwright/internal/wire"
	"rillwright/works"
)

type checkCommand struct {
	Design string `arg:"" help:"A design file, or demo (metric) or demo-us for a built-in one."`
	Format string `enum:"text,json" default:"text" help:"Print as text (if left out) or json." placeholder:"text|json"`
	Only   string `help:"Show one answer alone, by its name in brackets: drain, or even for that of every manifold." placeholder:"NAME"`
	Brief  bool   `short:"b" help:"Show the verdicts alone."`
	Strict bool   `help:"Exit with status 4 if an answer is tight or not known yet."`
	Built  bool   `name:"as-built" help:"Answer for the enclosure as your first readings tell it, from the log beside the design."`
	Plot   string `help:"Also write plots as SVG files into this folder." placeholder:"FOLDER"`
}

// Help tells what the verdicts mean.
func (*checkCommand) Help() string {
	return `A verdict is taken with every doubt at its bad end. HOLDS: even then. TIGHT: only just, or only if the doubts fall well. FAILS: not then. NOT KNOWN YET: something must be measured or written down first.` + "\n" + exitHelp
}

// Run answers every question about a design.
func (c *checkCommand) Run(std *Streams) error {
	file, data, beside, err := open(c.Design)
	if err != nil {
		return refuse(std, err)
	}
	o := rillwright.Options{Beside: beside, Structure: true, Living: true, Faults: rillwright.MainFaults, Today: works.Today(time.Now())}
	if c.Built {
		if o.AsBuilt, err = fromLog(std, c.Design); err != nil {
			return err
		}
	}
	r, err := rillwright.Build(file, data, o)
	if err != nil {
		return refuse(std, fmt.Errorf("%w\n  do: look at how the runs join pumps, tees and manifolds, and at valves that are shut", err))
	}
	if r.Findings.HasErrors() {
		return c.refuseDesign(std, file, r.Findings)
	}
	shown := r.Answers
	if c.Only != "" {
		if shown = only(r.Answers, c.Only); len(shown) == 0 {
			return refuse(std, noAnswer(c.Only, r.Answers))
		}
	}
	if c.Format == "json" {
		err = printJSON(std.Out, wire.Of(r, shown))
	} else {
		// What is no error is said beside the results, not among them.
		if err := finding.Write(std.Err, r.Findings); err != nil {
			return err
		}
		err = printReport(std.Out, r, shown, c)
	}
	if err != nil {
		return err
	}
	if c.Plot != "" {
		if err := plots(std, r, c.Plot); err != nil {
			return err
		}
	}
	return c.status(shown)
}

// refuseDesign tells what is wrong in a design file: as JSON that is the result.
func (c *checkCommand) refuseDesign(std *Streams, file string, list finding.List) error {
	if c.Format == "json" {
		if err := printJSON(std.Out, wire.Findings{File: file, Findings: list}); err != nil {
			return err
		}
		return statusError(exitInput)
	}
	if err := finding.Write(std.Err, list); err != nil {
		return err
	}
	n := 0
	for i := range list {
		if list[i].Severity == finding.Error {
			n++
		}
	}
	fmt.Fprintf(std.Err, "%s: %d to mend before anything can be computed\n", file, n)
	return statusError(exitInput)
}

func (c *checkCommand) status(shown []answers.Answer) error {
	switch v := answers.Worst(shown); {
	case v == answers.Fails:
		return statusError(exitFails)
	case c.Strict && v != answers.Holds:
		return statusError(exitTight)
	}
	return nil
}

// only returns the answer of that name, or those of every manifold if the name
// stands before the bracket: even for even[upper bar] and even[lower bar].
func only(list []answers.Answer, name string) []answers.Answer {
	var out []answers.Answer
	for i := range list {
		if named(list[i].ID, name) {
			out = append(out, list[i])
		}
	}
	return out
}

// named reports whether an answer goes by a name: its own, or what stands before
// the bracket.
func named(id, name string) bool {
	kind, _, _ := strings.Cut(id, "[")
	return id == name || kind == name
}

func noAnswer(name string, list []answers.Answer) error {
	ids := make([]string, len(list))
	for i := range list {
		ids[i] = list[i].ID
	}
	do := "choose one of " + strings.Join(ids, ", ")
	if near, ok := finding.Nearest(name, ids); ok {
		do = "did you mean " + strconv.Quote(near) + "? Otherwise " + do
	}
	return fmt.Errorf("no answer is called %q\n  do: %s", name, do)
}
