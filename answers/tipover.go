package answers

import (
	"fmt"
	"math"
	"strings"

	"rillwright/quantity"
	"rillwright/structure"
	"rillwright/study"
)

// figures tells tilt, push and where its weight lies.
func (t *tipping) figures(a *Answer) {
	all := t.states()
	a.Figures = append(a.Figures,
		boundedBelow(tiltFigure("tilt at which it goes over, worst side and state", t.spread(all, byTilt)), tiltWanted*180/math.Pi),
		boundedBelow(t.forceFigure("push at its top that begins to tip it", t.spread(all, byPush)), t.inForce(pushWanted)))
	t.s.detail(a, t.sides)
	t.s.detail(a, t.centre)
	t.s.detail(a, func() []Figure {
		building := []tipState{{"empty", study.Bare, false}}
		return []Figure{
			tiltFigure("tilt while it is built: empty, dry, on its stand", t.spread(building, byTilt)),
			t.forceFigure("push while it is built", t.spread(building, byPush)),
		}
	})
	t.s.detail(a, t.hung)
}

// sides tells how it stands towards each side while it runs.
func (t *tipping) sides() []Figure {
	var out []Figure
	for _, side := range [...]string{"front", "back", "left", "right"} {
		towards := func(list []int) (least tip) {
			loads := t.loads(study.Running, list)
			for _, l := range t.lines {
				if l.Side != side {
					continue
				}
				if k := t.towards(tipState{"running", study.Running, false}, l, loads); least.state.name == "" || k.tilt() < least.tilt() {
					least = k
				}
			}
			return least
		}
		if likely := towards(nil); likely.state.name != "" {
			f := boundedBelow(tiltFigure("running, towards the "+side, spreadOf(t.w, func(list []int) float64 { k := towards(list); return k.tilt() })), tiltWanted*180/math.Pi)
			f.Text += "; push " + t.force(likely.push)
			out = append(out, f)
		}
	}
	return out
}

// centre tells where the weight lies, running.
func (t *tipping) centre() []Figure {
	at := func(of func(structure.Point) float64) spread {
		return spreadOf(t.w, func(side []int) float64 { return of(t.middle(study.Running, side)) })
	}
	up := at(func(p structure.Point) float64 { return p.Z - t.w.Footing.Floor })
	out := []Figure{figure("centre of its weight running, above the floor", up.length(), t.sys)}
	for _, l := range t.lines {
		if l.Side == "front" {
			in := at(func(p structure.Point) float64 { return -l.Beyond(p) })
			return append(out, figure("and behind the front of its feet", in.length(), t.sys))
		}
	}
	return out
}

func (t *tipping) middle(stage study.Stage, side []int) structure.Point {
	loads := t.loads(stage, side)
	parts := make([]structure.Part, len(loads))
	for i := range loads {
		parts[i] = structure.Part{Name: loads[i].Name, Mass: loads[i].Mass, Centre: loads[i].Centre}
	}
	all, err := structure.Assemble("all", parts...)
	if err != nil {
		return structure.Point{}
	}
	return all.Centre
}

// hung tells what may hang on the far edge of an open door before it tips.
func (t *tipping) hung() []Figure {
	least := func(side []int) float64 {
		m := math.Inf(1)
		for _, st := range t.states() {
			if !st.open {
				continue
			}
			loads := t.loads(st.stage, side)
			for _, l := range t.lines {
				k := t.towards(st, l, loads)
				for i := range loads {
					far := loads[i].Centre
					far.X, far.Y = far.X+2*loads[i].Swing.X, far.Y+2*loads[i].Swing.Y
					if lever := l.Beyond(far); loads[i].Door && loads[i].Swing != (structure.Point{}) && lever > 0 {
						m = math.Min(m, k.standing.Mass*math.Max(-k.out, 0)/lever)
					}
				}
			}
		}
		return m
	}
	v := spreadOf(t.w, least)
	if math.IsInf(v.likely, 1) || math.IsInf(v.high, 1) {
		return nil
	}
	f := figure("weight on the far edge of an open door that tips it", v.mass(), t.sys)
	f.Text += fmt.Sprintf("; a test of furniture hangs %s (published; to compare, not a limit)", quantity.Mass(testWeight).Show(t.sys))
	return []Figure{f}
}

