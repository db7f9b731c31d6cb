package answers

import (
	"math"
	"strings"
	"testing"

	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/internal/trial"
	"rillwright/study"
)

const misty = "misting: { kind: fog, flow: 0.3 L/h, times: 4, each: 15 min }\n"

// Fog makes the air damper, a spray of as much less so; more mist is never drier. What
// is put out is flow times time, whatever hangs in the air.
func TestMistDampens(t *testing.T) {
	likely := func(head string) (rh, daily float64) {
		e := trial.Resolved(t, append([]byte(head), examples.CorridorCabinet...), enclosure.Resolve)
		l := study.NewLiving(e)
		in := l.Inputs(l.Likely())
		s, err := in.Follow(false)
		if err != nil {
			t.Fatal(err)
		}
		return s.Humidity, s.Misted
	}
	dry, none := likely("")
	fog, daily := likely(misty)
	spray, same := likely(strings.Replace(misty, "fog", "spray", 1))
	more, twice := likely(strings.Replace(misty, "times: 4", "times: 8", 1))
	if !(dry < spray && spray < fog && fog < more) {
		t.Errorf("humidity %g dry, %g with spray, %g with fog, %g with twice as much", dry, spray, fog, more)
	}
	if want := 0.3 * 0.998; none != 0 || math.Abs(daily-want) > 1e-9 || same != daily || math.Abs(twice-2*want) > 1e-9 {
		t.Errorf("%g, %g, %g and %g kg put out, want 0, %g, as much, and twice", none, daily, same, twice, want)
	}
}

// Mist that brings more than goes fills the sump, which the answer says with the time
// that it takes: free volume over what is left over, by hand.
func TestMistFillsTheSump(t *testing.T) {
	text := append([]byte(strings.Replace(misty, "0.3 L/h", "4 L/h", 1)), examples.CorridorCabinet...)
	a := named(t, livingOf(t, text), "evaporation")
	f := a.Figures[a.Key]
	if a.Verdict != Fails || !strings.Contains(f.Name, "filled the sump") {
		t.Fatalf("%s: %s", a.Verdict, a.Say)
	}
	var goes float64
	for _, g := range a.Figures {
		if strings.HasPrefix(g.Name, "to be made good") {
			goes = g.Likely
			if g.Unit == "ml" {
				goes /= 1000
			}
		}
	}
	// The box is 600 x 400 x 320 mm, its water stands 130 mm; 4 L/h for an hour.
	if want := 600 * 400 * (320 - 130) / 1e6 / (4 - goes); math.Abs(f.Likely-want) > 0.01*want {
		t.Errorf("full after %g days, by hand %g", f.Likely, want)
	}
	// A little mist is no matter for the sump.
	if a := named(t, livingOf(t, append([]byte("misting: { kind: fog, flow: 0.1 L/h, times: 2, each: 15 min }\n"), examples.CorridorCabinet...)), "evaporation"); a.Verdict != Holds {
		t.Errorf("%s: %s", a.Verdict, a.Say)
	}
}

// A vent of the file counts like an opening in a pane of the same size and height.
func TestVentsCountLikeWays(t *testing.T) {
	way := trial.Swap(t, examples.CounterWall, "  ways:\n",
		"  ways:\n    - { name: low vent, pane: left side, width: 6 in, height: 2 in, up: 9 in, in: 8 in, edge: rear, closed: mesh }\n    - { name: high vent, pane: right side, width: 6 in, height: 2 in, up: 33 in, in: 8 in, edge: rear, closed: mesh }\n")
	vent := append([]byte("vents:\n  - { name: low, width: 6 in, height: 2 in, up: 9 in }\n  - { name: high, width: 6 in, height: 2 in, up: 33 in }\n"), examples.CounterWall...)
	a, b := named(t, livingOf(t, way), "humidity"), named(t, livingOf(t, vent), "humidity")
	for i := range a.Figures {
		if a.Figures[i].Text != b.Figures[i].Text {
			t.Errorf("%s: %s in panes, %s between them", a.Figures[i].Name, a.Figures[i].Text, b.Figures[i].Text)
		}
	}
}

// Without the room's air nothing is promised, and what to write is said.
func TestUnknownRoom(t *testing.T) {
	a := named(t, livingOf(t, trial.Swap(t, examples.CorridorCabinet, "  air: 18 to 24 C\n", "")), "heat")
	if a.Verdict != Unknown || !strings.Contains(a.Say, "place.air") {
		t.Errorf("%s: %s", a.Verdict, a.Say)
	}
}
