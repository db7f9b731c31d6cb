package study

import (
	"cmp"
	"slices"

	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/quantity"
	"rillwright/structure"
	"rillwright/structure/joint"
	"rillwright/structure/plate"
)

// Strip is a rim or a brace that holds a stretch of a pane's edge.
type Strip struct {
	Name      string
	Rim       bool
	Side      plate.Side
	From, To  float64                // m along the edge, from its left or lower end
	Stiffness quantity.Band[float64] // N/m on each metre, Pa
	Line      int
}

// springs are the braces of a plate that stand for the strips on edges that
// nothing else holds. Where strips lie over each other their stiffnesses add; of
// says which strips each brace stands for.
func (p *GlassPane) springs(pane *plate.Pane, a Ask) (braces []plate.Brace, of [][]int) {
	side := max(-1, min(a.Side+a.Strip, 1))
	for s := plate.Bottom; s <= plate.Left; s++ {
		if pane.Edges[s] != plate.Free || len(p.Pads) > 0 {
			continue
		}
		var ends []float64
		for _, t := range p.Strips {
			if t.Side == s {
				ends = append(ends, t.From, t.To)
			}
		}
		slices.Sort(ends)
		ends = slices.Compact(ends)
		for k := 1; k < len(ends); k++ {
			b := plate.Brace{Side: s, From: ends[k-1], To: ends[k]}
			var who []int
			for i := range p.Strips {
				t := &p.Strips[i]
				if t.Side == s && t.From <= b.From && b.To <= t.To {
					b.Stiffness += t.Stiffness.At(side)
					who = append(who, i)
				}
			}
			if len(who) > 0 {
				braces, of = append(braces, b), append(of, who)
			}
		}
	}
	return braces, of
}

// reactions shares what the springs take out among the strips.
func (p *GlassPane) reactions(r *plate.Result, a Ask) []plate.Reaction {
	if len(p.Strips) == 0 {
		return nil
	}
	out := make([]plate.Reaction, len(p.Strips))
	if a.Unheld {
		return out
	}
	var pane plate.Pane
	for s, h := range p.Holds {
		if h == Bonded || h == Rimmed && a.Firm {
			pane.Edges[s] = plate.Held
		}
	}
	side := max(-1, min(a.Side+a.Strip, 1))
	braces, of := p.springs(&pane, a)
	for k, who := range of {
		for _, i := range who {
			share := p.Strips[i].Stiffness.At(side) / braces[k].Stiffness
			q, to := r.Braces[k], &out[i]
			to.Total += share * q.Total
			if v := share * q.Peak; v > to.Peak {
				to.Peak, to.At = v, q.At
			}
			to.Least = min(to.Least, share*q.Least)
		}
	}
	for i := range out {
		out[i].Mean = out[i].Total / (p.Strips[i].To - p.Strips[i].From)
	}
	return out
}

// strips finds what holds the edges of a pane besides sealant: the design's braces
// that name it, those that come to it from the pane opposite, then rims.
func strips(e *enclosure.Enclosure, p *GlassPane, name string) {
	d := e.Design
	ours := func(f design.Field[string]) bool {
		return f.Given() && (f.Value == name || p.At == "dam" && f.Value == "dam")
	}
	for pass := range 2 {
		for i := range d.Enclosure.Braces {
			b := &d.Enclosure.Braces[i]
			if pass == 0 && ours(b.Pane) || pass == 1 && b.Runs.Value == "across" && ours(b.To) {
				p.brace(e, b, pass == 1)
			}
		}
	}
	rims := d.Enclosure.Rims
	for s, h := range p.Holds {
		if h != Rimmed {
			continue
		}
		r := rimOf(rims, p.At, plate.Side(s))
		if r == nil {
			p.Holds[s] = Loose
			continue
		}
		young, _ := structure.StripModulus(r.Of.Value)
		length := p.EdgeLength(plate.Side(s))
		t := Strip{Name: "rim at the " + r.At.Value, Rim: true, Side: plate.Side(s), To: length, Line: r.Pos.Line}
		t.Stiffness = bandOf(func(side int) float64 {
			return structure.EdgeBeam(young.At(side), float64(r.Flat.Value), float64(r.Wall.Value), length)
		})
		p.Strips = append(p.Strips, t)
		p.assume("the rim at the %s holds by the stiffness of its flat part against an edge that bows in a half sine", r.At.Value)
		if r.Of.Value == "plastic" {
			p.assume("0.5 to 2 GPa is left of a rim's plastic after years, assumed, no source")
		}
	}
	slices.SortStableFunc(p.Strips, func(x, y Strip) int { return cmp.Compare(b2i(x.Rim), b2i(y.Rim)) })
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}

