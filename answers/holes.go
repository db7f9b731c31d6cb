package answers

import (
	"fmt"
	"math"

	"rillwright/design"
	"rillwright/quantity"
	"rillwright/structure"
	"rillwright/study"
)

// fillet is the leg of a sealant fillet in a corner that a flange must clear, m:
// from memory of the trade.
const fillet = 0.006

// Holes answers whether each drain's hole lies where glass bears it and its
// fitting has room. Panes in which a hole is drawn must be listed in the file.
func (s *Survey) Holes() []Answer {
	var out []Answer
	for i := range s.E.Drains {
		d := &s.E.Drains[i]
		if !d.Hole.Given() {
			continue
		}
		if p := s.pane(d.Hole.Pane.Value); p != nil {
			out = append(out, s.hole(i, p))
		}
	}
	return out
}

func (s *Survey) pane(name string) *design.Pane {
	panes := s.E.Design.Enclosure.Panes
	for i := range panes {
		if panes[i].Name.Value == name {
			return &panes[i]
		}
	}
	return nil
}

func (s *Survey) hole(i int, pane *design.Pane) Answer {
	sys := s.E.Units
	d := &s.E.Drains[i]
	a := Answer{ID: "hole[" + d.Name + "]", Question: fmt.Sprintf("May the hole of the %s be drilled there?", d.Name), LimitingLine: d.Hole.Pos.Line}
	a.Limit = Limit{Text: "the glaziers' distances; the hobby's, one diameter to the edge, is shown beside them", Source: "en-12150-1", Mark: "read in secondary pages"}
	a.Cautions = []string{glassCaution()}
	sheet := structure.Sheet{Width: float64(pane.Width.Value), Height: float64(pane.Height.Value), Thickness: float64(pane.Thickness.Value)}
	h := structure.Hole{X: float64(d.Hole.In.Value), Y: float64(d.Hole.Up.Value), Diameter: float64(d.Hole.Size.Value)}
	list, err := structure.CheckHoles(sheet, structure.HoleRules(), h)
	if err != nil {
		a.Verdict, a.Say = Unknown, "The hole does not lie on its pane as the file has it: "+err.Error()+"."
		return a
	}
	length := func(v float64) string { return quantity.Length(v).Show(sys) }
	worst := math.Inf(1)
	glazing, hobby := true, true
	for _, c := range list {
		v := quantity.Exactly(quantity.Length(c.Have))
		f := figure(fmt.Sprintf("%s, %s rule", c.What, c.Rule), v, sys)
		f.Text = fmt.Sprintf("%s, wants %s", length(c.Have), length(c.Need))
		if c.What == structure.LargestHole {
			f.Text = fmt.Sprintf("%s, at most %s", length(c.Have), length(c.Need))
		}
		a.Figures = append(a.Figures, f)
		if c.Rule == "hobby" {
			hobby = hobby && c.Kept()
		} else {
			glazing = glazing && c.Kept()
			worst = math.Min(worst, c.Margin())
		}
	}
	room := s.holeRoom(&a, i)
	kind := study.GlassKind(pane.Glass.Value)
	a.Score, a.Margin = worst, length(worst)+" over the tightest glaziers' distance"
	switch {
	case kind.Drilling() == structure.DrillingUnknown:
		a.Verdict, a.Margin = Unknown, ""
		a.Say = fmt.Sprintf("Nobody has said what pane %q is: no hole may be marked on it before somebody has looked at it through polarised light. Toughened glass bursts when it is drilled.", pane.Name.Value)
	case kind.Drilling() == structure.DrillingNever:
		a.Verdict, a.Margin, a.Say = Fails, "", fmt.Sprintf("No: pane %q is %s and bursts when it is drilled.", pane.Name.Value, kind)
	case !glazing:
		a.Verdict, a.Margin, a.Say = Fails, "", "No: it lies nearer to an edge or corner, or is larger, than glaziers drill."
	case room < 0:
		a.Verdict, a.Say = Fails, "The glass bears it, but the fitting's flange fouls the sealant in the corner."
	case !hobby:
		a.Verdict, a.Say = Tight, "Glaziers drill it there; the hobby keeps one diameter to the edge, and this is nearer."
	default:
		a.Verdict, a.Say = Holds, "Yes: it keeps the glaziers' distances and the hobby's."
	}
	if t := d.Part.Hole; t.High > 0 && (quantity.Length(h.Diameter) < t.Low-0.5e-3 || quantity.Length(h.Diameter) > t.High+0.5e-3) && a.Verdict == Holds {
		a.Verdict = Tight
		a.Say += fmt.Sprintf(" But a hole of %s is not what a %s mostly wants, %s: measure the thread in your hand.", d.Hole.Size.Text, d.Part.Name, t.Show(sys))
	}
	return a
}

// holeRoom is what a fitting's flange leaves to the corner's sealant, +Inf if the
// flange is not known.
func (s *Survey) holeRoom(a *Answer, i int) float64 {
	d := &s.E.Drains[i]
	flange := float64(d.Part.Flange)
	if flange == 0 {
		return math.Inf(1)
	}
	least := math.Min(
		structure.FlangeClearance(float64(d.Hole.In.Value), flange, fillet),
		structure.FlangeClearance(float64(d.Hole.Up.Value), flange, fillet))
	a.Figures = append(a.Figures, figure("flange to the corner's sealant", quantity.Exactly(quantity.Length(least)), s.E.Units))
	return least
}
