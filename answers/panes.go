package answers

import (
	"fmt"
	"math"
	"strings"

	"rillwright/quantity"
	"rillwright/structure"
	"rillwright/study"
)

// The bow of a free edge, as a share of its length, from which joints open and
// doors bind, and from which it is too much: assumed, no source. No agreed limit was
// found; the bow is always shown.
const (
	bowWarn = 1.0 / 300
	bowFail = 1.0 / 200
)

// paneAnswer answers for one pane.
func (s *Survey) paneAnswer(p *study.GlassPane) (Answer, error) {
	a := Answer{ID: "pane[" + p.Name + "]", Question: s.paneQuestion(p), LimitingLine: p.Line, Cautions: []string{glassCaution()}}
	if p.Name == "dam" {
		a.ID = "dam"
	}
	if p.Lacks != "" {
		a.Verdict, a.Say = Unknown, fmt.Sprintf("The file does not say how thick the dam is: measure the glass and write %s.", p.Lacks)
		if p.Lacks == "at" {
			a.Say = fmt.Sprintf("The file does not say where pane %q stands, and its name does not either: write at for it (back, left, right, door and so on).", p.Name)
		}
		return a, nil
	}
	if p.Trouble != "" {
		a.Verdict, a.Say = Unknown, fmt.Sprintf("It cannot be reckoned as the file has it: %s. See its size, and what its edges are said to be held by.", p.Trouble)
		return a, nil
	}
	if p.Flat {
		s.floorAnswer(&a, p)
		return a, nil
	}
	brim := s.brim()
	a.Figures = append(a.Figures,
		s.stressFigure("stress, pool full to "+brim, p.Brim),
		s.stressFigure("stress while it runs", same(p.Running)),
		s.bowFigure("bow, pool full to "+brim, p.Brim),
		s.bowFigure("bow while it runs", same(p.Running)),
		s.stressFigure("stress if somebody pushes while it is full", same(p.Knock)),
	)
	for i := range p.Openings {
		o := &p.Openings[i]
		f := s.stressFigure("stress beside the "+o.Name, same(study.PaneState{Stress: p.Brim[0].Openings[i]}))
		if math.IsInf(p.Brim[0].Openings[i], 1) {
			f = Figure{Name: f.Name, Text: "no figure: its corners are sharp, or it touches an edge"}
		}
		a.Figures = append(a.Figures, f)
	}
	if p.Outer > 0 {
		a.Figures = append(a.Figures, s.stressFigure("stress with the pool drained, water outside", same(p.Drained)))
	}
	a.Figures = append(a.Figures, s.bearFigures(p)...)
	s.paneVerdict(&a, p)
	if len(p.Assumed) > 0 {
		a.Cautions = append(a.Cautions, fmt.Sprintf("Not in the file and taken for the %s: %s.", paneWord(p), strings.Join(p.Assumed, "; ")))
	}
	if s.quick {
		return a, nil
	}
	if err := s.paneMatters(&a, p); err != nil {
		return a, err
	}
	if p.Name == "dam" {
		return a, s.damMore(&a, p)
	}
	return a, nil
}

// floorAnswer answers for a floor pane on a full board: how wide a gap in the board
// it may bridge.
func (s *Survey) floorAnswer(a *Answer, p *study.GlassPane) {
	sys := s.E.Units
	limit, ok := structure.PermanentLimit(p.Kind)
	if !ok {
		a.Verdict = Unknown
		a.Say = "It lies on a full board and is hardly bent, but nobody has said what it is: look for a mark, and at it through polarised light."
		return
	}
	q := p.Pressure(study.WaterWeight(s.E, s.E.Likely()))
	gap := p.Thickness.Low * math.Sqrt(limit.Likely/(0.75*q))
	a.Verdict, a.Score = Holds, gap
	a.Figures = []Figure{
		pressureFigure("pressure on it, pool full to "+s.brim(), q, sys),
		figure("widest gap in the board that it bears", quantity.Exactly(quantity.Length(gap)), sys),
	}
	a.Say = "Yes: it lies on a full board, which keeps it from being bent. The board must be flat, with a mat between, and no grain of sand."
	a.Limit = Limit{Text: fmt.Sprintf("%s for good in %s, over a gap as a strip held at both sides", stressText(limit.Likely, sys), p.Kind), Source: string(limit.Source), Mark: paneMark(p.Kind)}
}

