package answers

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"rillwright/enclosure"
	"rillwright/quantity"
	"rillwright/structure"
	"rillwright/structure/joint"
	"rillwright/study"
)

// glassMemo is what the panes came to.
type glassMemo struct {
	list []study.GlassPane
	err  error
}

// glass returns the solved panes.
func (s *Survey) glass() ([]study.GlassPane, error) {
	if s.panes == nil {
		list, err := study.Glass(s.E, s.E.Likely(), s.Likely.PoolLevel)
		s.panes = &glassMemo{list, err}
	}
	return s.panes.list, s.panes.err
}

// Rebuilt returns the survey of an enclosure that is changed in what carries, and
// not in what the water does.
func (s *Survey) Rebuilt(e *enclosure.Enclosure) *Survey {
	t := *s
	t.E, t.panes, t.quick = e, nil, true
	return &t
}

// Sealed answers what sealant must do: whether the joints hold, how much of it that
// takes, whether the grid stays on the glass.
func (s *Survey) Sealed() ([]Answer, error) {
	panes, err := s.glass()
	if err != nil {
		return nil, err
	}
	seams := study.Joints(s.E, panes)
	out := []Answer{s.sealJoints(seams), s.sealant(seams)}
	return append(out, s.bonds()...), nil
}

// sealing is a seam with what its bed and fillet bear with the pool full, Pa.
type sealing struct {
	*study.Seam

	bed    [3]float64 // glass thin, as likely, thick
	alone  [3]float64 // its fillet, if nothing else carried; +Inf without one
	fillet joint.Fillet
}

// worst is what the joint bears where it bears least: its bed, or its fillet alone
// if that bears less, since either can carry it.
func (j *sealing) worst() float64 { return math.Min(j.bed[0], j.alone[0]) }

func (s *Survey) sealings(seams study.Seams) []sealing {
	leg := float64(s.E.Design.Sealant.Fillet.Value)
	var out []sealing
	for i := range seams.List {
		m := &seams.List[i]
		if !m.Loaded {
			continue
		}
		j := sealing{Seam: m}
		if m.Fillets[0] > 0 && !m.Old {
			j.fillet = joint.Fillet{A: leg, B: leg}
		}
		for k := range j.bed {
			j.bed[k] = joint.Butt{Bite: m.Bite.At(k - 1)}.Stress(m.Brim[k])
			if j.alone[k] = math.Inf(1); j.fillet.A > 0 {
				j.alone[k] = j.fillet.Stress(m.Brim[k])
			}
		}
		out = append(out, j)
	}
	slices.SortStableFunc(out, func(a, b sealing) int {
		switch {
		case a.Leans != b.Leans:
			if b.Leans {
				return -1
			}
			return 1
		case a.worst() > b.worst():
			return -1
		case a.worst() < b.worst():
			return 1
		}
		return 0
	})
	return out
}

// strength is what the sealant bears for a while, and where that is from.
func (s *Survey) strength() (joint.Figure, string) {
	if f := s.E.Design.Sealant.Strength; f.Given() {
		return joint.Figure{Band: quantity.Band[float64]{Low: float64(f.Value.Low), Likely: float64(f.Value.Likely), High: float64(f.Value.High)}}, "its data sheet, as the file has it"
	}
	return joint.ShortTerm(), "standards of structural glazing, from memory"
}

// bondLine is how thick the beds between glass and glass are.
func (s *Survey) bondLine() (quantity.Band[float64], bool) {
	if f := s.E.Design.Sealant.BondLine; f.Given() {
		return quantity.Band[float64]{Low: float64(f.Value.Low), Likely: float64(f.Value.Likely), High: float64(f.Value.High)}, true
	}
	return joint.LeastBondLine().Band, false
}

