package cli

import (
	"context"
	"fmt"
	"io"
	"os"
	"os/signal"
	"runtime"

	"rillwright"
	"rillwright/weigh"
)

type weighCommand struct {
	Design string `arg:"" help:"A design file, or demo (metric) or demo-us for a built-in one."`
	Draws  int    `default:"10000" help:"How often everything in doubt is drawn." placeholder:"N"`
	Seed   uint64 `default:"1" help:"Another number draws other values; the same one repeats them." placeholder:"N"`
	Format string `enum:"text,json" default:"text" help:"Print as text (if left out) or json." placeholder:"text|json"`
}

// Help tells what is computed.
func (*weighCommand) Help() string {
	return `Draws every figure that is known only as a band, as if values near the likely one were likelier (assumed, no source), runs the water with each draw and counts how often each answer holds. An answer that holds at the bad end of its band holds always.` + "\n" + exitHelp
}

// Run weighs the doubts of a design.
func (c *weighCommand) Run(std *Streams) error {
	const rows = 256 // a power of two: the draws are most even then
	if c.Draws < 1 || c.Draws > 10_000_000 {
		return refuse(std, fmt.Errorf("--draws %d: between 1 and 10000000 can be drawn\n  do: write --draws 10000", c.Draws))
	}
	file, data, beside, err := open(c.Design)
	if err != nil {
		return refuse(std, err)
	}
	r, err := rillwright.Build(file, data, rillwright.Options{Beside: beside, NoFixes: true})
	if err != nil {
		return refuse(std, fmt.Errorf("%w\n  do: look at how the runs join pumps, tees and manifolds, and at valves that are shut", err))
	}
	if r.Findings.HasErrors() {
		return (&checkCommand{Format: c.Format}).refuseDesign(std, file, r.Findings)
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	w, err := weigh.Weigh(ctx, r.Enclosure, weigh.Options{Draws: c.Draws, Seed: c.Seed, Rows: rows, Workers: runtime.GOMAXPROCS(0)})
	if err != nil {
		return refuse(std, fmt.Errorf("%s: %w\n  do: look at the bands in the file", file, err))
	}
	if c.Format == "json" {
		return printJSON(std.Out, w)
	}
	return printWeighed(std.Out, w)
}

func printWeighed(out io.Writer, w *weigh.Result) error {
	if _, err := fmt.Fprintf(out, "%d draws, seed %d\n", w.Draws, w.Seed); err != nil {
		return err
	}
	for i := range w.Answers {
		a := &w.Answers[i]
		text := fmt.Sprintf("\n%s [%s]\n  holds in %.1f %% of draws (give or take %.1f), fails in %.1f %%\n",
			a.Question, a.ID, 100*a.Holds.P, 200*a.Holds.Error, 100*a.Fails.P)
		if a.Figure != "" {
			text += fmt.Sprintf("  %s: nine of ten draws %.3g to %.3g %s, half of them below %.3g\n", a.Figure, a.Low, a.High, a.Unit, a.Median)
		}
		for k, d := range a.Matter[:min(3, len(a.Matter))] {
			text += fmt.Sprintf("  %3.0f %% of the spread: %s\n", 100*d.Index.Total, d.What)
			if k == 0 && d.Settle != "" {
				text += "        settle it first: " + d.Settle + "\n"
			}
		}
		if _, err := io.WriteString(out, text); err != nil {
			return err
		}
	}
	return nil
}
