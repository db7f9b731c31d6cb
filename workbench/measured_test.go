package workbench

import (
	"encoding/json"
	"math"
	"net/http"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"rillwright"
	"rillwright/asbuilt"
	"rillwright/enclosure"
	"rillwright/internal/logbook"
	"rillwright/record"
	"rillwright/works"
)

// noteAll notes lines beside wall.yaml, of one day.
func noteAll(t *testing.T, folder string, lines ...string) []record.Reading {
	t.Helper()
	var list []record.Reading
	for _, l := range lines {
		r, err := record.Typed(l, record.Names{Pumps: []string{"main pump"}, Manifolds: []string{"drip bar"}})
		if err != nil {
			t.Fatal(err)
		}
		r.Time = time.Date(2026, 3, 1, 10, len(list), 0, 0, time.UTC)
		list = append(list, r)
	}
	if err := logbook.Add(filepath.Join(folder, "wall.log"), list...); err != nil {
		t.Fatal(err)
	}
	return list
}

// Answers from what was measured are those that the chain gives of it, which is what
// the command shows; without a log, or where nobody asks, nothing is changed. What is
// noted meanwhile counts at once.
func TestAnswersFromReadings(t *testing.T) {
	b, folder := bench(t)
	text, err := os.ReadFile(filepath.Join(folder, "wall.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	answer := func(name string, measured bool) heard {
		t.Helper()
		code, data := ask(t, b, "POST", "/api/compute", computeRequest{Name: name, Text: string(text), Measured: measured})
		var out heard
		if err := json.Unmarshal(data, &out); err != nil || code != http.StatusOK || name != "demo" && len(out.Report.Answers) == 0 {
			t.Fatalf("%d %v %.300s", code, err, data)
		}
		return out
	}
	if out := answer("wall.yaml", true); out.Readings != 0 || out.Measured {
		t.Errorf("without a log: %d readings, measured %t", out.Readings, out.Measured)
	}
	first := noteAll(t, folder, "bare 10 L in 31 s, 31 s, 30 s", "shut-off 2.35 m", "manifold 5 L in 51 s, 50 s, 51 s")
	planned := answer("wall.yaml", false)
	if planned.Readings != 3 || planned.Measured {
		t.Errorf("%d readings, measured %t", planned.Readings, planned.Measured)
	}
	built := answer("wall.yaml", true)
	if !built.Measured {
		t.Error("not measured")
	}
	rep, err := rillwright.Build("wall.yaml", text, rillwright.Options{
		NoFixes: true, Structure: true, Faults: rillwright.MainFaults, Today: works.Today(time.Now()),
		AsBuilt: func(e *enclosure.Enclosure) (*enclosure.Enclosure, error) {
			f, err := asbuilt.Of(e, first)
			if err != nil {
				return nil, err
			}
			return f.Enclosure(), nil
		},
	})
	if err != nil {
		t.Fatal(err)
	}
	var want heard
	for i := range rep.Answers {
		a := &rep.Answers[i]
		one := heardAnswer{ID: a.ID}
		for _, f := range a.Figures {
			one.Figures = append(one.Figures, heardFigure{f.Low, f.Likely, f.High})
		}
		want.Report.Answers = append(want.Report.Answers, one)
	}
	got, before := built.flow(t), planned.flow(t)
	near := cmp.Comparer(func(a, b float64) bool { return math.Abs(a-b) <= 1e-5*math.Abs(a) }) // the page is told six digits
	if diff := cmp.Diff(want.flow(t), got, near); diff != "" {
		t.Error(diff)
	}
	if got.High-got.Low > 0.7*(before.High-before.Low) {
		t.Errorf("the flow is known to %v, before to %v", got, before)
	}
	noteAll(t, folder, "hose 10 L in 45 s")
	if out := answer("wall.yaml", true); out.Readings != 4 {
		t.Errorf("%d readings, another was noted", out.Readings)
	}
	if out := answer("demo", true); out.Readings != 0 || out.Measured {
		t.Error("a built-in design has readings")
	}
}

// heard is what a test reads of an outcome.
type heard struct {
	Readings int
	Measured bool
	Report   struct{ Answers []heardAnswer }
}

type heardAnswer struct {
	ID      string
	Figures []heardFigure
}

type heardFigure struct{ Low, Likely, High float64 }

// flow is the first figure of the answer about the pump.
func (h *heard) flow(t *testing.T) heardFigure {
	t.Helper()
	for _, a := range h.Report.Answers {
		if a.ID == "lift" {
			return a.Figures[0]
		}
	}
	t.Fatal("no answer about the pump")
	return heardFigure{}
}

// On the page the answers change to what was measured, and back.
func TestPageMeasured(t *testing.T) {
	p := openPage(t, 1440, 900)
	noteAll(t, p.folder, "bare 10 L in 31 s, 31 s, 30 s", "shut-off 2.35 m", "manifold 5 L in 51 s, 50 s, 51 s")
	p.reopen("wall.yaml")
	p.until(`document.querySelector(".measured input") !== null`)
	const flow = `[...document.querySelectorAll(".asked li")].find(l => l.textContent.startsWith("holds") || l.textContent.includes("reach the top"))?.querySelector(".first").textContent`
	planned := js[string](p, flow)
	const toggle = `(document.querySelector(".measured input").click(), true)`
	js[bool](p, toggle)
	p.wait("another flow", func() bool { got := js[string](p, flow); return got != "" && got != planned })
	js[bool](p, toggle)
	p.wait("the planned flow", func() bool { return js[string](p, flow) == planned })
	p.clean()
}
