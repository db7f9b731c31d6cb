package rillwright

import (
	"math"
	"strings"
	"testing"

	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/study"
)

// The demos were worked out by hand before they were written down as files, with
// a simpler circuit: one hose, four velocity heads for all fittings, holes that
// discharge as sharp thin ones (0.62), no manifold, no strainer. The figures of
// that hand calculation stand below. TestHandCalculation does it again, so that
// it is known what it left out and took.

const (
	litrePerHour = 1e-3 / 3600                // m3/s
	gallonPer    = 3.785411784e-3 / 3600      // US gal/h, m3/s
	foot, inch   = 0.3048, 0.0254             // m
	handHole     = 0.62                       // discharge coefficient by hand
	handHeads    = 4                          // velocity heads by hand
	rimByHand    = 1.7                        // weir coefficient by hand, m^0.5/s
	rimHere      = 0.62 * 2 / 3 * 4.428690551 // the same here: 0.62 2/3 sqrt(2 g)
)

// handPump is a pump of the demos and the flow between the straight and the
// parabolic reading of its label by hand, m3/s.
type handPump struct {
	name      string
	us        bool
	flow      float64 // label, m3/s
	head      float64 // label, m
	low, high float64
	// agree is how far this program may be off with its own figures.
	agree float64
}

func handPumps() []handPump {
	const l, g = litrePerHour, gallonPer
	return []handPump{
		{"metric, 1200 L/h", false, 1200 * l, 2.4, 294 * l, 444 * l, 0.01},
		{"metric, 1000 L/h", false, 1000 * l, 2.2, 218 * l, 360 * l, 0.01},
		{"metric, 1500 L/h", false, 1500 * l, 2.8, 418 * l, 578 * l, 0.01},
		// By hand to whole gallons: 28 is good to 2 %.
		{"us, 350 gal/h", true, 350 * g, 8 * foot, 70 * g, 91 * g, 0.09},
		{"us, 290 gal/h", true, 290 * g, 6.5 * foot, 45 * g, 64 * g, 0.09},
		{"us, 210 gal/h", true, 210 * g, 5.9 * foot, 28 * g, 48 * g, 0.09},
	}
}

