package sheets

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"unicode"
	"unicode/utf8"

	"rillwright/answers"
	"rillwright/drawing"
	"rillwright/enclosure"
	"rillwright/quantity"
)

// OutletPlot draws the flow of each outlet of a manifold against its distance
// from the left end, likely and over the doubts. The error is of a manifold
// that the design does not have, or one without outlets.
func OutletPlot(s *answers.Survey, manifold int) (drawing.Sheet, error) {
	if manifold < 0 || manifold >= len(s.E.Manifolds) {
		return drawing.Sheet{}, fmt.Errorf("the design has %d manifolds, not a number %d", len(s.E.Manifolds), manifold+1)
	}
	m := &s.E.Manifolds[manifold]
	if len(m.Outlets) == 0 {
		return drawing.Sheet{}, fmt.Errorf("the %s has no outlets", m.Name)
	}
	p := &outletPlot{title: s.E.Name + ": outlets of the " + m.Name, units: s.E.Units, length: m.Length}
	low, high := s.OutletRange(manifold)
	for i, o := range m.Outlets {
		p.outlets = append(p.outlets, outletFlow{o.At, low[i], s.Likely.Manifolds[manifold].Flow[i], high[i]})
	}
	for i := range s.E.Runs {
		if u := &s.E.Runs[i]; u.To.Kind == enclosure.AtManifold && u.To.Index == manifold {
			p.feeds = append(p.feeds, u.At)
		}
	}
	if a, ok := s.One("even[" + m.Name + "]"); ok {
		p.say = a.Question + " " + a.Say
		if f := a.Figures; a.Key < len(f) {
			p.quarter = capital(f[a.Key].Name) + ": " + f[a.Key].Text + "."
		}
	}
	return p.draw(), nil
}

// outletFlow is one outlet, in m and m3/s.
type outletFlow struct{ at, low, likely, high float64 }

type outletPlot struct {
	title, say, quarter string
	units               quantity.System
	length              float64
	outlets             []outletFlow
	feeds               []float64
}

// Up to mostBars outlets are drawn as bars, more as a band of mostBins steps.
const mostBars, mostBins = 60, 300

func (p *outletPlot) draw() drawing.Sheet {
	slices.SortStableFunc(p.outlets, func(a, b outletFlow) int { return cmp.Compare(a.at, b.at) })
	n := len(p.outlets)
	mean, most, pitch := 0.0, 0.0, math.Inf(1)
	for i, o := range p.outlets {
		mean += o.likely / float64(n)
		most = math.Max(most, o.high)
		if d := o.at - p.outlets[max(i-1, 0)].at; d > 0 {
			pitch = math.Min(pitch, d)
		}
	}
	_, name := quantity.Length(p.length).In(p.units)
	dist, flow := lengthUnit(name), flowUnit(p.units)
	end := math.Max(p.length, p.outlets[n-1].at)
	if math.IsInf(pitch, 1) {
		pitch = math.Max(end, 0.1) / 4
	}
	least := math.Min(0, p.outlets[0].at-0.4*pitch)
	end = math.Max(end, p.outlets[n-1].at+0.4*pitch)
	frame := drawing.Box{Left: 26, Top: 26, Right: plotWidth - 35, Bottom: 104}
	c := newChart(p.title, frame,
		newAxis(dist.of(least), dist.of(end), 10, false), newAxis(0, flow.of(most)*1.02, 6, true),
		"distance from the left end, "+name, "flow of each outlet, "+flow.name)
	how := "Bars: each outlet, likely."
	over := "Whiskers: "
	if n <= mostBars {
		p.bars(c, dist, flow, pitch)
	} else {
		p.band(c, dist, flow)
		how = fmt.Sprintf("Line: the %d outlets, likely, the mean of neighbours.", n)
		over = "Shade: "
	}
	y := c.at(0, flow.of(mean)).Y
	c.sheet.Add(drawing.Line(drawing.Point{X: frame.Left, Y: y}, drawing.Point{X: frame.Right + 2, Y: y}, drawing.Dashed))
	c.border()
	top := min(max(y-1, frame.Top+small), frame.Bottom-leading)
	c.word("mean", small, drawing.Point{X: frame.Right + 3, Y: top}, drawing.Left)
	c.word(quantity.Flow(mean).Show(p.units), small, drawing.Point{X: frame.Right + 3, Y: top + leading - 0.6}, drawing.Left)
	p.arrows(c, dist)
	c.caption(p.say, p.quarter,
		how+" Dashes: their mean. "+over+"the least and the most that each may get, over every state computed: each doubt alone at either end, and all together at the worst and best for the flow and for evenness. Holes are taken as equal in size.")
	return c.sheet
}

