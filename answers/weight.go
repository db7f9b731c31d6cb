package answers

import (
	"fmt"
	"strings"

	"rillwright/quantity"
	"rillwright/structure"
	"rillwright/study"
)

const (
	// Live loads that floors of dwellings are commonly designed for, Pa: in Europe
	// 1.5 to 2.0 kPa, in the United States 40 lb/ft2. What a floor really bears
	// depends on span and place, so the verdict is taken at the least of them.
	floorLeast, floorMost = 1500.0, 2000.0
	floorUS               = 40 * lbf / (foot * foot)
)

// Weight answers what it weighs, what the floor gets and who lifts it.
func (s *Survey) Weight() Answer {
	a := Answer{ID: "weight", Question: "What does it weigh, and will the floor take it?", LimitingLine: s.E.Design.Enclosure.Pos.Line}
	h := &heavy{s: s, sys: s.E.Units, w: study.Weigh(s.E, s.Likely), a: &a}
	a.Cautions = []string{"Lifting glass: gloves, suction cups, a second person; an engineer has the last word on the floor, not this arithmetic."}
	if h.w.Panes == 0 {
		a.Verdict, a.Say = Unknown, "The file lists no panes: write them under enclosure.panes, with their thickness, and it can be summed."
		return a
	}
	h.sums()
	h.floor()
	h.feet()
	h.lifting()
	h.matters()
	a.Say += takenWords(h.w, h.sys)
	return a
}

// heavy is the answer about weight on its way.
type heavy struct {
	s   *Survey
	sys quantity.System
	w   *study.Weights
	a   *Answer
	on  spread // on the floor under it, pool full, kg
}

// sum adds the masses of the loads that are of some kinds.
func sum(loads []study.Load, of func(*study.Load) bool) float64 {
	m := 0.0
	for i := range loads {
		if of(&loads[i]) {
			m += loads[i].Mass
		}
	}
	return m
}

func kinds(list ...study.LoadKind) func(*study.Load) bool {
	return func(l *study.Load) bool {
		for _, k := range list {
			if l.Kind == k {
				return true
			}
		}
		return false
	}
}

// aside is what does not belong to the enclosure itself.
var aside = kinds(study.StandLoad, study.SumpLoad, study.SumpWaterLoad)

func within(l *study.Load) bool { return !aside(l) }

// under reports whether a load stands on the same feet. A sump of which the file
// does not say where it stands counts for the floor.
func (h *heavy) under(l *study.Load) bool {
	return h.w.CarriesSump || !h.w.SumpSaid || within(l) || l.Kind == study.StandLoad
}

func (h *heavy) of(stage study.Stage, kind func(*study.Load) bool) spread {
	return spreadOf(h.w, func(side []int) float64 { return sum(h.w.At(stage, side), kind) })
}

func (h *heavy) kg(v float64) string { return quantity.Mass(v).Show(h.sys) }

// figure adds a mass as a figure, unless there is none of it.
func (h *heavy) figure(name string, v spread) {
	if v.high > 0 {
		h.a.Figures = append(h.a.Figures, figure(name, v.mass(), h.sys))
	}
}

func (h *heavy) sums() {
	running := h.of(study.Running, within)
	h.figure("enclosure running, without stand and sump", running)
	h.figure("the same, pool full to "+h.s.brim(), h.of(study.Brim, within))
	h.figure("empty and dry, to lift onto the stand", h.of(study.Bare, within))
	for _, g := range []struct {
		name  string
		kinds []study.LoadKind
	}{
		{"panes", []study.LoadKind{study.PaneLoad}},
		{"rims and braces", []study.LoadKind{study.FrameLoad}},
		{"grid and what hangs on it, wet", []study.LoadKind{study.WallLoad}},
		{"wood and rock that was weighed", []study.LoadKind{study.PieceLoad}},
		{"what else takes up room in the pool", []study.LoadKind{study.SunkLoad}},
		{"lamps", []study.LoadKind{study.LampLoad}},
		{"water in the pool", []study.LoadKind{study.PoolLoad}},
		{"water in hose and pipe", []study.LoadKind{study.PipeLoad}},
		{"sump, empty, with its pumps", []study.LoadKind{study.SumpLoad}},
		{"water in the sump", []study.LoadKind{study.SumpWaterLoad}},
		{"stand", []study.LoadKind{study.StandLoad}},
	} {
		h.figure(g.name, h.of(study.Running, kinds(g.kinds...)))
	}
	sump := h.of(study.Running, kinds(study.SumpWaterLoad))
	h.a.Say = fmt.Sprintf("About %s running, and %s of water more in the sump.", h.kg(running.likely), h.kg(sump.likely))
}

