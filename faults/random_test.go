package faults

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"rillwright/enclosure"
	"rillwright/examples"
)

// odd invents an enclosure of the size of a real one, with whatever a builder may
// think of: several pumps and lines, no manifold at all, returns above and under
// water, baffles, joined drains, waters out of sight, things that hang over.
type odd struct {
	r        *rand.Rand
	supply   string
	text     string
	pumps    []string
	runs     []string
	drains   []string
	chambers []string
	upright  int // the first so many drains are standpipes
	topUp    bool
	tees     string
}

func (o *odd) pick(words ...string) string { return words[o.r.IntN(len(words))] }

func (o *odd) mm(lo, hi int) string { return fmt.Sprintf("%d mm", lo+o.r.IntN(hi-lo+1)) }

func (o *odd) chance(of float64) bool { return o.r.Float64() < of }

const (
	oddBar = "manifolds:\n  - name: drip bar\n    part: rigid pipe 20 mm PN20\n    bore: 16 mm\n    pipe-wall: 2 mm\n    length: 820 mm\n    height: 962 mm\n    out: 65 mm\n" +
		"    level-error: 3 mm\n    inlet: barb 16 mm\n    feed: centre\n    ends: capped\n    outlets:                      # holes 42 % of the bore, as by hand\n" +
		"      - { count: 27, pitch: 30 mm, hole: 2.0 mm, hole-error: 0.1 mm }\n"
	oddRuns = "  - name: riser\n    from: main pump\n    to: drip bar\n    pieces:\n      - { part: vinyl hose 16 mm, length: 0.4 m, bend: 180 mm }\n" +
		"      - { part: ball valve 16 mm }\n      - { part: vinyl hose 16 mm, length: 2.35 m, bend: 180 mm }\n" +
		"      - { part: elbow 90 barbed 16 mm }\n      - { part: vinyl hose 16 mm, length: 50 mm }\n"
	oddSump = "  chambers:\n    - { name: drain side, length: 220 mm, under: 40 mm }\n    - { name: pump side, length: 380 mm }\n"
	oddPump = "    inlet: 50 mm\n    outlet: barb 16 mm\n    power: 22 W\n    strainer: { part: sponge strainer }\n    price: 38 EUR\n"
	oddTail = "      - { part: rigid pipe 1 in sch 40, length: 690 mm }\n"
)

func newOdd(tb testing.TB, seed uint64) *odd {
	tb.Helper()
	o := &odd{r: rand.New(rand.NewPCG(seed, 11)), pumps: []string{"main pump"}, drains: []string{"main drain"}, upright: 1}
	pairs := append(o.water(), o.circuit()...)
	pairs = append(pairs, o.away()...)
	if o.tees != "" {
		pairs = append(pairs, "\nshelf:\n", "\ntees:\n"+o.tees+"\nshelf:\n")
	}
	o.text = swapped(tb, examples.CorridorCabinet, append(pairs,
		"flow: 1200 L/h, head: 2.4 m", fmt.Sprintf("flow: %d L/h, head: %.1f m", 500+o.r.IntN(2000), 1+3*o.r.Float64()))...)
	o.text = without(o.text, "bridges", "scenarios", "top-up") + o.extras()
	return o
}

// water draws pool, wall and sump.
func (o *odd) water() []string {
	pairs := []string{"lip: 150 mm", "lip: " + o.mm(120, 185), "level: 130 mm, when: running", "level: " + o.mm(70, 220) + ", when: " + o.pick("running", "stopped")}
	pool := "  depth: 408 mm\n"
	if o.chance(0.3) {
		pool += "  zones: [{ name: gravel, from: 0 mm, to: " + o.mm(10, 60) + ", displaced: 40 to 50 % }, { name: stones, from: 80 mm, to: 110 mm, displaced: 30 % }]\n"
	}
	if o.chance(0.3) {
		pool += "  hidden: [{ name: behind the grid, width: 820 mm, depth: 30 mm, floor: " + o.mm(0, 40) + ", gap-width: " + o.mm(1, 200) + ", gap-height: " + o.mm(1, 15) + " }]\n"
	}
	pairs = append(pairs, "  depth: 408 mm\n", pool)
	if o.chance(0.3) {
		pairs = append(pairs, "  look: trickle\n", "  look: trickle\n  soaks: [{ name: moss, holds: 1.5 L, catches: 20 %, drains-in: 2 h }, { name: bark, holds: 0.1 L, catches: 5 %, drains-in: "+o.pick("1 min", "3 h")+" }]\n")
	}
	o.chambers = []string{"drain side", "pump side"}
	chambers := oddSump
	switch o.r.IntN(5) {
	case 0:
		o.chambers, chambers = []string{"drain side", "middle", "pump side"}, "  chambers:\n    - { name: drain side, length: 150 mm, over: "+o.mm(90, 220)+" }\n    - { name: middle, length: 100 mm, under: "+o.mm(10, 60)+" }\n    - { name: pump side, length: 350 mm }\n"
	case 1:
		o.chambers, chambers = []string{"drain side", "middle", "pump side"}, "  chambers:\n    - { name: drain side, length: 150 mm, under: "+o.mm(5, 60)+" }\n    - { name: middle, length: 100 mm, over: "+o.mm(60, 200)+" }\n    - { name: pump side, length: 350 mm }\n"
	case 2:
		chambers = "  chambers:\n    - { name: drain side, length: 220 mm, over: " + o.mm(60, 250) + " }\n    - { name: pump side, length: 380 mm }\n"
	}
	return append(pairs, oddSump, chambers)
}

