package rillwright

import (
	"encoding/json"
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"rillwright/answers"
	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/internal/trial"
	"rillwright/study"
)

// plan is what is varied of the metric demo.
type plan struct {
	flow, head     float64 // label of the pump, L/h and m
	valve          int     // % open
	hose           string
	hoseLength     float64 // m
	up             int     // mm, height of the outlets
	count, blocked int
	hole           float64 // mm
	feed, ends     string
	out            int // mm out of level
	lip            int // mm
	size           string
	second         int // mm, lip of a second drain, 0 for none
	when           string
}

func drawPlan(t *rapid.T) plan {
	p := plan{
		flow:       float64(rapid.IntRange(300, 3000).Draw(t, "flow")),
		head:       float64(rapid.IntRange(10, 45).Draw(t, "head")) / 10,
		valve:      rapid.SampledFrom([]int{0, 20, 45, 70, 100}).Draw(t, "valve"),
		hose:       rapid.SampledFrom([]string{"10 mm", "13 mm", "16 mm", "19 mm", "25 mm"}).Draw(t, "hose"),
		hoseLength: rapid.Float64Range(0.5, 8).Draw(t, "hose length"),
		up:         rapid.IntRange(300, 990).Draw(t, "up"),
		count:      rapid.IntRange(1, 27).Draw(t, "count"),
		hole:       rapid.SampledFrom([]float64{1, 1.5, 2, 3, 4}).Draw(t, "hole"),
		feed:       rapid.SampledFrom([]string{"left", "centre", "right"}).Draw(t, "feed"),
		ends:       rapid.SampledFrom([]string{"capped", "joined\n    ring: 900 mm"}).Draw(t, "ends"),
		out:        rapid.IntRange(0, 12).Draw(t, "out of level"),
		lip:        rapid.IntRange(115, 190).Draw(t, "lip"),
		size:       rapid.SampledFrom([]string{"1/2 in", "3/4 in", "1 in", "1 1/2 in"}).Draw(t, "drain"),
		when:       rapid.SampledFrom([]string{"running", "stopped"}).Draw(t, "when"),
	}
	if rapid.Bool().Draw(t, "two drains") {
		p.second = rapid.IntRange(120, 195).Draw(t, "second lip")
	}
	return p
}

// text writes the plan as a design file.
func (p plan) text(t testing.TB) []byte {
	second := ""
	if p.second > 0 {
		second = fmt.Sprintf("  - name: second drain\n    kind: wall opening\n    lip: %d mm\n    part: bulkhead 1/2 in\n    to: drain side\n    end-height: 160 mm\n    pieces:\n      - { part: rigid pipe 1/2 in sch 40, length: 0.7 m }\n\n", p.second)
	}
	return trial.Swap(t, examples.CorridorCabinet,
		"flow: 1200 L/h, head: 2.4 m", fmt.Sprintf("flow: %g L/h, head: %g m", p.flow, p.head),
		"{ part: ball valve 16 mm }", fmt.Sprintf("{ part: ball valve 16 mm, open: %d %% }", p.valve),
		"vinyl hose 16 mm", "vinyl hose "+p.hose,
		"length: 2.35 m", fmt.Sprintf("length: %.3f m", p.hoseLength),
		"height: 962 mm", fmt.Sprintf("height: %d mm", p.up),
		"count: 27, pitch: 30 mm, hole: 2.0 mm", fmt.Sprintf("count: %d, blocked: %d, pitch: 30 mm, hole: %g mm", p.count, p.blocked, p.hole),
		"feed: centre", "feed: "+p.feed, "ends: capped", "ends: "+p.ends,
		"level-error: 3 mm", fmt.Sprintf("level-error: %d mm", p.out),
		"lip: 150 mm", fmt.Sprintf("lip: %d mm", p.lip),
		"    lip-bore: 26.6 mm\n", "", "    bore: 26.6 mm\n", "",
		"bulkhead 1 in", "bulkhead "+p.size, "rigid pipe 1 in sch 40", "rigid pipe "+p.size+" sch 40",
		"slotted strainer 1 in", "slotted strainer "+p.size, "elbow 90 solvent 1 in", "elbow 90 solvent "+p.size,
		"when: running", "when: "+p.when,
		"grid:\n", second+"grid:\n")
}

