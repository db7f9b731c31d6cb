package answers

import (
	"fmt"
	"math"
	"strings"

	"rillwright/design"
	"rillwright/quantity"
	"rillwright/structure/joint"
	"rillwright/study"
)

// bonds answers for every panel that hangs on the glass.
func (s *Survey) bonds() []Answer {
	var out []Answer
	for i := range s.E.Design.Grid {
		if g := &s.E.Design.Grid[i]; g.At.Value != "floor" {
			out = append(out, s.bond(g))
		}
	}
	return out
}

// bond answers whether one panel stays on the glass.
func (s *Survey) bond(g *design.GridPanel) Answer {
	sys := s.E.Units
	name := g.Name.Value
	a := Answer{ID: "bond[" + name + "]", Question: fmt.Sprintf("Will the %s stay on the glass?", name), LimitingLine: g.Pos.Line}
	short, from := s.strength()
	good := joint.Permanent()
	a.Limit = Limit{
		Text: fmt.Sprintf("%s under a load that stays and that nothing else carries; tanks built by hand bear %s from water, silicone %s for a while",
			press(good.Band, sys), press(joint.Practice().Band, sys), press(short.Band, sys)),
		Source: string(good.Source), Mark: "the first from memory of standards; tanks assumed, no source; for a while: " + from,
	}
	a.Cautions = []string{"Silicone bonds badly to most plastics of grid sheets: it must squeeze through the cells and grip them from behind (common practice). Pull a trial spot before foam hides it."}
	switch {
	case !g.Bond.Given():
		a.Verdict = Unknown
		a.Say = fmt.Sprintf("The file does not say how it is bonded: write grid[%s].bond, with spots, width and height.", name)
		return a
	case !g.At.Given():
		a.Verdict = Unknown
		a.Say = fmt.Sprintf("The file does not say which face it stands before: write grid[%s].at.", name)
		return a
	}
	b, err := study.GridBond(s.E, g)
	if err != nil {
		a.Verdict, a.Say = Unknown, "It cannot be reckoned: "+err.Error()+". Count and measure them again."
		return a
	}
	a.LimitingLine = b.Line
	if err := s.bondFigures(&a, b, short, good); err != nil {
		a.Verdict, a.Say = Unknown, "It cannot be reckoned: "+err.Error()+"."
	}
	return a
}

// bondFigures adds what the bond bears, the verdict and what matters.
func (s *Survey) bondFigures(a *Answer, b *study.Bond, short, good joint.Figure) error {
	sys := s.E.Units
	bad, err := b.Worst(1)
	if err != nil {
		return err
	}
	mild, err := b.Worst(-1)
	if err != nil {
		return err
	}
	var failed error
	stress := func(c study.BondCase, state study.BondState, without int) joint.BondStress {
		v, err := b.Stress(c, state, without)
		if err != nil {
			failed = err
		}
		return v
	}
	worst, likely, least := stress(bad, study.BondRunning, -1), stress(b.Likely(), study.BondRunning, -1), stress(mild, study.BondRunning, -1)
	band := func(name string, of func(joint.BondStress) float64) Figure {
		return pressFigure(name, quantity.Band[float64]{Low: min(of(least), of(likely), of(worst)), Likely: of(likely), High: max(of(least), of(likely), of(worst))}, sys)
	}
	k, _ := pressUnit(sys)
	held := func(f Figure) Figure { return bounded(f, good.High/k) }
	a.Figures = append(a.Figures,
		held(band("worst spot while it runs", func(v joint.BondStress) float64 { return v.Worst })),
		band("of which along the glass", func(v joint.BondStress) float64 { return v.Shear }),
		band("and off the glass, at the top", func(v joint.BondStress) float64 { return v.Tension }),
		held(pressFigure("worst spot, wet with the pump off, likely", quantity.Exactly(stress(b.Likely(), study.BondWet, -1).Worst), sys)),
		held(pressFigure("worst spot, the bare sheet alone, likely", quantity.Exactly(stress(b.Likely(), study.BondBare, -1).Worst), sys)),
	)
	heavy, adds := -1, 0.0
	for i := range b.Pieces {
		p := &b.Pieces[i]
		d := likely.Worst - stress(b.Likely(), study.BondRunning, i).Worst
		f := pressFigure(fmt.Sprintf("added by the %s, %s", p.Name, quantity.Mass(p.Mass).Show(sys)), quantity.Exactly(d), sys)
		a.Figures = append(a.Figures, f)
		if d > adds {
			heavy, adds = i, d
		}
	}
	area := Figure{Name: "bonded, as counted on", Unit: "cm2", Likely: likely.Area * bad[0] * 1e4, Text: fmt.Sprintf("%.0f cm2 at the bad end", likely.Area*bad[0]*1e4)}
	if sys == quantity.US {
		v := likely.Area * bad[0] / (0.0254 * 0.0254)
		area.Unit, area.Likely, area.Text = "in2", v, fmt.Sprintf("%.1f in2 at the bad end", v)
	}
	area.Low, area.High = area.Likely, area.Likely
	a.Figures = append(a.Figures, area)
	if failed != nil {
		return failed
	}
	s.bondVerdict(a, b, worst, least.Worst, short, good)
	if heavy >= 0 && !b.Rests && adds > 0.1*likely.Worst {
		a.Say += fmt.Sprintf(" The %s alone makes %.0f %% of it.", b.Pieces[heavy].Name, 100*adds/likely.Worst)
	}
	s.bondTaken(a, b)
	return s.bondMatters(a, b, likely.Worst)
}