// byHand finds where the pump's curve meets lift, hose, fittings and holes.
func byHand(p handPump, shape float64) float64 {
	lift, bore, length, holes, hole := 1.60, 0.016, 2.8, 27.0, 2.0e-3
	if p.us {
		lift, bore, length, holes, hole = 58*inch, 0.5*inch, 8*foot, 11, 3.0/32*inch
	}
	over := func(q float64) float64 {
		v := q / (math.Pi / 4 * bore * bore)
		// Swamee and Jain 1976 for a smooth bore, water of 20 C.
		f := 0.25 / math.Pow(math.Log10(5.74/math.Pow(v*bore/1.004e-6, 0.9)), 2)
		jet := q / holes / (handHole * math.Pi / 4 * hole * hole)
		return p.head*(1-math.Pow(q/p.flow, shape)) - lift -
			(f*length/bore+handHeads)*v*v/(2*9.80665) - jet*jet/(2*9.80665)
	}
	lo, hi := 1e-7, p.flow
	for range 60 {
		if mid := (lo + hi) / 2; over(mid) > 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}

// demo returns a demo with another pump and more text at its end.
func demo(p handPump, more string) []byte {
	text := string(examples.CorridorCabinet)
	label := "flow: 1200 L/h, head: 2.4 m"
	want := "flow: " + number(p.flow/litrePerHour) + " L/h, head: " + number(p.head) + " m"
	if p.us {
		text, label = string(examples.CounterWall), "flow: 350 US gal/h, head: 8 ft"
		want = "flow: " + number(p.flow/gallonPer) + " US gal/h, head: " + number(p.head/foot) + " ft"
	}
	return []byte(strings.Replace(text, label, want, 1) + more)
}

// readings runs a design with its pump's label read straight and parabolic, all
// else likely, every valve open.
func readings(t *testing.T, data []byte) (low, high *study.State) {
	t.Helper()
	e := build(t, data).Enclosure
	return shaped(t, e, 1), shaped(t, e, 2)
}

func shaped(t *testing.T, e *enclosure.Enclosure, shape float64) *study.State {
	t.Helper()
	i, ok := e.Pumps[0].Curve.Shape.Doubt()
	if !ok {
		t.Fatal("no doubt about the pump's curve")
	}
	c := e.Likely()
	c[i] = shape
	st, err := study.Run(e, c, study.Setting{OpenValves: true})
	if err != nil {
		t.Fatal(err)
	}
	return st
}

// Who is right where the two differ, found by doing the hand calculation again:
// the US demo gives 4 to 9 % more than by hand, and the reason is the holes: 3/32
// in holes through a wall of 7/64 in are 1.2 times as long as wide. A sharp thin
// hole discharges 0.61 and one that runs full 0.80 (Lichtarowicz and others
// 1965); by hand 0.62 was taken, here 0.69, with both ends in the band. With
// 0.62 written in the file the two agree within 3 %. Neither is wrong: which of
// the two a drilled hole is, burrs decide, and a jug under one outlet tells.
//
// The metric demo agrees within 1 % because two differences cancel: its holes
// discharge 0.67 here, which gives 2 to 3 % more, and barbs, the tee at the feed
// and the sponge, told apart, cost as much.
func TestHandCalculation(t *testing.T) {
	near := func(what string, have, want, by float64) {
		t.Helper()
		if math.Abs(have/want-1) > by {
			t.Errorf("%s: %.1f L/h, by hand %.1f", what, have/litrePerHour, want/litrePerHour)
		}
	}
	for _, p := range handPumps() {
		t.Run(p.name, func(t *testing.T) {
			// Half a unit of the last figure given and a formula for friction
			// that was not named.
			near("the hand calculation, straight", byHand(p, 1), p.low, 0.025)
			near("the hand calculation, parabolic", byHand(p, 2), p.high, 0.02)
			low, high := readings(t, demo(p, ""))
			near("straight", low.Outlets, p.low, p.agree)
			near("parabolic", high.Outlets, p.high, p.agree)
			low, high = readings(t, demo(p, "\nassume:\n  hole-discharge: 62 %\n"))
			near("straight, 0.62", low.Outlets, p.low, 0.03)
			near("parabolic, 0.62", high.Outlets, p.high, 0.04)
		})
	}
}

// Lift and hole area by hand: about 1.60 m and 42 %; 58 in and 25 %.
func TestHandGeometry(t *testing.T) {
	area := func(e *enclosure.Enclosure, bore float64) float64 {
		m := &e.Manifolds[0]
		ratio := m.Groups[0].Hole.Value / bore
		return float64(len(m.Outlets)) * ratio * ratio
	}
	m := build(t, examples.CorridorCabinet)
	if lift := m.Survey.Likely.Pumps[0].Lift; math.Abs(lift-(1.77-0.18)) > 1e-12 {
		t.Errorf("metric lift %.3f m", lift)
	}
	if a := area(m.Enclosure, m.Enclosure.Manifolds[0].Bore.Value); math.Abs(a-0.42) > 0.005 {
		t.Errorf("metric hole area %.1f %%", a*100)
	}
	u := build(t, examples.CounterWall)
	if lift := u.Survey.Likely.Pumps[0].Lift; math.Abs(lift/inch-58) > 1e-9 {
		t.Errorf("us lift %.3f in", lift/inch)
	}
	// By hand the bore is 0.622 in, that of the least wall; the mean wall of
	// ASTM D1785 leaves 0.602 in and makes 27 % of it.
	if a := area(u.Enclosure, 0.622*inch); math.Abs(a-0.25) > 0.005 {
		t.Errorf("us hole area %.1f %% of the largest bore", a*100)
	}
	if a := area(u.Enclosure, u.Enclosure.Manifolds[0].Bore.Value); math.Abs(a-0.267) > 0.001 {
		t.Errorf("us hole area %.1f %% of the mean bore", a*100)
	}
}

// orifice is the flow of a round opening under a head: cd A sqrt(2 g h), m3/s.
func orifice(cd, bore, h float64) float64 {
	return cd * math.Pi / 4 * bore * bore * math.Sqrt(2*9.80665*h)
}

// rise is the level over a rim of one bore for a flow: the weir, and the slotted
// strainer's loss, an orifice of 0.6 with four times the bore's area.
func rise(q, bore, rim float64, strainer bool) float64 {
	h := math.Pow(q/(rim*math.Pi*bore), 2.0/3)
	if strainer {
		jet := q / (0.6 * 4 * math.Pi / 4 * bore * bore)
		h += jet * jet / (2 * 9.80665)
	}
	return h
}

// Drains by hand: metric, rise 7 to 9 mm at 294 to 444 L/h, capacity 1,190 L/h
// with 50 mm over the rim, 2.7 times the open-valve flow; US, rise about 1/4 in
// at 60 gal/h, capacity 194 gal/h with 2 in over the rim.
func TestHandDrains(t *testing.T) {
	low, high := readings(t, examples.CorridorCabinet)
	const bore = 0.0266
	for st, want := range map[*study.State]float64{low: 7e-3, high: 9e-3} {
		have := st.PoolLevel - st.RestLevel
		if math.Abs(have-want) > 0.5e-3 {
			t.Errorf("metric rise %.2f mm, by hand %.0f", have*1e3, want*1e3)
		}
		if form := rise(st.Inflow, bore, rimHere, true); math.Abs(have-form) > 1e-8 {
			t.Errorf("metric rise %.6f mm, closed form %.6f", have*1e3, form*1e3)
		}
	}
	// By hand there is no strainer; it takes 1/sqrt(1 + 1/16) of the flow.
	plain := orifice(0.6, bore, 0.050)
	if math.Abs(plain/litrePerHour-1190) > 5 {
		t.Errorf("the hand calculation gives %.0f L/h", plain/litrePerHour)
	}
	if have := high.Drains[0].Capacity; math.Abs(have/(plain/math.Sqrt(17.0/16))-1) > 1e-9 {
		t.Errorf("metric capacity %.2f L/h, closed form %.2f", have/litrePerHour, plain/math.Sqrt(17.0/16)/litrePerHour)
	}
	if ratio := plain / high.Inflow; math.Abs(ratio-2.7) > 0.05 {
		t.Errorf("capacity without strainer %.2f times the open-valve flow, by hand 2.7", ratio)
	}

	// US: by hand 2 in over a bore of 0.82 in. The dam of the file stands only
	// 1 1/2 in over the lip, the mean bore of 3/4 in schedule 40 pipe is 0.804
	// in, and there is the strainer:
	// 194 x sqrt(1.5/2) x (0.804/0.82)^2 / sqrt(17/16) = 157 gal/h.
	hand := orifice(0.6, 0.82*inch, 2*inch)
	if math.Abs(hand/gallonPer-194) > 0.5 {
		t.Errorf("the hand calculation gives %.1f gal/h", hand/gallonPer)
	}
	_, us := readings(t, examples.CounterWall)
	want := hand * math.Sqrt(1.5/2) * (0.804 / 0.82) * (0.804 / 0.82) / math.Sqrt(17.0/16)
	if have := us.Drains[0].Capacity; math.Abs(have/want-1) > 1e-6 {
		t.Errorf("us capacity %.2f gal/h, the arithmetic says %.2f", have/gallonPer, want/gallonPer)
	}
	for name, h := range map[string]float64{
		"by hand": rise(60*gallonPer, 0.82*inch, rimByHand, false),
		"here":    rise(60*gallonPer, 0.804*inch, rimHere, true),
	} {
		if math.Abs(h/inch-0.25) > 0.03 {
			t.Errorf("us rise at 60 gal/h %s: %.3f in", name, h/inch)
		}
	}
}
