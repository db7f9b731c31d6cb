package sheets

import (
	"fmt"
	"slices"
	"strings"

	"rillwright/answers"
	"rillwright/drawing"
)

const frontGroup = "Read first"

// Cover draws what the packet of a design begins with: the verdict on every
// question, worst first, with its figure and margin; what is still open; and what
// was taken because the file leaves it open. Answers are drawn in the order given.
func Cover(s *answers.Survey, list []answers.Answer, p Print) []drawing.Sheet {
	d := newDraft(s.E, p)
	g := d.ledger(frontGroup, "Cover: the answers in brief")
	g.text(ledgerTitle, s.E.Name)
	g.y += 1.5
	if s.E.Design != nil && s.E.Design.Place.Where.Value != "" {
		g.text(ledgerText, "Place: "+s.E.Design.Place.Where.Value)
	}
	g.text(ledgerText, tally(list))
	g.text(small, `Verdicts are taken with every doubt at its bad end. They are computed from the design file; whoever builds measures again. What stands under "design" changes with the file: papers of different marks do not belong together.`)
	g.y += 2
	g.table([]part{
		g.cell(0, 0.13, small, "Verdict"), g.cell(0.13, 0.35, small, "Question"),
		g.cell(0.48, 0.26, small, "Figure"), g.cell(0.74, 0.26, small, "Margin"),
	})
	for i := range list {
		a := &list[i]
		figure := ""
		if a.Key < len(a.Figures) {
			f := &a.Figures[a.Key]
			figure = f.Name + ": " + f.Text
		}
		verdict := g.cell(0, 0.13, small, strings.ToUpper(a.Verdict.String()))
		verdict.mark = a.Verdict == answers.Fails
		g.row([]part{verdict, g.cell(0.13, 0.35, small, a.Question), g.cell(0.48, 0.26, small, figure), g.cell(0.74, 0.26, small, a.Margin)}, drawing.Fine)
	}
	g.endTable()
	g.open(list)
	g.taken(s)
	return g.done()
}

// tally counts verdicts, worst first.
func tally(list []answers.Answer) string {
	var n [answers.Fails + 1]int
	for i := range list {
		n[list[i].Verdict]++
	}
	var words []string
	word := func(n int, one, many string) {
		switch n {
		case 0:
		case 1:
			words = append(words, "1 "+one)
		default:
			words = append(words, fmt.Sprintf("%d %s", n, many))
		}
	}
	word(n[answers.Fails], "fails", "fail")
	word(n[answers.Unknown], "is not known yet", "are not known yet")
	word(n[answers.Tight], "is tight", "are tight")
	word(n[answers.Holds], "holds", "hold")
	return fmt.Sprintf("Questions: %d. ", len(list)) + strings.Join(words, ", ") + "."
}

// mostOpen is how many doubts are listed: those beyond hardly move any figure.
const mostOpen = 8

// open lists what must be found out: what is not known, and the doubts that move
// the answers most.
func (g *ledger) open(list []answers.Answer) {
	var rows [][2]string
	for i := range list {
		if list[i].Verdict == answers.Unknown {
			rows = append(rows, [2]string{list[i].Question, list[i].Say})
		}
	}
	type doubt struct {
		what, settle string
		swing        float64
	}
	var doubts []doubt
	for i := range list {
		for _, m := range list[i].Matters {
			if m.Settle == "" {
				continue
			}
			k := slices.IndexFunc(doubts, func(d doubt) bool { return d.what == m.What })
			if k < 0 {
				doubts = append(doubts, doubt{m.What, m.Settle, m.Swing})
			} else {
				doubts[k].swing = max(doubts[k].swing, m.Swing)
			}
		}
	}
	slices.SortStableFunc(doubts, func(a, b doubt) int {
		switch {
		case a.swing > b.swing:
			return -1
		case a.swing < b.swing:
			return 1
		}
		return strings.Compare(a.what, b.what)
	})
	for i := range doubts[:min(len(doubts), mostOpen)] {
		rows = append(rows, [2]string{doubts[i].what, doubts[i].settle})
	}
	if len(rows) == 0 {
		return
	}
	g.head("Open questions", 20)
	g.table([]part{g.cell(0.05, 0.42, small, "What is known roughly or not at all"), g.cell(0.47, 0.53, small, "How to settle it")})
	for _, r := range rows {
		box := part{x: 0, wide: 0.05 * g.wide(), tall: 4, draw: func(g *ledger, x, top float64) { tick(g.sheet(), x, top, "") }}
		g.row([]part{box, g.cell(0.05, 0.42, small, r[0]), g.cell(0.47, 0.53, small, r[1])}, drawing.Fine)
	}
	g.endTable()
}

// taken lists what the file leaves open.
func (g *ledger) taken(s *answers.Survey) {
	if len(s.E.Assumed) == 0 {
		return
	}
	g.head("Taken because the file leaves it open", 20)
	g.table([]part{g.cell(0, 0.34, small, "What"), g.cell(0.34, 0.24, small, "Taken as"), g.cell(0.58, 0.42, small, "Why")})
	for _, a := range s.E.Assumed {
		g.row([]part{g.cell(0, 0.34, small, a.What), g.cell(0.34, 0.24, small, a.Value), g.cell(0.58, 0.42, small, a.Why)}, drawing.Fine)
	}
	g.endTable()
}
