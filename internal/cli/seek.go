package cli

import (
	"context"
	"fmt"
	"io"
	"os"
	"os/signal"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"time"

	"rillwright"
	"rillwright/answers"
	"rillwright/design"
	"rillwright/finding"
	"rillwright/fixes"
	"rillwright/internal/wire"
	"rillwright/seek"
	"rillwright/works"
)

type seekCommand struct {
	Design string   `arg:"" help:"A design file, or demo (metric) or demo-us for a built-in one."`
	Open   []string `help:"What may be chosen, several times: pump, hose, outlets, holes, feed, drain, lip, second, dam, fill; or a key and what it may be: \"dam.height=190 mm|200 mm\"." placeholder:"WHAT" sep:"none"`
	For    string   `enum:"cheapest,least-power,fewest-buys,quietest" default:"cheapest" help:"What is wanted most: cheapest (if left out), least-power, fewest-buys or quietest." placeholder:"cheapest|least-power|fewest-buys|quietest"`
	Leave  []string `help:"An answer that is no condition, by its name in brackets, several times: quiet." placeholder:"NAME" sep:"none"`
	Mend   []string `help:"An answer that must hold though it does not as drawn, by its name in brackets, several times: \"blocked[main drain]\"." placeholder:"NAME" sep:"none"`
	Tight  bool     `help:"Let answers be tight that could hold."`
	Front  bool     `help:"Look at all designs and list those of which none is both cheaper and has more margin."`
	Most   int      `default:"200000" help:"How many designs are looked at, at most." placeholder:"N"`
	Write  string   `help:"Write the best design into this file, with your comments." placeholder:"FILE"`
	Format string   `enum:"text,json" default:"text" help:"Print as text (if left out) or json." placeholder:"text|json"`
}

// Help tells how it is looked for.
func (*seekCommand) Help() string {
	return `Goes through every design that what is open allows, cheapest first, until one holds: every answer about the water, with all doubts at their bad end, and no other answer (power cuts, blocked drains, glass, days, money) worse than it is as drawn. If nothing makes all of them hold, they may be tight. What is found is the best there is of them, since all before it were found wanting, and it is told at what. Costs are those of what is chosen between: shelf, design file, or from memory.` + "\n" + exitHelp
}

