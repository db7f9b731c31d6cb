package sheets

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"rillwright/answers"
	"rillwright/drawing"
	"rillwright/quantity"
)

// ReserveMark names a level of the sump in a reserve plot: as it is, as it might
// be.
type ReserveMark struct {
	Name  string
	Level float64 // m above the sump's bottom
}

// Reserve draws what a fuller sump brings and what it costs: how long it runs
// with nobody topping up, and what reaches the floor if the drain blocks, one
// over the other against the level while running. Levels from which the sump
// runs over its rim after a power cut are hatched. Marks beyond the points are
// left out. The error is of fewer than two points, of levels that do not rise,
// or of a figure that is none or has no end.
func Reserve(sys quantity.System, title string, points []answers.ReservePoint, marks ...ReserveMark) (drawing.Sheet, error) {
	if len(points) < 2 {
		return drawing.Sheet{}, errors.New("two levels of the sump or more make a plot")
	}
	days, spill := 0.0, 0.0
	for i, p := range points {
		if sum := p.Level + p.Days + p.Spill + p.Free; math.IsNaN(sum) || math.IsInf(sum, 0) {
			return drawing.Sheet{}, fmt.Errorf("at a level of %s a figure is not known or has no end", quantity.Length(p.Level).Show(sys))
		}
		if i > 0 && !(p.Level > points[i-1].Level) {
			return drawing.Sheet{}, errors.New("the levels of the sump must rise from point to point")
		}
		days, spill = math.Max(days, p.Days), math.Max(spill, p.Spill)
	}
	r := &reserve{sys: sys, points: points, marks: marks}
	r.place(title, days, spill)
	r.draw()
	return r.sheet, nil
}

type reserve struct {
	*stack
	sys                quantity.System
	points             []answers.ReservePoint
	marks              []ReserveMark
	level, days, spill unit
}

// place makes the two strips.
func (r *reserve) place(title string, days, spill float64) {
	first, last := r.points[0].Level, r.points[len(r.points)-1].Level
	_, name := quantity.Length(last).In(r.sys)
	r.level = lengthUnit(name)
	r.days = timeUnit(math.Max(days, 3*day))
	r.spill = volumeUnit(math.Max(spill, 1e-3), r.sys)
	// Unlike other axes this one does not begin at 0: an empty sump is no choice.
	x := axis{min: r.level.of(first), max: r.level.of(last), step: niceStep(r.level.of(last-first) / 10)}
	strips := []strip{
		{name: "Lasts with nobody topping up, " + r.days.name, y: newAxis(0, r.days.of(days)*1.08, 4, false)},
		{name: "On the floor if the drain blocks, at worst, " + r.spill.name, y: newAxis(0, math.Max(r.spill.of(spill)*1.08, r.spill.of(leastSpill)), 4, false)},
	}
	r.stack = newStack(title, plotWidth, plotHeight, 32, 107, x, strips)
}

func (r *reserve) draw() {
	line := func(i int, u unit, of func(p *answers.ReservePoint) float64) []drawing.Point {
		r.enter(i)
		out := make([]drawing.Point, len(r.points))
		for k := range r.points {
			out[k] = r.at(r.level.of(r.points[k].Level), u.of(of(&r.points[k])))
		}
		return out
	}
	lasts := line(0, r.days, func(p *answers.ReservePoint) float64 { return p.Days })
	floor := line(1, r.spill, func(p *answers.ReservePoint) float64 { return p.Spill })
	from, over := r.over()
	if over {
		for _, p := range r.strips {
			box := p.frame
			box.Left = r.at(r.level.of(from), 0).X
			if box.Right > box.Left {
				corners := drawing.Rectangle(box, drawing.NoPen, drawing.NoFill).Points
				r.sheet.Add(drawing.Hatch(corners, 45, 2, drawing.Fine)...)
				r.sheet.Add(drawing.Line(drawing.Point{X: box.Left, Y: box.Top}, drawing.Point{X: box.Left, Y: box.Bottom}, drawing.Dashed))
			}
		}
	}
	r.scaffold("water in the sump, pump standing still, over its bottom, " + r.level.name)
	r.mark()
	r.enter(0)
	r.line(lasts, drawing.Thick)
	r.border()
	r.enter(1)
	r.line(floor, drawing.Heavy)
	r.border()
	text := "Hatched: so full that the sump runs over its rim when the power fails."
	if !over {
		least := slices.MinFunc(r.points, func(a, b answers.ReservePoint) int { return cmp.Compare(a.Free, b.Free) })
		text = "When the power fails, " + quantity.Volume(least.Free).Show(r.sys) + " or more stay free under the sump's rim at all of these levels."
	}
	said := []string{}
	for _, m := range r.marks {
		if p, ok := r.figures(m.Level); ok {
			said = append(said, fmt.Sprintf("%s: lasts %s, %s on the floor at worst.",
				capital(m.Name), clock(p.Days), quantity.Volume(p.Spill).Show(r.sys)))
		}
	}
	r.caption(append(said, text)...)
}

// figures are those at a level, between points; ok is false beyond them.
func (r *reserve) figures(level float64) (p answers.ReservePoint, ok bool) {
	for i, b := range r.points[1:] {
		a := r.points[i]
		if level < a.Level-1e-9 || level > b.Level+1e-9 {
			continue
		}
		f := (level - a.Level) / (b.Level - a.Level)
		return answers.ReservePoint{Level: level, Days: a.Days + f*(b.Days-a.Days), Spill: a.Spill + f*(b.Spill-a.Spill)}, true
	}
	return p, false
}

// over returns the level from which the sump runs over after a power cut,
// between points, m; ok is false if it does at none.
func (r *reserve) over() (level float64, ok bool) {
	for i, p := range r.points {
		if p.Free > 0 {
			continue
		}
		if i == 0 {
			return p.Level, true
		}
		q := r.points[i-1]
		return q.Level + (p.Level-q.Level)*q.Free/(q.Free-p.Free), true
	}
	return 0, false
}

// mark draws the marks that lie among the points.
func (r *reserve) mark() {
	marks := slices.Clone(r.marks)
	slices.SortStableFunc(marks, func(a, b ReserveMark) int { return cmp.Compare(a.Level, b.Level) })
	var at []float64
	var names []string
	for _, m := range marks {
		if _, ok := r.figures(m.Level); ok {
			v := r.level.of(m.Level)
			at, names = append(at, v), append(names, drawing.Fit(m.Name+", "+quantity.Length(m.Level).Show(r.sys), small, widest))
		}
	}
	r.flags(at, names)
}