// circuit draws the supply side.
func (o *odd) circuit() []string {
	pump := oddPump
	if o.chance(0.2) {
		pump += "    float: { off: 60 mm, on: " + o.mm(65, 110) + " }\n"
	}
	if o.chance(0.2) {
		pump += "    timer: { on: " + o.pick("5 min", "17 min") + ", off: " + o.pick("20 s", "11 min") + " }\n"
	}
	hole := o.pick("", "    break-hole: { height: "+o.mm(155, 220)+", size: 3 mm }\n")
	back := func(from, name string) string {
		return "  - name: " + name + "\n    from: " + from + "\n    to: pool\n    end-height: " + o.mm(20, map[bool]int{true: 260, false: 150}[hole == ""]) + "\n" + hole +
			"    pieces: [{ part: vinyl hose " + o.pick("10 mm", "16 mm") + ", length: 1.7 m }, { part: ball valve 16 mm, open: " + o.pick("40 %", "100 %") + " }]\n"
	}
	o.runs = []string{"riser"}
	pairs := []string{oddPump, pump}
	switch o.supply = o.pick("bar", "ring", "bar and return", "return", "in line", "side by side", "two lines", "to the sump"); o.supply {
	case "ring":
		pairs = append(pairs, "ends: capped", "ends: joined\n    ring: 900 mm", "feed: centre", "feed: "+o.pick("left", "centre"))
	case "bar and return":
		o.runs = append(o.runs, "return")
		pairs = append(pairs, oddRuns, oddRuns+back("main pump", "return"))
	case "return":
		o.runs = []string{"riser"}
		pairs = append(pairs, oddRuns, back("main pump", "riser"), oddBar, "")
	case "in line":
		o.pumps, o.runs = append(o.pumps, "booster"), append(o.runs, "link")
		pairs = append(pairs, "shelf:\n", "  - name: booster\n    label: { flow: 1100 L/h, head: 1.8 m }\n\nshelf:\n", oddRuns,
			strings.Replace(oddRuns, "from: main pump", "from: booster", 1)+"  - name: link\n    from: main pump\n    to: booster\n    pieces: [{ part: vinyl hose 16 mm, length: 0.3 m }]\n")
	case "side by side":
		o.pumps, o.runs = append(o.pumps, "other pump"), append(o.runs, "leg one", "leg two")
		leg := "    pieces: [{ part: vinyl hose 16 mm, length: 0.3 m }]\n"
		pairs = append(pairs, "shelf:\n", "  - name: other pump\n    label: { flow: 900 L/h, head: 2.6 m }\n    in: pump side\n    inlet: 35 mm\n\nshelf:\n",
			oddRuns, strings.Replace(oddRuns, "from: main pump", "from: join", 1)+"  - name: leg one\n    from: main pump\n    to: join\n"+leg+"  - name: leg two\n    from: other pump\n    to: join\n"+leg,
		)
		o.tees += "  - { name: join, bore: 16 mm, height: " + o.mm(-500, 0) + ", branch: leg two }\n"
	case "two lines":
		o.pumps, o.runs = append(o.pumps, "other pump"), append(o.runs, "second riser")
		pairs = append(pairs, "shelf:\n", "  - name: other pump\n    label: { flow: 900 L/h, head: 1.6 m }\n    in: pump side\n    inlet: "+o.mm(20, 70)+"\n\nshelf:\n",
			oddRuns, oddRuns+back("other pump", "second riser"))
	case "to the sump":
		o.runs = append(o.runs, "bypass")
		pairs = append(pairs, oddRuns, oddRuns+"  - name: bypass\n    from: main pump\n    to: "+o.pick(o.chambers...)+"\n    end-height: "+o.mm(20, 300)+"\n    pieces: [{ part: vinyl hose 10 mm, length: 0.5 m }]\n")
	}
	return pairs
}

