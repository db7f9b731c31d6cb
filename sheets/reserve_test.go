package sheets

import (
	"math"
	"testing"

	"rillwright/answers"
	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/faults"
	"rillwright/quantity"
)

// reservePoints computes points with real runs: time to the inlet at the
// likely evaporation, what a blocked drain spills, what stays free.
func reservePoints(t *testing.T, file []byte, levels []float64) (quantity.System, string, []answers.ReservePoint) {
	t.Helper()
	var out []answers.ReservePoint
	e := resolved(t, file)
	for _, l := range levels {
		at := resolved(t, file)
		at.Sump.Level = at.Sump.Bottom + l
		rig, err := faults.NewRig(at, at.Likely())
		if err != nil {
			t.Fatal(err)
		}
		run := func(sc *enclosure.Scenario) *faults.Result {
			r, err := rig.Run(sc, faults.Options{})
			if err != nil {
				t.Fatal(err)
			}
			return r
		}
		cut := run(&enclosure.Scenario{Lasts: hour, Steps: []enclosure.Step{{What: "power off", Index: -1}}})
		free := cut.SumpFree
		if cut.Spilled > 0 {
			free = -cut.Spilled
		}
		out = append(out, answers.ReservePoint{
			Level: l, Volume: rig.SumpVolume(at.Sump.Level), Days: run(untended()).Dry,
			Spill: run(blockedDrain()).Spilled, Free: free,
		})
	}
	return e.Units, e.Name + ": how full the sump", out
}

func TestReserveGolden(t *testing.T) {
	const in = 0.0254
	for _, c := range []struct {
		name   string
		file   []byte
		levels []float64
		mark   float64
	}{
		{"corridor-cabinet", examples.CorridorCabinet, []float64{0.08, 0.12, 0.16, 0.2, 0.24, 0.28}, 0.13},
		{"counter-wall", examples.CounterWall, []float64{3 * in, 5 * in, 7 * in, 9 * in, 11 * in, 11.9 * in}, 5 * in},
	} {
		sys, title, points := reservePoints(t, c.file, c.levels)
		s, err := Reserve(sys, title, points, ReserveMark{"as it is", c.mark}, ReserveMark{"beyond", 9})
		if err != nil {
			t.Fatal(err)
		}
		golden(t, c.name+"-reserve", written(t, s))
	}
}

func TestReserveRefuses(t *testing.T) {
	good := []answers.ReservePoint{{Level: 0.1, Days: day}, {Level: 0.2, Days: 2 * day}}
	if _, err := Reserve(quantity.Metric, "x", good); err != nil {
		t.Error(err)
	}
	for name, points := range map[string][]answers.ReservePoint{
		"one":     good[:1],
		"falling": {good[1], good[0]},
		"no end":  {good[0], {Level: 0.2, Days: math.Inf(1)}},
		"unknown": {good[0], {Level: 0.2, Spill: math.NaN()}},
	} {
		if _, err := Reserve(quantity.Metric, "x", points); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}