// sealJoints answers whether the joints hold.
func (s *Survey) sealJoints(seams study.Seams) Answer {
	sys := s.E.Units
	a := Answer{ID: "joints", Question: "Will the joints hold, and how wide must they be?"}
	short, from := s.strength()
	good, practice := joint.Permanent(), joint.Practice()
	a.Limit = Limit{
		Text: fmt.Sprintf("at its peak up to %s in tanks built by hand; silicone bears %s for a while, and standards allow %s for good, which such tanks pass several times",
			press(practice.Band, sys), press(short.Band, sys), press(good.Band, sys)),
		Source: string(practice.Source), Mark: "the first assumed, no source; for a while: " + from + "; for good from memory",
	}
	a.Cautions = []string{"A joint is as good as its cleaning: dry glass wiped with solvent, no bubble across the bed, props until it has cured. This takes every bond as sound; an engineer has the last word, not this arithmetic."}
	list := s.sealings(seams)
	if len(list) == 0 {
		a.Verdict, a.Say = Unknown, "The file names no pane that holds the pool, and where it stands: write enclosure.panes with at, and the dam's thickness."
		return a
	}
	w := &list[0]
	a.Limiting, a.LimitingLine = w.Name, w.Line
	if w.Leans {
		a.Verdict, a.Score = Holds, 1e9
		a.Say = "Yes: every joint that the pool loads leans on a stop, and its sealant only seals."
	} else {
		s.sealVerdict(&a, w, short, practice)
	}
	for i := range list {
		s.sealFigures(&a, &list[i], i < 3, short)
	}
	s.sealPeel(&a, list, short)
	s.sealMatters(&a, w)
	s.sealTaken(&a, seams, list)
	return a
}

// sealVerdict judges by the worst joint.
func (s *Survey) sealVerdict(a *Answer, w *sealing, short, practice joint.Figure) {
	sys := s.E.Units
	worst := w.worst()
	a.Score = practice.High / math.Max(worst, 1)
	a.Margin = beyond(worst, practice.High, "than tanks built by hand are found to bear, pool full, thinnest glass")
	what := fmt.Sprintf("the bed of the joint %q", w.Name)
	if w.alone[0] < w.bed[0] {
		what = fmt.Sprintf("the fillet of the joint %q, were it alone,", w.Name)
	}
	bears := fmt.Sprintf("pool full, %s bears %s at its peak", what, onePress(worst, sys))
	switch {
	case worst > short.Low:
		a.Verdict = Fails
		a.Say = fmt.Sprintf("No: %s, more than silicone is made to bear even for a while.", bears)
	case worst > practice.High:
		a.Verdict = Tight
		a.Say = fmt.Sprintf("Perhaps: %s, more than tanks built by hand are found to bear for years. Give the pane a stop that it leans on, or a wider fillet.", bears)
	default:
		a.Verdict = Holds
		a.Say = fmt.Sprintf("Yes: %s, no more than tanks built by hand bear for years.", bears)
	}
	if times := worst / joint.Permanent().Low; times > 1 {
		a.Say += fmt.Sprintf(" That is %.0f %% of the least it bears for a while, and %.1f times what standards allow for good.", 100*worst/short.Low, times)
	}
	if w.fillet.A > 0 {
		line, _ := s.bondLine()
		share := joint.BedShare(joint.Butt{Bite: w.Bite.Likely, Thickness: line.Likely}, w.fillet)
		a.Say += fmt.Sprintf(" The bed is the stiffer and takes some %.0f %% of it; the fillet takes the rest, seals, and would carry all of it with %s.", 100*share, onePress(w.alone[0], sys))
	}
}

