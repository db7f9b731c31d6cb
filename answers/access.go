package answers

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"rillwright/layout"
	"rillwright/works"
)

// Access answers whether what will need service can still be taken out once all is
// built. Plan, if not nil, tells when it can no more.
func (s *Survey) Access(plan *Plan) Answer {
	a, _ := s.access(plan)
	return a
}

// access is Access with the ways.
func (s *Survey) access(plan *Plan) (Answer, []wayOut) {
	l := layout.Of(s.E)
	a := Answer{ID: "access", Question: "Can what will need service still be taken out?", Figures: []Figure{}}
	a.Limit = Limit{Text: fmt.Sprintf("a way out by at most %d straight pulls, doors open, nothing turned", easyLegs), Mark: "assumed, no source"}
	list := s.waysOut(l)
	s.makeSure(list)
	worst := math.Inf(1)
	for i := range list {
		w := &list[i]
		a.Figures = append(a.Figures, Figure{Name: w.name, Text: s.wayText(w), Words: true})
		s.judgeWay(&a, w, plan)
		score := 1 / float64(1+len(w.legs))
		switch {
		case !w.ok:
			score = -1
		case w.foam != nil:
			score = 0
		}
		if score < worst {
			worst = score
			a.Key, a.Limiting, a.LimitingLine = len(a.Figures)-1, w.name, w.line
		}
	}
	s.pumpsOut(&a, l)
	for i := range s.E.Design.Lights {
		if d := &s.E.Design.Lights[i]; d.Sits.Value != "inside" {
			a.Figures = append(a.Figures, Figure{Name: d.Name.Value, Text: "up, off the top; its plug first", Words: true})
		} else if !d.Up.Given() {
			a.Cautions = append(a.Cautions, fmt.Sprintf("The file does not say how high the %s hangs inside (lights[%s].up): its way out is not looked for.", d.Name.Value, d.Name.Value))
		}
	}
	a.Score = 0
	for i := range list {
		switch w := &list[i]; {
		case !w.ok:
			a.Score--
		case w.foam != nil, w.long():
			a.Score -= 0.5
		}
	}
	s.outsideThings(&a, l)
	if s.E.Design.Fan.Given() {
		a.Cautions = append(a.Cautions, "The file does not place the fan: screw it on from outside, where it can be unscrewed.")
	}
	a.sayWorst("Yes: there is a way out for everything that is drawn and will need service.", "Mostly.", "No.")
	a.Cautions = append(a.Cautions, "Rehearse it dry before the grid is bonded and again before the foam, eyes shut: a way on paper has no hand in it.")
	return a, list
}

// makeSure looks whether what is kept in would still be with the least sizes that things
// may have which the file gives none.
func (s *Survey) makeSure(list []wayOut) {
	var small []wayOut
	for i := range list {
		w := &list[i]
		if w.ok || w.sure || w.met != nil {
			continue
		}
		if small == nil {
			least, _ := layout.Ends()
			small = s.waysOut(layout.With(s.E, least))
		}
		k := slices.IndexFunc(small, func(x wayOut) bool { return x.name == w.name })
		w.sure = k >= 0 && !small[k].ok
	}
}

// wayText tells a way in words.
func (s *Survey) wayText(w *wayOut) string {
	switch {
	case w.met != nil:
		return "not known: it overlaps " + w.met.what + " as drawn"
	case !w.ok:
		return "kept in by " + namesOf(w.by)
	}
	var words []string
	for i, g := range w.legs {
		way := [3][2]string{{"right", "left"}, {"forwards", "back"}, {"up", "down"}}[g.Along]
		word := way[0]
		if g.By < 0 {
			word = way[1]
		}
		if i < len(w.legs)-1 { // the last leads out, however far
			word = lengthText(math.Abs(g.By), s.E.Units) + " " + word
		}
		words = append(words, word)
	}
	text := strings.Join(words, ", then ")
	if w.doors {
		text += ", with the doors out of their tracks"
	}
	if w.top {
		text += ", through what the top leaves open"
	}
	if w.foam != nil {
		text += ", if " + w.foam.what + " leaves a window"
	}
	if w.first != "" {
		text += ", after " + w.first
	}
	return text + "; " + w.tool + "; " + lengthText(w.far, s.E.Units) + " from the opening"
}

