package sheets

import (
	"fmt"
	"math"

	"rillwright/drawing"
	"rillwright/enclosure"
	"rillwright/quantity"
	"rillwright/study"
)

// lightStep is a step of a day's light and how it is shown: the darker the wall, the
// darker the paper; what algae like is hatched.
type lightStep struct {
	to    float64 // mol/m2
	fill  drawing.Fill
	hatch bool
	say   string
}

func lightSteps() []lightStep {
	return []lightStep{
		{0.5, drawing.Solid, false, "under 0.5: nothing for long"},
		{1.5, drawing.Mid, false, "0.5 to 1.5: mosses"},
		{4, drawing.Pale, false, "1.5 to 4: shade ferns"},
		{8, drawing.NoFill, false, "4 to 8: most foliage"},
		{math.Inf(1), drawing.NoFill, true, "over 8: algae where wet"},
	}
}

// LightStep is a step of a day's light, from the one before it up to To, mol/m2, +Inf
// for the last, with what lives in it.
type LightStep struct {
	To  float64
	Say string
}

// LightSteps returns the steps in which a map of the light is drawn, darkest first;
// from memory of growers.
func LightSteps() []LightStep {
	var out []LightStep
	for _, s := range lightSteps() {
		out = append(out, LightStep{s.to, s.say})
	}
	return out
}

// LightMap draws a day's light on the wall, likely, in steps. ok is false if the file
// has no lamp of which it can be computed.
func LightMap(e *enclosure.Enclosure) (s drawing.Sheet, ok bool, err error) {
	l, err := study.Shine(e)
	if err != nil || l.Dark {
		return s, false, err
	}
	q := &l.Wall.Grid.Quad
	wide, low, high := q.U.X, q.Corner.Z, q.Corner.Z+q.V.Z
	_, name := quantity.Length(wide).In(e.Units)
	u := lengthUnit(name)
	// The frame has the wall's shape, in what the words leave of the sheet.
	room := drawing.Box{Left: 26, Top: 20, Right: plotWidth - 66, Bottom: 104}
	frame := room
	if shape := wide / (high - low); shape > (room.Right-room.Left)/(room.Bottom-room.Top) {
		frame.Top = room.Bottom - (room.Right-room.Left)/shape
	} else {
		frame.Right = room.Left + (room.Bottom-room.Top)*shape
	}
	x, y := newAxis(0, u.of(wide), 6, false), newAxis(u.of(low), u.of(high), 6, false)
	y.min = u.of(low)
	c := newChart(e.Name+": a day's light on the wall", frame, x, y, "from the inside left, "+name, "above the inside bottom, "+name)
	nu, nv := l.Wall.Grid.NU, l.Wall.Grid.NV
	steps := lightSteps()
	at := func(i, j int) drawing.Point {
		return drawing.Point{
			X: frame.Left + (frame.Right-frame.Left)*float64(i)/float64(nu),
			Y: frame.Bottom - (frame.Bottom-frame.Top)*float64(j)/float64(nv),
		}
	}
	for j := range nv {
		for i := 0; i < nu; { // neighbours of one step are one area
			k := stepOf(steps, l.Wall.DLI[j*nu+i])
			to := i + 1
			for to < nu && stepOf(steps, l.Wall.DLI[j*nu+to]) == k {
				to++
			}
			c.swatch(drawing.Box{Left: at(i, j+1).X, Top: at(i, j+1).Y, Right: at(to, j).X, Bottom: at(to, j).Y}, &steps[k], drawing.NoPen)
			i = to
		}
	}
	c.border()
	for k := range steps {
		top := room.Top + 4 + 9*float64(k)
		c.swatch(drawing.Box{Left: frame.Right + 5, Top: top, Right: frame.Right + 11, Bottom: top + 6}, &steps[k], drawing.Thin)
		c.word(steps[k].say, small, drawing.Point{X: frame.Right + 13, Y: top + 4.4}, drawing.Left)
	}
	c.word("mol/m2 in a day, likely", small, drawing.Point{X: frame.Right + 5, Y: room.Top + 2}, drawing.Left)
	var thirds string
	for i := range l.Faces {
		if i > 0 {
			thirds += ", "
		}
		thirds += fmt.Sprintf("%s %.1f", l.Faces[i].Name, l.Faces[i].Mean)
	}
	c.caption(
		fmt.Sprintf("Mean of the wall %.1f mol/m2 a day (%.1f to %.1f): %s.", l.Wall.Mean, l.Wall.Mean*l.Share.Low, l.Wall.Mean*l.Share.High, thirds),
		"From the lamps with all bounces between the walls; no daylight, and nothing shades another. Steps are from memory of growers.",
	)
	return c.sheet, true, nil
}

// stepOf returns the step of a day's light.
func stepOf(steps []lightStep, dli float64) int {
	for k := range steps {
		if dli < steps[k].to {
			return k
		}
	}
	return len(steps) - 1
}

// swatch fills a box as a step is shown.
func (c *chart) swatch(b drawing.Box, s *lightStep, pen drawing.Pen) {
	if s.fill != drawing.NoFill || pen != drawing.NoPen {
		c.sheet.Add(drawing.Rectangle(b, pen, s.fill))
	}
	if s.hatch {
		corners := []drawing.Point{{X: b.Left, Y: b.Top}, {X: b.Right, Y: b.Top}, {X: b.Right, Y: b.Bottom}, {X: b.Left, Y: b.Bottom}}
		c.sheet.Add(drawing.Hatch(corners, 45, 1.2, drawing.Fine)...)
	}
}
