package pieces

import (
	"fmt"
	"math"
	"strings"

	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/geom"
	"rillwright/quantity"
	"rillwright/structure"
	"rillwright/structure/joint"
	"rillwright/study"
)

// bond returns the thinnest, likely and thickest bond line between panes, m: the
// file's, else the least that package joint asks for.
func (b *builder) bond() [3]float64 {
	if f := b.e.Design.Sealant.BondLine; f.Given() {
		return [3]float64{float64(f.Value.Low), float64(f.Value.Likely), float64(f.Value.High)}
	}
	f := joint.LeastBondLine()
	b.assume(fmt.Sprintf("gaps between panes: %s, since the file does not say sealant.bond-line", b.show(f.Band.Likely)))
	return [3]float64{f.Band.Low, f.Band.Likely, f.Band.High}
}

func (b *builder) assume(s string) { b.out.Assumed = append(b.out.Assumed, s) }

// pieces lists the panes, the dam and the strips.
func (b *builder) pieces() {
	b.out.Bond = b.bond()
	b.box = boxOf(b.l, b.out.Bond)
	j := b.box.infer()
	list := b.e.Design.Enclosure.Panes
	dam := false
	for i := range list {
		p := &list[i]
		at, _ := enclosure.PanePlace(p)
		field := fmt.Sprintf("enclosure.panes[%s]", p.Name.Value)
		x := Piece{
			Name: p.Name.Value, Kind: Pane, At: at, Field: field, Line: p.Pos.Line, Count: max(1, p.Count.Value),
			Thickness: float64(p.Thickness.Value), Material: p.Glass.Value,
			Width:  typed(field+".width", p.Width),
			Height: typed(field+".height", p.Height),
		}
		switch at {
		case "dam":
			x.Kind, dam = Dam, true
			b.damSize(&x)
		case "door":
			x.Kind = Door
			b.doorSize(&x)
		case "":
			x.Width.asTyped("as typed: the file does not say where it stands")
			x.Height.asTyped("as typed: the file does not say where it stands")
		case "inside":
			x.Width.asTyped("as typed: nothing places a divider")
			x.Height.asTyped("as typed: nothing places a divider")
		default:
			word := at
			if at == "sides" {
				word = "left"
			}
			x.Had = b.e.Design.Enclosure.Made.Value == "from a tank"
			if x.Had {
				x.Width.asTyped("as it is: a pane of the shop tank")
				x.Height.asTyped("as it is: a pane of the shop tank")
				break
			}
			f, _ := sideOf(word)
			b.sideSize(&j, f, 0, &x.Width)
			b.sideSize(&j, f, 1, &x.Height)
		}
		x.Edges = edges(p, at)
		b.finish(&x)
	}
	if d := &b.e.Design.Dam; !dam && d.Pos.Line > 0 && d.Width.Given() && d.Thickness.Given() {
		x := Piece{
			Name: "dam", Kind: Dam, At: "dam", Field: "dam", Line: d.Pos.Line, Count: 1,
			Thickness: float64(d.Thickness.Value), Width: typed("dam.width", d.Width), Height: typed("dam.height", d.Height),
		}
		b.damSize(&x)
		x.Edges = edges(&design.Pane{}, "dam")
		b.finish(&x)
	}
	b.strips()
}

func typed(field string, f design.Field[quantity.Length]) Side {
	return Side{Field: field, Line: f.Pos.Line, Typed: float64(f.Value)}
}

// asTyped takes a size that nothing else in the file fixes.
func (s *Side) asTyped(rule string) {
	s.Exact, s.Low, s.High, s.Cut = s.Typed, s.Typed, s.Typed, s.Typed
	s.Rule, s.Fit = rule, AsTyped
}

// sideSize fits a side of the box between or over its neighbours.
func (b *builder) sideSize(j *joinery, f side, k int, s *Side) {
	a := f.along()[k]
	x := b.box
	word := [3]string{"width", "depth", "height"}[a]
	if least := x.in[a] - 2*x.gap[2]; s.Typed < least-partial {
		s.asTyped("as typed: it does not reach from side to side")
		return
	}
	s.Low, s.Exact, s.High = x.span(j, f, k)
	butts := x.ends(j, f, k)
	switch len(butts) {
	case 0:
		s.Rule = "outside " + word + " " + b.show(x.out[a])
	case 1:
		s.Rule = fmt.Sprintf("outside %s %s less %s %s and one gap of %s, or none", word, b.show(x.out[a]), sideNames[butts[0]], b.show(x.thick[butts[0]]), b.show(x.gap[1]))
	default:
		s.Rule = fmt.Sprintf("inside %s %s less two gaps of %s", word, b.show(x.in[a]), b.show(x.gap[1]))
		s.Captive = true
	}
	b.judge(s, x.in[a])
}

