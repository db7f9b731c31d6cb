package answers

import (
	"fmt"
	"math"

	"rillwright/quantity"
	"rillwright/structure"
	"rillwright/study"
)

// What an enclosure should bear before it tips: a tilt, as of a floor that gives
// or a stand that is moved, and a push at its top, as of a person who stumbles.
// Assumed, no source: furniture standards ask for less and know no water.
const (
	tiltWanted = 10 * math.Pi / 180
	pushWanted = 250.0 // N
)

// testWeight is what is hung on furniture when it is tested, kg; a yardstick to
// look at, not a limit (astm-f2057).
const testWeight = 27.2

// tipState is one state in which it may be pushed.
type tipState struct {
	name  string
	stage study.Stage
	open  bool
}

// tip is how it stands in one state towards one side.
type tip struct {
	state    tipState
	line     study.TipLine
	push     float64 // N
	out      float64 // of the centre outside the feet, m; below 0 within them
	standing structure.Standing
}

// tilt is that at which it goes over, rad. Outside its feet it bears none.
func (t *tip) tilt() float64 {
	if t.push == 0 {
		return 0
	}
	return t.standing.TiltAngle()
}

func (t *tip) score() float64 { return math.Min(t.tilt()/tiltWanted, t.push/pushWanted) }

// tipping is the answer about standing on its way.
type tipping struct {
	s   *Survey
	sys quantity.System
	w   *study.Weights
	top float64 // height of the top over the floor, m
	// lines are those about which it may tip.
	lines []study.TipLine
}

// Standing answers whether it may tip over any side, with its doors shut or open,
// running, full and drained.
func (s *Survey) Standing() Answer {
	e := s.E
	a := Answer{ID: "standing", Question: "Can it tip over?", LimitingLine: e.Design.Enclosure.Pos.Line}
	t := &tipping{s: s, sys: e.Units, w: study.Weigh(e, s.Likely)}
	a.Cautions = []string{"Children climb and people stumble: fix a tall stand to the wall, whatever this says."}
	a.Limit = Limit{
		Text: fmt.Sprintf("a tilt of %.0f degrees, and a push of %s at its top", tiltWanted*180/math.Pi, t.force(pushWanted)),
		Mark: "assumed, no source",
	}
	if t.w.Panes == 0 {
		a.Verdict, a.Say = Unknown, "The file lists no panes: write them under enclosure.panes, with their thickness, and its centre of weight can be found."
		return a
	}
	t.lines = t.w.Footing.TipLines()
	t.top = t.w.Top - t.w.Footing.Floor
	if t.w.Footing.Given {
		a.LimitingLine = e.Design.Stand.Pos.Line
	}
	t.figures(&a)
	t.verdict(&a)
	return a
}

// force shows a push.
func (t *tipping) force(newtons float64) string { return forceText(newtons, t.sys) }

func (t *tipping) forceFigure(name string, v spread) Figure {
	f := Figure{Name: name, Low: t.inForce(v.low), Likely: t.inForce(v.likely), High: t.inForce(v.high), Unit: "N", Text: t.force(v.likely)}
	if t.sys == quantity.US {
		f.Unit = "lbf"
	}
	return banded(f, t.force(v.low), t.force(v.high))
}

// inForce is a push in the unit of forceFigure.
func (t *tipping) inForce(newtons float64) float64 {
	if t.sys == quantity.US {
		return newtons / lbf
	}
	return newtons
}

func degrees(v float64) string { return fmt.Sprintf("%.0f degrees", v*180/math.Pi) }

func tiltFigure(name string, v spread) Figure {
	const deg = 180 / math.Pi
	f := Figure{Name: name, Low: v.low * deg, Likely: v.likely * deg, High: v.high * deg, Unit: "deg", Text: degrees(v.likely)}
	return banded(f, degrees(v.low), degrees(v.high))
}

// banded writes the ends of a figure before its likely value, if they differ.
func banded(f Figure, low, high string) Figure {
	if low != high {
		f.Text = fromTo(low, high) + ", likely " + f.Text
	}
	return f
}

// loads are those that stand on the same feet. A sump of which the file does not
// say where it stands is taken to stand apart: low down it would help.
func (t *tipping) loads(stage study.Stage, side []int) []study.Load {
	all := t.w.At(stage, side)
	if t.w.CarriesSump {
		return all
	}
	out := all[:0]
	for _, l := range all {
		if l.Kind != study.SumpLoad && l.Kind != study.SumpWaterLoad {
			out = append(out, l)
		}
	}
	return out
}

// states are those in which the verdict is taken.
func (t *tipping) states() []tipState {
	swings := t.swings()
	var out []tipState
	for _, st := range [...]tipState{
		{"running", study.Running, false},
		{"running, doors open", study.Running, true},
		{"pool full", study.Brim, false},
		{"drained for cleaning", study.Drained, false},
		{"drained for cleaning, doors open", study.Drained, true},
	} {
		if swings || !st.open {
			out = append(out, st)
		}
	}
	return out
}

// swings reports whether opening a door moves weight.
func (t *tipping) swings() bool {
	for _, l := range t.w.At(study.Bare, nil) {
		if l.Swing != (structure.Point{}) {
			return true
		}
	}
	return false
}

// worst is the state and side in which it tips soonest, by a measure.
func (t *tipping) worst(states []tipState, side []int, of func(*tip) float64) tip {
	var out tip
	var loads []study.Load
	least := math.Inf(1)
	for i, st := range states {
		if i == 0 || states[i-1].stage != st.stage {
			loads = t.loads(st.stage, side)
		}
		for _, l := range t.lines {
			k := t.towards(st, l, loads)
			if v := of(&k); out.state.name == "" || v < least {
				out, least = k, v
			}
		}
	}
	return out
}

// towards is how it stands in a state towards a side.
func (t *tipping) towards(st tipState, l study.TipLine, loads []study.Load) tip {
	k := tip{state: st, line: l, out: math.Inf(1)}
	s, err := l.Standing(loads, st.open)
	if err != nil {
		return k
	}
	k.standing, k.out = s, -s.Reach
	if s.Check() == nil {
		k.push = s.TipPush(t.top)
	}
	return k
}

func byTilt(k *tip) float64 { return k.tilt() }
func byPush(k *tip) float64 { return k.push }

func (t *tipping) spread(states []tipState, of func(*tip) float64) spread {
	return spreadOf(t.w, func(side []int) float64 {
		k := t.worst(states, side, of)
		return of(&k)
	})
}
