package sheets

import (
	"errors"
	"fmt"
	"math"

	"rillwright/answers"
	"rillwright/drawing"
)

// PumpPlot draws head against flow of a design with one pump: what the pump
// gives, what the circuit asks for, both likely and from their good to their
// bad end, where they meet and what is wanted. The error is of a design without
// a pump or with several, or of a circuit that cannot be solved.
func PumpPlot(s *answers.Survey) (drawing.Sheet, error) {
	if len(s.E.Pumps) != 1 {
		return drawing.Sheet{}, errors.New("this plot is for a design with one pump")
	}
	p := &pumpPlot{s: s, flow: flowUnit(s.E.Units), head: headUnit(s.E.Units)}
	if err := p.compute(); err != nil {
		return drawing.Sheet{}, err
	}
	return p.draw(), nil
}

// curve is a line in m3/s and m.
type curve struct{ q, h []float64 }

type pumpPlot struct {
	s            *answers.Survey
	flow, head   unit
	pump, system [3]curve // at the bad end, likely, at the good end
	x, y         axis
	q, h         float64 // running point, likely
}

// The number of points along each curve. On paper, a chord then lies within a
// hair of an arc: a twentieth of a mm.
const pumpPoints, systemPoints = 80, 30

// The plot shows flows up to this many times the most that may flow or is
// wanted.
const reach = 2.2

func (p *pumpPlot) compute() error {
	end, top := 0.0, 0.0
	for side := -1; side <= 1; side++ {
		head, most, err := p.s.PumpCurve(side)
		if err != nil {
			return err
		}
		c := &p.pump[side+1]
		for i := range pumpPoints + 1 {
			q := most * float64(i) / pumpPoints
			c.q, c.h = append(c.q, q), append(c.h, head(q))
		}
		end, top = math.Max(end, most), math.Max(top, c.h[0])
		if side == 0 {
			p.q = p.s.Likely.Pumps[0].Flow
			p.h = head(p.q)
		}
	}
	still, err := p.s.SystemHead(-1, 0)
	if err != nil {
		return fmt.Errorf("the head that the circuit asks for: %w", err)
	}
	// A large pump's curve goes on far beyond where it runs.
	if used := reach * math.Max(float64(p.s.PumpFlow().High), p.s.Target()); p.q > 0 && used < end {
		end = used
	}
	p.x = newAxis(0, p.flow.of(math.Max(end, 1.05*p.s.Target())), 8, true)
	p.y = newAxis(0, p.head.of(math.Max(top, 1.1*still)), 6, true)
	for side := -1; side <= 1; side++ {
		if p.system[side+1], err = p.circuit(side); err != nil {
			return err
		}
	}
	return nil
}

// circuit follows the head that the circuit asks for until it leaves the plot.
// A flow at which the circuit does not settle is passed over.
func (p *pumpPlot) circuit(side int) (curve, error) {
	coarse, err := p.follow(side, p.x.max*p.flow.si, systemPoints/2)
	if err != nil {
		return coarse, err
	}
	return p.follow(side, coarse.q[len(coarse.q)-1], systemPoints)
}

func (p *pumpPlot) follow(side int, end float64, points int) (curve, error) {
	var c curve
	var failed error
	for i := range points + 1 {
		q := end * float64(i) / float64(points)
		h, err := p.s.SystemHead(side, q)
		if err != nil {
			failed = err
			continue
		}
		c.q, c.h = append(c.q, q), append(c.h, h)
		if p.head.of(h) > p.y.max {
			break
		}
	}
	if len(c.q) < 2 {
		return c, fmt.Errorf("the head that the circuit asks for: %w", failed)
	}
	return c, nil
}

func (p *pumpPlot) draw() drawing.Sheet {
	frame := drawing.Box{Left: 26, Top: 20, Right: plotWidth - margin, Bottom: 104}
	c := newChart(p.s.E.Name+": pump and circuit", frame, p.x, p.y,
		"flow, "+p.flow.name, "head, "+p.head.name+" of water")
	on := func(k curve) []drawing.Point {
		out := make([]drawing.Point, len(k.q))
		for i := range k.q {
			out[i] = c.at(p.flow.of(k.q[i]), p.head.of(k.h[i]))
		}
		return out
	}
	band := c.between(on(p.pump[0]), on(p.pump[2]))
	if p.pumpInDoubt() && band != nil {
		c.sheet.Add(&drawing.Path{Points: band, Closed: true, Fill: drawing.BandA})
		c.areas = append(c.areas, area{band, coverShade})
	}
	if asks := c.between(on(p.system[0]), on(p.system[2])); asks != nil {
		c.sheet.Add(drawing.Hatch(asks, 45, 1.6, drawing.Fine)...)
		c.areas = append(c.areas, area{asks, coverHatch})
	}
	for _, end := range []*curve{&p.pump[0], &p.pump[2], &p.system[0], &p.system[2]} {
		for _, part := range drawing.ClipLine(on(*end), frame) {
			c.sheet.Add(&drawing.Path{Points: part, Pen: drawing.Fine})
			c.grid = append(c.grid, part)
		}
	}
	p.wanted(c)
	gives, asks := on(p.pump[1]), on(p.system[1])
	c.line(gives, drawing.CurveA)
	c.line(asks, drawing.CurveB)
	c.border()
	p.running(c)
	name := p.s.E.Pumps[0].Name
	c.label(name, along(gives, c.room, 0.85, 0.75, 0.65, 0.55, 0.2)...)
	c.label("circuit: lift and losses", along(asks, c.room, 0.95, 0.85, 0.7, 0.5, 0.3, 0.15)...)
	p.caption(c)
	return c.sheet
}

