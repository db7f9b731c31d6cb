package study

import (
	"math"
	"testing"

	"rillwright/examples"
	"rillwright/structure/joint"
)

func hung(tb testing.TB, text []byte, pairs ...string) *Bond {
	tb.Helper()
	e := changed(tb, text, pairs...)
	b, err := GridBond(e, &e.Design.Grid[0])
	if err != nil {
		tb.Fatal(err)
	}
	return b
}

func stressOf(tb testing.TB, b *Bond, c BondCase, s BondState) joint.BondStress {
	tb.Helper()
	v, err := b.Stress(c, s, -1)
	if err != nil {
		tb.Fatal(err)
	}
	return v
}

// The metric example by hand, as a bracket on bolts: 15 spots of 9 cm2 in rows 250
// mm apart, 70 % of each bonded; 12 kg 66 mm out, 2.13 kg of water 92 mm, roots of
// 2.5 and 0.8 kg 162 and 142 mm. Shear of the mean is V/A; the pull at the upper
// edge of the upper row is M y/I.
func TestBondByHand(t *testing.T) {
	b := hung(t, examples.CorridorCabinet)
	if b.Rows != 3 || b.Columns != 5 || len(b.Patches) != 15 || b.Ragged {
		t.Fatalf("%d rows of %d", b.Rows, b.Columns)
	}
	v := stressOf(t, b, b.Likely(), BondRunning)
	const area, g = 0.81 * 0.75, 9.80665
	film := area * 3.5
	weight := (12 + film + 2.5 + 0.8) * g
	moment := (12*(0.040+0.026) + film*(0.040+0.012+0.040) + 2.5*0.162 + 0.8*0.142) * g
	const spot = 0.03 * 0.03
	inertia := 10*spot*0.25*0.25 + 15*spot*0.03*0.03/12
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"mean", v.Mean, weight / (15 * spot) / 0.7},
		{"pull", v.Tension, moment * 0.265 / inertia / 0.7},
	} {
		if math.Abs(c.got-c.want) > 1e-9*c.want {
			t.Errorf("%s: %g Pa, by hand %g", c.what, c.got, c.want)
		}
	}
}

// A panel that stands on its edge leaves the bond its leaning alone: no shear, and
// the pull of the levers from the edge outwards.
func TestBondRests(t *testing.T) {
	b := hung(t, examples.CorridorCabinet, "line: 2 to 4 mm }", "line: 2 to 4 mm, rests: yes }")
	v := stressOf(t, b, b.Likely(), BondRunning)
	free := stressOf(t, hung(t, examples.CorridorCabinet), b.Likely(), BondRunning)
	if v.Shear > 1e-9*free.Shear || v.Tension <= 0 || v.Tension >= free.Tension {
		t.Errorf("resting %+v, hanging %+v", v, free)
	}
}

// However many spots: all are laid, on the panel, none over another, as one
// balanced whole if the rows are full.
func TestSpots(t *testing.T) {
	for n := 1; n <= 60; n++ {
		b := &Bond{Width: 0.8, Height: 0.6, Spot: [2]float64{0.02, 0.03}}
		if err := b.spread(n); err != nil {
			t.Errorf("%d: %v", n, err)
			continue
		}
		if len(b.Patches) != n || b.Ragged != (b.Rows*b.Columns != n) {
			t.Errorf("%d: %d laid in %d by %d", n, len(b.Patches), b.Rows, b.Columns)
		}
		var x float64
		for i, p := range b.Patches {
			if p.X < -1e-12 || p.Y < -1e-12 || p.X+p.Width > b.Width+1e-12 || p.Y+p.Height > b.Height+1e-12 {
				t.Errorf("%d: %+v hangs over", n, p)
			}
			for _, q := range b.Patches[:i] {
				if math.Abs(p.X-q.X) < 0.02-1e-12 && math.Abs(p.Y-q.Y) < 0.03-1e-12 {
					t.Errorf("%d: %+v over %+v", n, p, q)
				}
			}
			x += p.X + p.Width/2
		}
		if math.Abs(x/float64(n)-0.4) > 1e-12 {
			t.Errorf("%d: centre at %g", n, x/float64(n))
		}
		if shape := float64(b.Columns) / float64(b.Rows) / (4. / 3); n > 6 && (shape > 2.6 || shape < 1/2.6) {
			t.Errorf("%d: %d rows of %d on 4 by 3", n, b.Rows, b.Columns)
		}
	}
	full := &Bond{Width: 0.1, Height: 0.1, Spot: [2]float64{0.05, 0.05}}
	if full.spread(4) != nil || full.spread(5) == nil {
		t.Error("four fill it, five do not fit")
	}
}

// More weight, more lever and less bonded area never load it less; the worst case
// is no better than any one doubt, and the mildest no worse.
func TestBondDoubts(t *testing.T) {
	b := hung(t, examples.CorridorCabinet, "    weight: 12 kg ", "   ", "weight: 2.5 kg, out: 110 mm, up: 420 mm", "weight: 2.5 kg", "    stand-off: 40 mm\n", "    stand-off: 40 mm\n")
	bad, err := b.Worst(1)
	if err != nil {
		t.Fatal(err)
	}
	mild, err := b.Worst(-1)
	if err != nil {
		t.Fatal(err)
	}
	worst, best := stressOf(t, b, bad, BondRunning).Worst, stressOf(t, b, mild, BondRunning).Worst
	for i, d := range b.Doubts {
		low, high, err := b.Ends(i)
		if err != nil {
			t.Fatal(err)
		}
		if max(low, high) > worst || min(low, high) < best {
			t.Errorf("%s: %g to %g, beyond %g to %g", d.What, low, high, best, worst)
		}
		if rises := i != bondShare; !d.IsExact() && (high > low) != rises {
			t.Errorf("%s: %g to %g", d.What, low, high)
		}
	}
	if bare := stressOf(t, b, b.Likely(), BondBare).Worst; bare >= stressOf(t, b, b.Likely(), BondWet).Worst {
		t.Errorf("the bare sheet pulls more, %g", bare)
	}
	if b.Doubts[bondMass].Likely != wallLikely*b.Width*b.Height || !b.Doubts[len(b.Doubts)-2].Assumed {
		t.Errorf("%+v", b.Doubts)
	}
}
