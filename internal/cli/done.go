package cli

import (
	"bufio"
	"errors"
	"fmt"
	"os"
	"strings"
	"time"

	"rillwright"
	"rillwright/design"
	"rillwright/document"
	"rillwright/schedule"
	"rillwright/study"
	"rillwright/works"
)

type doneCommand struct {
	Design string   `arg:"" help:"A design file."`
	Step   []string `arg:"" help:"Which step, by its short name in the plan (rillwright plan --format csv lists them): bond-grid, drill: riser hole."`
	On     string   `help:"When its work was done, if not now: 2026-03-21, or 2026-03-21 16:30." placeholder:"TIME"`
	At     string   `help:"The day that counts as today, if it is not." placeholder:"DAY"`
	Begun  bool     `help:"It is only begun, and still under way."`
	Before bool     `help:"Mark all that comes before it as well, on the same day."`
	Undo   bool     `help:"Take its mark away."`
	Note   string   `help:"Anything that turned out otherwise." placeholder:"WORDS"`
	Fact   []string `help:"A measured figure that stands in place of the planned one, as as-built has it: \"drains[main drain].lip=152 mm\"." placeholder:"KEY=VALUE" sep:"none"`
}

// Help tells what becomes of a mark.
func (*doneCommand) Help() string {
	return "Marks a step of the plan as done, in the design file under done:, and tells what that moves. Comments and layout of the file stay.\n" + `
Exit status: 0 the file was changed; 2 the command or a file is wrong, and nothing was changed; 3 anything else.
`
}

// Run marks a step.
func (c *doneCommand) Run(std *Streams) error {
	if builtIn(c.Design) {
		return refuse(std, errors.New("nothing is done of a built-in design\n  do: name a design file of your own"))
	}
	now := time.Now()
	today := works.Today(now)
	stamp := design.Stamp{Day: today.String(), Minute: now.Hour()*60 + now.Minute(), Timed: true}
	if c.At != "" {
		var err error
		if today, err = schedule.ParseDay(c.At); err != nil {
			return refuse(std, fmt.Errorf("--at: %w", err))
		}
		stamp = design.Stamp{Day: today.String()}
	}
	if c.On != "" {
		if err := stamp.UnmarshalText([]byte(c.On)); err != nil {
			return refuse(std, fmt.Errorf("--on %w", err))
		}
	}
	_, data, w, err := c.work(std, nil, today)
	if err != nil {
		return err
	}
	id, err := w.StepNamed(strings.Join(c.Step, " "))
	if err != nil {
		return refuse(std, err)
	}
	edits, err := c.edits(w, id, stamp)
	if err != nil {
		return refuse(std, err)
	}
	text, err := design.Apply(data, edits)
	if err != nil {
		return refuse(std, fmt.Errorf("%s cannot be changed: %w", c.Design, err))
	}
	// Nothing is written that could not be planned.
	file, _, after, err := c.work(std, text, today)
	if err != nil {
		return err
	}
	plan, err := after.Make(0)
	if err != nil {
		return refuse(std, fmt.Errorf("nothing was changed, since it could not be so:\n%w\n  do: mark what came before with --before, or give the day with --on", err))
	}
	if err := replaced(c.Design, text); err != nil {
		return refuse(std, fmt.Errorf("%s cannot be written: %w\n  do: check that you may write to it, and that the disk is not full", file, reason(err)))
	}
	return c.tell(std, file, id, stamp, after, plan)
}

// work reads a design, or a text in its place, and plans it.
func (c *doneCommand) work(std *Streams, text []byte, today schedule.Day) (file string, data []byte, w *works.Work, err error) {
	file, data, beside, err := open(c.Design)
	if err != nil {
		return "", nil, nil, refuse(std, err)
	}
	if text != nil {
		data = text
	}
	r, err := rillwright.Build(file, data, rillwright.Options{Beside: beside, NoFixes: true})
	if err != nil {
		return "", nil, nil, refuse(std, err)
	}
	if r.Findings.HasErrors() {
		return "", nil, nil, (&checkCommand{Format: "text"}).refuseDesign(std, file, r.Findings)
	}
	e := r.Enclosure
	w, err = works.Plan(e, study.SealedJoints(e, study.Glass(e, e.Likely(), e.Pool.DamTop-e.Pool.Floor)), today)
	if err != nil {
		return "", nil, nil, refuse(std, fmt.Errorf("%s: %w", file, err))
	}
	return file, data, w, nil
}

