package answers

import (
	"math"
	"slices"
	"strings"
	"testing"

	"rillwright/examples"
	"rillwright/internal/trial"
)

// unbounded tells why an answer whose limit has a number, or is nothing, has no
// figure that one limit is held against.
var unbounded = map[string]string{
	"pane[base]": "it lies on a full board; its limit is a stress, and what is shown a pressure and a gap",
	"turned":     "its limit is where each pane comes to stand",
	"fits":       "its limit is that ends are of one form",
}

// side is on which side of its limit a figure is to be.
type side int

const (
	most    side = iota + 1 // at most that
	least                   // at least that
	byWords                 // at most, or at least, by its words
)

// sides are those of every figure that has a limit, by the answer's family and how
// the figure's name begins; "" is all others of the family.
var sides = map[string]map[string]side{
	"lift": {"": least}, "too-strong": {"": most}, "drain": {"": least}, "quiet": {"": most},
	"levels": {"freeboard": least, "": most}, "even": {"": least}, "outlets": {"": most},
	"pump-size": {"head the pump must": most, "shelf": 0},
	"dam":       {"in": 0, "": most}, "pane": {"": most}, "bond": {"worst spot while it runs": most, "": 0}, "joints": {"": most},
	"sealant": {"cartridges": 0}, "weight": {"on the floor": most},
	"standing": {"push": least, "tilt": least, "running": least},
	"hole":     {"": byWords}, "way": {"": byWords}, "clash": {"": least}, "cells": {"": most},
	"pieces": {"": most}, "reach": {"opening": least, "nut": least, "": most}, "bend": {"": least},
	"away": {"": least}, "clogs": {"": least}, "creeps": {"": most}, "fill-line": {"": most},
	"power-cut": {"": most}, "blocked": {"": most}, "all-blocked": {"": most}, "half-blocked": {"": most}, "slowly": {"": most},
	"standpipe": {"": most}, "stopped": {"": most}, "valve": {"": most}, "top-up": {"": most}, "leaves": {"": most}, "float": {"": most}, "own": {"": most},
	"heat": {"air at its warmest": most, "air at its coldest": least}, "humidity": {"": least}, "fog": {"": most}, "minerals": {"": most},
	"evaporation": {"": least}, "light": {"": least},
}

func sideOf(t *testing.T, a *Answer, f *Figure) side {
	t.Helper()
	id, _, _ := strings.Cut(a.ID, "[")
	best, found, out := "", false, side(0)
	for begins, s := range sides[id] {
		if strings.HasPrefix(f.Name, begins) && (!found || len(begins) > len(best)) {
			best, found, out = begins, true, s
		}
	}
	if !found {
		t.Errorf("%s, %s: has a limit; say in this test on which side of it it is to be", a.ID, f.Name)
	}
	if out == byWords {
		if out = least; strings.Contains(f.Text, "at most") {
			out = most
		}
	}
	return out
}

// everything is all answers to a design.
func everything(t *testing.T, data []byte, pairs ...string) []Answer {
	t.Helper()
	s := survey(t, changed(t, data, pairs...))
	out := s.All(trial.Parts(t))
	carries, err := s.Structure()
	if err != nil {
		t.Fatal(err)
	}
	rep, err := s.Floods(FaultOptions{})
	if err != nil {
		t.Fatal(err)
	}
	lives, err := Living(s.E, LivingOptions{})
	if err != nil {
		t.Fatal(err)
	}
	return slices.Concat(out, carries, rep.Answers, lives.Answers)
}

// What has a limit in numbers shows it beside its figure, in the figure's unit: what
// holds is within it with every doubt at its bad end.
func TestBounds(t *testing.T) {
	for name, list := range map[string][]Answer{
		"metric":      everything(t, examples.CorridorCabinet),
		"us":          everything(t, examples.CounterWall),
		"a good pump": everything(t, examples.CorridorCabinet, "flow: 1200 L/h, head: 2.4 m", "flow: 1300 L/h, head: 2.9 m"),
	} {
		for i := range list {
			a := &list[i]
			bounds := 0
			for k := range a.Figures {
				f := &a.Figures[k]
				if f.Bound == nil {
					if strings.Contains(f.Text, "wants ") || strings.Contains(f.Text, "at most") && strings.HasPrefix(a.ID, "hole") {
						t.Errorf("%s: %s, %s: %s: no limit", name, a.ID, f.Name, f.Text)
					}
					continue
				}
				bounds++
				within := true
				want := sideOf(t, a, f)
				if want != 0 && f.Least != (want == least) {
					t.Errorf("%s: %s, %s: the least it may be: %v", name, a.ID, f.Name, f.Least)
				}
				switch want {
				case most:
					within = f.High <= *f.Bound*(1+1e-9)+1e-9
				case least:
					within = f.Low >= *f.Bound*(1-1e-9)-1e-9
				}
				if a.ID == "standing" && strings.Contains(a.Say, "fixed") {
					continue // the wall holds it; the figures tell how it would stand without
				}
				if a.Verdict == Holds && !within {
					t.Errorf("%s: %s holds, but %s is %s (%g to %g), and its limit %g %s", name, a.ID, f.Name, f.Text, f.Low, f.High, *f.Bound, f.Unit)
				}
				if a.Verdict == Fails && k == a.Key && len(a.Figures) > 0 && within && a.ID != "levels" && want != 0 {
					t.Errorf("%s: %s fails, but %s is %s, within its limit %g %s", name, a.ID, f.Name, f.Text, *f.Bound, f.Unit)
				}
			}
			why, known := unbounded[a.ID]
			numeric := strings.ContainsAny(a.Limit.Text, "0123456789") || strings.HasPrefix(a.Limit.Text, "no water")
			if numeric && a.Verdict != Unknown && bounds == 0 && !known {
				t.Errorf("%s: %s: no figure has a limit, which is %q", name, a.ID, a.Limit.Text)
			}
			if known && bounds > 0 {
				t.Errorf("%s: %s has a limit, and is said to have none since %s", name, a.ID, why)
			}
		}
	}
}

// A design shown in other units is as near to its limits.
func TestBoundsInOtherUnits(t *testing.T) {
	metric := everything(t, examples.CorridorCabinet)
	us := everything(t, examples.CorridorCabinet, "units: metric", "units: us")
	seen := 0
	for i := range metric {
		a := &metric[i]
		k := slices.IndexFunc(us, func(b Answer) bool { return b.ID == a.ID })
		if k < 0 {
			t.Errorf("%s is not asked in US units", a.ID)
			continue
		}
		for n := range a.Figures {
			if n >= len(us[k].Figures) {
				break
			}
			f, g := &a.Figures[n], &us[k].Figures[n]
			if (f.Bound == nil) != (g.Bound == nil) {
				t.Errorf("%s, %s: a limit in one system of units only", a.ID, f.Name)
			}
			if f.Bound == nil || g.Bound == nil || f.Name != g.Name || f.Likely == 0 || a.ID == "heat" {
				continue // a temperature has no ratio
			}
			seen++
			// Round inches are taken for round millimetres: 5/8 in for 15 mm is the farthest off.
			if x, y := *f.Bound/f.Likely, *g.Bound/g.Likely; math.Abs(x-y) > 0.06*math.Abs(x) {
				t.Errorf("%s, %s: the limit is %.4g times the figure, in US units %.4g", a.ID, f.Name, x, y)
			}
		}
	}
	if seen < 40 {
		t.Errorf("%d limits compared", seen)
	}
}