func namesOf(list []*obstacle) string {
	var names []string
	seen := map[string]bool{}
	for _, o := range list {
		if !seen[o.what] {
			seen[o.what] = true
			names = append(names, o.what)
		}
	}
	if len(names) == 0 {
		return "what stands round it"
	}
	if n := len(names); n > 1 {
		return strings.Join(names[:n-1], ", ") + " and " + names[n-1]
	}
	return names[0]
}

// judgeWay tells what a way means.
func (s *Survey) judgeWay(a *Answer, w *wayOut, plan *Plan) {
	name := "The " + w.name
	switch {
	case w.met != nil:
		a.raise(Unknown, fmt.Sprintf("%s overlaps %s as drawn%s: put that right first, see [clash].", name, w.met.what, lines(w.line, w.met.line)), w.line)
		return
	case w.ok && w.foam != nil:
		a.raise(Tight, fmt.Sprintf("%s comes out only if %s leaves a window before it%s: mask it before you foam.", name, w.foam.what, lines(w.line, w.foam.line)), w.line)
	case w.ok && len(w.legs) > easyLegs:
		v := Tight
		if !w.keep {
			v = Holds
		}
		past := ""
		if len(w.by) > 0 {
			past = ", round " + namesOf(w.by)
		}
		a.raise(v, fmt.Sprintf("%s takes %d pulls to come out%s%s: try it with a card of its size.", name, len(w.legs), past, lines(w.line, blockLine(w.by))), w.line)
	case w.ok && w.top:
		a.Cautions = append(a.Cautions, fmt.Sprintf("%s does not come out through the opening, but through what the top leaves open: keep lamps and mesh over it loose.", name))
	case w.ok && w.doors:
		a.Cautions = append(a.Cautions, fmt.Sprintf("%s comes out with the doors lifted out of their tracks: leave room over them for that.", name))
	}
	if w.ok {
		return
	}
	unsure := !w.sure
	for _, o := range w.by {
		unsure = unsure || o.part == nil || o.part.Kind == layout.KindHardscape
	}
	v, how := Fails, ""
	if !w.keep || unsure {
		v = Tight
	}
	if unsure {
		how = ", as far as it is drawn"
	}
	say := fmt.Sprintf("%s cannot be taken out%s%s: %s keeps it in.", name, how, lines(w.line, blockLine(w.by)), upperNames(w.by, w.many))
	if at, step := lostAt(w.by, plan); step != "" {
		say += fmt.Sprintf(" The way is lost with the step %q%s.", step, at)
	}
	a.raise(v, say, w.line)
}

func blockLine(by []*obstacle) int {
	if len(by) == 0 {
		return 0
	}
	return by[0].line
}

func upperNames(by []*obstacle, many bool) string {
	text := namesOf(by)
	if many && len(by) > 1 {
		text += " together"
	} else if len(by) > 1 {
		text = "each of " + text
	}
	return text
}

// lostAt returns the step with which a way is lost, the last of those that bring what
// keeps a part in, and its day in the plan.
func lostAt(by []*obstacle, plan *Plan) (at, say string) {
	if plan == nil {
		return "", ""
	}
	var last *works.Step
	for _, o := range by {
		for i := range plan.Work.Steps {
			st := &plan.Work.Steps[i]
			if o.at == "" || st.Rule.ID != string(o.at) {
				continue
			}
			if last == nil || plan.Likely.Items[i].Start > plan.item(last.Task.ID).Start {
				last = st
			}
		}
	}
	if last == nil {
		return "", ""
	}
	return ", " + plan.day(plan.item(last.Task.ID).Start), last.Say
}