func bandOf(f func(side int) float64) quantity.Band[float64] {
	return quantity.Band[float64]{Low: f(-1), Likely: f(0), High: f(1)}
}

// rimOf returns the rim that lies along an edge: that of the face which the edge
// belongs to, else the first.
func rimOf(rims []design.Rim, at string, s plate.Side) *design.Rim {
	face := map[plate.Side]string{plate.Top: "top", plate.Bottom: "bottom"}[s]
	switch at {
	case "left", "sides":
		face = cmp.Or(face, map[plate.Side]string{plate.Right: "front", plate.Left: "back"}[s])
	case "right":
		face = cmp.Or(face, map[plate.Side]string{plate.Left: "front", plate.Right: "back"}[s])
	case "bottom":
		face = cmp.Or(map[plate.Side]string{plate.Bottom: "front", plate.Top: "back"}[s], "bottom")
	default:
		face = cmp.Or(face, at)
	}
	for i := range rims {
		if rims[i].At.Value == face {
			return &rims[i]
		}
	}
	for i := range rims { // a rim round the face of the pane itself
		if rims[i].At.Value == at {
			return &rims[i]
		}
	}
	if len(rims) > 0 {
		return &rims[0]
	}
	return nil
}

// brace adds a brace of the design; far if the pane is the one opposite. One on an
// edge that is bonded takes nothing.
func (p *GlassPane) brace(e *enclosure.Enclosure, b *design.Brace, far bool) {
	side, ok := map[string]plate.Side{"": plate.Top, "top": plate.Top, "bottom": plate.Bottom, "left": plate.Left, "right": plate.Right}[b.Edge.Value]
	if !ok {
		return
	}
	if far && side == plate.Left {
		side = plate.Right
	} else if far && side == plate.Right {
		side = plate.Left
	}
	length := p.EdgeLength(side)
	width, thick := float64(b.Width.Value), float64(b.Thickness.Value)
	t := Strip{Name: "brace " + b.Name.Value, Side: side, Line: b.Pos.Line}
	taken := min(width, length)
	along := b.Runs.Value == "along"
	if along {
		taken = length
		if b.Length.Given() {
			taken = min(float64(b.Length.Value), length)
		}
	}
	t.From = (length - taken) / 2
	if b.From.Given() {
		t.From = min(float64(b.From.Value), length-taken)
		if far { // the pane opposite is seen from its own outside
			t.From = length - taken - t.From
		}
	}
	t.To = t.From + taken
	young, _ := structure.StripModulus(b.Of.Value)
	bond := p.Thickness.Likely
	if b.Bond.Given() {
		bond = float64(b.Bond.Value)
	}
	line := joint.LeastBondLine().Band
	if f := e.Design.Sealant.BondLine; f.Given() {
		line = quantity.Band[float64]{Low: float64(f.Value.Low), Likely: float64(f.Value.Likely), High: float64(f.Value.High)}
	}
	sealant := joint.Modulus()
	t.Stiffness = bandOf(func(s int) float64 {
		shear := sealant.At(s) / 3
		if along {
			return structure.InSeries(structure.EdgeBeam(young.At(s), width, thick, length), shear*bond/line.At(-s))
		}
		return structure.Tie(young.At(s), width*thick, p.span(e), shear, width*bond, line.At(-s)) / taken
	})
	p.Strips = append(p.Strips, t)
	if along {
		p.assume("the brace %s holds by its own stiffness against an edge that bows in a half sine, in series with its sealant in shear (0.4 to 2 MPa, from memory, over 3)", b.Name.Value)
	} else {
		p.assume("the brace %s is a tie whose middle stays where it is, since both panes push alike; its sealant is in shear (0.4 to 2 MPa, from memory, over 3)", b.Name.Value)
	}
}

// span is how far it is to the pane opposite, m.
func (p *GlassPane) span(e *enclosure.Enclosure) float64 {
	box := &e.Design.Enclosure
	wide, deep := float64(box.Inside.Width.Value), float64(box.Inside.Depth.Value)
	if !box.Inside.Given() {
		wide, deep = float64(box.Outside.Width.Value), float64(box.Outside.Depth.Value)
	}
	switch p.At {
	case "left", "right", "sides":
		return wide
	case "dam":
		return e.Pool.Depth
	}
	return deep
}
