package answers

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"rillwright/climate"
	"rillwright/quantity"
	"rillwright/study"
)

// livingFix is a change to try.
type livingFix struct {
	Fix

	helps  []string // answers it may help
	change func(*study.Inputs)
}

// fixes tries changes for the answers that are tight or fail, all of them again.
func (l *living) fixes(base *air, list []Answer) {
	var tries []livingFix
	for _, f := range l.candidates() {
		if slices.ContainsFunc(list, func(a Answer) bool {
			return (a.Verdict == Tight || a.Verdict == Fails) && slices.Contains(f.helps, a.ID)
		}) {
			tries = append(tries, f)
		}
	}
	after := make([][]Answer, len(tries))
	InParallel(len(tries), func(i int) {
		// Which end of a doubt is the worse is taken from the design as it is.
		t := &air{living: l, change: tries[i].change, signs: base.signs, memo: map[string]*twoSeasons{}}
		if t.likely, t.err = t.run(l.l.Likely()); t.err != nil {
			return
		}
		if got := t.all(); t.err == nil {
			after[i] = got
		}
	})
	for i := range list {
		a := &list[i]
		if a.Verdict != Tight && a.Verdict != Fails {
			continue
		}
		for k := range tries {
			if after[k] == nil || !slices.Contains(tries[k].helps, a.ID) {
				continue
			}
			b := &after[k][i]
			if b.Verdict > a.Verdict || b.Figures[a.Key].Text == a.Figures[a.Key].Text || !(b.Score > a.Score+0.01*math.Abs(a.Score)) {
				continue
			}
			f := tries[k].Fix
			f.Before, f.After, f.Verdict = a.Figures[a.Key].Text, b.Figures[a.Key].Text, b.Verdict
			for n := range list {
				if n != i && after[k][n].Verdict > list[n].Verdict {
					f.Breaks = append(f.Breaks, Break{ID: list[n].ID, Question: list[n].Question, Verdict: after[k][n].Verdict})
				}
			}
			a.Fixes = append(a.Fixes, f)
		}
		slices.SortStableFunc(a.Fixes, func(x, y Fix) int {
			if x.Verdict != y.Verdict {
				return int(x.Verdict) - int(y.Verdict)
			}
			return int(math.Copysign(1, x.Weight-y.Weight))
		})
		a.Fixes = a.Fixes[:min(len(a.Fixes), 4)]
	}
}

const priceFromMemory = "from memory"

// candidates are the changes that builders make.
func (l *living) candidates() []livingFix {
	d := l.e.Design
	var out []livingFix
	add := func(f livingFix) { out = append(out, f) }
	vent := func(each float64) func(*study.Inputs) {
		return func(in *study.Inputs) {
			in.Low += each
			in.High += each
		}
	}
	for _, each := range []float64{0.004, 0.015} {
		add(livingFix{
			Fix:   Fix{Do: fmt.Sprintf("Open %.0f cm2 more of mesh low in the front and as much at the top; where is yours to choose.", 1e4*each), Cost: "little, mesh", Weight: 1 + each},
			helps: []string{"heat", "humidity", "fog"}, change: vent(each),
		})
	}
	share := 0.25
	add(livingFix{
		Fix:   Fix{Do: "Cover three quarters of the vents and of what is open at the top, with film or glass that can be moved.", Cost: "nothing", Weight: 0},
		helps: []string{"humidity", "evaporation"}, change: func(in *study.Inputs) {
			in.Low, in.High, in.Gaps = share*in.Low, share*in.High, 0.5*in.Gaps
		},
	})
	if !d.Fan.Given() {
		add(livingFix{
			Fix: Fix{
				Do: "Add a fan that moves 4 m3/h of the room's air through it, " + quantity.Duration(6*3600).Show(l.sys) + " a day about noon.", Change: "fan: { flow: 4 m3/h, hours: 6 h }",
				Edits: []Edit{{Path: "fan.flow", To: "4 m3/h"}, {Path: "fan.hours", To: "6 h"}}, Cost: "about 15 EUR, " + priceFromMemory, Weight: 15,
			},
			helps: []string{"heat", "humidity", "fog"}, change: func(in *study.Inputs) { in.Fan, in.FanHours = 4.0/3600, 6*3600 },
		})
	}
	if !d.Heater.Given() {
		add(livingFix{
			Fix: Fix{
				Do: "Add a heater of 50 W with a thermostat in the sump, set to keep 21 to 22 C.", Change: "heater: { power: 50 W, keeps: 21 to 22 C }",
				Edits: []Edit{{Path: "heater.power", To: "50 W"}, {Path: "heater.keeps", To: "21 to 22 C"}}, Cost: "about 25 EUR, " + priceFromMemory, Weight: 25,
			},
			helps: []string{"heat"}, change: func(in *study.Inputs) {
				if in.Heater.Power == 0 {
					in.Heater = climate.Heater{Power: 50, Set: 21.5, Band: 1}
				}
			},
		})
	}
	for i := range d.Lights {
		x := &d.Lights[i]
		if !x.Hours.Given() || x.Hours.Value <= 8*3600 {
			continue
		}
		name := x.Name.Value
		add(livingFix{
			Fix: Fix{
				Do: fmt.Sprintf("Let %s shine for 8 hours a day.", name), Change: fmt.Sprintf("lights[%s].hours: 8 h", name),
				Edits: []Edit{{Path: "lights[" + name + "].hours", To: "8 h"}}, Cost: "nothing", Weight: 0.5,
			},
			helps: []string{"heat"}, change: func(in *study.Inputs) {
				for k := range in.Lamps {
					if in.Lamps[k].Name == name {
						in.Lamps[k].Hours = 8 * 3600
					}
				}
			},
		})
	}
	if w := &d.Water; w.Given() && w.TopUp.Value != "rain or osmosis" {
		add(livingFix{
			Fix: Fix{
				Do: "Top up with rain or osmosis water.", Change: "water.top-up: rain or osmosis",
				Edits: []Edit{{Path: "water.top-up", To: "rain or osmosis"}}, Cost: "a rain barrel, or about 60 EUR for an osmosis filter, " + priceFromMemory, Weight: 30,
			},
			helps: []string{"minerals"}, change: func(in *study.Inputs) { in.PureTopUp = true },
		})
	}
	if w := &d.Water; w.Given() {
		for _, days := range []int{14, 7} {
			if w.Every.Given() && float64(w.Every.Value) <= float64(days)*86400 && w.Change.Value >= 0.25 {
				continue
			}
			add(livingFix{
				Fix: Fix{
					Do: fmt.Sprintf("Change a quarter of the water every %d days.", days), Change: fmt.Sprintf("water: { change: 25 %%, every: %d days }", days),
					Edits: []Edit{{Path: "water.change", To: "25 %"}, {Path: "water.every", To: strconv.Itoa(days) + " days"}}, Cost: "an hour each time", Weight: 40 - float64(days),
				},
				helps: []string{"minerals"}, change: func(in *study.Inputs) { in.ChangeShare, in.ChangeEvery = 0.25, float64(days)*86400 },
			})
		}
	}
	return out
}
