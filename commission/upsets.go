package commission

import (
	"fmt"
	"math"
	"strings"

	"rillwright/answers"
	"rillwright/faults"
	"rillwright/quantity"
	"rillwright/study"
)

// Margins of the trade, m.
func (p *planner) margins() (dam, rim float64) {
	if p.sys == quantity.US {
		return 5.0 / 8 * 0.0254, 0.0254
	}
	return 0.015, 0.025
}

const marginRule = "from memory of the trade"

func (p *planner) levels() []Check {
	e := p.s.E
	rise := p.band(answers.Measure{ID: "commission rise", Of: func(st *study.State) float64 { return st.PoolLevel - st.RestLevel }})
	stands := p.band(answers.Measure{ID: "commission pool", Open: true, Of: func(st *study.State) float64 { return st.PoolLevel - e.Pool.Floor }})
	dam, _ := p.margins()
	top := e.Pool.DamTop - e.Pool.Floor
	limit := Check{
		ID: "drain", Name: "Drain limit", Unit: Height, Readings: 1, Expect: stands, Computed: true,
		How:   "Open every valve fully for ten minutes. Measure the pool above its floor when it has stopped rising.",
		Pass:  AtMost(top - dam),
		From:  fmt.Sprintf("%s below the dam's top: %s", Show(Height, dam, p.sys), marginRule),
		IfNot: "Pull the plug before it spills. Clean the strainer, look for a trap of air or a rise in the pipe; then a larger drain or a second one.",
	}
	if stands[2] > top-dam {
		limit.Hold = "With care: at the bad end it is computed to stand higher than this. Open the valves little by little and keep a hand on the plug."
	}
	return []Check{
		{
			ID: "rise", Name: "Level rise", Unit: Height, Readings: 1, Expect: rise, Computed: true,
			How:   "Mark the pool with the pump off, at the lip, and again after ten minutes of running.",
			Pass:  Range{math.Max(rise[0]-reading, 0), rise[2] + reading},
			From:  "computed, with " + Show(Height, reading, p.sys) + " for reading it",
			IfNot: "Higher: leaves on the strainer, a burr at the lip, or more water than planned. Lower: less water than planned.",
		},
		limit,
	}
}

// fault returns a followed fault of a kind and its answer.
func (p *planner) fault(kind faults.Kind) (x *faults.Fault, a answers.Answer, ok bool) {
	if p.f == nil {
		return nil, a, false
	}
	list := p.f.Survey.Faults
	for i := range list {
		if list[i].Kind != kind {
			continue
		}
		for k := range p.f.Answers {
			if p.f.Answers[k].ID == list[i].ID {
				return &list[i], p.f.Answers[k], true
			}
		}
	}
	return nil, a, false
}

const notFollowed = "faults were not followed"

func (p *planner) upsets() []Check {
	e := p.s.E
	_, rim := p.margins()
	stop := p.band(answers.Measure{ID: "commission stop", Open: true, Of: func(st *study.State) float64 { return st.StopLevel - e.Sump.Bottom }})
	cut := Check{
		ID: "power-cut", Name: "Power cut", Unit: Height, Readings: 1, Expect: stop, Computed: true,
		How:   "Pull the plug at full flow. After 15 minutes, or when it has stopped rising, measure the sump's water above its bottom. Look at every hose end for a siphon.",
		Pass:  AtMost(e.Sump.Height - rim),
		From:  fmt.Sprintf("%s below the rim: %s", Show(Height, rim, p.sys), marginRule),
		IfNot: "Break the siphon with a hole above the water, or lower the fill line and mark it on the sump.",
	}
	if stop[2] > e.Sump.Height {
		cut.Hold = "Do not try this yet: at the bad end it is computed to run over the rim: lower the fill line first."
	}
	restart := Check{
		ID: "restart", Name: "Restart", Unit: Time, Readings: 1, Pass: AtMost(60),
		How:   "Plug in again. Time until water is at every outlet.",
		From:  "within a minute: common practice, no source",
		IfNot: "Air is locked in: a vent hole at the highest point, or a hose that rises all the way.",
	}
	return []Check{cut, restart, p.blocked(), p.lost()}
}

// blocked is the one that floods rooms: it is tried only where it was computed to
// end well.
func (p *planner) blocked() Check {
	c := Check{
		ID: "blocked-drain", Name: "Blocked drain", Unit: Seen,
		How:      "A bag over the strainer, running as planned, one hand on the plug. Watch the dam's top and the pump.",
		PassSeen: "The pump draws air, or another drain carries all, before water is at the dam's top",
		From:     "computed",
		IfNot:    "Pull the plug. Lower the fill line, or add a second drain or a float switch; then try again.",
	}
	x, a, ok := p.fault(faults.Blocked)
	if !ok {
		c.Lacks = notFollowed
		if p.f != nil {
			c.Lacks = "there is no drain to block"
		}
		return c
	}
	if p.f.Survey.WorstSpill(faults.Blocked, faults.AllBlocked) > 0 {
		c.Hold = "Do not try this yet. Computed for the " + p.s.E.Drains[max(x.Index, 0)].Name + ": " + strings.TrimPrefix(a.Say, "Yes: ")
	}
	return c
}

// lost is a standpipe pulled out or knocked over.
func (p *planner) lost() Check {
	e := p.s.E
	c := Check{
		ID: "lost-standpipe", Name: "Lost standpipe", Unit: Height, Readings: 1,
		How:   "Running, pull the standpipe out. When the pool has stopped falling, measure the sump's water above its bottom.",
		Pass:  AtMost(e.Sump.Height),
		From:  "the sump's rim",
		IfNot: "Raise the bulkhead, or lower the fill line: the pool above the bulkhead must fit into the sump.",
	}
	x, a, ok := p.fault(faults.Standpipe)
	if !ok {
		c.Lacks = notFollowed
		if p.f != nil {
			c.Lacks = "no drain has a standpipe"
		}
		return c
	}
	likely, err := p.f.Survey.Likely().Run(&x.Scenario, x.Options)
	bad, err2 := p.f.Survey.Bad(x.ID).Run(&x.Scenario, x.Options)
	if err == nil && err2 == nil {
		l, b := likely.SumpMost-e.Sump.Bottom, bad.SumpMost-e.Sump.Bottom
		c.Expect, c.Computed = [3]float64{math.Min(l, b), l, math.Max(l, b)}, true
	}
	if p.f.Survey.WorstSpill(faults.Standpipe) > 0 {
		c.Hold = "Do not try this yet. Computed: " + strings.TrimPrefix(a.Say, "Yes: ")
	}
	return c
}

func (p *planner) night() []Check {
	return []Check{
		{
			ID: "soak", Name: "Soak", Unit: Seen,
			How:      "Let it run overnight with a dry tissue along the rims, under each cord's lowest point, along the doors and under every union.",
			PassSeen: "Every tissue is dry in the morning",
			From:     "common practice, no source",
			IfNot:    "Find the way the water creeps: moss, wood, mesh or cord over a rim. A drip edge, or trim it back.",
		},
		{
			ID: "noise", Name: "Noise", Unit: Seen,
			How:      "At night, 1 m away.",
			PassSeen: "You would sleep beside it",
			From:     "your own ear",
			IfNot:    "A pad under the pump, a longer hose tail, a vent at the standpipe's top, a drain one size up.",
		},
	}
}
