package workbench

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"rillwright"
	"rillwright/examples"
	"rillwright/internal/wire"
)

// What an edit costs before the browser paints: all answers without fixes, the
// picture and the curves.
func BenchmarkCompute(b *testing.B) {
	s, _ := bench(b)
	s.pace.rate = 1e9
	whole := computeRequest{Name: "wall.yaml", Text: string(examples.CorridorCabinet), Fixes: true}
	if code, _ := ask(b, s, "POST", "/api/compute", whole); code != 200 {
		b.Fatal(code)
	}
	b.ReportAllocs()
	n := 0
	for b.Loop() {
		n++
		q := computeRequest{Name: "wall.yaml", Text: strings.Replace(whole.Text, "flow: 1200 L/h", fmt.Sprintf("flow: %d L/h", 1150+n%100), 1)}
		s.pace.have = burst
		if code, _ := ask(b, s, "POST", "/api/compute", q); code != 200 {
			b.Fatal(code)
		}
	}
}

// Its parts, to see where the time goes.
func BenchmarkComputeParts(b *testing.B) {
	for _, c := range []struct {
		name string
		o    rillwright.Options
	}{
		{"water", rillwright.Options{NoFixes: true}},
		{"structure", rillwright.Options{NoFixes: true, Structure: true}},
		{"faults", rillwright.Options{NoFixes: true, Faults: rillwright.MainFaults}},
	} {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				if _, err := rillwright.Build("x", examples.CorridorCabinet, c.o); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
	r, err := rillwright.Build("x", examples.CorridorCabinet, rillwright.Options{Structure: true, Faults: rillwright.MainFaults})
	if err != nil {
		b.Fatal(err)
	}
	b.Run("curves", func(b *testing.B) {
		for b.Loop() {
			curvesOf(r.Survey)
		}
	})
	b.Run("scene", func(b *testing.B) {
		for b.Loop() {
			sceneOf(r.Survey)
		}
	})
	b.Run("json", func(b *testing.B) {
		for b.Loop() {
			v := wire.Of(r, r.Answers)
			if _, err := json.Marshal(outcome{Report: &v, Form: form(r.Design), Scene: sceneOf(r.Survey)}); err != nil {
				b.Fatal(err)
			}
		}
	})
}
