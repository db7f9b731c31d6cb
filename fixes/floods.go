package fixes

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"rillwright/answers"
	"rillwright/catalogue"
	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/faults"
	"rillwright/quantity"
)

// Floods fills in the fixes of the answers about faults that are wanted: each change is followed
// through every fault of the report again, and through the answers about the
// water, and what gets worse by it is listed. Stop is that of Find.
func Floods(s *answers.Survey, cat *catalogue.Catalogue, rep *answers.FaultReport, wants func(id string) bool, stop func() error) error {
	f := &finder{s: s, cat: cat, stop: stop, base: map[string]answers.Answer{}}
	for _, a := range append(s.Water(), rep.Answers...) {
		f.base[a.ID] = a
	}
	changes := f.floodChanges(rep, wants)
	type outcome struct {
		water, floods []answers.Answer
		stops         bool
		err           error
	}
	got := make([]*outcome, len(changes))
	stopped := f.each(len(changes), func(i int) {
		e := f.s.E.Clone()
		if !changes[i].apply(e) {
			return
		}
		o := &outcome{}
		got[i] = o
		t, err := f.s.Again(e, changes[i].anew)
		if err != nil {
			o.err = err
			return
		}
		fs, err := rep.Survey.Again(t, stop)
		if err != nil {
			o.err = err
			return
		}
		o.floods, o.water = fs.Answers(), t.Water()
		o.stops = rep.Survey.Likely().Runs() && !(fs.Likely().Runs() && fs.AllRun())
		o.err = t.Err()
	})
	if stopped != nil {
		return stopped
	}
	var errs []error
	for i, o := range got {
		switch {
		case o == nil:
			continue
		case o.err != nil:
			// A change that cannot be followed is no fix; say so only if it is
			// the program's fault.
			if !errors.Is(o.err, faults.ErrNoState) {
				errs = append(errs, fmt.Errorf("%s: %w", changes[i].do, o.err))
			}
			continue
		}
		if o.stops {
			continue // what only keeps the pump from running is no fix
		}
		all := slices.Concat(o.water, o.floods)
		for k := range rep.Answers {
			f.effect(&rep.Answers[k], &changes[i], o.floods, all)
		}
	}
	for k := range rep.Answers {
		a := &rep.Answers[k]
		slices.SortStableFunc(a.Fixes, inOrder)
		a.Fixes = a.Fixes[:min(len(a.Fixes), most+1)] // one more: filling less is free and ranks last
	}
	return errors.Join(errs...)
}

// effect adds a change to an answer about a fault if it comes out better with it.
func (f *finder) effect(a *answers.Answer, c *change, floods, all []answers.Answer) {
	if a.Verdict != answers.Fails && a.Verdict != answers.Tight {
		return
	}
	i := slices.IndexFunc(floods, func(b answers.Answer) bool { return b.ID == a.ID })
	if i < 0 {
		return
	}
	now := &floods[i]
	// Less by a fifth is worth having if it cannot be mended wholly.
	better := now.Verdict < a.Verdict || now.Verdict == a.Verdict && now.Score > a.Score+0.2*math.Abs(a.Score)
	if !better || headline(a) == headline(now) {
		return
	}
	fix := f.fix(c)
	fix.Verdict, fix.Before, fix.After, fix.Breaks = now.Verdict, headline(a), headline(now), f.breaks(all, a)
	a.Fixes = append(a.Fixes, fix)
}

// floodChanges lists the changes that may keep water off the floor. Their figures
// are reckoned from what spilled; whether they do is found by following them.
func (f *finder) floodChanges(rep *answers.FaultReport, wants func(id string) bool) []change {
	var out []change
	need := map[string]bool{}
	for i := range rep.Answers {
		if !wants(rep.Answers[i].ID) {
			continue
		}
		if v := rep.Answers[i].Verdict; v == answers.Fails || v == answers.Tight {
			id, _, _ := strings.Cut(rep.Answers[i].ID, "[")
			need[id] = true
		}
	}
	if len(need) == 0 {
		return nil
	}
	over := rep.Survey.WorstSpill(faults.Blocked, faults.HalfBlocked, faults.BlocksSlowly)
	if over > 0 {
		out = append(out, f.lowerFill(over)...)
		out = append(out, f.cutOff(rep, over)...)
		out = append(out, f.raiseDam(rep, over)...)
		if len(f.s.E.Drains) == 1 {
			out = append(out, f.second()...)
			out = append(out, f.smallSecond()...)
		}
	}
	if back := rep.Survey.WorstSpill(faults.PowerCut, faults.Standpipe, faults.DayStopped); back > 0 && !(over >= back) {
		out = append(out, f.lowerFill(back)...)
	}
	if need["power-cut"] || need["creeps"] || need["break-holes"] {
		out = append(out, f.breakHoles()...)
	}
	if need["valve"] {
		out = append(out, f.drains()...)
	}
	if need["away"] {
		out = append(out, f.reservoir(), f.fuller(rep))
	}
	seen := map[string]bool{}
	return slices.DeleteFunc(out, func(c change) bool {
		again := seen[c.do]
		seen[c.do] = true
		return again || c.apply == nil
	})
}