// pressureFigure shows the pressure of standing water.
func pressureFigure(name string, q float64, sys quantity.System) Figure {
	unit, k, text := "kPa", 1e3, "%.1f kPa"
	if sys == quantity.US {
		unit, k, text = "psi", psi, "%.2f psi"
	}
	return Figure{Name: name, Low: q / k, Likely: q / k, High: q / k, Unit: unit, Text: fmt.Sprintf(text, q/k)}
}

func paneWord(p *study.GlassPane) string {
	if p.Name == "dam" {
		return "dam"
	}
	return strings.TrimSuffix(p.Name, " pane") + " pane"
}

func (s *Survey) paneQuestion(p *study.GlassPane) string {
	switch {
	case p.Name == "dam":
		return "Does the dam hold?"
	case p.Lying:
		return fmt.Sprintf("Does the %s bear the pool?", paneWord(p))
	}
	return fmt.Sprintf("Does the %s hold the pool?", paneWord(p))
}

// bearFigures are what glass may bear by each body that says so, beside each other.
func (s *Survey) bearFigures(p *study.GlassPane) []Figure {
	const onWater = 1.35 // assumed
	var out []Figure
	pair := func(name string, edge, face float64) {
		f := s.stressFigure(name, [3]study.PaneState{{Stress: face}, {Stress: face}, {Stress: edge}})
		f.Text = fmt.Sprintf("%s on its face, %s at an edge or hole", stressText(face, s.E.Units), stressText(edge, s.E.Units))
		out = append(out, f)
	}
	if limit, ok := structure.PermanentLimit(p.Kind); ok && (p.Kind == structure.Annealed || p.Kind == structure.Laminated) {
		pair("bears for good, tank trade", edgeShare*limit.Likely, limit.Likely)
	}
	face, ok := structure.StrengthOf(p.Kind, structure.Surface)
	edge, _ := structure.StrengthOf(p.Kind, structure.AsCut)
	if ok {
		pair("bears for 50 years, EN 16612 over 1.35", edge.Design(structure.Years50)/onWater, face.Design(structure.Years50)/onWater)
	}
	if v, ok := structure.AllowableE1300(p.Kind, structure.Surface, structure.Years50); ok {
		w, _ := structure.AllowableE1300(p.Kind, structure.AsCut, structure.Years50)
		pair("bears for 50 years, ASTM E1300", w, v)
	}
	if f, e, ok := shortStrength(p.Kind); ok {
		pair("bears for some seconds", e, f)
	}
	return out
}

// shortStrength is what the face and the edges of glass bear for a few seconds: the
// lower of EN 16612 and ASTM E1300, both from memory, with no factor on the push.
func shortStrength(k structure.Kind) (face, edge float64, ok bool) {
	u, ok := structure.StrengthOf(k, structure.Surface)
	v, _ := structure.StrengthOf(k, structure.AsCut)
	if !ok {
		return 0, 0, false
	}
	face, edge = u.Design(study.KnockSeconds), v.Design(study.KnockSeconds)
	if w, ok := structure.AllowableE1300(k, structure.Surface, study.KnockSeconds); ok {
		face = min(face, w)
		w, _ = structure.AllowableE1300(k, structure.AsCut, study.KnockSeconds)
		edge = min(edge, w)
	}
	return face, edge, true
}