// sealFigures adds what one joint bears; of the worst, also what it wants.
func (s *Survey) sealFigures(a *Answer, j *sealing, more bool, short joint.Figure) {
	sys := s.E.Units
	name := j.Name
	if j.Count > 1 {
		name += fmt.Sprintf(" (%d alike)", j.Count)
	}
	if j.Leans {
		a.Figures = append(a.Figures, Figure{Name: name, Text: "leans on its stop: its sealant only seals"})
		return
	}
	f := pressFigure(fmt.Sprintf("%s: bed as wide as %s, %s, %s", name, j.Of, biteText(j.Bite, sys), j.Pull), quantity.Band[float64]{Low: min(j.bed[0], j.bed[2]), Likely: j.bed[1], High: max(j.bed[0], j.bed[2])}, sys)
	f.Text += "; running " + onePress(joint.Butt{Bite: j.Bite.Likely}.Stress(j.Running), sys)
	a.Figures = append(a.Figures, f)
	if !more {
		return
	}
	load := Figure{Name: "  its largest line load", Unit: "N/m", Low: slices.Min(j.Brim[:]), Likely: j.Brim[1], High: slices.Max(j.Brim[:])}
	load.Text = fmt.Sprintf("%.0f N/m", load.Likely)
	if sys == quantity.US {
		const lbfPerIn = 0.45359237 * joint.G / 0.0254
		load.Unit, load.Low, load.Likely, load.High = "lbf/in", load.Low/lbfPerIn, load.Likely/lbfPerIn, load.High/lbfPerIn
		load.Text = fmt.Sprintf("%.2f lbf/in", load.Likely)
	}
	a.Figures = append(a.Figures, load)
	if j.fillet.A > 0 {
		a.Figures = append(a.Figures, pressFigure(fmt.Sprintf("  its fillet of %s, were it alone", sizeText(j.fillet.A, sys)), quantity.Band[float64]{Low: slices.Min(j.alone[:]), Likely: j.alone[1], High: slices.Max(j.alone[:])}, sys))
	}
	want := func(name string, size func(line, stress float64) float64) {
		v := [3]float64{size(j.Brim[0], joint.Practice().High), size(j.Brim[0], short.Low), size(j.Brim[0], joint.Permanent().Low)}
		k, unit := 1e3, "mm"
		if sys == quantity.US {
			k, unit = 1/0.0254, "in"
		}
		a.Figures = append(a.Figures, Figure{
			Name: name, Low: v[1] * k, Likely: v[0] * k, High: v[2] * k, Unit: unit,
			Text: fmt.Sprintf("%s as in tanks built by hand, %s for a while, %s for good", sizeText(v[0], sys), sizeText(v[1], sys), sizeText(v[2], sys)),
		})
	}
	want("  bite it wants", joint.BiteFor)
	want("  or a fillet with legs of", joint.LegFor)
}