// floor tells what the floor gets under it.
func (h *heavy) floor() {
	h.on = h.of(study.Brim, h.under)
	what := "all of it, pool full, with the stand and the sump"
	switch {
	case !h.w.CarriesSump && h.w.SumpSaid:
		what = "all of it, pool full, with the stand"
	case !h.w.Footing.Given:
		what = "all of it, pool full, with the sump"
	}
	h.figure(what, h.on)
	area := h.w.Footing.Area
	load := h.on.over(area)
	h.a.Key = len(h.a.Figures)
	h.a.Figures = append(h.a.Figures,
		bounded(floorFigure("on the floor under it, spread over its base", load, h.sys), inFloor(floorLeast/structure.G, h.sys)),
		figure("floor that bears as much at the usual load", h.on.over(floorLeast/structure.G).area(), h.sys))
	per := func(pascal float64) string { return floorText(pascal/structure.G, h.sys) }
	h.a.Limit = Limit{
		Text: fmt.Sprintf("%s: floors of dwellings are commonly designed for %s in Europe (EN 1991-1-1, category A: 1.5 to 2.0 kPa) and for %s in the United States; what yours bears depends on its span and on where it stands",
			per(floorLeast), fromTo(per(floorLeast), per(floorMost)), per(floorUS)),
		Source: "en-1991-1-1", Mark: "from memory",
	}
	limit := floorLeast / structure.G
	h.a.Score = limit / load.high
	h.a.Margin = fmt.Sprintf("%.1f times that, pool full, at the bad end", load.high/limit)
	if load.high > limit {
		h.a.Verdict = Tight
		h.a.Say += fmt.Sprintf(" Under it the floor gets up to %s, more than floors are commonly designed for on average; a small spot may bear it, near a bearing wall and across the joists: ask an engineer.", floorText(load.high, h.sys))
	} else {
		h.a.Verdict = Holds
		h.a.Say += " Spread over its base that is less than floors are commonly designed for; an engineer knows what yours bears."
	}
	if h.s.E.Design.Place.Floor.Value == "" {
		h.a.Say += " The file does not say what the floor is (place.floor)."
	}
}

// feet tells what each foot bears, on a level floor and on one that is not.
func (h *heavy) feet() {
	feet := h.w.Footing.Feet
	if len(feet) == 0 {
		return
	}
	var parts []structure.Part
	loads := h.w.At(study.Brim, h.on.sides(1))
	for i := range loads {
		if h.under(&loads[i]) {
			parts = append(parts, structure.Part{Name: loads[i].Name, Mass: loads[i].Mass, Centre: loads[i].Centre})
		}
	}
	all, err := structure.Assemble("all", parts...)
	if err != nil {
		return
	}
	each, err := structure.FeetLoads(all, feet...)
	if err != nil {
		h.a.Say += " Its weight stands too far to one side for its feet: see whether it can tip over."
		return
	}
	most := 0.0
	for _, l := range each {
		most = max(most, l)
	}
	h.foot(fmt.Sprintf("under the most loaded of %d feet, floor level", len(feet)), most)
	if worst := structure.WorstFoot(all, feet...); worst > most {
		h.foot("under one foot at most, floor uneven", worst)
	}
	if h.w.Footing.Foot == 0 {
		h.a.Say += " How hard each foot presses depends on its size: stand.foot would say it."
	}
	h.a.Cautions = append(h.a.Cautions, "Feet press into wood, tiles and screed: put a board or plates under them, and level the stand so that all of them bear.")
}

func (h *heavy) foot(name string, newtons float64) {
	f := figure(name, quantity.Exactly(quantity.Mass(newtons/structure.G)), h.sys)
	if area := h.w.Footing.Foot; area > 0 {
		f.Text += ", " + pressureText(newtons/area, h.sys) + " under it"
	}
	h.a.Figures = append(h.a.Figures, f)
}

// pressureText shows what a foot presses with.
func pressureText(v float64, sys quantity.System) string {
	if sys == quantity.US {
		return stressText(v, sys)
	}
	return fmt.Sprintf("%.0f kPa", v/1e3)
}

// matters ranks the doubts by what they do to all that stands on the floor.
func (h *heavy) matters() {
	h.a.Matters = h.on.matters(h.w, h.sys, h.kg)
	full, running := h.on.likely, h.of(study.Running, h.under).likely
	e := h.s.E
	level := func(v float64) string { return quantity.Length(v - e.Pool.Floor).Show(h.sys) }
	if e.Pool.DamTop > h.s.Likely.PoolLevel {
		h.a.Matters = append(h.a.Matters, Matter{
			What: "how full the pool is, running to its top", Range: fromTo(level(h.s.Likely.PoolLevel), level(e.Pool.DamTop)),
			Effect: fromTo(h.kg(running), h.kg(full)), Swing: (full - running) / full, Why: "a blocked drain fills it", Line: e.Pool.Pos.Line,
		})
	}
	h.a.Matters = ranked(h.a.Matters)
}

// takenWords says what was taken for granted and left out.
func takenWords(w *study.Weights, sys quantity.System) string {
	list := w.Assumed
	for i := range w.Doubts {
		d := &w.Doubts[i]
		if strings.Contains(d.Why, "no source") || strings.Contains(d.Why, "from memory") {
			list = append(list, fmt.Sprintf("%s %s (%s)", d.What, fromTo(weightText(d, d.Band.Low, sys), weightText(d, d.Band.High, sys)), d.Why))
		}
	}
	out := ""
	if len(list) > 0 {
		out += " Taken, since the file does not say it: " + strings.Join(list, "; ") + "."
	}
	return out + " Left out: " + strings.Join(w.Left, "; ") + "."
}

// floorFigure is a load over an area, kg/m2, as a figure.
func floorFigure(name string, v spread, sys quantity.System) Figure {
	unit, per := "kg/m2", inFloor(1, sys)
	if sys == quantity.US {
		unit = "lb/ft2"
	}
	f := Figure{Name: name, Low: v.low * per, Likely: v.likely * per, High: v.high * per, Unit: unit, Text: floorText(v.likely, sys)}
	if low, high := floorText(v.low, sys), floorText(v.high, sys); low != high {
		f.Text = fromTo(low, high) + ", likely " + f.Text
	}
	return f
}

// inFloor is a load over an area, kg/m2, in the unit of floorFigure.
func inFloor(v float64, sys quantity.System) float64 {
	if sys == quantity.US {
		return v * foot * foot / pound
	}
	return v
}

// floorText shows a load over an area.
func floorText(v float64, sys quantity.System) string {
	if sys == quantity.US {
		return fmt.Sprintf("%.0f lb/ft2", v/pound*foot*foot)
	}
	return fmt.Sprintf("%.0f kg/m2", v)
}