// wanted draws the wanted flow and names it over the frame.
func (p *pumpPlot) wanted(c *chart) {
	target := p.s.Target()
	if target <= 0 {
		return
	}
	x := c.at(p.flow.of(target), 0).X
	c.line([]drawing.Point{{X: x, Y: c.frame.Bottom}, {X: x, Y: c.frame.Top}}, drawing.Dashed)
	text := "wanted " + flowText(p.s, target)
	half := drawing.TextWidth(text, small) / 2
	c.word(text, small, drawing.Point{X: min(max(x, c.frame.Left+half), c.frame.Right-half), Y: c.frame.Top - 1.6}, drawing.Middle)
}

// running draws the point at which the pump runs, and its range along the foot
// of the plot.
func (p *pumpPlot) running(c *chart) {
	if p.q <= 0 {
		return
	}
	const ring = 1.8
	at := c.at(p.flow.of(p.q), p.head.of(p.h))
	b := p.s.PumpFlow()
	foot := c.frame.Bottom - 5
	low, high := c.at(p.flow.of(float64(b.Low)), 0), c.at(p.flow.of(float64(b.High)), 0)
	low.Y, high.Y = foot, foot
	stem := []drawing.Point{{X: at.X, Y: at.Y + ring}, {X: at.X, Y: foot}}
	c.sheet.Add(drawing.Line(stem[0], stem[1], drawing.Thin))
	c.lines = append(c.lines, stem)
	c.whisker(low, high, 1.5)
	c.sheet.Add(
		&drawing.Circle{Centre: drawing.Point{X: at.X, Y: foot}, Radius: 0.9, Pen: drawing.Medium, Fill: drawing.Solid},
		&drawing.Circle{Centre: at, Radius: ring, Pen: drawing.Thick},
		&drawing.Circle{Centre: at, Radius: 0.4, Fill: drawing.Solid},
	)
	box := drawing.Box{Left: at.X, Top: at.Y, Right: at.X, Bottom: at.Y}.Grown(ring)
	c.texts = append(c.texts, box)
	// The stem leads to the ring, so the words may stand anywhere along it.
	var led []drawing.Point
	for k := range 12 {
		led = append(led, drawing.Point{X: at.X, Y: stem[0].Y + (0.2+0.05*float64(k))*(foot-stem[0].Y)})
	}
	c.beside("likely "+flowText(p.s, p.q)+" at "+headText(p.h, p.s.E.Units), led...)
	c.label(b.Show(p.s.E.Units), high, low)
}

func (p *pumpPlot) caption(c *chart) {
	pump := &p.s.E.Pumps[0]
	blue := "Full line and shade: the head that the " + pump.Name + " gives, likely and by the lowest and highest reading of its label."
	if !p.pumpInDoubt() {
		blue = "Full line: the head that the " + pump.Name + " gives."
	}
	hatch := "Long dashes and hatching: the head that the circuit asks for, likely and from its good to its bad end."
	lift, _ := p.s.One("lift")
	meet := "Where they meet it runs; the bar at the foot shows how far that point may move."
	out := p.s.Likely.Outlets
	switch {
	case p.q <= 0:
		still, _ := p.s.SystemHead(0, 0)
		meet = fmt.Sprintf("They do not meet: the pump gives %s at most, and %s are needed before anything flows.",
			headText(p.pump[1].h[0], p.s.E.Units), headText(still, p.s.E.Units))
	case math.Abs(out-p.q) > 0.005*p.q:
		meet += fmt.Sprintf(" Of the pump's %s, %s come out of the outlets.", flowText(p.s, p.q), flowText(p.s, out))
	}
	c.caption(lift.Say, blue, hatch, meet)
}

// pumpInDoubt reports whether the pump's curve is a band.
func (p *pumpPlot) pumpInDoubt() bool {
	curve := &p.s.E.Pumps[0].Curve
	_, doubt := curve.Shape.Doubt()
	return curve.Label && doubt
}

// along returns the points at some shares of the part of a line that lies in a
// box.
func along(line []drawing.Point, box drawing.Box, shares ...float64) []drawing.Point {
	var in, out []drawing.Point
	for _, part := range drawing.ClipLine(line, box) {
		in = append(in, part...)
	}
	if len(in) == 0 {
		return nil
	}
	for _, f := range shares {
		out = append(out, in[int(f*float64(len(in)-1))])
	}
	return out
}