// edits writes the marks.
func (c *doneCommand) edits(w *works.Work, id string, at design.Stamp) ([]design.Edit, error) {
	number, line, begun := w.Marked(id)
	if c.Undo {
		if number == 0 {
			return nil, fmt.Errorf("%s is not marked\n  do: leave out --undo to mark it", id)
		}
		return []design.Edit{{Path: fmt.Sprintf("done[%d]", number), Kind: design.EditCut}}, nil
	}
	var out []design.Edit
	mark := func(id, key, note string) {
		entry := design.DoneStep{Step: written(id)}
		if key == "on" {
			entry.On = stamped(at)
		} else {
			entry.Begun = stamped(at)
		}
		if note != "" {
			entry.Note = written(note)
		}
		out = append(out, design.Edit{Path: "done", Kind: design.EditAppend, To: document.Flow(&entry)})
	}
	if c.Before {
		for _, b := range w.Before(id) {
			mark(b, "on", "")
		}
	}
	switch {
	case number > 0 && begun && !c.Begun:
		out = append(out, design.Edit{Path: fmt.Sprintf("done[%d].on", number), To: at.String()})
		if c.Note != "" {
			out = append(out, design.Edit{Path: fmt.Sprintf("done[%d].note", number), To: c.Note})
		}
	case number > 0:
		return nil, fmt.Errorf("%s is marked already, on line %d\n  do: take that mark away with --undo", id, line)
	case c.Begun:
		mark(id, "begun", c.Note)
	default:
		mark(id, "on", c.Note)
	}
	for _, f := range c.Fact {
		key, is, ok := strings.Cut(f, "=")
		if !ok {
			return nil, fmt.Errorf("--fact %q has no =\n  do: write the figure's key and what was measured, as drains[main drain].lip=152 mm", f)
		}
		out = append(out, design.Edit{Path: strings.TrimSpace(key), Kind: design.EditMeasure, To: strings.TrimSpace(is), On: at.Day})
	}
	return out, nil
}

// written is a value that an edit writes.
func written(text string) (f design.Field[string]) {
	_ = f.Read(text, design.Pos{Line: 1, Column: 1, Width: len(text)}) // any text will do
	return f
}

func stamped(at design.Stamp) (f design.Field[design.Stamp]) {
	text := at.String()
	_ = f.Read(text, design.Pos{Line: 1, Column: 1, Width: len(text)}) // it was written by its own type
	return f
}

// tell says what was marked and what follows.
func (c *doneCommand) tell(std *Streams, file, id string, at design.Stamp, w *works.Work, plan *schedule.Plan) error {
	b := bufio.NewWriter(std.Out)
	word := "done"
	switch {
	case c.Undo:
		word = "no longer marked"
	case c.Begun:
		word = "begun"
	}
	fmt.Fprintf(b, "%s: %s is %s", file, id, word)
	if !c.Undo {
		fmt.Fprintf(b, ", %s", at)
	}
	fmt.Fprintln(b)
	lines := works.Lines(w, plan)
	for i := range lines {
		if l := &lines[i]; l.ID == id && l.Finish > l.End && l.Done {
			fmt.Fprintf(b, "  %s\n", stands(l))
		}
	}
	if m, ok := w.Moved(plan); ok {
		printMoved(b, m, plan)
	}
	if next := works.Next(lines, 1); len(next) > 0 {
		l := &next[len(next)-1]
		fmt.Fprintf(b, "  next: %s, %s, %s\n", l.Say, l.Start.Day().Named(), l.Start.Clock())
	}
	return b.Flush()
}

// replaced writes a file anew beside the old one and puts it in its place, so that
// one of the two is always whole.
func replaced(name string, data []byte) error {
	mode := os.FileMode(0o644)
	if st, err := os.Stat(name); err == nil {
		mode = st.Mode().Perm()
	}
	beside := name + ".new"
	if err := os.WriteFile(beside, data, mode); err != nil {
		return err
	}
	if err := os.Rename(beside, name); err != nil {
		return errors.Join(err, os.Remove(beside))
	}
	return nil
}
