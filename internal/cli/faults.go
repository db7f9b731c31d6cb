package cli

import (
	"fmt"
	"io"
	"strings"

	"rillwright"
	"rillwright/answers"
	"rillwright/faults"
	"rillwright/finding"
	"rillwright/internal/wire"
	"rillwright/quantity"
)

type faultsCommand struct {
	Design string `arg:"" help:"A design file, or demo (metric) or demo-us for a built-in one."`
	Format string `enum:"text,json,csv" default:"text" help:"Print as text (if left out), json, or csv: the states of one fault, with --only." placeholder:"text|json|csv"`
	Only   string `help:"Show one fault alone, with its course, by its name in brackets: power-cut." placeholder:"NAME"`
	Brief  bool   `short:"b" help:"Show the verdicts alone."`
	Pairs  bool   `help:"Also follow every two faults at once and show those that spill most."`
	Bad    bool   `help:"With --only: show the course with every doubt at its bad end, not the likely one."`
	Strict bool   `help:"Exit with status 4 if an answer is tight or not known yet."`
	Plot   string `help:"Also write SVG files into this folder: the course of each fault that spills (or of the one shown alone), reserve against floods, and the emergency card." placeholder:"FOLDER"`
}

// Help tells what is followed.
func (*faultsCommand) Help() string {
	return `Follows the water through time when something goes wrong: power cuts, blocked drains, hoses that come off, leaks, and the scenarios: of the design file. No credit is given to check valves, siphons or clean strainers.` + "\n" + exitHelp
}

// Run follows every fault of a design.
func (c *faultsCommand) Run(std *Streams) error {
	file, data, beside, err := open(c.Design)
	if err != nil {
		return refuse(std, err)
	}
	if c.Format == "csv" && c.Only == "" {
		return refuse(std, fmt.Errorf("csv holds the states of one fault\n  do: name it with --only, such as --only power-cut"))
	}
	depth := rillwright.EveryFault
	if c.Pairs {
		depth = rillwright.FaultPairs
	}
	r, err := rillwright.Build(file, data, rillwright.Options{Beside: beside, Faults: depth, NoFixes: c.Brief, Only: c.wants(), Progress: progress(std)})
	if err != nil {
		return refuse(std, fmt.Errorf("%w\n  do: look at how the runs join pumps, tees and manifolds, and at valves that are shut", err))
	}
	if r.Findings.HasErrors() {
		check := checkCommand{Format: c.Format}
		return check.refuseDesign(std, file, r.Findings)
	}
	shown := r.Faults.Answers
	if c.Only != "" {
		if shown = only(shown, c.Only); len(shown) == 0 {
			known := r.Faults.Answers
			if r.Faults.Line == nil {
				known = append(known, answers.Answer{ID: "fill-line"}, answers.Answer{ID: "creeps"})
			}
			return refuse(std, noAnswer(c.Only, known))
		}
	}
	courses, err := c.courses(r, shown)
	if err != nil {
		return err
	}
	switch c.Format {
	case "json":
		err = printJSON(std.Out, wire.OfFaults(r, shown, wireCourses(courses)))
	case "csv":
		if len(courses) != 1 {
			return refuse(std, fmt.Errorf("%q is not the name of one fault with a course\n  do: choose one of %s", c.Only, strings.Join(followed(r), ", ")))
		}
		err = writeStates(std.Out, courses[0].result)
	default:
		if err := finding.Write(std.Err, r.Findings); err != nil {
			return err
		}
		err = c.print(std.Out, r, shown, courses)
	}
	if err != nil {
		return err
	}
	if c.Plot != "" {
		if err := faultPlots(std, r, courses, c.Plot); err != nil {
			return err
		}
	}
	check := checkCommand{Strict: c.Strict}
	return check.status(shown)
}

// wants tells which answers were asked for, nil for all.
func (c *faultsCommand) wants() func(id string) bool {
	if c.Only == "" || c.Plot != "" {
		return nil
	}
	return func(id string) bool { return named(id, c.Only) }
}

// course is one fault with how it goes, every step recorded.
type course struct {
	fault  *faults.Fault
	result *faults.Result
}

func wireCourses(list []course) []wire.Course {
	out := make([]wire.Course, len(list))
	for i := range list {
		out[i] = wire.OfCourse(list[i].fault, list[i].result)
	}
	return out
}

// courses follows again, with every step recorded, what is to be shown: the
// faults shown alone, or those that spill.
func (c *faultsCommand) courses(r *rillwright.Report, shown []answers.Answer) ([]course, error) {
	var out []course
	f := r.Faults.Survey
	for i := range f.Faults {
		x := &f.Faults[i]
		wanted := false
		for k := range shown {
			wanted = wanted || shown[k].ID == x.ID && (c.Only != "" || shown[k].Verdict == answers.Fails)
		}
		if !wanted || c.Only == "" && c.Plot == "" {
			continue
		}
		rig := f.Likely()
		if c.Bad {
			rig = f.Bad(x.ID)
		}
		o := x.Options
		o.Record = true
		res, err := rig.Run(&x.Scenario, o)
		if err != nil {
			return nil, err
		}
		out = append(out, course{x, res})
	}
	return out, nil
}

// followed lists the names of faults that have a course.
func followed(r *rillwright.Report) []string {
	var out []string
	for i := range r.Faults.Survey.Faults {
		out = append(out, r.Faults.Survey.Faults[i].ID)
	}
	return out
}

func (c *faultsCommand) print(w io.Writer, r *rillwright.Report, shown []answers.Answer, courses []course) error {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n", r.Name)
	for i := range shown {
		a := &shown[i]
		fmt.Fprintf(&b, "  %-13s %s [%s]\n", strings.ToUpper(a.Verdict.String()), a.Question, a.ID)
	}
	if !c.Brief {
		said := map[string]bool{}
		for i := range shown {
			b.WriteByte('\n')
			printAnswer(&b, &shown[i], said)
		}
		if c.Only != "" {
			for i := range courses {
				b.WriteByte('\n')
				c.printCourse(&b, r, &courses[i])
			}
		}
	}
	if c.Pairs && c.Only == "" {
		b.WriteByte('\n')
		printPairs(&b, r)
	}
	if !c.Brief {
		b.WriteByte('\n')
		wrap(&b, "", "", certificate)
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// shownPairs is how many pairs of faults the text shows.
const shownPairs = 10

func printPairs(b *strings.Builder, r *rillwright.Report) {
	b.WriteString("Two at once, five minutes apart, by what likely reaches the floor\n")
	pairs := r.Faults.Pairs
	var rows [][2]string
	dry := 0
	for i := range pairs {
		p := &pairs[i]
		switch {
		case p.Spilled < 5e-6:
			dry++
		case len(rows) < shownPairs:
			rows = append(rows, [2]string{p.What, quantity.Volume(p.Spilled).Show(r.Enclosure.Units)})
		}
	}
	printRows(b, "    ", rows)
	if more := len(pairs) - len(rows) - dry; more > 0 {
		fmt.Fprintf(b, "    and %d more that spill less\n", more)
	}
	fmt.Fprintf(b, "    %d of %d pairs spill nothing\n", dry, len(pairs))
}
