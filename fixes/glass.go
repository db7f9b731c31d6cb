package fixes

import (
	"fmt"
	"strings"

	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/quantity"
	"rillwright/structure"
	"rillwright/study"
)

// What glass costs for each m2 and mm of thickness, cut and with its edges seamed,
// in the design's own money; how many times that it is laminated or toughened. From
// memory of the trade: ask a glazier.
const (
	glassLow, glassHigh = 6.0, 12.0
	leastLow, leastHigh = 4.0, 8.0 // of any piece
	toughenedTimes      = 1.8
	laminatedTimes      = 1.5
)

// sheet is a pane that may be ordered anew.
type sheet struct {
	name          string // "the dam", "the back pane"
	key           string // of the field that says its thickness
	entry         int    // index in the design's panes, -1 for none
	dam           bool
	width, height float64
	thickness     design.Field[quantity.Length]
	glass         structure.Kind
}

// plastic reports whether silicone holds badly on it, so that no strip is bonded to it.
func (s *sheet) plastic() bool {
	return s.glass == structure.Acrylic || s.glass == structure.Polycarbonate
}

// damGlass tries other glass for the dam, a strip along its top, and less water.
func (f *finder) damGlass() []change {
	e := f.s.E
	d := e.Design
	s := sheet{
		name: "the dam", key: "dam.thickness", entry: -1, dam: true, width: e.Pool.DamWidth, height: float64(d.Dam.Height.Value),
		thickness: d.Dam.Thickness, glass: structure.Annealed,
	}
	for i := range d.Enclosure.Panes {
		if at, _ := enclosure.PanePlace(&d.Enclosure.Panes[i]); at == "dam" {
			s.entry, s.glass = i, study.GlassKind(d.Enclosure.Panes[i].Glass.Value)
			if !s.thickness.Given() {
				s.thickness, s.key = d.Enclosure.Panes[i].Thickness, f.paneKey(i)+".thickness"
			}
			break
		}
	}
	if !s.thickness.Given() {
		return nil
	}
	out := f.otherGlass(&s)
	if !s.plastic() {
		out = append(out, f.strip(&s, "dam", "top", s.width))
	}
	return append(out, f.lowerDam()...)
}

// paneGlass tries other glass for a pane that is not an old one, a strip along its
// top, and a board under a floor pane.
func (f *finder) paneGlass(name string) []change {
	d := f.s.E.Design
	at := -1
	for i := range d.Enclosure.Panes {
		if d.Enclosure.Panes[i].Name.Value == name {
			at = i
		}
	}
	if at < 0 {
		return nil
	}
	p := &d.Enclosure.Panes[at]
	s := sheet{
		name: "the " + strings.TrimSuffix(name, " pane") + " pane", key: f.paneKey(at) + ".thickness", entry: at,
		width: float64(p.Width.Value), height: float64(p.Height.Value), thickness: p.Thickness, glass: study.GlassKind(p.Glass.Value),
	}
	var out []change
	place, _ := enclosure.PanePlace(p)
	if place == "bottom" && d.Enclosure.Rests.Value != "on a full board" {
		out = append(out, change{
			do: "put a flat board and a mat under all of the floor pane", cost: f.guess(10, 25), edit: "enclosure.rests: on a full board", bends: true,
			apply: func(e *enclosure.Enclosure) bool {
				set(&e.Design.Enclosure.Rests, "on a full board", "on a full board")
				return true
			},
		})
	}
	if !p.Was.Given() {
		out = append(out, f.otherGlass(&s)...)
	}
	if place == "bottom" || s.plastic() {
		return out
	}
	switch bonded := func(e design.Field[string]) bool { return e.Value == "" || e.Value == "bonded" }; {
	case p.Edges.Top.Value != "bonded":
		out = append(out, f.strip(&s, name, "top", s.width))
	case !bonded(p.Edges.Left):
		out = append(out, f.strip(&s, name, "left", s.height))
	case !bonded(p.Edges.Right):
		out = append(out, f.strip(&s, name, "right", s.height))
	}
	return out
}

func (f *finder) paneKey(i int) string {
	return "enclosure.panes[" + f.s.E.Design.Enclosure.Panes[i].Name.Value + "]"
}

