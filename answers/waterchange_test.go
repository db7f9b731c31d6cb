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
