package sheets

import (
	"math"
	"strings"
	"testing"

	"rillwright/answers"
	"rillwright/drawing"
	"rillwright/examples"
	"rillwright/quantity"
)

// bars returns the heights of the bars, mm, from the left.
func bars(s drawing.Sheet) (heights []float64) {
	for _, i := range s.Items {
		if p, ok := i.(*drawing.Path); ok && p.Fill == drawing.Pale && len(p.Points) == 4 {
			heights = append(heights, p.Points[2].Y-p.Points[0].Y)
		}
	}
	return heights
}

// Bars are as high, compared with one another, as the flows computed, and each
// whisker holds every state of its outlet.
func TestBarsAreTheFlows(t *testing.T) {
	for _, file := range [][]byte{examples.CorridorCabinet, examples.CounterWall} {
		s := survey(t, file)
		sheet, err := OutletPlot(s, 0)
		if err != nil {
			t.Fatal(err)
		}
		flows, heights := s.Likely.Manifolds[0].Flow, bars(sheet)
		if len(heights) != len(flows) {
			t.Fatalf("%d bars for %d outlets", len(heights), len(flows))
		}
		low, high := s.OutletRange(0)
		sumLow, sumHigh := 0.0, 0.0
		for i, q := range flows {
			if got, want := heights[i]/heights[0], q/flows[0]; math.Abs(got-want) > 1e-9 {
				t.Errorf("bar %d is %g times the first, its flow %g times", i+1, got, want)
			}
			if !(low[i] <= q && q <= high[i]) {
				t.Errorf("outlet %d: likely %g outside %g to %g", i+1, q, low[i], high[i])
			}
			sumLow, sumHigh = sumLow+low[i], sumHigh+high[i]
		}
		// All outlets together range at least as far as their sum does.
		if b := s.Flow(); sumLow > float64(b.Low)*(1+1e-9) || sumHigh < float64(b.High)*(1-1e-9) {
			t.Errorf("whiskers add up to %g to %g, the flow to %g to %g", sumLow, sumHigh, b.Low, b.High)
		}
		even, ok := s.One("even[" + s.E.Manifolds[0].Name + "]")
		text := strings.ReplaceAll(words(sheet), "\n", " ")
		for _, want := range []string{even.Say, even.Figures[even.Key].Text, "feed", "mean"} {
			if !ok || !strings.Contains(text, want) {
				t.Errorf("%q is not on the sheet: %s", want, text)
			}
		}
	}
}

func TestOutletPlotWithoutFlow(t *testing.T) {
	s := survey(t, changed(t, examples.CorridorCabinet, cabinetLabel, "label: { flow: 1200 L/h, head: 1.2 m }"))
	sheet, err := OutletPlot(s, 0)
	if err != nil {
		t.Fatal(err)
	}
	written(t, sheet)
	if n := len(bars(sheet)); n != 0 || !strings.Contains(words(sheet), "No water reaches it.") {
		t.Errorf("%d bars:\n%s", n, words(sheet))
	}
}

func TestOneOutlet(t *testing.T) {
	s := survey(t, changed(t, examples.CorridorCabinet, "count: 27, pitch: 30 mm", "count: 1, pitch: 30 mm"))
	sheet, err := OutletPlot(s, 0)
	if err != nil {
		t.Fatal(err)
	}
	written(t, sheet)
	if n := len(bars(sheet)); n != 1 {
		t.Errorf("%d bars", n)
	}
}

// However many outlets, the sheet holds a bounded number of things.
func many(n int) *outletPlot {
	p := &outletPlot{title: "many", units: quantity.Metric, length: 30, feeds: []float64{0, 15, 15.1, 30}}
	for i := range n {
		q := 1e-6 * (2 + math.Sin(float64(i)/500))
		p.outlets = append(p.outlets, outletFlow{30 * (float64(i) + 0.5) / float64(n), 0.5 * q, q, 1.2 * q})
	}
	return p
}

func TestManyOutlets(t *testing.T) {
	for _, n := range []int{2, mostBars, mostBars + 1, mostBins + 1, 10_000, 100_000} {
		sheet := many(n).draw()
		if n > mostBars && len(sheet.Items) > 100 {
			t.Errorf("%d outlets make %d items", n, len(sheet.Items))
		}
		points := 0
		for _, i := range sheet.Items {
			if p, ok := i.(*drawing.Path); ok {
				points += len(p.Points)
			}
		}
		if points > 4*mostBins+200 && n > mostBars {
			t.Errorf("%d outlets make %d points", n, points)
		}
		written(t, sheet)
	}
}

// Places that coincide, or all at the end of a manifold of no length.
func TestDegenerateOutlets(t *testing.T) {
	for _, p := range []*outletPlot{
		{outlets: []outletFlow{{0, 0, 0, 0}}},
		{outlets: []outletFlow{{0, 1e-6, 1e-6, 1e-6}, {0, 1e-6, 2e-6, 3e-6}}},
		{length: 1, outlets: []outletFlow{{1, 0, 1e-6, 2e-6}, {1, 0, 1e-6, 2e-6}}, feeds: []float64{1, 1}},
		{length: 0.5, units: quantity.US, outlets: []outletFlow{{0.7, 0, 1e-9, 2e-9}}},
	} {
		written(t, p.draw())
	}
}

// Labels of axes fit for any flow and length that could come up.
func TestScales(t *testing.T) {
	for _, units := range []quantity.System{quantity.Metric, quantity.US} {
		for flow := 1e-9; flow < 0.1; flow *= 3 {
			for length := 0.02; length < 50; length *= 3 {
				p := &outletPlot{units: units, length: length, feeds: []float64{length}}
				for i := range 5 {
					p.outlets = append(p.outlets, outletFlow{length * float64(i) / 4, flow / 2, flow, flow * 1.1})
				}
				written(t, p.draw())
			}
		}
	}
}

func TestOutletPlotRefuses(t *testing.T) {
	s := survey(t, examples.CorridorCabinet)
	for _, i := range []int{-1, len(s.E.Manifolds)} {
		if _, err := OutletPlot(s, i); err == nil {
			t.Errorf("a plot of manifold %d", i)
		}
	}
	e := s.E.Clone()
	e.Manifolds[0].Outlets = nil
	if _, err := OutletPlot(&answers.Survey{E: e, Likely: s.Likely}, 0); err == nil {
		t.Error("a plot of no outlets")
	}
}

func BenchmarkManyOutlets(b *testing.B) {
	p := many(10_000)
	b.ReportAllocs()
	for b.Loop() {
		p.draw()
	}
}