// otherGlass tries a pane in the next thicknesses, laminated and toughened.
func (f *finder) otherGlass(s *sheet) []change {
	if s.plastic() {
		return nil
	}
	list := structure.MetricFloat()
	if f.s.E.Units == quantity.US {
		list = structure.USFloat()
	}
	var out []change
	t := float64(s.thickness.Value)
	for i := range list {
		n := list[i]
		if n.Named < t*1.05 || len(out) == 2 {
			continue
		}
		edit := fmt.Sprintf("%s: %s", s.key, n.Name)
		if s.dam && s.entry >= 0 && s.key == "dam.thickness" {
			edit += fmt.Sprintf(", %s.thickness: %s", f.paneKey(s.entry), n.Name)
		}
		out = append(out, change{
			do: fmt.Sprintf("make %s of %s glass", s.name, n.Name), cost: f.glazier(s, n.Named, 1), edit: edit, bends: true,
			apply: func(e *enclosure.Enclosure) bool { return s.order(e, n.Named, n.Name, s.glass, "") },
		})
	}
	if s.entry < 0 || s.glass != structure.Annealed {
		return out
	}
	key := f.paneKey(s.entry)
	out = append(out, change{
		do:   fmt.Sprintf("have %s made of toughened glass, with every hole drilled before it is toughened", s.name),
		cost: f.glazier(s, t, toughenedTimes), edit: key + ".glass: toughened", bends: true,
		apply: func(e *enclosure.Enclosure) bool {
			return s.order(e, t, s.thickness.Text, structure.Toughened, "toughened")
		},
	})
	whole := 2*t + 0.00076 // with the usual film, from memory
	text := quantity.Length(whole).Show(f.s.E.Units)
	return append(out, change{
		do:   fmt.Sprintf("have %s made of laminated glass, two sheets of %s", s.name, s.thickness.Text),
		cost: f.glazier(s, whole, laminatedTimes), edit: fmt.Sprintf("%s.glass: laminated, ply: %s, thickness: %s", key, s.thickness.Text, text), bends: true,
		apply: func(e *enclosure.Enclosure) bool {
			set(&e.Design.Enclosure.Panes[s.entry].Ply, s.thickness.Value, s.thickness.Text)
			return s.order(e, whole, text, structure.Laminated, "laminated")
		},
	})
}

// order puts glass of a thickness and kind into a design.
func (s *sheet) order(e *enclosure.Enclosure, t float64, text string, kind structure.Kind, word string) bool {
	if s.dam && e.Design.Dam.Thickness.Given() {
		set(&e.Design.Dam.Thickness, quantity.Length(t), text)
	}
	if s.entry >= 0 {
		p := &e.Design.Enclosure.Panes[s.entry]
		set(&p.Thickness, quantity.Length(t), text)
		if kind != s.glass {
			set(&p.Glass, word, word)
		}
	}
	return true
}

// glazier is what a pane costs.
func (f *finder) glazier(s *sheet, t, times float64) cost {
	k := times * s.width * s.height * t * 1000
	return f.guess(max(leastLow, k*glassLow), max(leastHigh, k*glassHigh))
}

// strip tries a strip of glass, 50 mm or 2 in wide, laid along a free edge.
func (f *finder) strip(s *sheet, pane, edge string, length float64) change {
	width, text := quantity.Length(0.05), "50 mm"
	if f.s.E.Units == quantity.US {
		width, text = 2*inch, "2 in"
	}
	thick := s.thickness
	piece := sheet{width: length, height: float64(width)}
	lying := "lying flat"
	if edge != "top" {
		lying = "its flat side to the edge"
	}
	return change{
		do:   fmt.Sprintf("bond a strip of glass, %s wide and %s thick, along the %s edge of %s, %s; it takes as much of the opening", text, thick.Text, edge, s.name, lying),
		cost: f.glazier(&piece, float64(thick.Value), 1), bends: true,
		edit: fmt.Sprintf("enclosure.braces: { name: edge strip, pane: %s, edge: %s, runs: along, width: %s, thickness: %s, of: glass }", pane, edge, text, thick.Text),
		apply: func(e *enclosure.Enclosure) bool {
			b := design.Brace{Pos: design.Pos{Line: 1}}
			set(&b.Name, "edge strip", "edge strip")
			set(&b.Pane, pane, pane)
			set(&b.Edge, edge, edge)
			set(&b.Runs, "along", "along")
			set(&b.Width, width, text)
			set(&b.Thickness, thick.Value, thick.Text)
			set(&b.Of, "glass", "glass")
			e.Design.Enclosure.Braces = append(e.Design.Enclosure.Braces, b)
			return true
		},
	}
}

// lowerDam tries a dam a fifth lower, in steps of 10 mm or 1/2 in: less water stands
// behind it, and less is left above the lip when a drain blocks.
func (f *finder) lowerDam() []change {
	e := f.s.E
	step := 0.010
	if e.Units == quantity.US {
		step = inch / 2
	}
	high := float64(e.Design.Dam.Height.Value)
	var out []change
	for _, steps := range [...]float64{1, 2, 4} {
		to := high - steps*step
		top := e.Pool.Floor + to
		if to < 0.6*high || len(e.Drains) == 0 || top <= e.Drains[0].Lip {
			continue
		}
		text := quantity.Length(to).Show(e.Units)
		out = append(out, change{
			do: fmt.Sprintf("make the dam only %s high", text), cost: nothing("nothing before it is cut"), edit: "dam.height: " + text, bends: true, wets: true,
			apply: func(e *enclosure.Enclosure) bool {
				set(&e.Design.Dam.Height, quantity.Length(to), text)
				e.Pool.DamTop = top
				return true
			},
		})
	}
	return out
}
