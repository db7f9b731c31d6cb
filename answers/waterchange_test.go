package answers

import (
	"errors"
	"math"
	"strings"
	"testing"

	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/internal/trial"
	"rillwright/study"
)

// mostOf follows what is dissolved for ten years day by day, by a sum of grams and no
// formula, and returns the most there was, kg/m3.
func mostOf(volume, lossADay, tap, topUp, share, every float64) float64 {
	grams, most, since := tap*volume, 0.0, 0.0
	for range 3650 {
		grams += lossADay * topUp // what goes leaves its minerals behind
		since++
		most = max(most, grams/volume)
		if since+1 > every { // the day on which it would be late tomorrow
			grams += share * volume * (tap - grams/volume)
			since = 0
		}
	}
	return most
}

// Changes as often as is told keep what is dissolved under twice that of the tap, counted
// day by day; changes half as often do not. What was put back counts in place of what
// was computed, and the file's own figure before either.
func TestWaterChange(t *testing.T) {
	hard := trial.Swap(t, lit(t), ", change: 10 %, every: 60 days", "")
	e := trial.Resolved(t, hard, enclosure.Resolve)
	l := study.NewLiving(e)
	in := l.Inputs(l.Likely())
	const tap, measured = 0.35, 0.4e-3 / 86400
	for _, loss := range []float64{0, measured} {
		c, err := WaterChangeOf(e, loss)
		if err != nil {
			t.Fatal(err)
		}
		if c.Share != 0.25 || c.Measured != (loss > 0) || c.Line != 0 || loss > 0 && c.MakeUp != loss {
			t.Errorf("%+v", c)
		}
		if got := mostOf(in.Volume(), c.MakeUp*86400, tap, tap, c.Share, math.Floor(c.Days)); got > 2*tap*1.001 || got < 1.5*tap {
			t.Errorf("every %.1f days: most %.3f kg/m3, twice tap water's is %.3f", c.Days, got, 2*tap)
		}
		if got := mostOf(in.Volume(), c.MakeUp*86400, tap, tap, c.Share, 2*c.Days); got < 2*tap*1.2 {
			t.Errorf("half as often: most %.3f kg/m3", got)
		}
	}
	// The answer of the same name tells the same days.
	a := named(t, livingOf(t, hard), "minerals")
	c, _ := WaterChangeOf(e, 0)
	found := false
	for _, f := range a.Figures {
		if strings.HasPrefix(f.Name, "days between changes of 25 %") {
			found = math.Abs(f.Likely-c.Days) < 1e-6*c.Days
		}
	}
	if !found {
		t.Errorf("every %g days is not what the answer tells: %+v", c.Days, a.Figures)
	}
	own, err := WaterChangeOf(trial.Resolved(t, lit(t), enclosure.Resolve), measured)
	if err != nil || own.Share != 0.1 || own.Days != 60 || own.Line == 0 {
		t.Errorf("the file's own: %+v, %v", own, err)
	}
	if _, err := WaterChangeOf(trial.Resolved(t, examples.CorridorCabinet, enclosure.Resolve), 0); !errors.Is(err, ErrNoWater) {
		t.Errorf("without water.solids: %v", err)
	}
}

// Scale at the outlets by hand: what hardness a loss leaves behind, ten times as thick at
// the holes as over all that is wet, narrows a hole until a tenth of its area is gone.
// Twice as hard, half the time; top-up free of salts leaves hardly any. Densities and
// the German degree are those of package minerals.
func TestSoakByHand(t *testing.T) {
	days := func(pairs ...string) float64 {
		t.Helper()
		c, err := WaterChangeOf(trial.Resolved(t, trial.Swap(t, lit(t), pairs...), enclosure.Resolve), 0.5e-3/86400)
		if err != nil {
			t.Fatal(err)
		}
		return c.Soak
	}
	// Half a litre a day at 12 degrees of carbonate hardness, the less of the two; holes
	// of 3/32 in; the wall is 16 1/2 by 26 in, wet 1.2 times, the pool 17 3/4 by 15 1/2 in
	// less half of the 35 % that stands in it.
	const in = 0.0254
	grams := 0.5 * 12 * 17.848e-3 // a day
	wet := 1.2*16.5*26*in*in + 17.75*15.5*in*in*(1-0.175)
	thick := 10 * grams / 1000 / 2710 / wet // m a day
	bore := 3.0 / 32 * in
	want := (bore - bore*math.Sqrt(0.9)) / 2 / thick
	got := days()
	if math.Abs(got-want) > 0.01*want {
		t.Errorf("%g days, by hand %g", got, want)
	}
	if twice := days("carbonate: 12", "carbonate: 24", "hardness: 15", "hardness: 30"); math.Abs(twice-got/2) > 1e-9*got {
		t.Errorf("%g days with water twice as hard, %g as it is", twice, got)
	}
	if pure := days("change: 10 %", "top-up: rain or osmosis, change: 10 %"); pure < 10*got {
		t.Errorf("%g days with rain, %g with tap water", pure, got)
	}
	if none := days("hardness: 15, ", ""); !math.IsInf(none, 1) {
		t.Errorf("%g days though the hardness is not known", none)
	}
}