// away draws more drains.
func (o *odd) away() []string {
	second := "  - name: second drain\n    kind: %s\n    lip: %s\n    part: bulkhead 1/2 in\n    to: %s\n"
	pipe := "    end-height: " + o.mm(20, 200) + "\n    pieces:\n      - { part: rigid pipe 1/2 in sch 40, length: 0.7 m }\n"
	lip := o.mm(120, 195)
	switch o.r.IntN(5) {
	case 0:
		o.drains, o.upright = append(o.drains, "second drain"), 2
		return []string{oddTail, oddTail + fmt.Sprintf(second, "standpipe", lip+"\n    lip-bore: 15 mm", o.pick(o.chambers...)) + pipe}
	case 1:
		o.drains = append(o.drains, "second drain")
		return []string{oddTail, oddTail + fmt.Sprintf(second, "wall opening", lip, o.chambers[0]) + pipe}
	case 2:
		o.drains, o.upright = append(o.drains, "second drain"), 2
		o.tees += "  - { name: drain tee, part: tee solvent 1 in, height: 20 mm, branch: second drain }\n"
		return []string{
			"    to: drain side\n    end-height: 160 mm\n", "    to: drain tee\n",
			oddTail, oddTail + fmt.Sprintf(second, "standpipe", lip+"\n    lip-bore: 15 mm", "drain tee"),
			"\nruns:\n", "\nruns:\n  - name: down pipe\n    from: drain tee\n    to: " + o.pick(o.chambers...) + "\n    end-height: " + o.mm(100, 300) +
				"\n    pieces: [{ part: rigid pipe 1 in sch 40, bore: " + o.mm(8, 40) + ", length: 600 mm }]\n",
		}
	}
	return nil
}

// extras are the sections that a design may do without.
func (o *odd) extras() string {
	text := ""
	if o.chance(0.4) {
		o.topUp = true
		text += "\ntop-up: { flow: " + o.pick("0.2", "2", "20") + " L/min, level: " + o.mm(60, 250) + ", into: " + o.pick(o.chambers...) + ", from: " + o.pick("mains", "reservoir, holds: 10 L", "reservoir, holds: 0.5 L") + " }\n"
	}
	if o.chance(0.5) {
		text += "\nbridges:\n"
		for i := range 1 + o.r.IntN(3) {
			kind := o.pick("hose", "cord", "wood", "moss", "mesh")
			body := "section: " + o.pick("0.2 cm2", "1 cm2", "20 cm2")
			if kind == "hose" {
				body = "bore: " + o.pick("3 mm", "12 mm")
			}
			from, to := "pool", o.pick("floor", o.chambers[0], o.chambers[len(o.chambers)-1])
			crest, end := o.mm(150, 260), 0
			if o.chance(0.3) {
				from, to = o.pick(o.chambers...), o.pick("floor", "pool")
				if kind == "hose" { // up to the pool and down again would be a loop
					to = "floor"
				}
				if to == "floor" {
					crest = o.mm(-650, -430)
				}
			}
			if to != "floor" {
				end = o.r.IntN(150)
			}
			text += fmt.Sprintf("  - { name: bridge %d, kind: %s, from: %s, to: %s, foot: %s, crest: %s, end: %d mm, %s, length: 2.3 m }\n", i+1, kind, from, to, o.mm(5, 100), crest, end, body)
		}
	}
	return text
}

// scenario draws a course of events at odd times.
func (o *odd) scenario(tb testing.TB, name string) string {
	tb.Helper()
	at, lasts := 0.0, 60*math.Exp(6.5*o.r.Float64())
	text := ""
	for range 1 + o.r.IntN(6) {
		if o.chance(0.8) {
			at += 0.3 * lasts * o.r.Float64() * o.r.Float64()
		}
		if at > lasts {
			break
		}
		text += fmt.Sprintf("      - { at: %.2f s, %s }\n", at, o.step())
	}
	return fmt.Sprintf("\nscenarios:\n  - name: %s\n    lasts: %.2f s\n    steps:\n%s", name, math.Max(lasts, at)+1, text)
}

func (o *odd) step() string {
	over := o.pick("", "", ", over: 20 s", ", over: 13 min")
	share := fmt.Sprintf(", share: %d %%", o.r.IntN(101))
	water := o.pick("volume: 0.3 L", "volume: 12 L", "volume: 5 L, over: 4 min", "flow: 3 L/min", "flow: 1 L/min, over: 9 min", "volume: 12.5 L")
	place := o.pick(append([]string{"pool", "sump"}, o.chambers...)...)
	switch o.r.IntN(13) {
	case 0:
		return "what: power off"
	case 1:
		return "what: power on"
	case 2:
		return "what: " + o.pick("pump stops", "pump starts") + ", which: " + o.pick(o.pumps...)
	case 3:
		return "what: drain blocks, which: " + o.pick(o.drains...) + share + over
	case 4:
		return "what: drain clears, which: " + o.pick(o.drains...) + over
	case 5:
		return "what: standpipe out, which: " + o.drains[o.r.IntN(o.upright)]
	case 6:
		return "what: hose off, which: " + o.pick(o.runs...)
	case 7:
		return "what: strainer clogs, which: " + o.pick("main pump", "main drain") + share + over
	case 8:
		if o.topUp {
			return "what: top-up sticks" + o.pick("", share)
		}
		return "what: power off"
	case 9, 10:
		return "what: leak starts, which: " + o.pick("pool", "sump") + ", size: " + o.mm(1, 12) + ", height: " + o.mm(0, 110)
	case 11:
		return "what: water added, which: " + place + ", " + water
	}
	return "what: water taken, which: " + place + ", " + water
}

// build resolves the design with one course of events.
func (o *odd) build(tb testing.TB) (*enclosure.Enclosure, *enclosure.Scenario) {
	tb.Helper()
	o.text += o.scenario(tb, "odd")
	e := resolved(tb, o.text)
	return e, &e.Scenarios[0]
}
