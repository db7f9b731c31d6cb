package cli

import (
	"fmt"
	"io"
	"strings"
	"time"

	"rillwright"
	"rillwright/answers"
	"rillwright/design"
	"rillwright/finding"
	"rillwright/works"
)

type supposeCommand struct {
	Design  string   `arg:"" help:"A design file, or demo (metric) or demo-us for a built-in one."`
	Changes []string `arg:"" help:"What becomes of what: \"hose=5/8 in\", \"pump=larger\", \"dam.height=210 mm\". Several are made together."`
	Format  string   `enum:"text,json" default:"text" help:"Print as text (if left out) or json." placeholder:"text|json"`
	All     bool     `help:"List every figure that moves, not those alone that verdicts turn on."`
}

// Help tells what is compared.
func (*supposeCommand) Help() string {
	return `Answers everything twice, as drawn and with the change, and lists what moves: verdicts, figures, cost, dates. The file stays as it is. A word stands for what seek may choose of it: pump, hose, outlets, holes, feed, drain, lip, second, dam, fill.` + "\n" + exitHelp
}

// Run tells what a change moves.
func (c *supposeCommand) Run(std *Streams) error {
	file, data, beside, err := open(c.Design)
	if err != nil {
		return refuse(std, err)
	}
	moved, edits, r, err := rillwright.Suppose(file, data, beside, works.Today(time.Now()), c.Changes)
	if err != nil {
		return refuse(std, err)
	}
	if r.Findings.HasErrors() {
		if len(edits) > 0 {
			fmt.Fprintln(std.Err, "with the change the design cannot be built:")
		}
		return (&checkCommand{Format: c.Format}).refuseDesign(std, file, r.Findings)
	}
	if err := finding.Write(std.Err, r.Findings); err != nil {
		return err
	}
	if c.Format == "json" {
		if moved == nil {
			moved = []rillwright.Moved{}
		}
		return printJSON(std.Out, map[string]any{"design": r.File, "edits": edits, "moved": moved})
	}
	return c.print(std.Out, r, edits, moved)
}

func (c *supposeCommand) print(w io.Writer, r *rillwright.Report, edits []design.Edit, moved []rillwright.Moved) error {
	var b strings.Builder
	fmt.Fprintf(&b, "%s, supposing\n", r.Name)
	for _, e := range edits {
		switch e.Kind {
		case design.EditCut:
			fmt.Fprintf(&b, "  %s: gone\n", e.Path)
		case design.EditAppend, design.EditInsert:
			fmt.Fprintf(&b, "  %s: one more, %s\n", e.Path, strings.Join(strings.Fields(e.To), " "))
		default:
			fmt.Fprintf(&b, "  %s: %s\n", e.Path, e.To)
		}
	}
	if len(moved) == 0 {
		b.WriteString("Nothing moves.\n")
	}
	for _, part := range []struct {
		head string
		is   func(m *rillwright.Moved) bool
	}{
		{"Worse", func(m *rillwright.Moved) bool { return !m.New && !m.Gone && m.To > m.From }},
		{"Better", func(m *rillwright.Moved) bool { return !m.New && !m.Gone && m.To < m.From }},
		{"No longer asked", func(m *rillwright.Moved) bool { return m.Gone }},
		{"Asked only then", func(m *rillwright.Moved) bool { return m.New }},
		{"The verdict stays", func(m *rillwright.Moved) bool { return !m.New && !m.Gone && m.To == m.From }},
	} {
		head := false
		for i := range moved {
			m := &moved[i]
			if !part.is(m) {
				continue
			}
			if !head {
				fmt.Fprintln(&b, part.head)
				head = true
			}
			c.row(&b, m)
		}
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func (c *supposeCommand) row(b *strings.Builder, m *rillwright.Moved) {
	verdict := m.From.String()
	switch {
	case m.New:
		verdict = m.To.String()
	case !m.Gone && m.From != m.To:
		verdict = m.From.String() + " -> " + m.To.String()
	}
	fmt.Fprintf(b, "  %s: %s [%s]\n", m.Question, verdict, m.ID)
	for i, f := range m.Figures {
		if i > 0 && !c.All && (m.To == m.From || m.To == answers.Holds) {
			break
		}
		from := f.From
		if from == "" {
			from = "-"
		}
		fmt.Fprintf(b, "    %s: %s -> %s\n", f.Name, from, f.To)
	}
}