// sealPeel tells what the dam's ends bear where its free edge turns in them.
func (s *Survey) sealPeel(a *Answer, list []sealing, short joint.Figure) {
	i := slices.IndexFunc(list, func(j sealing) bool { return j.DamEnd })
	if i < 0 || list[i].Leans || list[i].Slope[0] == 0 {
		return
	}
	peel, gap := s.peel(&list[i], [2]int{0, 0})
	sys := s.E.Units
	f := pressFigure("dam, ends: peak at the top, where its free edge peels them", peel, sys)
	f.Text += fmt.Sprintf("; opens by %s", small(gap, sys))
	a.Figures = append(a.Figures, f)
	if peel.High > short.Low && a.Verdict == Holds {
		a.Verdict = Tight
		a.Say += fmt.Sprintf(" But the dam's free edge peels the ends of its side beds with up to %s: thicker glass, a brace along the edge or a thicker bed calms that.", onePress(peel.High, sys))
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
	slices.SortStableFunc(a.Matters, bySwing)
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

// sealTaken says what was taken for granted and what is left out.
func (s *Survey) sealTaken(a *Answer, seams study.Seams, list []sealing) {
	var taken []string
	if line, given := s.bondLine(); !given {
		taken = append(taken, fmt.Sprintf("beds %s thick, as the trade has them (sealant.bond-line)", biteText(line, s.E.Units)))
	}
	if !s.E.Design.Sealant.Fillet.Given() {
		taken = append(taken, "no fillets (sealant.fillet)")
	}
	if len(seams.Placed) > 0 {
		taken = append(taken, fmt.Sprintf("the place of %s from the name (at)", quoted(seams.Placed)))
	}
	for i := range list {
		if list[i].Unsure {
			taken = append(taken, fmt.Sprintf("for %q the thinner of both panes, since their sizes do not say whose edge is bonded", list[i].Name))
			break
		}
	}
	if s.E.Design.Dam.Pos.Line > 0 && !s.E.Design.Dam.Stops.Given() {
		taken = append(taken, "no stops in front of the dam (dam.stops)")
	}
	if len(taken) > 0 {
		a.Say += " Taken, as the file does not say: " + strings.Join(taken, "; ") + "."
	}
	if len(seams.Open) > 0 {
		a.Cautions = append(a.Cautions, fmt.Sprintf("Nothing in the file holds the front edge of %s, which is reckoned as held.", quoted(seams.Open)))
	}
	if i := slices.IndexFunc(list, func(j sealing) bool { return j.Leans }); i >= 0 {
		a.Cautions = append(a.Cautions, "The bonds of the stops themselves are not reckoned: make them as long as the edge they hold.")
	}
	for i := range s.E.Design.Enclosure.Panes {
		if k := study.GlassKind(s.E.Design.Enclosure.Panes[i].Glass.Value); k == structure.Acrylic || k == structure.Polycarbonate {
			a.Cautions = append(a.Cautions, "Silicone holds badly on acrylic and polycarbonate (common practice): bond a piece to an offcut and pull before you trust it.")
			break
		}
	}
	if len(seams.Lost) == 0 {
		return
	}
	text := fmt.Sprintf("Where %s stands the file does not say, so that its joints are left out: write at for the pane, and a thickness for the dam.", quoted(seams.Lost))
	if a.Verdict == Holds {
		a.Verdict = Unknown
	}
	a.Say += " " + text
}

func quoted(names []string) string {
	out := make([]string, len(names))
	for i, n := range names {
		out[i] = fmt.Sprintf("%q", n)
	}
	return strings.Join(out, ", ")
}

// onePress shows the stress in a joint, kPa or psi.
func onePress(v float64, sys quantity.System) string {
	return press(quantity.Exactly(v), sys)
}

// press shows a band of them.
func press(b quantity.Band[float64], sys quantity.System) string {
	k, unit := pressUnit(sys)
	return bandText(b.Scale(1/k), unit)
}

func pressUnit(sys quantity.System) (float64, string) {
	if sys == quantity.US {
		return 0.45359237 * joint.G / (0.0254 * 0.0254), "psi"
	}
	return 1e3, "kPa"
}

// bandText shows a band in a unit with two or three figures.
func bandText(b quantity.Band[float64], unit string) string {
	decimals := 0
	switch {
	case b.High < 1:
		decimals = 2
	case b.High < 10:
		decimals = 1
	}
	low, high := fmt.Sprintf("%.*f", decimals, b.Low), fmt.Sprintf("%.*f", decimals, b.High)
	if low == high {
		return high + " " + unit
	}
	return low + " to " + high + " " + unit
}

// pressFigure makes a Figure of a band of stresses.
func pressFigure(name string, b quantity.Band[float64], sys quantity.System) Figure {
	k, unit := pressUnit(sys)
	s := b.Scale(1 / k)
	f := Figure{Name: name, Low: s.Low, Likely: s.Likely, High: s.High, Unit: unit, Text: press(b, sys)}
	if text := onePress(b.Likely, sys); text != f.Text {
		f.Text += ", likely " + text
	}
	return f
}

// sizeText shows a bite or leg.
func sizeText(v float64, sys quantity.System) string {
	if sys == quantity.US {
		return fmt.Sprintf("%.2f in", v/0.0254)
	}
	return fmt.Sprintf("%.1f mm", v*1000)
}

// biteText shows a band of them.
func biteText(b quantity.Band[float64], sys quantity.System) string {
	low, high := sizeText(b.Low, sys), sizeText(b.High, sys)
	if low == high {
		return high
	}
	return fromTo(low, high)
}