func (s *Survey) bondVerdict(a *Answer, b *study.Bond, v joint.BondStress, least float64, short, good joint.Figure) {
	sys := s.E.Units
	a.Score = good.High / math.Max(v.Worst, 1)
	a.Margin = beyond(v.Worst, good.High, "than standards allow for good, at the bad end")
	bears := fmt.Sprintf("its worst spot may bear %s", onePress(v.Worst, sys))
	use := ""
	if times := v.Worst / good.Low; times > 1.05 {
		use = fmt.Sprintf(" That is %.1f times the strictest figure for a load that stays.", times)
	}
	switch {
	case v.Worst > short.Low:
		a.Verdict, a.Say = Fails, fmt.Sprintf("No: %s, more than silicone is made to bear even for a while.", bears)
	case least > joint.Practice().High:
		a.Verdict, a.Say = Fails, fmt.Sprintf("No: its worst spot bears %s for good at the least, more than joints of tanks built by hand bear, and %s at the bad end.%s Rest it on legs or bond more of it.", onePress(least, sys), onePress(v.Worst, sys), use)
	case v.Worst > joint.Practice().High:
		a.Verdict, a.Say = Tight, fmt.Sprintf("Do not count on it: %s for good, more than joints of tanks built by hand bear.%s Rest it on legs or bond more of it.", bears, use)
	case v.Worst > good.High:
		a.Verdict, a.Say = Tight, fmt.Sprintf("Perhaps not for good: %s, and the weight never leaves it.%s What hangs on silicone creeps: rest it on legs or bond more of it.", bears, use)
	default:
		a.Verdict, a.Say = Holds, fmt.Sprintf("Yes: %s.%s", bears, use)
	}
	if b.Rests {
		a.Say += " Its weight stands on its lower edge; the bond only keeps it from leaning out."
	}
}

// bondTaken says how the spots were laid and what the file leaves open.
func (s *Survey) bondTaken(a *Answer, b *study.Bond) {
	rows := fmt.Sprintf("%s of %d", count(b.Rows, "row", "rows"), b.Columns)
	if b.Ragged {
		rows += " at most"
	}
	taken := []string{"spots spread evenly in " + rows}
	for i := range b.Doubts {
		d := &b.Doubts[i]
		if !d.Assumed {
			continue
		}
		text := fmt.Sprintf("%s %s", d.What, s.bondRange(d))
		if d.Key != "" {
			key := d.Key
			if !strings.HasPrefix(key, "hardscape") {
				key = "grid[" + b.Panel + "]." + key
			}
			text += " (" + key + ")"
		}
		taken = append(taken, text)
	}
	if !b.Rests {
		taken = append(taken, "that it hangs free (grid["+b.Panel+"].bond.rests)")
	}
	a.Say += " Taken: " + strings.Join(taken, "; ") + "."
}

// bondRange shows the band of a doubt.
func (s *Survey) bondRange(d *study.BondDoubt) string {
	sys := s.E.Units
	switch d.Kind {
	case study.BondShare:
		return quantity.Band[quantity.Ratio]{Low: quantity.Ratio(d.Low), Likely: quantity.Ratio(d.Likely), High: quantity.Ratio(d.High)}.Show(sys)
	case study.BondMass:
		return quantity.Band[quantity.Mass]{Low: quantity.Mass(d.Low), Likely: quantity.Mass(d.Likely), High: quantity.Mass(d.High)}.Show(sys)
	}
	return quantity.Band[quantity.Length]{Low: quantity.Length(d.Low), Likely: quantity.Length(d.Likely), High: quantity.Length(d.High)}.Show(sys)
}

// bondMatters ranks the doubts by what each alone does to the worst spot.
func (s *Survey) bondMatters(a *Answer, b *study.Bond, likely float64) error {
	sys := s.E.Units
	for i := range b.Doubts {
		d := &b.Doubts[i]
		if d.IsExact() {
			continue
		}
		low, high, err := b.Ends(i)
		if err != nil {
			return err
		}
		swing := math.Abs(high-low) / math.Max(likely, 1)
		if swing < 0.005 {
			continue
		}
		a.Matters = append(a.Matters, Matter{
			What: d.What, Range: s.bondRange(d), Effect: fromTo(onePress(min(low, high), sys), onePress(max(low, high), sys)),
			Swing: swing, Why: d.Why, Settle: d.Settle, Line: d.Line,
		})
	}
	rank(a.Matters)
	return nil
}
