package answers

import (
	"fmt"
	"maps"
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
type glassMemo struct{ list []study.GlassPane }

// glass returns the solved panes.
func (s *Survey) glass() []study.GlassPane {
	if s.panes == nil {
		s.panes = &glassMemo{study.Glass(s.E, s.E.Likely(), s.Likely.PoolLevel, s.knownPanes...)}
	}
	return s.panes.list
}

// Recall takes from the survey of a like enclosure the panes that it solved: those
// posed alike here are not solved again.
func (s *Survey) Recall(like *Survey) {
	s.knownPanes = like.knownPanes
	if like.panes != nil {
		s.knownPanes = like.panes.list
	}
}

// Beside returns a copy of the survey for work that goes on at the same time: each
// then keeps what it finds to itself.
func (s *Survey) Beside() *Survey {
	t := *s
	t.signs, t.corner, t.like = maps.Clone(s.signs), maps.Clone(s.corner), maps.Clone(s.like)
	return &t
}

// Rebuilt returns the survey of an enclosure that is changed in what carries, and
// not in what the water does. Panes are solved again only if they bend otherwise.
func (s *Survey) Rebuilt(e *enclosure.Enclosure, bends bool) *Survey {
	t := s.Beside()
	t.E, t.quick = e, true
	if bends && s.panes != nil {
		t.panes, t.knownPanes = nil, s.panes.list
	}
	return t
}

// Sealed answers what sealant must do: whether the joints hold, how much of it that
// takes, whether the grid stays on the glass.
func (s *Survey) Sealed() []Answer {
	found := study.SealedJoints(s.E, s.glass())
	out := []Answer{s.sealJoints(found), s.sealant(found)}
	return append(out, s.bonds()...)
}

// sealing is a joint with what its bed and fillet bear with the pool full, Pa.
type sealing struct {
	*study.Joint

	bed    [3]float64 // glass thin, as likely, thick
	alone  [3]float64 // its fillet, if nothing else carried; +Inf without one
	fillet joint.Fillet
}

// worst is what the joint bears where it bears least: its bed, or its fillet alone
// if that bears less, since either can carry it.
func (j *sealing) worst() float64 { return math.Min(j.bed[0], j.alone[0]) }

func (s *Survey) sealings(found study.Joints) []sealing {
	leg := float64(s.E.Design.Sealant.Fillet.Value)
	var out []sealing
	for i := range found.List {
		m := &found.List[i]
		if !m.Loaded {
			continue
		}
		j := sealing{Joint: m}
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
	return alike(out)
}

// alike joins neighbours that bear the same, as a left and a right side do.
func alike(list []sealing) []sealing {
	var out []sealing
	for _, j := range list {
		if k := len(out) - 1; k >= 0 {
			o := &out[k]
			near := func(x, y float64) bool { return math.Abs(x-y) <= 1e-6*math.Abs(y) }
			if o.Bite == j.Bite && o.Pull == j.Pull && near(o.Length, j.Length) && near(o.Brim[0], j.Brim[0]) && near(o.Running, j.Running) && o.Leans == j.Leans && o.fillet == j.fillet {
				m := *o.Joint
				m.Count += j.Count
				o.Joint = &m
				continue
			}
		}
		out = append(out, j)
	}
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
func (s *Survey) sealJoints(found study.Joints) Answer {
	sys := s.E.Units
	a := Answer{ID: "joints", Question: "Will the joints hold, and how wide must they be?"}
	short, from := s.strength()
	good, practice := joint.Permanent(), joint.Practice()
	a.Limit = Limit{
		Text: fmt.Sprintf("%s at the peak in tanks built by hand; silicone bears %s for a while, and standards allow %s for good, which such tanks pass several times",
			press(practice.Band, sys), press(short.Band, sys), press(good.Band, sys)),
		Source: string(practice.Source), Mark: "the first assumed, no source; for a while: " + from + "; for good from memory",
	}
	a.Cautions = []string{"A joint is as good as its cleaning: dry glass wiped with solvent, no bubble across the bed, props until it has cured. This takes every bond as sound; an engineer has the last word, not this arithmetic."}
	list := s.sealings(found)
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
	s.sealTaken(&a, found, list)
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
		share := fmt.Sprintf("%.0f %% of", 100*worst/short.Low)
		if worst > short.Low {
			share = fmt.Sprintf("%.1f times", worst/short.Low)
		}
		a.Say += fmt.Sprintf(" That is %s the least it bears for a while, and %.1f times what standards allow for good.", share, times)
	}
	if w.fillet.A > 0 {
		line, _ := s.bondLine()
		share := joint.BedShare(joint.Butt{Bite: w.Bite.Likely, Thickness: line.Likely}, w.fillet)
		a.Say += fmt.Sprintf(" Bed and fillet are each reckoned as if alone, the fillet at %s; together the bed, the stiffer, carries some %.0f %%.", onePress(w.alone[0], sys), 100*share)
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
		a.Figures = append(a.Figures, Figure{Name: name, Text: "leans on its stop: its sealant only seals", Words: true})
		return
	}
	k, _ := pressUnit(sys)
	held := func(f Figure) Figure { return bounded(f, joint.Practice().High/k) }
	// The better of bed and fillet is what is judged.
	bed, alone := held, held
	if j.fillet.A > 0 && j.alone[0] < j.bed[0] {
		bed = func(f Figure) Figure { return f }
	} else {
		alone = func(f Figure) Figure { return f }
	}
	a.Figures = append(a.Figures, bed(pressFigure(fmt.Sprintf("%s: bed of %s", name, biteText(j.Bite, sys)), bandOver(j.bed), sys)))
	if !more {
		return
	}
	running := joint.Butt{Bite: j.Bite.Likely}.Stress(j.Running)
	a.Figures = append(a.Figures, bed(pressFigure(j.Name+": while it runs", quantity.Exactly(running), sys)))
	load := Figure{Name: j.Name + ": largest line load", Unit: "N/m", Low: slices.Min(j.Brim[:]), Likely: j.Brim[1], High: slices.Max(j.Brim[:])}
	load.Text = fmt.Sprintf("%.0f N/m, %s", load.Likely, j.Pull)
	if sys == quantity.US {
		const lbfPerIn = lbf / inch
		load.Unit, load.Low, load.Likely, load.High = "lbf/in", load.Low/lbfPerIn, load.Likely/lbfPerIn, load.High/lbfPerIn
		load.Text = fmt.Sprintf("%.2f lbf/in, %s", load.Likely, j.Pull)
	}
	a.Figures = append(a.Figures, load)
	if j.fillet.A > 0 {
		if a.Key == 0 && j.Name == a.Limiting && j.alone[0] < j.bed[0] {
			a.Key = len(a.Figures) // the verdict turns on it
		}
		a.Figures = append(a.Figures, alone(pressFigure(fmt.Sprintf("%s: fillet of %s, alone", j.Name, sizeText(j.fillet.A, sys)), bandOver(j.alone), sys)))
	}
	want := func(name string, size func(line, stress float64) float64) {
		v := [3]float64{size(j.Brim[0], joint.Practice().High), size(j.Brim[0], short.Low), size(j.Brim[0], joint.Permanent().Low)}
		k, unit := 1e3, "mm"
		if sys == quantity.US {
			k, unit = 1/0.0254, "in"
		}
		bare := func(v float64) string { return strings.TrimSuffix(sizeText(v, sys), " "+unit) }
		a.Figures = append(a.Figures, Figure{
			Name: j.Name + ": " + name, Low: v[1] * k, Likely: v[0] * k, High: v[2] * k, Unit: unit,
			Text: fmt.Sprintf("%s; %s for a while, %s for good", sizeText(v[0], sys), bare(v[1]), bare(v[2])),
		})
	}
	want("bite it wants", joint.BiteFor)
	want("or a fillet's legs", joint.LegFor)
}

// bandOver is the band of a stress with glass thin, as likely and thick.
func bandOver(v [3]float64) quantity.Band[float64] {
	return quantity.Band[float64]{Low: slices.Min(v[:]), Likely: v[1], High: slices.Max(v[:])}
}

// sealTaken says what was taken for granted and what is left out.
func (s *Survey) sealTaken(a *Answer, found study.Joints, list []sealing) {
	var taken []string
	if line, given := s.bondLine(); !given {
		taken = append(taken, fmt.Sprintf("beds %s thick, as the trade has them (sealant.bond-line)", biteText(line, s.E.Units)))
	}
	if !s.E.Design.Sealant.Fillet.Given() {
		taken = append(taken, "no fillets (sealant.fillet)")
	}
	if len(found.Placed) > 0 {
		taken = append(taken, fmt.Sprintf("the place of %s from the name (at)", quoted(found.Placed)))
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
	if len(found.Open) > 0 {
		a.Cautions = append(a.Cautions, fmt.Sprintf("Nothing in the file holds the front edge of %s, which is reckoned as held.", quoted(found.Open)))
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
	if len(found.Lost) == 0 {
		return
	}
	text := fmt.Sprintf("Where %s stands, or what holds it, the file does not say, so that its joints are left out: write at for the pane, edges that hold it, and a thickness for the dam.", quoted(found.Lost))
	if a.Verdict == Holds {
		a.Verdict = Unknown
		a.Say = "Not known of all of them. The others: " + lower(a.Say)
	}
	a.Say += " " + text
}
