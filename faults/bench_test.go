package faults

import (
	"testing"

	"rillwright/enclosure"
	"rillwright/examples"
)

func benchmark(b *testing.B, e *enclosure.Enclosure, lasts float64, steps ...enclosure.Step) {
	b.Helper()
	r := rig(b, e)
	sc := &enclosure.Scenario{Name: "bench", Lasts: lasts, Steps: steps}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := r.Run(sc, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}

// One hour of a drain that blocks at once: with the circuit's states known, as in
// all runs but the first, and with those found anew.
func BenchmarkFaultHour(b *testing.B) {
	blocks := enclosure.Step{What: "drain blocks", Share: 1}
	for _, d := range []struct {
		name string
		data []byte
	}{{"metric", examples.CorridorCabinet}, {"us", examples.CounterWall}} {
		b.Run(d.name, func(b *testing.B) { benchmark(b, demo(b, d.data), 3600, blocks) })
		b.Run(d.name+" from nothing", func(b *testing.B) {
			e := demo(b, d.data)
			b.ReportAllocs()
			for b.Loop() {
				course(b, rig(b, e), Options{}, 3600, blocks)
			}
		})
	}
}

// A year of evaporation with the pump standing still.
func BenchmarkYear(b *testing.B) {
	benchmark(b, metric(b), 365*86400, enclosure.Step{What: "power off", Index: -1})
}

// A power cut of an hour: the hose runs empty ever more slowly.
func BenchmarkPowerCut(b *testing.B) {
	benchmark(b, metric(b), 7200, enclosure.Step{What: "power off", Index: -1}, enclosure.Step{At: 3600, What: "power on", Index: -1})
}