func (p plan) build(t *rapid.T, tb testing.TB) *Report {
	r, err := Build("plan.yaml", p.text(tb), Options{NoFixes: true})
	if err != nil {
		t.Fatalf("%+v: %v", p, err)
	}
	if r.Findings.HasErrors() {
		t.Fatalf("%+v: %v", p, r.Findings)
	}
	return r
}

// resolve stops before the answers.
func (p plan) resolve(t *rapid.T, tb testing.TB) *enclosure.Enclosure {
	d, list := design.Read("plan.yaml", p.text(tb))
	if list.HasErrors() {
		t.Fatalf("%+v: %v", p, list)
	}
	e, list := enclosure.Resolve(d, trial.Parts(tb), nil)
	if list.HasErrors() {
		t.Fatalf("%+v: %v", p, list)
	}
	return e
}

// drawCase draws a value for every doubt within its band.
func drawCase(t *rapid.T, e *enclosure.Enclosure) enclosure.Case {
	c := e.Likely()
	for i := range c {
		d := &e.Doubts[i]
		c[i] = d.Low + rapid.Float64Range(0, 1).Draw(t, d.ID)*(d.High-d.Low)
	}
	return c
}

// balance checks that water is neither made nor lost: what the pump lifts leaves
// the outlets, but for the share that is lost it enters the pool, and the drains
// and the dam take it away. Limit: 1e-9 of the flow; flows below a trickle of
// 1e-12 m3/s count as none.
func balance(e *enclosure.Enclosure, c enclosure.Case, st *study.State) error {
	pumps, outlets, drains := 0.0, 0.0, st.Spill
	for i := range st.Pumps {
		pumps += st.Pumps[i].Flow
	}
	for i := range st.Manifolds {
		sum := 0.0
		for _, q := range st.Manifolds[i].Flow {
			if q < 0 {
				return fmt.Errorf("an outlet draws in %g m3/s", -q)
			}
			sum += q
		}
		if math.Abs(sum-st.Manifolds[i].Total) > 1e-15 {
			return fmt.Errorf("outlets sum to %g, total %g", sum, st.Manifolds[i].Total)
		}
		outlets += sum
	}
	for i := range st.Drains {
		drains += st.Drains[i].Flow
	}
	limit := 1e-9*outlets + 1e-12*float64(1+len(st.Manifolds[0].Flow))
	switch {
	case math.Abs(pumps-outlets) > limit:
		return fmt.Errorf("pump %g, outlets %g m3/s", pumps, outlets)
	case math.Abs(st.Outlets*(1-c.Of(e.WaterLost))-st.Inflow) > limit:
		return fmt.Errorf("outlets %g, into the pool %g m3/s", st.Outlets, st.Inflow)
	case math.Abs(st.Inflow-drains) > limit:
		return fmt.Errorf("into the pool %g, out of it %g m3/s", st.Inflow, drains)
	}
	return nil
}