// lowerFill fills the sump less by what was spilled and a tenth.
func (f *finder) lowerFill(spilled float64) []change {
	s := &f.s.E.Sump
	level := s.Bottom + tape(s.Level-1.1*spilled/(s.Width*s.Depth)-s.Bottom, f.s.E.Units, math.Floor)
	if level <= s.Bottom {
		return nil
	}
	return []change{f.fill(level, "fill the sump less")}
}

// tape rounds a length to what a tape shows: a millimetre or a sixteenth of an
// inch.
func tape(v float64, sys quantity.System, round func(float64) float64) float64 {
	step := 1e-3
	if sys == quantity.US {
		step = 0.0254 / 16
	}
	return step * round(v/step)
}

// fuller fills it up to three quarters, as far as the trade goes while it runs.
func (f *finder) fuller(rep *answers.FaultReport) change {
	s := &f.s.E.Sump
	level := s.Bottom + 0.75*s.Height
	if rep.Line != nil && rep.Line.Highest > s.Bottom {
		level = rep.Line.Highest - rep.Survey.Likely().Start.StopLevel + s.Level
	}
	level = s.Bottom + tape(level-s.Bottom, f.s.E.Units, math.Floor)
	if level <= s.Level+1e-3 {
		return change{}
	}
	return f.fill(level, "fill the sump more")
}

func (f *finder) fill(level float64, what string) change {
	s := &f.s.E.Sump
	when := "while it runs"
	if !s.Running {
		when = "while it stands still"
	}
	text := quantity.Length(level - s.Bottom).Show(f.s.E.Units)
	return change{
		do: fmt.Sprintf("%s, to %s from its bottom %s, and mark that", what, text, when), cost: nothing("nothing"),
		edit: "sump.water.level: " + text, edits: []design.Edit{put("sump.water.level", text)},
		apply: func(e *enclosure.Enclosure) bool {
			e.Sump.Level = level
			return true
		},
	}
}

// cutOff puts a float switch so high that what it holds back covers the spill.
func (f *finder) cutOff(rep *answers.FaultReport, spilled float64) []change {
	var out []change
	s := &f.s.E.Sump
	_, inlet := rep.Survey.Likely().InletVolume()
	off := s.Bottom + tape(inlet+1.1*spilled/(s.Width*s.Depth)-s.Bottom, f.s.E.Units, math.Ceil)
	on := s.Bottom + tape(off-s.Bottom+0.030, f.s.E.Units, math.Ceil)
	if off >= rep.Survey.Likely().Start.SumpLevel-0.005 {
		return nil
	}
	for i := range f.s.E.Pumps {
		if f.s.E.Pumps[i].Float.Given || !f.s.E.Pumps[i].InSump {
			continue
		}
		text := quantity.Length(off - s.Bottom).Show(f.s.E.Units)
		path, float := "pumps["+f.s.E.Pumps[i].Name+"].float", fmt.Sprintf("{ off: %s, on: %s }", text, quantity.Length(on-s.Bottom).Show(f.s.E.Units))
		out = append(out, change{
			do:   fmt.Sprintf("put a float switch on the %s that stops it when the sump falls to %s; test it every month", f.s.E.Pumps[i].Name, text),
			cost: cost{words: fmt.Sprintf("about 10 to 25 %s, from memory", f.currency()), amount: 17},
			edit: path + ": " + float, edits: []design.Edit{put(path, float)},
			apply: func(e *enclosure.Enclosure) bool {
				e.Pumps[i].Float = enclosure.Float{Given: true, Off: off, On: on}
				return true
			},
		})
	}
	return out
}

