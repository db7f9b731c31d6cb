package design

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"rillwright/finding"
)

// show writes findings one a line: place, width, path, words.
func show(list finding.List) string {
	var b strings.Builder
	for _, f := range list {
		fmt.Fprintf(&b, "%d:%d+%d [%s] %s -> %s\n", f.Place.Line, f.Place.Column, f.Place.Width, f.Field, f.What, f.Do)
	}
	return b.String()
}

// The starter and every example must be sound.
func TestReadSound(t *testing.T) {
	files := map[string][]byte{"starter.yaml": Starter(), "sound.yaml": []byte(sound)}
	paths, err := filepath.Glob("../examples/*.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for _, path := range paths {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		files[filepath.Base(path)] = data
	}
	for name, data := range files {
		d, list := Read(name, data)
		if len(list) > 0 {
			t.Errorf("%s:\n%s", name, show(list))
		}
		if !d.Name.Given() || len(d.Pumps) == 0 || d.Pumps[0].Pos.Line == 0 {
			t.Errorf("%s: not read: %+v", name, d)
		}
	}
}

// sound holds one of nearly everything, so that each wrong file of the table
// is this one with a single mistake.
const sound = `rillwright: 1
name: test wall
units: metric
place: {air: 18 to 24 C, water: 20 to 25 C}
enclosure:
  made: from panes
  outside: {width: 912 mm, depth: 450 mm, height: 1008 mm}
  inside: {width: 900 mm, depth: 438 mm, height: 1000 mm}
  bottom: 800 mm
  panes:
    - {name: back, width: 900 mm, height: 1000 mm, thickness: 6 mm, glass: annealed}
    - {name: base, width: 912 mm, height: 450 mm, thickness: 8 mm, glass: annealed}
    - {name: side, width: 440 mm, height: 1000 mm, thickness: 6.8 mm, count: 2, ply: 3 mm, at: sides, water-outside: 100 mm, glass: laminated}
    - {name: flap, width: 900 mm, height: 300 mm, thickness: 4 mm, at: door, opens: hinged top, edges: {top: rim}, glass: toughened}
  rests: on its rim
  opening: {width: 850 mm, height: 600 mm}
  rims: [{at: top, of: plastic, flat: 20 mm, wall: 3 mm, over: 25 mm}]
  braces:
    - {name: tie, pane: back, to: flap, runs: across, from: 420 mm, width: 60 mm, thickness: 6 mm, of: glass}
    - {name: edge strip, pane: dam, runs: along, width: 40 mm, thickness: 6 mm, length: 810 mm, of: glass, bond: 6 mm}
  ways:
    - {name: cable hole, pane: back, size: 50 mm, up: 800 mm, in: 90 mm, edge: right, closed: foam plug, passes: [{what: cord with plug, width: 46 mm, height: 30 mm, stays: 7 mm}, {what: hose, part: some hose}]}
    - {name: notch, pane: back, width: 100 mm, height: 60 mm, corner: 5 mm, up: 970 mm, in: 200 mm, passes: [{what: pump, width: 80 mm, leaves: yes}]}
wall: {width: 850 mm, height: 700 mm, look: trickle, soaks: [{name: moss, holds: 1.5 L, catches: 20 %, drains-in: 2 h}]}
pool: {width: 900 mm, depth: 400 mm, floor: 10 mm, displaced: 30 to 40 %, zones: [{name: gravel, from: 0 mm, to: 60 mm, displaced: 50 %}], hidden: [{name: behind, width: 850 mm, depth: 30 mm, gap-width: 200 mm, gap-height: 15 mm}]}
dam: {width: 900 mm, height: 200 mm}
sump:
  inside: {width: 600 mm, depth: 400 mm, height: 320 mm}
  bottom: 50 mm
  water: {level: 150 mm, when: running}
  chambers:
    - {name: drain side, length: 200 mm, under: 40 mm}
    - {name: pump side, length: 390 mm}
pumps:
  - name: main pump
    label: {flow: 1200 L/h, head: 2 m}
    in: pump side
    inlet: 30 mm
    strainer: {loss: 20 mm, at: 500 L/h}
    speed: 100 %
    price: 40 EUR
  - name: second pump
    curve:
      - {flow: 0 L/h, head: 2 m}
      - {flow: 500 L/h, head: 1.5 m}
    in: pump side
    float: {off: 60 mm, on: 90 mm}
    timer: {on: 15 min, off: 45 min}
manifolds:
  - name: bar
    part: some pipe
    bore: 13 mm
    length: 800 mm
    height: 950 mm
    level-error: 2 mm
    ends: joined
    ring: 300 mm
    outlets:
      - {count: 10, pitch: 30 mm, first: 20 mm, hole: 2 mm, hole-error: 0.1 mm, blocked: 1}
      - {count: 5, pitch: 30 mm, first: 400 mm, emitter: button}
tees:
  - {name: split, branch: side run}
  - {name: join}
runs:
  - {name: riser, from: main pump, to: split, pieces: [{part: hose, length: 2 m}]}
  - {name: side run, from: split, to: pool, end-height: 300 mm, crest: 900 mm, break-hole: {height: 310 mm, size: 4 mm}, pieces: [{part: valve, count: 2, open: 50 %}]}
  - {name: feed, from: split, to: bar, at: left, pieces: [{part: hose, length: 1 m, fall: 10 mm}]}
  - {name: spare, from: second pump, to: sump, end-height: 0 mm, pieces: [{part: hose, length: 1 m}]}
  - {name: return, from: join, to: drain side, end-height: 160 mm, pieces: [{part: pipe, length: 1 m}]}
drains:
  - name: main drain
    kind: standpipe
    lip: 150 mm
    bore: 26 mm
    lip-bore: 26 mm
    hole: {pane: back, size: 44 mm, up: 110 mm, in: 110 mm, edge: left}
    to: join
  - name: spill
    kind: wall opening
    lip: 170 mm
    part: bulkhead
    to: drain side
grid:
  - name: panel
    across: 50
    up: 40
    pitch: 15 mm
    bond: {spots: 12, width: 30 mm, height: 30 mm, line: 2 to 4 mm, share: 50 to 90 %}
    notches: [{for: pipe, across: 3, up: 4}]
hardscape: [{name: root, on: panel, weight: 2 kg, out: 100 mm, up: 300 mm}]
sealant: {label: plain 100 % silicone, bond-line: 0.5 to 1 mm, fillet: 6 mm, strength: 0.14 MPa, waste: 10 to 25 %}
stand: {width: 900 mm, depth: 450 mm, weight: 25 kg, feet: 4, foot: 40 mm, inset: 10 mm, front: 0 mm}
budget: {money: 500 EUR, start: 2026-03-01, deadline: 2026-04-20}
as-built:
  - {of: "drains[spill].lip", is: 172 mm, on: 2026-02-28}
top-up: {flow: 2 L/min, level: 130 mm, into: pump side, from: reservoir, holds: 10 L}
bridges:
  - {name: power cord, kind: cord, from: pump side, to: floor, foot: 40 mm, crest: -300 mm, end: 0 mm, section: 1 cm2, length: 2 m}
  - {name: filling hose, kind: hose, from: pool, to: drain side, foot: 20 mm, crest: 250 mm, end: 100 mm, bore: 12 mm, length: 2 m}
assume: {evaporation: 2 to 6 mm/day}
scenarios:
  - name: leaf
    lasts: 2 h
    steps:
      - {at: 0 s, what: drain blocks, which: main drain, share: 80 %, over: 10 min}
      - {at: 5 min, what: standpipe out, which: main drain}
      - {at: 10 min, what: hose off, which: riser, height: -400 mm}
      - {at: 15 min, what: strainer clogs, which: main pump, share: 50 %}
      - {at: 20 min, what: leak starts, which: pool, size: 3 mm, height: 0 mm}
      - {at: 30 min, what: power off}
      - {at: 40 min, what: top-up sticks}
      - {at: 50 min, what: water taken, which: pool, volume: 10 L}
  - {name: cleaning, lasts: 1 h, steps: [{at: 0 s, what: water added, which: sump, flow: 2 L/min, over: 5 min}]}
`