// Run looks for the best design.
func (c *seekCommand) Run(std *Streams) error {
	if len(c.Open) == 0 {
		return refuse(std, fmt.Errorf("nothing is open\n  do: say what may be chosen: --open pump --open hose; or a key: --open \"dam.height=190 mm|200 mm\""))
	}
	if c.Most < 1 {
		return refuse(std, fmt.Errorf("--most %d: at least one design is to be looked at\n  do: write --most 200000, or leave it out", c.Most))
	}
	file, data, beside, err := open(c.Design)
	if err != nil {
		return refuse(std, err)
	}
	if c.Write != "" {
		if _, err := os.Stat(c.Write); err == nil {
			return refuse(std, fmt.Errorf("%s is there already and was left as it is\n  do: give another name behind --write", filepath.ToSlash(c.Write)))
		}
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	begin := time.Now()
	res, r, err := rillwright.Seek(ctx, file, data, beside, works.Today(begin), c.Open, seek.Options{
		Goal: seek.Goal(slices.Index(seek.Goals(), c.For)), Leave: c.Leave, Mend: c.Mend, Tight: c.Tight, Front: c.Front, Most: c.Most, Workers: runtime.GOMAXPROCS(0),
		Progress: afterASecond(progressOf(std, "looking"), func() time.Duration { return time.Since(begin) }),
	})
	if err != nil {
		return refuse(std, err)
	}
	if r.Findings.HasErrors() {
		return (&checkCommand{Format: c.Format}).refuseDesign(std, file, r.Findings)
	}
	if err := finding.Write(std.Err, r.Findings); err != nil {
		return err
	}
	if c.Format == "json" {
		err = printJSON(std.Out, struct {
			Design string `json:"design"`
			wire.Sought
		}{r.File, wire.SoughtOf(r.Enclosure, res)})
	} else {
		err = printSought(std.Out, r, res, c.Tight)
	}
	if err != nil {
		return err
	}
	if c.Write != "" && res.Best != nil {
		edits, ok := r.Design.Replanned(res.Edits(res.Best))
		if !ok {
			return refuse(std, fmt.Errorf("the design cannot be written: a measured fact names a piece by a number that changes\n  do: make the changes by hand"))
		}
		text, err := design.Apply(data, edits)
		if err != nil {
			return refuse(std, err)
		}
		if err := save(std, c.Write, text); err != nil {
			return refuse(std, err)
		}
	}
	if res.Best == nil {
		return statusError(exitFails)
	}
	return nil
}

func printSought(w io.Writer, r *rillwright.Report, res *seek.Result, asked bool) error {
	var b strings.Builder
	fmt.Fprintf(&b, "%s: %d designs to choose from\n", r.Name, res.Space)
	money := fixes.Currency(r.Enclosure)
	if res.Best != nil && !asked {
		switch res.Let {
		case seek.AsDrawn:
			b.WriteString("Nothing makes every answer about the water hold; those that do not hold as drawn may be tight.\n")
		case seek.AllTight:
			b.WriteString("Nothing makes every answer about the water hold, nor all that do as drawn; any of them may be tight.\n")
		case seek.Strict:
		}
	}
	switch {
	case res.Best == nil && res.Proven:
		b.WriteString("None of them holds.\n")
	case res.Best == nil:
		fmt.Fprintf(&b, "None of the %d that were looked at holds.\n", res.Decided)
	default:
		writeFound(&b, res, res.Best, money, "")
	}
	for i := range res.Front {
		if i == 0 {
			b.WriteString("More margin for more money, where no other gives both:\n")
		}
		f := &res.Front[i]
		fmt.Fprintf(&b, "  %s: %s\n", cost(f, money), clearOf(f))
		writeFound(&b, res, f, money, "  ")
	}
	writeWhy(&b, res)
	_, err := io.WriteString(w, b.String())
	return err
}

// cost is what a design costs of what is chosen between.
func cost(f *seek.Found, money string) string {
	text := fmt.Sprintf("%.0f %s", f.Cost, money)
	switch {
	case !f.Known:
		text = "about " + text + " (some of it guessed)"
	case f.Memory:
		text = "about " + text + " (from memory)"
	}
	return text
}

func writeFound(b *strings.Builder, res *seek.Result, f *seek.Found, money, in string) {
	if in == "" {
		b.WriteString("The best of them")
		if !res.Proven {
			b.WriteString(" so far")
		}
		fmt.Fprintf(b, ", %s for what is chosen between:\n", cost(f, money))
	}
	for i, k := range f.Choice {
		fmt.Fprintf(b, "%s  %s: %s\n", in, res.Slots[i].Word, res.Slots[i].Choices[k].Do)
	}
	if in != "" {
		return
	}
	b.WriteString("  " + clearOf(f))
	if f.Power > 0 {
		fmt.Fprintf(b, "; the pump takes %.0f W", f.Power)
	}
	b.WriteString("\n")
	var left []string
	for i := range f.Answers {
		if a := &f.Answers[i]; a.Verdict != answers.Holds {
			left = append(left, fmt.Sprintf("[%s] %s", a.ID, a.Verdict))
		}
	}
	if len(left) > 0 {
		fmt.Fprintf(b, "  these do not hold with it, and are no worse than as drawn or let pass: %s\n", strings.Join(left, ", "))
	}
}

// clearOf tells how far a design is from its nearest limit.
func clearOf(f *seek.Found) string {
	if f.Margin < 0 {
		return fmt.Sprintf("at the bad end [%s] is past its limit by %.0f %%", f.Near, -100*f.Margin)
	}
	return fmt.Sprintf("at the bad end [%s] is nearest to its limit, %.0f %% clear of it", f.Near, 100*f.Margin)
}

// writeWhy tells how it was looked for.
func writeWhy(b *strings.Builder, res *seek.Result) {
	fmt.Fprintf(b, "Looked at %d", res.Decided)
	rest := res.Space - res.Decided
	switch {
	case rest == 0:
	case !res.Proven:
		fmt.Fprintf(b, ": the other %d were not, and one of them may be better", rest)
		if res.Least > 0 {
			fmt.Fprintf(b, "; none costs less than %.0f", res.Least)
		}
	case len(res.Front) > 0:
		fmt.Fprintf(b, ": of the other %d, each has one that costs no more and has as much margin", rest)
	default:
		fmt.Fprintf(b, ": the other %d come after it in what is wanted", rest)
	}
	b.WriteString(".\n")
	for s := seek.Unjoined; s < seek.Held; s++ {
		if n := res.Out[s]; n > 0 {
			fmt.Fprintf(b, "  %d left out by %s\n", n, s)
		}
	}
	type count struct {
		id string
		n  int
	}
	var list []count
	for id, n := range res.Because {
		if n == 0 {
			continue
		}
		list = append(list, count{id, n})
	}
	slices.SortFunc(list, func(x, y count) int {
		if x.n != y.n {
			return y.n - x.n
		}
		return strings.Compare(x.id, y.id)
	})
	for _, c := range list {
		fmt.Fprintf(b, "  %d did not pass [%s]\n", c.n, c.id)
	}
}
