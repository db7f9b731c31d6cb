package sheets

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"rillwright/answers"
	"rillwright/drawing"
	"rillwright/examples"
)

// changed returns an example with some text in place of other.
func changed(t testing.TB, file []byte, pairs ...string) []byte {
	t.Helper()
	for i := 0; i < len(pairs); i += 2 {
		if !bytes.Contains(file, []byte(pairs[i])) {
			t.Fatalf("the example has no %q", pairs[i])
		}
		file = bytes.Replace(file, []byte(pairs[i]), []byte(pairs[i+1]), 1)
	}
	return file
}

// words returns all words on a sheet, a line each.
func words(s drawing.Sheet) string {
	var out []string
	for _, i := range s.Items {
		if x, ok := i.(*drawing.Text); ok {
			out = append(out, x.Text)
		}
	}
	return strings.Join(out, "\n")
}

func rings(s drawing.Sheet) (n int) {
	for _, i := range s.Items {
		if c, ok := i.(*drawing.Circle); ok && c.Pen == drawing.Thick {
			n++
		}
	}
	return n
}

const cabinetLabel = "label: { flow: 1200 L/h, head: 2.4 m }"

// The curves drawn come from study.SystemHead, the answers from study.Run. They
// must meet at the flow and range that the answers give: the two solve the same
// circuit with and without the pump in it, each to 1e-6 or better.
func TestCurvesMeetAtTheAnswers(t *testing.T) {
	for name, file := range map[string][]byte{
		"cabinet":     examples.CorridorCabinet,
		"counter":     examples.CounterWall,
		"at rest":     changed(t, examples.CorridorCabinet, "when: running", "when: stopped"),
		"from points": changed(t, examples.CorridorCabinet, cabinetLabel, "curve: [{flow: 0 L/h, head: 2.4 m}, {flow: 500 L/h, head: 1.9 m}, {flow: 1200 L/h, head: 0.1 m}]"),
		"slow":        changed(t, examples.CorridorCabinet, cabinetLabel, cabinetLabel+"\n    speed: 95 %"),
	} {
		s := survey(t, file)
		band := s.PumpFlow()
		for side := -1; side <= 1; side++ {
			gives, most, err := s.PumpCurve(side)
			if err != nil {
				t.Fatal(err)
			}
			low, high := 0.0, most
			for range 60 {
				q := (low + high) / 2
				asks, err := s.SystemHead(side, q)
				if err != nil {
					t.Fatal(err)
				}
				if gives(q) > asks {
					low = q
				} else {
					high = q
				}
			}
			if want := float64(band.At(side)); math.Abs(low-want) > 1e-4*want {
				t.Errorf("%s, side %d: curves meet at %.2f L/h, answers say %.2f", name, side, low*3.6e6, want*3.6e6)
			}
		}
	}
}

// Figures in words are those of the answers, read from there.
func TestPumpPlotSaysWhatAnswersSay(t *testing.T) {
	for _, file := range [][]byte{examples.CorridorCabinet, examples.CounterWall} {
		s := survey(t, file)
		sheet, err := PumpPlot(s)
		if err != nil {
			t.Fatal(err)
		}
		lift, ok := s.One("lift")
		if !ok {
			t.Fatal("no answer about the lift")
		}
		text := words(sheet)
		span, likely, found := strings.Cut(lift.Figures[0].Text, ", likely ")
		if !found {
			t.Fatalf("flow reads %q", lift.Figures[0].Text)
		}
		for _, want := range []string{span, "likely " + likely + " at ", "wanted " + flowText(s, s.Target())} {
			if !strings.Contains(text, want) {
				t.Errorf("%q is not on the sheet:\n%s", want, text)
			}
		}
		if rings(sheet) != 1 || !strings.Contains(sheet.Description, lift.Say) {
			t.Errorf("%d rings; %s", rings(sheet), sheet.Description)
		}
	}
}

func TestPumpPlotWithoutFlow(t *testing.T) {
	s := survey(t, changed(t, examples.CorridorCabinet, cabinetLabel, "label: { flow: 1200 L/h, head: 1.2 m }"))
	sheet, err := PumpPlot(s)
	if err != nil {
		t.Fatal(err)
	}
	written(t, sheet)
	// Both are bands all the same: the doubts move the heads, if not the flow.
	for q := 0.0; q < 3e-4; q += 5e-5 {
		var asks, gives [3]float64
		for side := -1; side <= 1; side++ {
			head, _, err := s.PumpCurve(side)
			if err != nil {
				t.Fatal(err)
			}
			if asks[side+1], err = s.SystemHead(side, q); err != nil {
				t.Fatal(err)
			}
			gives[side+1] = head(q)
		}
		if !(asks[0] > asks[1] && asks[1] > asks[2]) && q > 0 || !(gives[0] < gives[1] && gives[1] < gives[2]) && q > 0 {
			t.Errorf("at %g L/h: asks %v, gives %v", q*3.6e6, asks, gives)
		}
	}
	if rings(sheet) != 0 || !strings.Contains(words(sheet), "They do not meet") {
		t.Errorf("%d rings:\n%s", rings(sheet), words(sheet))
	}
}

func TestPumpPlotFromPoints(t *testing.T) {
	s := survey(t, changed(t, examples.CorridorCabinet, cabinetLabel, "curve: [{flow: 0 L/h, head: 2.4 m}, {flow: 500 L/h, head: 1.9 m}, {flow: 1200 L/h, head: 0.1 m}]"))
	sheet, err := PumpPlot(s)
	if err != nil {
		t.Fatal(err)
	}
	written(t, sheet)
	for _, i := range sheet.Items {
		if p, ok := i.(*drawing.Path); ok && p.Fill == drawing.BandA {
			t.Error("a pump known by points has a band")
		}
	}
	if strings.Contains(words(sheet), "label") {
		t.Errorf("a label is spoken of:\n%s", words(sheet))
	}
}

// Names may be long and strange.
func TestLongNames(t *testing.T) {
	long := strings.Repeat("a very long name & <tags> ", 12)
	s := survey(t, examples.CorridorCabinet)
	e := s.E.Clone()
	e.Name, e.Pumps[0].Name, e.Manifolds[0].Name = long, long, long
	s, err := answers.NewSurvey(e)
	if err != nil {
		t.Fatal(err)
	}
	p, err := PumpPlot(s)
	if err != nil {
		t.Fatal(err)
	}
	written(t, p)
	o, err := OutletPlot(s, 0)
	if err != nil {
		t.Fatal(err)
	}
	written(t, o)
}

func TestPumpPlotRefuses(t *testing.T) {
	s := survey(t, examples.CorridorCabinet)
	e := s.E.Clone()
	e.Pumps = append(e.Pumps, e.Pumps[0])
	if _, err := PumpPlot(&answers.Survey{E: e, Likely: s.Likely}); err == nil {
		t.Error("two pumps on one plot")
	}
	e.Pumps = nil
	if _, err := PumpPlot(&answers.Survey{E: e, Likely: s.Likely}); err == nil {
		t.Error("a plot of no pump")
	}
}

func BenchmarkPumpPlot(b *testing.B) {
	s := survey(b, examples.CorridorCabinet)
	for b.Loop() {
		if _, err := PumpPlot(s); err != nil {
			b.Fatal(err)
		}
	}
}
