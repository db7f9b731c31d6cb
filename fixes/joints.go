package fixes

import (
	"fmt"
	"math"
	"strconv"

	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/quantity"
)

// inch is for sizes that are offered in inches.
const inch = 0.0254

// joints tries stops for the dam, wider fillets and thicker beds.
func (f *finder) joints() []change {
	var out []change
	e := f.s.E
	if d := &e.Design.Dam; d.Pos.Line > 0 && d.Stops.Value != "sides and bottom" {
		for i, words := range [...]string{"sides and bottom", "sides"} {
			if words == d.Stops.Value {
				continue
			}
			out = append(out, putting(change{
				do:   fmt.Sprintf("bond strips of glass in front of the dam along its %s, for it to lean on: then the water presses its sealant", words),
				cost: f.guess(float64(5-2*i), float64(15-5*i)),
			}, put("dam.stops", words)))
		}
	}
	for _, leg := range f.sizes([]float64{8, 10, 12, 15, 20}, []float64{5. / 16, 3. / 8, 1. / 2, 5. / 8, 3. / 4}) {
		if leg <= float64(e.Design.Sealant.Fillet.Value)*(1+1e-9) {
			continue
		}
		text := quantity.Length(leg).Show(e.Units)
		out = append(out, putting(change{
			do: fmt.Sprintf("draw fillets of %s into the corners", text), cost: cost{words: "sealant alone", amount: 2 + 100*leg},
		}, put("sealant.fillet", text)))
	}
	if line := e.Design.Sealant.BondLine.Value.Low; line < 0.0015 {
		text := "1.5 to 2 mm"
		if e.Units == quantity.US {
			text = "1/16 to 3/32 in"
		}
		out = append(out, putting(change{
			do: fmt.Sprintf("lay the beds thicker, %s, on spacers; the panes are then cut less wide", text), cost: cost{words: "sealant and spacers", amount: 3},
			bends: len(e.Design.Enclosure.Braces) > 0, // they hold as stiffly as their sealant
		}, put("sealant.bond-line", text)))
	}
	return out
}

// sizes returns lengths in m from those offered in mm or in inches.
func (f *finder) sizes(mm, in []float64) []float64 {
	list, k := mm, 1e-3
	if f.s.E.Units == quantity.US {
		list, k = in, inch
	}
	out := make([]float64, len(list))
	for i := range list {
		out[i] = list[i] * k
	}
	return out
}

// bond tries what keeps a panel on the glass: legs under it, more or larger spots,
// and its wood nearer.
func (f *finder) bond(panel string) []change {
	e := f.s.E
	at := -1
	for i := range e.Design.Grid {
		if e.Design.Grid[i].Name.Value == panel {
			at = i
		}
	}
	if at < 0 || !e.Design.Grid[at].Bond.Given() {
		return nil
	}
	b := &e.Design.Grid[at].Bond
	key := "grid[" + panel + "].bond."
	var out []change
	if !b.Rests.Value {
		out = append(out, putting(change{
			do:   fmt.Sprintf("stand the %s on legs of offcuts or on a ledge, so that its bond only keeps it upright", panel),
			cost: cost{words: "offcuts", amount: 2},
		}, put(key+"rests", "yes")))
	}
	for _, times := range [...]int{2, 3} {
		n := times * b.Spots.Value
		out = append(out, putting(change{
			do: fmt.Sprintf("bond the %s at %d spots in place of %d", panel, n, b.Spots.Value), cost: cost{words: "sealant alone", amount: float64(4 * times)},
		}, put(key+"spots", strconv.Itoa(n))))
	}
	out = append(out, f.larger(b, panel, key)...)
	return append(out, f.nearer(panel)...)
}

// larger makes each spot half as wide and high again, in sizes of a tape.
func (f *finder) larger(b *design.GridBond, panel, key string) []change {
	step := 0.005
	if f.s.E.Units == quantity.US {
		step = inch / 4
	}
	grow := func(v quantity.Length) quantity.Length {
		return quantity.Length(math.Round(1.5*float64(v)/step) * step)
	}
	w, h := grow(b.Width.Value), grow(b.Height.Value)
	if w <= b.Width.Value || h <= b.Height.Value {
		return nil
	}
	wide, high := w.Show(f.s.E.Units), h.Show(f.s.E.Units)
	return []change{putting(change{
		do: fmt.Sprintf("make each spot under the %s %s by %s", panel, wide, high), cost: cost{words: "sealant alone, but a longer cure", amount: 6},
	}, put(key+"width", wide), put(key+"height", high))}
}

// nearer moves a panel's heaviest lever to half its distance, or off the panel.
func (f *finder) nearer(panel string) []change {
	e := f.s.E
	worst, lever := -1, 0.0
	for i := range e.Design.Hardscape {
		h := &e.Design.Hardscape[i]
		if h.On.Value == panel && float64(h.Mass.Value)*float64(h.Out.Value) > lever {
			worst, lever = i, float64(h.Mass.Value)*float64(h.Out.Value)
		}
	}
	if worst < 0 {
		return nil
	}
	h := &e.Design.Hardscape[worst]
	at := "hardscape[" + h.Name.Value + "]"
	text := quantity.Length(tape(float64(h.Out.Value/2), e.Units, math.Round)).Show(e.Units)
	return []change{
		putting(change{
			do: fmt.Sprintf("bring the %s nearer: its centre of weight %s from the panel", h.Name.Value, text), cost: nothing("nothing"),
		}, put(at+".out", text)),
		{
			do: fmt.Sprintf("stand the %s in the pool or on the stand, not on the panel", h.Name.Value), cost: cost{words: "nothing", amount: 0.1},
			// Where it stood on the panel is not where it stands there.
			edit: at + ".on: pool", edits: []design.Edit{put(at+".on", "pool"), cut(at + ".out"), cut(at + ".up"), cut(at + ".left")},
			bends: true, // the floor pane carries it
			apply: func(e *enclosure.Enclosure) bool {
				p := &e.Design.Hardscape[worst]
				newText(&p.On, "pool")
				none := design.Field[quantity.Length]{}
				p.Out, p.Up, p.Left = none, none, none
				return true
			},
		},
	}
}
