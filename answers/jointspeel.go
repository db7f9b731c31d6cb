package answers

import (
	"fmt"
	"math"
	"slices"

	"rillwright/quantity"
	"rillwright/structure/joint"
)

// sealPeel tells what the dam's ends bear where its free edge turns in them.
func (s *Survey) sealPeel(a *Answer, list []sealing, short joint.Figure) {
	i := slices.IndexFunc(list, func(j sealing) bool { return j.DamEnd })
	if i < 0 || list[i].Leans || list[i].Slope[0] == 0 {
		return
	}
	peel, gap := s.peel(&list[i], [2]int{0, 0})
	sys := s.E.Units
	line, _ := s.bondLine()
	k, _ := pressUnit(sys)
	a.Figures = append(a.Figures,
		bounded(pressFigure("dam, ends: where its free edge peels them", peel, sys), short.Low/k),
		figure("dam, ends: by which it stretches them, at most", quantity.Exactly(quantity.Ratio(gap/line.Low)), sys))
	// No limit of peel was found, and its reckoning is cautious: the likely figure
	// decides, and no joint fails by it alone.
	a.Limit.Text += "; for peel at the dam's ends no limit was found: what silicone bears for a while is taken"
	const calm = "thicker glass, a brace along the edge or thicker beds calm that"
	switch {
	case peel.Low > short.Low:
		a.Verdict, a.Margin = max(a.Verdict, Tight), beyond(peel.Low, short.Low, "peel at the dam's ends than silicone bears for a while, at the good end")
		a.Say = fmt.Sprintf("Not surely: the dam's free edge peels the ends of its side beds with %s even at the good end, more than silicone is made to bear for a while, as far as a cautious formula tells; %s. Apart from that: %s", onePress(peel.Low, sys), calm, lower(a.Say))
	case peel.Likely > short.Low:
		a.Verdict = max(a.Verdict, Tight)
		a.Say += fmt.Sprintf(" The dam's free edge likely peels the ends of its side beds with %s, more than that: %s.", onePress(peel.Likely, sys), calm)
	}
}

// peel is the stress at the dam's ends and by how much they open at most. A side of
// fixed, for bond line and modulus, takes that end of the one doubt alone.
func (s *Survey) peel(j *sealing, fixed [2]int) (quantity.Band[float64], float64) {
	line, _ := s.bondLine()
	e := joint.Modulus()
	at := func(side int) (joint.Peel, float64) {
		k := 1 - side // thin glass bears most
		l, m := line.At(-side), e.At(side)
		worst := joint.Peel{}
		for _, bite := range [...]float64{j.Bite.Low, j.Bite.High} {
			if p := (joint.Butt{Bite: bite, Thickness: l}).Peel(j.Brim[k], j.Slope[k], m); p.Peak > worst.Peak {
				worst = p
			}
		}
		return worst, worst.Peak
	}
	if fixed != [2]int{} {
		l, m := line.Likely, e.Likely
		if fixed[0] != 0 {
			l = line.At(fixed[0])
		}
		if fixed[1] != 0 {
			m = e.At(fixed[1])
		}
		p := joint.Butt{Bite: j.Bite.Likely, Thickness: l}.Peel(j.Brim[1], j.Slope[1], m)
		return quantity.Exactly(p.Peak), p.Gap
	}
	_, low := at(-1)
	p, high := at(1)
	mid := joint.Butt{Bite: j.Bite.Likely, Thickness: line.Likely}.Peel(j.Brim[1], j.Slope[1], e.Likely)
	return quantity.Band[float64]{Low: min(low, mid.Peak), Likely: mid.Peak, High: max(high, mid.Peak)}, p.Gap
}

// sealMatters ranks what moves the worst joint.
func (s *Survey) sealMatters(a *Answer, w *sealing) {
	if w.Leans {
		return
	}
	sys := s.E.Units
	of := w.bed
	running := joint.Butt{Bite: w.Bite.Likely}.Stress(w.Running)
	if w.alone[0] < w.bed[0] {
		of, running = w.alone, w.fillet.Stress(w.Running)
	}
	add := func(m Matter, low, high float64) {
		m.Effect, m.Swing = fromTo(onePress(low, sys), onePress(high, sys)), math.Abs(high-low)/math.Max(of[1], 1)
		a.Matters = append(a.Matters, m)
	}
	add(Matter{What: "where the pool stands", Range: "running to full", Why: "a blocked drain fills it", Settle: "keep the drain clear and the brim low"}, running, of[1])
	if !w.Bite.IsExact() {
		add(Matter{What: "true thickness of the glass", Range: fromTo(showThickness(w.Bite.Low, sys), showThickness(w.Bite.High, sys)), Why: "the name is not the size", Settle: "callipers on the edge", Line: w.Line}, of[2], of[0])
	}
	rank(a.Matters)
	if !w.DamEnd || w.Slope[0] == 0 {
		return
	}
	// What moves the peel at the dam's ends stands behind: no bed turns on it.
	line, given := s.bondLine()
	m := Matter{What: "thickness of the bed, for the peel", Range: fromTo(showThickness(line.Low, sys), showThickness(line.High, sys)), Why: "assumed, rule of the trade", Settle: "spacers of a known thickness"}
	if given {
		m.Why, m.Line = "as the file has it", s.E.Design.Sealant.BondLine.Pos.Line
	}
	low, _ := s.peel(w, [2]int{1, 0})
	high, _ := s.peel(w, [2]int{-1, 0})
	add(m, low.Likely, high.Likely)
	e := joint.Modulus()
	low, _ = s.peel(w, [2]int{0, -1})
	high, _ = s.peel(w, [2]int{0, 1})
	add(Matter{What: "stiffness of the cured silicone, for the peel", Range: fromTo(press(quantity.Exactly(e.Low), sys), press(quantity.Exactly(e.High), sys)), Why: "from memory", Settle: e.Note}, low.Likely, high.Likely)
}