// damSize fits the dam between the sides.
func (b *builder) damSize(x *Piece) {
	w := &x.Width
	in, gap := b.box.in[geom.X], b.box.gap
	if !b.box.has[0] || !b.box.has[1] {
		w.asTyped("as typed: no pane is listed on both sides of it")
	} else {
		w.Low, w.Exact, w.High, w.Captive = in-2*gap[2], in-2*gap[1], in-2*gap[0], true
		w.Rule = fmt.Sprintf("inside width %s less two gaps of %s", b.show(in), b.show(gap[1]))
		b.judge(w, in)
	}
	h := &x.Height
	if d := b.e.Design.Dam.Height; d.Given() && h.Field != "dam.height" {
		v := float64(d.Value)
		h.Low, h.Exact, h.High, h.Rule = v, v, v, "the dam's height over the pool's floor"
		b.judge(h, v)
		return
	}
	h.asTyped("as typed: the water's level wants it")
}

// doorSize holds doors against the opening that they close. How far they lap over it
// depends on their tracks or hinges, which the file does not tell.
func (b *builder) doorSize(x *Piece) {
	o := b.e.Design.Enclosure.Opening
	w, h := &x.Width, &x.Height
	w.asTyped("as typed: its tracks or hinges decide it")
	h.asTyped("as typed: its tracks or hinges decide it")
	if !o.Given() || b.l.Opening.At != "front" {
		return
	}
	covers := func(s *Side, n int, clear float64, word string) {
		rest := float64(n)*s.Typed - clear
		one := "it covers"
		if n > 1 {
			one = fmt.Sprintf("%d of them cover", n)
		}
		if rest < 0 {
			s.Fit, s.By = Short, rest/float64(n)
			s.Exact = clear / float64(n)
			s.Low, s.High = s.Exact, math.Inf(1)
			s.Rule = fmt.Sprintf("the opening's clear %s %s, at least", word, b.show(clear))
			b.round(s)
			return
		}
		s.Rule = fmt.Sprintf("as typed: %s the clear %s of %s with %s to spare; its tracks or hinges decide the rest", one, word, b.show(clear), b.show(rest))
	}
	n := x.Count
	if x.Count > 1 && !strings.Contains(b.opens(x), "slides") {
		n = 1
	}
	covers(w, n, float64(o.Width.Value), "width")
	covers(h, 1, float64(o.Height.Value), "height")
}

// opens is how a door opens, "" if the file does not say.
func (b *builder) opens(x *Piece) string {
	for i := range b.e.Design.Enclosure.Panes {
		if p := &b.e.Design.Enclosure.Panes[i]; p.Pos.Line == x.Line {
			return p.Opens.Value
		}
	}
	return ""
}

// judge compares the typed size with its rule. room is what a captive piece has.
func (b *builder) judge(s *Side, room float64) {
	slack := b.step() / 2
	if s.Captive {
		s.Gap = (room - s.Typed) / 2
		slack = 1e-6
	}
	switch {
	case s.Captive && s.Typed > room-1e-6:
		s.Fit, s.By = TooLong, s.Typed-s.High
	case s.Captive && s.Typed > s.High+slack:
		s.Fit, s.By = Thin, s.Typed-s.High
	case s.Typed > s.High+slack:
		s.Fit, s.By = Proud, s.Typed-s.High
	case s.Typed < s.Low-slack:
		s.Fit, s.By = Short, s.Typed-s.Low
	default:
		s.Fit, s.Cut = Agrees, s.Typed
		return
	}
	b.round(s)
}

// step is what the shop cuts to: 1 mm, or 1/16 in for a design in US units.
func (b *builder) step() float64 {
	if b.e.Units == quantity.US {
		return 0.0254 / 16
	}
	return 0.001
}