// unreal finds a number that is not finite anywhere in a value.
func unreal(v reflect.Value, path string) string {
	switch v.Kind() {
	case reflect.Float64:
		if f := v.Float(); math.IsNaN(f) || math.IsInf(f, 0) {
			return fmt.Sprintf("%s is %v", path, f)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if s := unreal(v.Field(i), path+"."+v.Type().Field(i).Name); s != "" {
				return s
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			if s := unreal(v.Index(i), fmt.Sprintf("%s[%d]", path, i)); s != "" {
				return s
			}
		}
	case reflect.Pointer:
		if !v.IsNil() {
			return unreal(v.Elem(), path)
		}
	}
	return ""
}

func sound(list []answers.Answer) error {
	for _, a := range list {
		if s := unreal(reflect.ValueOf(a), a.ID); s != "" {
			return fmt.Errorf("%s", s)
		}
		if a.Say == "" {
			return fmt.Errorf("%s says nothing", a.ID)
		}
		for _, f := range a.Figures {
			if !(f.Low <= f.Likely && f.Likely <= f.High) {
				return fmt.Errorf("%s, %s: %g, %g, %g is no band", a.ID, f.Name, f.Low, f.Likely, f.High)
			}
		}
		for i := 1; i < len(a.Matters); i++ {
			if a.Matters[i].Swing > a.Matters[i-1].Swing {
				return fmt.Errorf("%s: doubts out of rank", a.ID)
			}
		}
	}
	text, err := json.Marshal(list)
	if err == nil && (strings.Contains(string(text), "NaN") || strings.Contains(string(text), "Inf ")) {
		err = fmt.Errorf("not a number in %s", text)
	}
	return err
}

// Both demos balance at their likely and at every end of their doubts.
func TestDemoBalance(t *testing.T) {
	for name, data := range map[string][]byte{"metric": examples.CorridorCabinet, "us": examples.CounterWall} {
		e := build(t, data).Enclosure
		for i := range e.Doubts {
			for _, v := range []float64{e.Doubts[i].Low, e.Doubts[i].High} {
				c := e.Likely()
				c[i] = v
				st, err := study.Run(e, c, study.Setting{})
				if err == nil {
					err = balance(e, c, st)
				}
				if err != nil {
					t.Errorf("%s, %s at %g: %v", name, e.Doubts[i].ID, v, err)
				}
			}
		}
	}
}

// Whatever a builder may try, water is neither made nor lost, every number is
// one, and every band is in order.
func TestPlansBalance(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p := drawPlan(rt)
		r := p.build(rt, t)
		c := drawCase(rt, r.Enclosure)
		st, err := study.Run(r.Enclosure, c, study.Setting{})
		if err != nil {
			rt.Fatalf("%+v: %v", p, err)
		}
		if err := balance(r.Enclosure, c, st); err != nil {
			rt.Fatalf("%+v: %v", p, err)
		}
		for _, s := range []*study.State{st, r.Survey.Likely} {
			if s := unreal(reflect.ValueOf(s), "state"); s != "" {
				rt.Fatalf("%+v: %s", p, s)
			}
		}
		if st.Spills != (st.Spill > 0) || st.Spills && st.PoolLevel != r.Enclosure.Pool.DamTop {
			rt.Fatalf("%+v: spills %v, %g m3/s, level %g", p, st.Spills, st.Spill, st.PoolLevel)
		}
		if err := sound(r.Answers); err != nil {
			rt.Fatalf("%+v: %v", p, err)
		}
	})
}

// Laws of physics that need no figure: a higher lift, a blocked outlet, a worn
// pump, a valve further shut never give more flow; a wider drain never takes
// less. Slack: 1e-9 of the flow, what the solver leaves.
func TestPlansOrder(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		p := drawPlan(rt)
		p.valve = max(p.valve, 20)
		state := func(p plan, s study.Setting) *study.State {
			e := p.resolve(rt, t)
			st, err := study.Run(e, e.Likely(), s)
			if err != nil {
				rt.Fatalf("%+v: %v", p, err)
			}
			return st
		}
		base := state(p, study.Setting{})
		less := func(what string, q float64) {
			rt.Helper()
			if q > base.Outlets*(1+1e-9)+1e-12 {
				rt.Errorf("%+v: %s gives %g, more than %g m3/s", p, what, q, base.Outlets)
			}
		}
		higher, blocked, shut, wider := p, p, p, p
		higher.up += 40
		less("a higher lift", state(higher, study.Setting{}).Outlets)
		blocked.blocked = rapid.IntRange(0, p.count).Draw(rt, "blocked")
		if blocked.blocked < p.count {
			less("a blocked outlet", state(blocked, study.Setting{}).Outlets)
		}
		shut.valve -= 10
		less("a valve further shut", state(shut, study.Setting{}).Outlets)
		less("a worn pump", state(p, study.Setting{Speed: 0.85}).Outlets)
		next := map[string]string{"1/2 in": "3/4 in", "3/4 in": "1 in", "1 in": "1 1/2 in", "1 1/2 in": "2 in"}
		wider.size = next[p.size]
		if w := state(wider, study.Setting{}).Drains[0].Capacity; w < base.Drains[0].Capacity*(1-1e-9) {
			rt.Errorf("%+v: a wider drain takes %g, less than %g m3/s", p, w, base.Drains[0].Capacity)
		}
	})
}
