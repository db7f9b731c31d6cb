package cli

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"rillwright/asbuilt"
	"rillwright/enclosure"
	"rillwright/quantity"
	"rillwright/record"
)

type builtCommand struct {
	Design string `arg:"" help:"A design file whose log stands beside it."`
	JSON   bool   `name:"json" help:"Print JSON."`
}

// Help tells how figures are found.
func (*builtCommand) Help() string {
	return "Fits the figures in doubt to the readings of the first month, by least squares, with what was thought of them before counting as a reading of each. Only what the readings settle is changed; rillwright check --as-built answers from it. Nothing is written.\n" + exitHelp
}

// Run prints what readings tell of a design.
func (c *builtCommand) Run(std *Streams) error {
	r, log, err := openLog(std, c.Design)
	if err != nil {
		return err
	}
	list := asbuilt.First(log.Readings)
	f, err := asbuilt.Of(r.Enclosure, list)
	if err != nil {
		return refuse(std, err)
	}
	// Beads are laid and cut before there is water, however long that takes.
	sealant, beads, err := asbuilt.SealantOf(log.Readings)
	if err != nil {
		return refuse(std, err)
	}
	if c.JSON {
		out := map[string]any{"design": r.File, "used": f.Used, "settled": f.Settled, "facts": f.Facts, "outliers": append([]asbuilt.Outlier{}, f.Outliers...), "unused": append([]asbuilt.Unused{}, f.Unused...)}
		if beads {
			out["sealant"] = sealant
		}
		return printJSON(std.Out, out)
	}
	printBuilt(std.Out, r.Name, r.Enclosure.Units, f, list)
	if beads {
		printSealant(std.Out, &sealant, r.Enclosure, log.Readings)
	}
	return nil
}

func printBuilt(w io.Writer, name string, sys quantity.System, f *asbuilt.Fit, list []record.Reading) {
	fmt.Fprintf(w, "%s, as built, from %s\n", name, howMany(f.Used))
	if !f.Settled {
		fmt.Fprintln(w, "  the fit did not settle: trust none of this until the readings below are looked at")
	}
	some := false
	for i := range f.Facts {
		x := &f.Facts[i]
		if !x.Told {
			continue
		}
		some = true
		d := enclosure.Doubt{Unit: x.Unit}
		show := func(b [3]float64) string {
			return d.Show(rounded(b[0], 3), sys) + " - " + d.Show(rounded(b[1], 3), sys) + " - " + d.Show(rounded(b[2], 3), sys)
		}
		fmt.Fprintf(w, "  %s [%s]: %s; before %s\n", x.What, x.ID, show(x.After), show(x.Before))
	}
	if !some {
		fmt.Fprintln(w, "  nothing is settled yet: measure the pump bare, the shut-off head, the hose, the manifold and a row of cups")
	}
	for i := range f.Facts {
		if x := &f.Facts[i]; len(x.With) > 0 {
			fmt.Fprintf(w, "  cannot be told apart: %s, and %s\n    do: %s\n", x.What, strings.Join(x.With, ", and "), x.Measure)
		}
	}
	for _, o := range f.Outliers {
		r := &list[o.Reading]
		which := ""
		if o.Cup >= 0 {
			which = fmt.Sprintf(", cup %d", o.Cup+1)
		}
		fmt.Fprintf(w, "  does not go with the others: %s of %s%s: %s, where they foretell %s\n    do: measure it once more\n",
			r.ID(), r.Time.Format("2006-01-02 15:04"), which, asbuilt.Show(r.What, o.Read, sys), asbuilt.Show(r.What, o.Others, sys))
	}
	printUnused(w, f.Unused, list)
}

// printSealant tells what test beads come to, and how to have the plan go by them.
func printSealant(w io.Writer, s *asbuilt.Sealant, e *enclosure.Enclosure, list []record.Reading) {
	day := func(k float64) string { return fmt.Sprintf("%.1f", 1000*k*math.Sqrt(86400)) }
	from := "one test bead"
	if s.Beads > 1 {
		from = fmt.Sprintf("%d test beads", s.Beads)
	}
	fmt.Fprintf(w, "  the sealant, from %s: it cures %s - %s - %s mm deep in the first day, and twice as deep in four\n", from, day(s.Rate.Low), day(s.Rate.Likely), day(s.Rate.High))
	for _, o := range s.Outliers {
		r := &list[o.Reading]
		fmt.Fprintf(w, "  does not go with the others: skin of %s: %s, where they foretell %s\n    do: cut another bead\n",
			r.Time.Format("2006-01-02 15:04"), showSkin(o.Read, e.Units), showSkin(o.Others, e.Units))
	}
	if !e.Design.Budget.Workshop.Skin.Given() {
		fmt.Fprintf(w, "    do: write it under budget.workshop, so that the plan goes by it: skin: %s, after: %.0f h\n", showSkin(s.Skin, e.Units), s.Longest/3600)
	}
}

// showSkin is a depth as it can be read off and typed.
func showSkin(v float64, sys quantity.System) string {
	if sys == quantity.US {
		return fmt.Sprintf("%.3f in", v/0.0254)
	}
	return fmt.Sprintf("%.1f mm", 1000*v)
}

func printUnused(w io.Writer, unused []asbuilt.Unused, list []record.Reading) {
	for _, u := range unused {
		r := &list[u.Reading]
		fmt.Fprintf(w, "  left out: %s of %s: %s\n", r.ID(), r.Time.Format("2006-01-02 15:04"), u.Why)
	}
}

func howMany(n int) string {
	if n == 1 {
		return "one figure"
	}
	return fmt.Sprintf("%d figures", n)
}

// rounded keeps the first digits of a figure.
func rounded(v float64, digits int) float64 {
	out, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', digits, 64), 64)
	if err != nil { // NaN and infinities are what they were
		return v
	}
	return out
}

// fromLog returns what makes an enclosure as built from the log of a design.
func fromLog(std *Streams, name string) (func(*enclosure.Enclosure) (*enclosure.Enclosure, error), error) {
	if builtIn(name) {
		return nil, refuse(std, errNoLog)
	}
	log, err := readLog(std, name)
	if err != nil {
		return nil, err
	}
	return func(e *enclosure.Enclosure) (*enclosure.Enclosure, error) {
		f, err := asbuilt.Of(e, asbuilt.First(log.Readings))
		if err != nil {
			return nil, err
		}
		return f.Enclosure(), nil
	}, nil
}