func (p *outletPlot) bars(c *chart, dist, flow unit, pitch float64) {
	wide := c.at(dist.of(pitch), 0).X - c.at(0, 0).X
	half := min(max(0.3*wide, 0.3), 4)
	for _, o := range p.outlets {
		foot, head := c.at(dist.of(o.at), 0), c.at(dist.of(o.at), flow.of(o.likely))
		if o.likely > 0 {
			c.sheet.Add(drawing.Rectangle(drawing.Box{Left: foot.X - half, Top: head.Y, Right: foot.X + half, Bottom: foot.Y}, drawing.Thin, drawing.Pale))
		}
		if o.high > o.low {
			c.whisker(c.at(dist.of(o.at), flow.of(o.low)), c.at(dist.of(o.at), flow.of(o.high)), min(0.6*half, 1.5))
		}
	}
}

// band draws the outlets in steps along the manifold: the lowest and highest of
// each step, and the mean of its likely flows.
func (p *outletPlot) band(c *chart, dist, flow unit) {
	n := len(p.outlets)
	steps := min(n, mostBins)
	var low, likely, high []drawing.Point
	for k := range steps {
		part := p.outlets[k*n/steps : (k+1)*n/steps]
		o := outletFlow{low: math.Inf(1)}
		for _, q := range part {
			o.at += q.at / float64(len(part))
			o.likely += q.likely / float64(len(part))
			o.low, o.high = math.Min(o.low, q.low), math.Max(o.high, q.high)
		}
		x := dist.of(o.at)
		low = append(low, c.at(x, flow.of(o.low)))
		likely = append(likely, c.at(x, flow.of(o.likely)))
		high = append(high, c.at(x, flow.of(o.high)))
	}
	if area := c.between(low, high); area != nil {
		c.sheet.Add(&drawing.Path{Points: area, Closed: true, Pen: drawing.Thin, Fill: drawing.Pale})
	}
	c.line(likely, drawing.CurveA)
}

// arrows marks where the manifold is fed.
func (p *outletPlot) arrows(c *chart, dist unit) {
	for _, f := range p.feeds {
		tip := c.at(dist.of(f), 0)
		tip.Y = c.frame.Top - 0.4
		neck := drawing.Point{X: tip.X, Y: tip.Y - 2.4}
		c.sheet.Add(
			drawing.Line(drawing.Point{X: tip.X, Y: tip.Y - 4.6}, neck, drawing.Thick),
			&drawing.Path{Points: []drawing.Point{tip, {X: tip.X - 1.1, Y: neck.Y}, {X: tip.X + 1.1, Y: neck.Y}}, Closed: true, Pen: drawing.Fine, Fill: drawing.Solid},
		)
		t := &drawing.Text{Text: "feed", Height: small, At: drawing.Point{X: tip.X, Y: tip.Y - 6}, Anchor: drawing.Middle}
		// Feeds side by side share one word.
		if slices.ContainsFunc(c.texts, t.Bounds().Overlaps) {
			continue
		}
		c.sheet.Add(t)
		c.texts = append(c.texts, t.Bounds())
	}
}

func flowText(s *answers.Survey, q float64) string { return quantity.Flow(q).Show(s.E.Units) }

// capital writes a name as it begins a sentence.
func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}
