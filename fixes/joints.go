package fixes

import (
	"fmt"
	"math"

	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/quantity"
)

// inch is for sizes that are offered in inches.
const inch = 0.0254

// set gives a field a value, as if the file had it.
func set[T any](f *design.Field[T], v T, text string) {
	f.Value, f.Text = v, text
	f.Pos.Line = max(f.Pos.Line, 1)
}

// joints tries stops for the dam, wider fillets and thicker beds.
func (f *finder) joints() []change {
	var out []change
	e := f.s.E
	if d := &e.Design.Dam; d.Pos.Line > 0 && d.Stops.Value != "sides and bottom" {
		for i, words := range [...]string{"sides and bottom", "sides"} {
			if words == d.Stops.Value {
				continue
			}
			out = append(out, change{
				do:   fmt.Sprintf("bond strips of glass in front of the dam along its %s, for it to lean on: then the water presses its sealant", words),
				cost: f.guess(float64(5-2*i), float64(15-5*i)), edit: "dam.stops: " + words,
				apply: func(e *enclosure.Enclosure) bool {
					set(&e.Design.Dam.Stops, words, words)
					return true
				},
			})
		}
	}
	for _, leg := range f.sizes([]float64{8, 10, 12, 15, 20}, []float64{5. / 16, 3. / 8, 1. / 2, 5. / 8, 3. / 4}) {
		if leg <= float64(e.Design.Sealant.Fillet.Value)*(1+1e-9) {
			continue
		}
		text := quantity.Length(leg).Show(e.Units)
		out = append(out, change{
			do: fmt.Sprintf("draw fillets of %s into the corners", text), cost: cost{words: "sealant alone", amount: 2 + 100*leg},
			edit: "sealant.fillet: " + text,
			apply: func(e *enclosure.Enclosure) bool {
				set(&e.Design.Sealant.Fillet, quantity.Length(leg), text)
				return true
			},
		})
	}
	if line := e.Design.Sealant.BondLine.Value.Low; line < 0.0015 {
		low, high, text := 0.0015, 0.002, "1.5 to 2 mm"
		if e.Units == quantity.US {
			low, high, text = inch/16, inch*3/32, "1/16 to 3/32 in"
		}
		out = append(out, change{
			do: fmt.Sprintf("lay the beds thicker, %s, on spacers; the panes are then cut less wide", text), cost: cost{words: "sealant and spacers", amount: 3},
			edit: "sealant.bond-line: " + text,
			apply: func(e *enclosure.Enclosure) bool {
				b := design.LengthBand{Low: quantity.Length(low), Likely: quantity.Length((low + high) / 2), High: quantity.Length(high)}
				set(&e.Design.Sealant.BondLine, b, text)
				return true
			},
		})
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
		out = append(out, change{
			do:   fmt.Sprintf("stand the %s on legs of offcuts or on a ledge, so that its bond only keeps it upright", panel),
			cost: cost{words: "offcuts", amount: 2}, edit: key + "rests: yes",
			apply: func(e *enclosure.Enclosure) bool {
				set(&e.Design.Grid[at].Bond.Rests, true, "yes")
				return true
			},
		})
	}
	for _, times := range [...]int{2, 3} {
		n := times * b.Spots.Value
		out = append(out, change{
			do: fmt.Sprintf("bond the %s at %d spots in place of %d", panel, n, b.Spots.Value), cost: cost{words: "sealant alone", amount: float64(4 * times)},
			edit: fmt.Sprintf("%sspots: %d", key, n),
			apply: func(e *enclosure.Enclosure) bool {
				set(&e.Design.Grid[at].Bond.Spots, n, fmt.Sprint(n))
				return true
			},
		})
	}
	out = append(out, f.larger(at, panel, key))
	return append(out, f.nearer(panel)...)
}

// larger makes each spot half as wide and high again, in sizes of a tape.
func (f *finder) larger(at int, panel, key string) change {
	b := &f.s.E.Design.Grid[at].Bond
	step := 0.005
	if f.s.E.Units == quantity.US {
		step = inch / 4
	}
	grow := func(v quantity.Length) quantity.Length {
		return quantity.Length(math.Round(1.5*float64(v)/step) * step)
	}
	w, h := grow(b.Width.Value), grow(b.Height.Value)
	sys := f.s.E.Units
	return change{
		do: fmt.Sprintf("make each spot under the %s %s by %s", panel, w.Show(sys), h.Show(sys)), cost: cost{words: "sealant alone, but a longer cure", amount: 6},
		edit: fmt.Sprintf("%swidth: %s, %sheight: %s", key, w.Show(sys), key, h.Show(sys)),
		apply: func(e *enclosure.Enclosure) bool {
			g := &e.Design.Grid[at].Bond
			if w <= g.Width.Value || h <= g.Height.Value {
				return false
			}
			set(&g.Width, w, w.Show(sys))
			set(&g.Height, h, h.Show(sys))
			return true
		},
	}
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
	half := h.Out.Value / 2
	text := half.Show(e.Units)
	return []change{
		{
			do: fmt.Sprintf("bring the %s nearer: its centre of weight %s from the panel", h.Name.Value, text), cost: nothing("nothing"),
			edit: fmt.Sprintf("hardscape[%s].out: %s", h.Name.Value, text),
			apply: func(e *enclosure.Enclosure) bool {
				set(&e.Design.Hardscape[worst].Out, half, text)
				return true
			},
		},
		{
			do: fmt.Sprintf("stand the %s in the pool or on the stand, not on the panel", h.Name.Value), cost: cost{words: "nothing", amount: 0.1},
			edit: fmt.Sprintf("hardscape[%s].on: pool", h.Name.Value),
			apply: func(e *enclosure.Enclosure) bool {
				set(&e.Design.Hardscape[worst].On, "pool", "pool")
				return true
			},
		},
	}
}