// paneVerdict judges a pane with the pool full, at the bad end of what is known.
func (s *Survey) paneVerdict(a *Answer, p *study.GlassPane) {
	sys, brim, worst := s.E.Units, s.brim(), p.Brim[0]
	limit, ok := structure.PermanentLimit(p.Kind)
	if !ok {
		a.Verdict = Unknown
		a.Say = "Nobody has said what this pane is: look for a mark, and at it through polarised light, before anything is reckoned with it."
		return
	}
	hole := holeShare(p.Kind)
	s.paneBounds(a, p, limit.Likely, hole)
	a.Limit = Limit{
		Text:   fmt.Sprintf("%s for good in %s, %.0f %% of it beside a hole; bow of a free edge within a 300th of its length, and a 200th at most", stressText(limit.Likely, sys), p.Kind, 100*hole),
		Source: string(limit.Source), Mark: paneMark(p.Kind),
	}
	if _, _, ok := shortStrength(p.Kind); ok {
		a.Limit.Text += fmt.Sprintf("; a push of %s on a square of %s for %.0f s within what it bears for some seconds", pushText(sys), quantity.Length(study.KnockSize).Show(sys), study.KnockSeconds)
		a.Limit.Mark += "; the push assumed, no source; for seconds the lower of EN 16612 and ASTM E1300, from memory"
	}
	list := []judged{{
		use: worst.Stress / limit.Likely, verdict: Fails, than: "than it bears for good, pool full, at the bad end",
		say: fmt.Sprintf("No: with the pool full to %s the stress may be %s.", brim, stressText(worst.Stress, sys)),
	}}
	for i := range p.Openings {
		if v := worst.Openings[i]; !p.Openings[i].Sharp() {
			list = append(list, judged{
				use: v / (hole * limit.Likely), verdict: Fails, key: 5 + i, than: "than it bears for good beside a hole",
				say: fmt.Sprintf("No: beside the %s the stress may be %s; a rim that was cut or drilled bears less than the face.", p.Openings[i].Name, s.orEndless(v)),
			})
		}
	}
	if side, free := p.FreeEdge(); free {
		length := p.EdgeLength(side)
		bows := fmt.Sprintf("its free edge bows %s: joints open and doors bind.", small(worst.EdgeBow, sys))
		list = append(list,
			judged{use: worst.EdgeBow / (bowFail * length), verdict: Fails, key: 2, say: "No: " + bows, than: "than a 200th of the free edge"},
			judged{use: worst.EdgeBow / (bowWarn * length), verdict: Tight, key: 2, say: "It bears the water, but " + bows, than: "than a 300th of the free edge"})
	}
	list = append(list, s.drainedJudged(p, limit.Likely)...)
	list = append(list, s.unheldJudged(p, limit.Likely)...)
	if face, edge, ok := shortStrength(p.Kind); ok {
		use := max(p.Knock.Stress/face, p.Knock.EdgeStress/edge)
		list = append(list, judged{
			use: use, verdict: Tight, key: 4, than: "than it bears for some seconds",
			say: fmt.Sprintf("It bears the water, but not somebody who slips or leans on it: %s on a hand's breadth may break it.", pushText(sys)),
		})
	}
	// The worst verdict decides, among equals the one that is nearest to its limit.
	top := 0
	verdict := func(j *judged) Verdict {
		if j.use > 1 {
			return j.verdict
		}
		return Holds
	}
	for i := range list {
		if j, t := &list[i], &list[top]; verdict(j) > verdict(t) || verdict(j) == verdict(t) && j.use > t.use {
			top = i
		}
	}
	j := &list[top]
	a.Verdict, a.Key, a.Score = verdict(j), j.key, 1/max(j.use, 1e-9)
	if !math.IsInf(j.use, 1) {
		a.Margin = beyond(j.use, 1, j.than)
	}
	if a.Say = j.say; a.Verdict == Holds {
		a.Say = fmt.Sprintf("Yes: with the pool full to %s the stress is %s at most, and the bow %s.", brim, stressText(worst.Stress, sys), small(bowOf(worst), sys))
	}
	s.paneDoubts(a, p)
}

// paneDoubts takes back a verdict for what the file leaves open.
func (s *Survey) paneDoubts(a *Answer, p *study.GlassPane) {
	for i := range p.Openings {
		if o := &p.Openings[i]; o.Sharp() {
			a.Cautions = append(a.Cautions, fmt.Sprintf("The corners of the %s are sharp, and a crack starts there whatever the figures say. A glazier must round them, to the glass's thickness at least, some say 1/2 in (13 mm); write that as its corner. The stress at a corner is then taken as 1 + 2 sqrt(depth/radius) times that of the whole pane (Inglis, from memory).", o.Name))
			if a.Verdict != Fails {
				a.Verdict, a.Margin, a.LimitingLine = Unknown, "", o.Line
				a.Say = fmt.Sprintf("That cannot be said: the %s has sharp corners, and no figure means anything there.", o.Name)
			}
		}
	}
	if !p.Lying {
		return
	}
	switch {
	case p.Rests == "on pads":
		a.Say += " It is reckoned as lying on four pads: put a board under all of it."
	case p.Rests == "" && a.Verdict != Holds:
		a.Verdict = Unknown
		a.Say = "That depends on what it rests on, which the file does not say (enclosure.rests). Held at its rim alone: " + a.Say
	default:
		a.Say += " It is reckoned as held at its rim alone: put a board under all of it."
	}
}

func (s *Survey) orEndless(v float64) string {
	if math.IsInf(v, 1) {
		return "without end"
	}
	return stressText(v, s.E.Units)
}

// pushText is the push that a pane is tried with.
func pushText(sys quantity.System) string {
	return forceText(study.KnockForce, sys)
}
