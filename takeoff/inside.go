package takeoff

import (
	"fmt"
	"math"
	"strings"

	"rillwright/pieces"
)

// usualLayers is in how many layers foam is laid if the file does not say: common
// practice, no source.
const usualLayers = 2

// Foam that is carved off with its skin, as a share of what stays: assumed, no source.
var carved = Band{Low: 0.10, Likely: 0.20, High: 0.35}

// Loose stuff settles, and some of it is spilled: assumed, no source.
var settles = Band{Low: 0, Likely: 0.05, High: 0.15}

// grid counts panels, in cells.
func (t *taker) grid() {
	n := Need{Name: "grid sheet", Key: "grid sheet", Group: Structure, Unit: SquareMetres, Note: "measure ten cells on the sheet before you pay: sheets of two shops do not mate"}
	for i := range t.d.Grid {
		g := &t.d.Grid[i]
		pitch := float64(g.Pitch.Value)
		n.add(fmt.Sprintf("%s: %d x %d cells", g.Name.Value, g.Across.Value, g.Up.Value), exactly(float64(g.Across.Value)*float64(g.Up.Value)*pitch*pitch))
		n.Panels = append(n.Panels, Panel{g.Name.Value, g.Across.Value, g.Up.Value, pitch})
		if n.Line == 0 {
			n.Field, n.Line = "grid["+g.Name.Value+"]", g.Pos.Line
		}
	}
	for i := range t.l.GridBraces {
		b := &t.l.GridBraces[i]
		pitch := t.l.Grids[b.Grid].Pitch
		long, wide := pieces.BraceCells(b, pitch)
		n.add(fmt.Sprintf("brace %s: %d x %d cells", b.Name, long, wide), exactly(float64(long*wide)*pitch*pitch))
		n.Panels = append(n.Panels, Panel{"brace " + b.Name, long, wide, pitch})
	}
	if len(n.Panels) > 0 {
		t.list = append(t.list, n)
		t.ties()
	}
}

// ties counts cable ties: one for each spot, or for each 0.2 m round
// a panel if that is more; two at each slot of a brace. Assumed, no source.
func (t *taker) ties() {
	many := 0
	for i := range t.d.Grid {
		g := &t.d.Grid[i]
		round := 2 * float64(g.Pitch.Value) * float64(g.Across.Value+g.Up.Value)
		many += max(g.Bond.Spots.Value, int(math.Ceil(round/0.2)))
	}
	for i := range t.l.Grids {
		many += 2 * len(t.l.Grids[i].Slots)
	}
	t.piece(Need{Name: "cable tie, plain plastic", Key: "cable tie", Group: Consumable}, "grid, corners and wood", many)
}

// foam counts the foam that stays and what is carved off.
func (t *taker) foam() {
	n := Need{Name: "foam", Key: "foam", Group: Sealing, Unit: CubicMetres, Note: "flammable until it has cured: no flame, no sparks; gloves and goggles"}
	for i := range t.d.Foam {
		f := &t.d.Foam[i]
		v := float64(f.Volume.Value)
		if !f.Volume.Given() {
			v = float64(f.Width.Value) * float64(f.Height.Value) * float64(f.Thickness.Value)
		}
		layers := usualLayers
		if f.Layers.Given() {
			layers = f.Layers.Value
		}
		n.Layers = max(n.Layers, layers)
		n.add(fmt.Sprintf("%s, layers: %d", f.Name.Value, layers), exactly(v))
		if n.Line == 0 {
			n.Field, n.Line = "foam["+f.Name.Value+"]", f.Pos.Line
		}
	}
	if !(n.Amount.High > 0) {
		return
	}
	all := n.Amount
	n.add("carved off with its skin", Band{Low: all.Low * carved.Low, Likely: all.Likely * carved.Likely, High: all.High * carved.High})
	t.list = append(t.list, n)
}