// round gives the size to ask for. What goes between others is rounded down, since a
// gap can be filled; what covers or stands free is rounded to the nearest, but never
// below what an opening wants.
func (b *builder) round(s *Side) {
	n := s.Exact / b.step()
	switch whole := math.Round(n); {
	case math.Abs(n-whole) < 1e-4:
		s.Cut = whole * b.step()
	case s.Captive:
		s.Cut, s.Round = math.Floor(n)*b.step(), "rounded down, since it goes between two others"
	case math.IsInf(s.High, 1):
		s.Cut, s.Round = math.Ceil(n)*b.step(), "rounded up, since it has to cover"
	default:
		s.Cut, s.Round = whole*b.step(), "rounded to what the shop cuts"
	}
}

func (b *builder) show(v float64) string { return quantity.Length(v).Show(b.e.Units) }

// edges tells what holds each edge and how it is to be finished.
func edges(p *design.Pane, at string) [4]Edge {
	out := [4]Edge{{Side: "bottom", Held: "bonded"}, {Side: "left", Held: "bonded"}, {Side: "right", Held: "bonded"}, {Side: "top", Held: "free"}}
	for i, f := range []design.Field[string]{p.Edges.Bottom, p.Edges.Left, p.Edges.Right, p.Edges.Top} {
		switch {
		case f.Given():
			out[i].Held = f.Value
		case at == "door":
			out[i].Held = "free"
		case at == "bottom":
			out[i].Held = "bonded"
		}
		// What fingers and hoses touch is polished; what lies in silicone or under a rim
		// need only be no longer sharp.
		if out[i].Finish = "arrissed"; out[i].Held == "free" {
			out[i].Finish = "polished"
		}
	}
	return out
}

// finish adds weight and holes and puts the piece on the list.
func (b *builder) finish(x *Piece) {
	if m, ok := structure.MaterialOf(study.GlassKind(material(x.Material))); ok {
		v := x.Width.Cut * x.Height.Cut * x.Thickness
		d := m.Density.Band
		x.Mass = quantity.Band[quantity.Mass]{Low: quantity.Mass(d.Low * v), Likely: quantity.Mass(d.Likely * v), High: quantity.Mass(d.High * v)}
	}
	for i := range b.e.Drains {
		if d := &b.e.Drains[i]; d.Hole.Given() && d.Hole.Pane.Value == x.Name {
			x.Holes = append(x.Holes, Hole{Name: d.Name, Round: true, Width: float64(d.Hole.Size.Value)})
		}
	}
	for i := range b.e.Design.Enclosure.Ways {
		if w := &b.e.Design.Enclosure.Ways[i]; w.Pane.Value == x.Name {
			h := Hole{Name: w.Name.Value, Round: w.Size.Given(), Width: float64(w.Size.Value)}
			if !h.Round {
				h.Width, h.Height = float64(w.Width.Value), float64(w.Height.Value)
			}
			x.Holes = append(x.Holes, h)
		}
	}
	b.out.Pieces = append(b.out.Pieces, *x)
}

// strips lists the braces, as long as layout places them.
func (b *builder) strips() {
	list := b.e.Design.Enclosure.Braces
	for i := range list {
		r := &list[i]
		at, ok := b.l.Find("brace", r.Name.Value)
		if !ok {
			continue
		}
		size := at.Solid.Bounds().Size()
		long := math.Max(size.X, math.Max(size.Y, size.Z))
		field := fmt.Sprintf("enclosure.braces[%s]", r.Name.Value)
		x := Piece{
			Name: r.Name.Value, Kind: Strip, At: r.Pane.Value, Field: field, Line: r.Pos.Line, Count: 1,
			Thickness: float64(r.Thickness.Value), Material: r.Of.Value, Height: typed(field+".width", r.Width),
			Had: b.e.Design.Enclosure.Made.Value == "from a tank" && r.Of.Value != "glass",
		}
		x.Height.asTyped("as typed")
		x.Width = Side{Field: field + ".length", Line: r.Length.Pos.Line, Typed: float64(r.Length.Value)}
		if r.Length.Given() {
			x.Width.asTyped("as typed")
		} else {
			gap := b.box.gap
			x.Width.Low, x.Width.Exact, x.Width.High = long-2*gap[2], long-2*gap[1], long
			x.Width.Captive = r.Runs.Value == "across"
			x.Width.Rule, x.Width.Fit = fmt.Sprintf("%s between what it meets less two gaps of %s", b.show(long), b.show(gap[1])), Agrees
			b.round(&x.Width)
		}
		x.Edges = edges(&design.Pane{}, "door")
		b.finish(&x)
	}
}

// material is a brace's word for what it is of, as panes have it.
func material(word string) string {
	if word == "glass" {
		return "annealed"
	}
	return word
}
