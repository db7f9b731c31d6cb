package answers

import (
	"fmt"
	"math"

	"rillwright/layout"
	cut "rillwright/pieces"
	"rillwright/quantity"
)

// Finished answers whether panes, dam and doors go together at the sizes of the file:
// each is held against what the box, the bond line and the way the panes cover each
// other's edges leave it.
func (s *Survey) Finished() Answer {
	sys := s.E.Units
	a := Answer{ID: "pieces", Question: "Do the pieces fit together as they are cut?", Figures: []Figure{}}
	list := cut.Sizes(s.E, layout.Of(s.E))
	mm := func(v float64) string { return tenths(math.Abs(v), sys) }
	a.Limit = Limit{Text: "each size within what the bond line leaves it", Mark: "computed from the inside, the outside and the thicknesses; which pane covers which edge is taken as the sizes come nearest to"}
	known, worst := 0, 0.0
	for i := range list.Pieces {
		p := &list.Pieces[i]
		if p.Had {
			continue
		}
		for k, side := range []*cut.Side{&p.Width, &p.Height} {
			word := [2]string{"width", "height"}[k]
			if side.Fit == cut.AsTyped {
				continue
			}
			known++
			f := figure(p.Name+", "+word, quantity.Band[quantity.Length]{Low: quantity.Length(side.Typed), Likely: quantity.Length(side.Typed), High: quantity.Length(side.Typed)}, sys)
			if side.Captive {
				f = against(f, side.High)
			}
			a.Figures = append(a.Figures, f)
			if side.Fit == cut.Agrees {
				continue
			}
			if math.Abs(side.By) > math.Abs(worst) {
				worst, a.Key = side.By, len(a.Figures)-1
			}
			at := lines(side.Line, 0)
			size := quantity.Length(side.Cut).Show(sys)
			switch side.Fit {
			case cut.TooLong:
				a.raise(Fails, fmt.Sprintf("The %s does not go in: its %s is %s more than its place leaves%s; by the rule, %s, it is %s.", p.Name, word, mm(side.By), at, side.Rule, size), side.Line)
			case cut.Thin:
				a.raise(Tight, fmt.Sprintf("The %s leaves its bonds %s thin at each end%s; by the rule, %s, it is %s.", p.Name, mm(side.Gap), at, side.Rule, size), side.Line)
			case cut.Proud:
				a.raise(Tight, fmt.Sprintf("The %s stands out by %s in %s%s; by the rule, %s, it is %s.", p.Name, mm(side.By), word, at, side.Rule, size), side.Line)
			case cut.Short:
				gap := ""
				if side.Captive {
					gap = fmt.Sprintf(", so that a gap of %s is left at each end", mm(side.Gap))
				}
				a.raise(Tight, fmt.Sprintf("The %s is %s too short in %s%s%s; by the rule, %s, it is %s.", p.Name, mm(side.By), word, gap, at, side.Rule, size), side.Line)
			}
			edits := []Edit{{Path: side.Field, To: size}}
			if d := s.E.Design.Dam.Width; p.Kind == cut.Dam && k == 0 && d.Given() && side.Field != "dam.width" {
				edits = append(edits, Edit{Path: "dam.width", To: size})
			}
			a.Fixes = append(a.Fixes, Fix{
				Do:     fmt.Sprintf("have the %s cut %s %s", p.Name, size, map[string]string{"width": "wide", "height": "high"}[word]),
				Change: side.Field + ": " + size, Edits: edits,
				Cost: "nothing before it is cut, a pane after", Weight: 1,
				Before: quantity.Length(side.Typed).Show(sys), After: size, Verdict: Holds,
			})
		}
	}
	a.Score = -math.Abs(worst)
	a.Cautions = append(a.Cautions, "Measure the box when it stands and before the dam, doors and strips are ordered: what goes between two panes is cut last. Cut edges are sharp: gloves and glasses, and a stone along every edge.")
	switch {
	case known == 0:
		a.Verdict, a.Say = Unknown, "No pane's size follows from the others: write where each stands (at), and the inside and outside sizes."
	default:
		a.sayWorst(fmt.Sprintf("Yes: all %d sizes that follow from others agree with the file.", known), "They go together, but not as planned:", "No:")
	}
	gap := list.Bond
	a.Matters = []Matter{{
		What: "how thick the sealant between panes gets", Range: quantity.Band[quantity.Length]{Low: quantity.Length(gap[0]), Likely: quantity.Length(gap[1]), High: quantity.Length(gap[2])}.Show(sys),
		Effect: "each size between two panes moves by " + quantity.Length(2*(gap[2]-gap[0])).Show(sys), Swing: gap[2] - gap[0],
		Why: "it is drawn by hand", Settle: "spacers of the same thickness in every joint", Line: s.E.Design.Sealant.BondLine.Pos.Line,
	}}
	return a
}