// loose counts media, and wood and stones by weight.
func (t *taker) loose() {
	at := map[string]int{}
	for i := range t.d.Fill {
		f := &t.d.Fill[i]
		v := float64(f.Volume.Value)
		if !f.Volume.Given() {
			v = float64(f.Width.Value) * float64(f.Depth.Value) * float64(f.Height.Value)
		}
		k, ok := at[f.What.Value]
		if !ok {
			k = len(t.list)
			at[f.What.Value] = k
			t.list = append(t.list, Need{Name: f.What.Value, Key: "media", Group: Media, Unit: CubicMetres, Field: fmt.Sprintf("fill[%d]", i+1), Line: f.Pos.Line})
		}
		t.list[k].add("where it lies", exactly(v))
		t.list[k].add("settles or is spilled", Band{Low: v * settles.Low, Likely: v * settles.Likely, High: v * settles.High})
	}
	wood := Need{Name: "wood and cork", Key: "wood", Group: Media, Unit: Kilograms, Note: "weighed wet in the file; the shop weighs it dry"}
	stone := Need{Name: "stones", Key: "stones", Group: Media, Unit: Kilograms, Note: "washed; a drop of vinegar must not fizz on them"}
	for i := range t.d.Hardscape {
		h := &t.d.Hardscape[i]
		n := &wood
		if isStone(h.Name.Value) {
			n = &stone
		}
		// Bought dry, wood weighs half to all of what it does wet (dry 500 to 900,
		// waterlogged 1,000 to 1,200 kg/m3, from memory of the trade).
		b := Band{Low: 0.5, Likely: 0.7, High: 1}
		if n == &stone {
			b = exactly(1)
		}
		n.add(h.Name.Value, b.Scale(float64(h.Mass.Value)))
		if n.Line == 0 {
			n.Field, n.Line = "hardscape["+h.Name.Value+"]", h.Pos.Line
		}
	}
	for _, n := range []Need{wood, stone} {
		if n.Amount.High > 0 {
			t.list = append(t.list, n)
		}
	}
}

func isStone(name string) bool {
	name = strings.ToLower(name)
	for _, w := range []string{"stone", "rock", "slate", "gravel", "granite", "pebble", "lava"} {
		if strings.Contains(name, w) {
			return true
		}
	}
	return false
}

func (t *taker) plants() {
	for i := range t.d.Plants {
		p := &t.d.Plants[i]
		n := Need{Name: "plants: " + p.What.Value, Key: "plants", Group: Planting, Price: p.Price.Value, Field: fmt.Sprintf("plants[%d]", i+1), Line: p.Pos.Line, Note: "some weeks apart from others before they go in"}
		if p.Cuttings.Value {
			n.Name, n.Key = "cuttings: "+p.What.Value, "cuttings"
		}
		t.piece(n, "as the file lists them", p.Count.Value)
	}
}

// electric counts lamps, and a residual-current plug if the file names none.
func (t *taker) electric() {
	for i := range t.d.Lights {
		l := &t.d.Lights[i]
		t.piece(Need{Name: "light: " + l.Name.Value, Key: "light", Group: Electric, Price: l.Price.Value, Field: "lights[" + l.Name.Value + "]", Line: l.Pos.Line, Note: l.Power.Text}, l.Name.Value, 1)
	}
	power := strings.ToLower(t.d.Place.Power.Value)
	for _, w := range []string{"rcd", "gfci", "fi ", "residual"} {
		if strings.Contains(power, w) {
			return
		}
	}
	for i := range t.d.Buy {
		w := strings.ToLower(t.d.Buy[i].What.Value)
		if strings.Contains(w, "rcd") || strings.Contains(w, "gfci") {
			return
		}
	}
	t.piece(Need{Name: "RCD or GFCI plug", Key: "RCD or GFCI plug", Group: Electric, Note: "not optional: place.power names no protection"}, "pump and light", 1)
}

// usedUp counts what is used on the way: assumed, no source.
func (t *taker) usedUp() {
	for _, c := range []struct{ name, key, why string }{
		{"masking tape", "masking tape", "beads and drilling marks"},
		{"nitrile gloves, a box", "gloves", "sealant, foam, solvent"},
		{"razor blades", "razor blades", "cleaning glass, trimming sealant"},
		{"tissue, a roll", "tissue", "leak test and cleaning"},
	} {
		t.piece(Need{Name: c.name, Key: c.key, Group: Consumable}, c.why, 1)
	}
	panes := 0
	for i := range t.d.Enclosure.Panes {
		if p := &t.d.Enclosure.Panes[i]; !p.Was.Given() && p.At.Value != "door" {
			panes += count(p.Count)
		}
	}
	t.piece(Need{Name: "prop or clamp to hold a pane", Key: "prop", Group: Consumable, Note: "blocks of wood will do"}, "panes while they set", min(panes, 4))
}