// raiseDam makes the dam higher by what was spilled, spread over the pool, and a
// tenth.
func (f *finder) raiseDam(rep *answers.FaultReport, spilled float64) []change {
	p := &f.s.E.Pool
	area := rep.Survey.LeastPoolArea()
	top := p.Floor + tape(p.DamTop-p.Floor+1.1*spilled/area, f.s.E.Units, math.Ceil)
	// Not beyond the enclosure, and not up to where the water comes from.
	ceiling := math.Inf(1)
	for i := range f.s.E.Manifolds {
		ceiling = math.Min(ceiling, f.s.E.Manifolds[i].Height)
	}
	room := &f.s.E.Design.Enclosure
	if h := room.Inside.Height; room.Inside.Given() {
		ceiling = math.Min(ceiling, float64(room.Bottom.Value+h.Value))
	}
	if top >= ceiling || top-p.Floor > 2*(p.DamTop-p.Floor) {
		return nil
	}
	text := quantity.Length(top - p.Floor).Show(f.s.E.Units)
	return []change{{
		do:   fmt.Sprintf("make the dam %s high; its glass and joints then carry more water, so see to them again", text),
		cost: cost{words: "a higher pane", amount: 25}, // assumed, no source
		edit: "dam.height: " + text, edits: f.damEdits(text),
		apply: func(e *enclosure.Enclosure) bool {
			e.Pool.DamTop = top
			return true
		},
	}}
}

// smallSecond is a second drain one size smaller.
func (f *finder) smallSecond() []change {
	list := f.second()
	if len(list) == 0 {
		return nil
	}
	d := &f.s.E.Drains[0]
	next, ok := f.cat.NextBore(d.Part, false)
	if d.Part.Name == "" || !ok {
		return nil
	}
	like := list[0]
	higher := quantity.Length(0.015)
	if f.s.E.Units == quantity.US {
		higher = 5.0 / 8 * 0.0254
	}
	return []change{{
		do:   fmt.Sprintf("add a smaller second drain, %s, hole %s, with its lip %s higher than that of the %s", next.Name, next.Hole.Show(f.s.E.Units), higher.Show(f.s.E.Units), d.Name),
		cost: f.price(&next, 0).and(", pipe and one more hole", 15), edit: "drains: one more entry",
		edits: append(slices.Clone(like.edits), f.grownEdits(0, "drains["+secondName+"]", float64(higher), next)...), byHand: cmp.Or(like.byHand, f.lipUnknown(0, next)),
		apply: func(e *enclosure.Enclosure) bool {
			if !like.apply(e) {
				return false
			}
			f.grow(e, &e.Drains[len(e.Drains)-1], next)
			e.Rejoin()
			return true
		},
	}}
}

// breakHoles drills a hole into every return that ends under water, at the
// waterline.
func (f *finder) breakHoles() []change {
	var out []change
	for i := range f.s.E.Runs {
		u := &f.s.E.Runs[i]
		level := f.s.Likely.PoolLevel
		if u.To.Kind != enclosure.AtPool || u.EndHeight >= level || u.BreakHole.Size > 0 {
			continue
		}
		size, drill := 0.004, "4 mm"
		if f.s.E.Units == quantity.US {
			size, drill = 5.0/32*0.0254, "5/32 in"
		}
		up := tape(level-f.s.E.Pool.Floor, f.s.E.Units, math.Round)
		level = f.s.E.Pool.Floor + up
		text := quantity.Length(up).Show(f.s.E.Units)
		path := "runs[" + u.Name + "].break-hole"
		out = append(out, change{
			do:   fmt.Sprintf("drill a break hole of 4 mm (5/32 in) into the %s, %s above the pool's floor, and keep it open", u.Name, text),
			cost: nothing("nothing"), edit: path,
			edits: []design.Edit{put(path, fmt.Sprintf("{ height: %s, size: %s }", lengthText(level-float64(f.s.E.Design.Enclosure.Bottom.Value), f.s.E.Units), drill))},
			apply: func(e *enclosure.Enclosure) bool {
				e.Runs[i].BreakHole = enclosure.BreakHole{Height: level, Size: size}
				return true
			},
		})
	}
	return out
}

// reservoir adds a canister that tops the sump up.
func (f *finder) reservoir() change {
	if f.s.E.TopUp.Given {
		return change{}
	}
	const gallon = 3.785411784e-3
	holds, flow := 0.010, 10e-3/3600
	if f.s.E.Units == quantity.US {
		holds, flow = 2.5*gallon, 2.6*gallon/3600
	}
	v := quantity.Volume(holds).Show(f.s.E.Units)
	s := &f.s.E.Sump
	level := s.Bottom + tape(f.s.Likely.SumpLevel-0.005-s.Bottom, f.s.E.Units, math.Floor)
	return change{
		do:   fmt.Sprintf("add a top-up of %s with a float valve; it must not reach the sump's rim if the valve sticks", v),
		cost: cost{words: fmt.Sprintf("about 15 to 30 %s, from memory", f.currency()), amount: 22},
		edit: "top-up", edits: f.reservoirEdits(flow, level-s.Bottom, holds),
		apply: func(e *enclosure.Enclosure) bool {
			e.TopUp = enclosure.TopUp{Given: true, Flow: flow, Level: level, Holds: holds, Chamber: max(len(e.Sump.Chambers)-1, 0)}
			return true
		},
	}
}
