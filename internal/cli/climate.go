package cli

import (
	"fmt"

	"rillwright"
	"rillwright/answers"
	"rillwright/enclosure"
	"rillwright/finding"
	"rillwright/internal/wire"
	"rillwright/sheets"
)

type climateCommand struct {
	Design string `arg:"" help:"A design file, or demo (metric) or demo-us for a built-in one."`
	Format string `enum:"text,json" default:"text" help:"Print as text (if left out) or json." placeholder:"text|json"`
	Only   string `help:"Show one answer alone, by its name in brackets: fog." placeholder:"NAME"`
	Brief  bool   `short:"b" help:"Show the verdicts alone."`
	Strict bool   `help:"Exit with status 4 if an answer is tight or not known yet."`
	Plot   string `help:"Also write a map of the light on the wall as an SVG file into this folder." placeholder:"FOLDER"`
}

// Help tells what is computed.
func (*climateCommand) Help() string {
	return `Follows heat and moisture through a day with the room at its coldest and at its warmest, what gathers in the water, and the light of the lamps. Most of what goes into it is assumed unless you measure it: every answer says what.` + "\n" + exitHelp
}

// Run answers whether what is planted can live in a design.
func (c *climateCommand) Run(std *Streams) error {
	file, data, beside, err := open(c.Design)
	if err != nil {
		return refuse(std, err)
	}
	r, err := rillwright.Build(file, data, rillwright.Options{Beside: beside, NoFixes: true})
	if err != nil {
		return refuse(std, fmt.Errorf("%w\n  do: look at how the runs join pumps, tees and manifolds, and at valves that are shut", err))
	}
	// What is taken stands in each answer: the list of what was assumed about the
	// water has no place here, as for one answer alone.
	check := checkCommand{Format: c.Format, Brief: c.Brief, Strict: c.Strict, Only: "climate"}
	if r.Findings.HasErrors() {
		return check.refuseDesign(std, file, r.Findings)
	}
	rep, err := answers.Living(r.Enclosure, answers.LivingOptions{})
	if err != nil {
		return refuse(std, fmt.Errorf("%s: %w\n  do: look at the sizes of the enclosure, at watts and at what is open", file, err))
	}
	shown := rep.Answers
	if c.Only != "" {
		all := shown
		if shown = only(all, c.Only); len(shown) == 0 {
			return refuse(std, noAnswer(c.Only, all))
		}
	}
	if c.Format == "json" {
		err = printJSON(std.Out, wire.Of(r, shown))
	} else {
		if err := finding.Write(std.Err, r.Findings); err != nil {
			return err
		}
		err = printReport(std.Out, r, shown, &check)
	}
	if err != nil {
		return err
	}
	if c.Plot != "" {
		if err := lightPlot(std, r.Enclosure, c.Plot); err != nil {
			return err
		}
	}
	return check.status(shown)
}

// lightPlot writes the map of the light, if the file has a lamp.
func lightPlot(std *Streams, e *enclosure.Enclosure, folder string) error {
	s, ok, err := sheets.LightMap(e)
	if err != nil {
		return err
	}
	if !ok {
		return refuse(std, fmt.Errorf("there is no light to be drawn\n  do: write a lamp under lights, with lumens or power"))
	}
	write, err := svgWriter(std, folder)
	if err != nil {
		return err
	}
	return write("light.svg", &s)
}
