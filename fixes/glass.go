package fixes

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"rillwright/design"
	"rillwright/document"
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
	name          string   // "the dam", "the back pane"
	keys          []string // of the fields that say its thickness
	pane          string   // path of its entry in the design's panes, "" for none
	width, height float64
	thickness     design.Field[quantity.Length]
	ply           design.Field[quantity.Length] // of laminated glass
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
		name: "the dam", width: e.Pool.DamWidth, height: float64(d.Dam.Height.Value),
		thickness: d.Dam.Thickness, glass: structure.Annealed,
	}
	if s.thickness.Given() {
		s.keys = []string{"dam.thickness"}
	}
	for i := range d.Enclosure.Panes {
		p := &d.Enclosure.Panes[i]
		if at, _ := enclosure.PanePlace(p); at == "dam" {
			s.pane, s.glass, s.ply = paneKey(p), study.GlassKind(p.Glass.Value), p.Ply
			s.keys = append(s.keys, s.pane+".thickness")
			if !s.thickness.Given() {
				s.thickness = p.Thickness
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
		name: "the " + strings.TrimSuffix(name, " pane") + " pane", keys: []string{paneKey(p) + ".thickness"}, pane: paneKey(p),
		width: float64(p.Width.Value), height: float64(p.Height.Value), thickness: p.Thickness, glass: study.GlassKind(p.Glass.Value), ply: p.Ply,
	}
	var out []change
	place, _ := enclosure.PanePlace(p)
	if place == "bottom" && d.Enclosure.Rests.Value != "on a full board" {
		out = append(out, putting(change{do: "put a flat board and a mat under all of the floor pane", cost: f.guess(10, 25), bends: true}, put("enclosure.rests", "on a full board")))
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

func paneKey(p *design.Pane) string { return "enclosure.panes[" + p.Name.Value + "]" }

// film is what keeps the two sheets of laminated glass together, m: from memory of
// what is sold.
const film = 0.00076

// otherGlass tries a pane in the next thicknesses, laminated and toughened.
func (f *finder) otherGlass(s *sheet) []change {
	var out []change
	t := float64(s.thickness.Value)
	switch s.glass {
	case structure.Acrylic, structure.Polycarbonate:
		return nil
	case structure.Laminated:
		each := (t - film) / 2
		if s.ply.Given() {
			each = float64(s.ply.Value)
		}
		for _, n := range f.nextGlass(each) {
			out = append(out, f.laminated(s, n.Named, n.Name))
		}
		return out
	}
	for _, n := range f.nextGlass(t) {
		out = append(out, f.order(s, fmt.Sprintf("make %s of %s glass", s.name, n.Name), f.glazier(s, n.Named, 1), n.Name))
	}
	if s.pane == "" || s.glass != structure.Annealed {
		return out
	}
	hard := f.order(s, fmt.Sprintf("have %s made of toughened glass, with every hole drilled before it is toughened", s.name),
		f.glazier(s, t, toughenedTimes), "", put(s.pane+".glass", "toughened"))
	if f.pierced(s.pane) {
		hard.byHand = "it is refused with a hole in toughened glass, which bursts when it is drilled, until that hole is taken out of the file"
	}
	return append(append(out, hard), f.laminated(s, t, s.thickness.Text))
}

// pierced reports whether an opening is drawn in a pane.
func (f *finder) pierced(pane string) bool {
	d := f.s.E.Design
	for i := range d.Enclosure.Panes {
		if p := &d.Enclosure.Panes[i]; paneKey(p) == pane {
			name := p.Name.Value
			return slices.ContainsFunc(d.Drains, func(x design.Drain) bool { return x.Hole.Pane.Value == name }) ||
				slices.ContainsFunc(d.Enclosure.Ways, func(x design.Way) bool { return x.Pane.Value == name })
		}
	}
	return false
}

// nextGlass lists the next two thicknesses that are sold.
func (f *finder) nextGlass(t float64) []structure.Nominal {
	list := structure.MetricFloat()
	if f.s.E.Units == quantity.US {
		list = structure.USFloat()
	}
	i := slices.IndexFunc(list, func(n structure.Nominal) bool { return n.Named >= t*1.05 })
	if i < 0 {
		return nil
	}
	return list[i:min(i+2, len(list))]
}

// laminated tries a pane of two sheets.
func (f *finder) laminated(s *sheet, each float64, text string) change {
	whole, unit := math.Round((2*each+film)*1e5)/1e5, "mm" // to a hundredth of it
	if f.s.E.Units == quantity.US {
		whole, unit = math.Round((2*each+film)/inch*1e3)/1e3*inch, "in"
	}
	return f.order(s, fmt.Sprintf("have %s made of laminated glass, two sheets of %s", s.name, text), f.glazier(s, whole, laminatedTimes),
		quantity.Length(whole).ShowIn(unit), put(s.pane+".glass", "laminated"), put(s.pane+".ply", text))
}

// order writes glass of another thickness into the design, "" for the same, and
// what else is said of it.
func (f *finder) order(s *sheet, do string, c cost, thick string, more ...design.Edit) change {
	var edits []design.Edit
	for _, key := range s.keys {
		if thick != "" {
			edits = append(edits, put(key, thick))
		}
	}
	return putting(change{do: do, cost: c, bends: true}, append(edits, more...)...)
}

// glazier is what a pane costs.
func (f *finder) glazier(s *sheet, t, times float64) cost {
	k := times * s.width * s.height * t * 1000
	return f.guess(max(leastLow, k*glassLow), max(leastHigh, k*glassHigh))
}

// strip tries a strip of glass, 50 mm or 2 in wide, laid along a free edge.
func (f *finder) strip(s *sheet, pane, edge string, length float64) change {
	width, text := 0.05, "50 mm"
	if f.s.E.Units == quantity.US {
		width, text = 2*inch, "2 in"
	}
	thick := s.thickness
	piece := sheet{width: length, height: width}
	lying := "lying flat"
	if edge != "top" {
		lying = "its flat side to the edge"
	}
	b := design.Brace{Pos: design.Pos{Line: 1}}
	newText(&b.Name, f.freeName("edge strip"))
	newText(&b.Pane, pane)
	newText(&b.Edge, edge)
	newText(&b.Runs, "along")
	newText(&b.Width, text)
	newText(&b.Thickness, thick.Text)
	newText(&b.Of, "glass")
	entry := document.Flow(&b)
	return change{
		do:   fmt.Sprintf("bond a strip of glass, %s wide and %s thick, along the %s edge of %s, %s; it takes as much of the opening", text, thick.Text, edge, s.name, lying),
		cost: f.glazier(&piece, float64(thick.Value), 1), bends: true,
		edit: "enclosure.braces: " + entry, edits: []design.Edit{add("enclosure.braces", entry)},
		apply: func(e *enclosure.Enclosure) bool {
			e.Design.Enclosure.Braces = append(e.Design.Enclosure.Braces, b)
			return true
		},
	}
}

// freeName returns a name that no brace has.
func (f *finder) freeName(name string) string {
	taken := func(n string) bool {
		return slices.ContainsFunc(f.s.E.Design.Enclosure.Braces, func(b design.Brace) bool { return b.Name.Value == n })
	}
	free := name
	for n := 2; taken(free); n++ {
		free = fmt.Sprintf("%s %d", name, n)
	}
	return free
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
		text := lengthText(to, e.Units)
		c := putting(change{do: fmt.Sprintf("make the dam only %s high", text), cost: nothing("nothing before it is cut"), bends: true, wets: true}, f.damEdits(text)...)
		c.apply = func(e *enclosure.Enclosure) bool {
			e.Pool.DamTop = top
			return reads(e, c.edits)
		}
		out = append(out, c)
	}
	return out
}
