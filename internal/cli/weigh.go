package cli

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"os/signal"
	"runtime"
	"strconv"
	"strings"
	"time"

	"rillwright"
	"rillwright/finding"
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
	const rows = 256       // a power of two: the draws are most even then
	const most = 1_000_000 // some 350 MB
	if c.Draws < 1 || c.Draws > most {
		return refuse(std, fmt.Errorf("--draws %d: between 1 and %d can be drawn\n  do: write --draws 10000", c.Draws, most))
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
	begin := time.Now()
	w, err := weigh.Weigh(ctx, r.Enclosure, weigh.Options{
		Draws: c.Draws, Seed: c.Seed, Rows: rows, Workers: runtime.GOMAXPROCS(0),
		Progress: afterASecond(progressOf(std, "drawing"), func() time.Duration { return time.Since(begin) }),
	})
	switch {
	case errors.Is(err, context.Canceled):
		fmt.Fprintln(std.Err, "rillwright: stopped before all was drawn\n  do: write a smaller number behind --draws")
		return statusError(exitOther)
	case err != nil:
		return refuse(std, fmt.Errorf("%s: %w\n  do: look at the bands in the file", file, err))
	}
	if c.Format == "json" {
		return printJSON(std.Out, w)
	}
	if err := finding.Write(std.Err, r.Findings); err != nil {
		return err
	}
	return printWeighed(std.Out, r.Name, w)
}

func printWeighed(out io.Writer, name string, w *weigh.Result) error {
	var b strings.Builder
	fmt.Fprintf(&b, "%s, %d draws, seed %d\n", name, w.Draws, w.Seed)
	for i := range w.Answers {
		a := &w.Answers[i]
		fmt.Fprintf(&b, "  holds in %5s of draws  %s [%s]\n", percent(a.Holds.P), a.Question, a.ID)
	}
	b.WriteByte('\n')
	wrap(&b, "Measure first: ", "  ", measureFirst(w))
	for i := range w.Answers {
		a := &w.Answers[i]
		if a.Low < a.High {
			b.WriteByte('\n')
			printSpread(&b, a)
		}
	}
	_, err := io.WriteString(out, b.String())
	return err
}

// measureFirst says which measurement settles most of what is open.
func measureFirst(w *weigh.Result) string {
	open := "[" + strings.Join(w.Open, "], [") + "]"
	switch m := w.First; {
	case len(w.Open) == 0:
		return "nothing. Every answer comes out the same in all draws."
	case m == nil:
		return "no single thing. " + open + " may come out one way or the other, but no measurement that is known alone settles a twentieth of that in so many draws."
	default:
		return fmt.Sprintf("%s, by %s. It settles some %s of what is open: whether %s come out well.", m.What, m.Settle, percent(m.Share), open)
	}
}

// printSpread prints how one answer's figure is spread, and why.
func printSpread(b *strings.Builder, a *weigh.Answer) {
	fmt.Fprintf(b, "%s [%s]\n", a.Question, a.ID)
	wrap(b, "  ", "    ", fmt.Sprintf("holds in %s of draws, give or take %.1f; fails in %s", percent(a.Holds.P), 200*a.Holds.Error, percent(a.Fails.P)))
	low, median, high := threeDigits(a.Low), threeDigits(a.Median), threeDigits(a.High)
	wrap(b, "  ", "    ", fmt.Sprintf("%s: nine of ten draws from %s to %s, half of them below %s %s", a.Figure, low, high, median, a.Unit))
	for _, d := range a.Matter[:min(3, len(a.Matter))] {
		text := fmt.Sprintf("%s of the spread: %s", percent(d.Index.Total), d.What)
		if d.Settle != "" {
			text += "; settle it by: " + d.Settle
		}
		wrap(b, "    - ", "      ", text)
	}
}

// percent is a share for people, never 0 or 100 where it is not quite.
func percent(share float64) string {
	switch p := 100 * share; {
	case p > 0 && p < 1:
		return "< 1 %"
	case p > 99 && p < 100:
		return "> 99 %"
	default:
		return fmt.Sprintf("%.0f %%", p)
	}
}

// threeDigits is a figure for people, without powers of ten.
func threeDigits(v float64) string {
	if v == 0 {
		return "0"
	}
	decimals := 2 - int(math.Floor(math.Log10(math.Abs(v))))
	return strconv.FormatFloat(v, 'f', min(max(decimals, 0), 6), 64)
}