// verdict says how it stands.
func (t *tipping) verdict(a *Answer) {
	all := t.states()
	score := spreadOf(t.w, func(side []int) float64 {
		k := t.worst(all, side, (*tip).score)
		return k.score()
	})
	bad := t.worst(all, score.sides(-1), (*tip).score)
	a.Score = bad.score()
	a.Limiting = fmt.Sprintf("%s, towards the %s", bad.state.name, bad.line.Side)
	a.Margin = beyond(bad.tilt(), tiltWanted, "tilt than wanted")
	if bad.push/pushWanted < bad.tilt()/tiltWanted {
		a.Key, a.Margin = 1, beyond(bad.push, pushWanted, "push than wanted")
	}
	a.Margin += ", at the bad end"
	goes := fmt.Sprintf("%s it goes over towards the %s at a tilt of %s, or by a push of %s at its top", upper(bad.state.name), bad.line.Side, degrees(bad.tilt()), t.force(bad.push))
	if bad.line.Side == "back" {
		front := t.worst(all, score.sides(-1), func(k *tip) float64 {
			if k.line.Side == "back" {
				return math.Inf(1)
			}
			return k.score()
		})
		goes += fmt.Sprintf(" (towards the %s %s, or %s; a wall close behind it stops the other)", front.line.Side, degrees(front.tilt()), t.force(front.push))
	}
	fixed := t.s.E.Design.Stand.Fixed.Value
	switch {
	case bad.out >= 0:
		a.Verdict = Fails
		a.Say = fmt.Sprintf("Yes: %s its weight lies %s outside its feet, towards the %s: it falls over by itself.", bad.state.name, quantity.Length(bad.out).Show(t.sys), bad.line.Side)
		a.Margin = ""
		if fixed {
			a.Say += " Nothing but its fixing to the wall would hold it, and that is not checked."
		}
	case fixed:
		a.Verdict = Holds
		a.Margin = "not fixed, " + a.Margin
		a.Say = "It is fixed to the wall, as the file has it; the fixing itself, its screws and the wall are not checked here. Not fixed: " + lower(goes) + "."
	case a.Score >= 1:
		a.Verdict, a.Say = Holds, "Not easily: "+lower(goes)+"."
	default:
		a.Verdict, a.Say = Tight, goes+": fix it to the wall, and ask whoever knows the wall what it bears."
	}
	if t.s.quick { // while fixes are tried only the verdict counts
		return
	}
	t.building(a, fixed)
	t.wordings(a)
	a.Matters = ranked(append(score.matters(t.w, t.sys, wantedText), t.level(score)...))
}

// wantedText shows a score.
func wantedText(v float64) string { return fmt.Sprintf("%.2f of what is wanted", v) }

func upper(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

func lower(s string) string { return strings.ToLower(s[:1]) + s[1:] }

// building warns of the empty enclosure on its stand.
func (t *tipping) building(a *Answer, fixed bool) {
	empty := []tipState{{"empty", study.Bare, false}}
	k := t.worst(empty, spreadOf(t.w, func(side []int) float64 {
		k := t.worst(empty, side, (*tip).score)
		return k.score()
	}).sides(-1), (*tip).score)
	if k.score() >= 1 {
		return
	}
	words := fmt.Sprintf("Empty on its stand, while it is built, it goes over at a tilt of %s, or by a push of %s at its top: hold it until it is fixed", degrees(k.tilt()), t.force(k.push))
	if !fixed {
		words += ", or until sump and pool are filled"
	}
	a.Cautions = append(a.Cautions, words+".")
}

// wordings says what of the stand was taken.
func (t *tipping) wordings(a *Answer) {
	if !t.w.Footing.Given {
		a.Say += " The file has no stand (stand): it is taken to weigh nothing and to be as wide and deep as the enclosure."
	}
	if n := len(t.w.Footing.Feet); n%2 == 1 {
		a.Say += fmt.Sprintf(" Of its %d feet %d are taken in front and %d at the back: the other way round it goes over sooner towards the front.", n, n-n/2, n/2)
	}
	if !t.w.SumpSaid {
		a.Say += " The sump is taken to stand apart: low down in the stand it would help (stand.carries-sump)."
	}
	if keys := t.middled(); len(keys) > 0 {
		a.Say += " Where the file does not say it, stand and sump are taken to be in the middle under it (" + strings.Join(keys, ", ") + ")."
	}
	a.Say += fmt.Sprintf(" What hangs on the wall is taken to lie %s before its panel, the stand's own weight half way up it (assumed, no source).", quantity.Length(study.BeforePanel).Show(t.sys))
	if len(t.w.Unplaced) > 0 {
		a.Say += " Not placed in the file, and taken to be in the middle: " + strings.Join(t.w.Unplaced, ", ") + "."
	}
}

// middled are the keys that would say where stand and sump are.
func (t *tipping) middled() []string {
	d := t.s.E.Design
	var keys []string
	if d.Stand.Given() && !d.Stand.Front.Given() {
		keys = append(keys, "stand.front")
	}
	if t.w.CarriesSump && !d.Sump.Left.Given() {
		keys = append(keys, "sump.left")
	}
	if t.w.CarriesSump && !d.Sump.Front.Given() {
		keys = append(keys, "sump.front")
	}
	return keys
}

// level is what the pool's level does by itself.
func (t *tipping) level(score spread) []Matter {
	e := t.s.E
	if e.Pool.DamTop <= t.s.Likely.PoolLevel {
		return nil
	}
	at := func(name string, stage study.Stage) float64 {
		k := t.worst([]tipState{{name, stage, false}}, nil, (*tip).score)
		return k.score()
	}
	drained, full := at("drained", study.Drained), at("full", study.Brim)
	return []Matter{{
		What: "water standing in it", Range: "drained to pool full, " + quantity.Length(e.Pool.DamTop-e.Pool.Floor).Show(t.sys),
		Effect: fromTo(wantedText(drained), wantedText(full)), Swing: math.Abs(full-drained) / math.Max(score.likely, 1e-9),
		Why: "water weighs it down, and runs to the low side", Line: e.Pool.Pos.Line,
	}}
}
