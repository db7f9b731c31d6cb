package plate

import (
	"fmt"
	"math"
	"slices"
)

// Validate reports why a pane and its load cannot be computed, nil if they can.
func Validate(p *Pane, l Load) error {
	for _, v := range []struct {
		name string
		x    float64
	}{{"width", p.Width}, {"height", p.Height}, {"thickness", p.Thickness}, {"Young's modulus", p.Young}} {
		if !(v.x > 0) || math.IsInf(v.x, 0) {
			return fmt.Errorf("%s is %g: it must be more than 0", v.name, v.x)
		}
	}
	if !(p.Poisson >= 0 && p.Poisson < 0.5) {
		return fmt.Errorf("ratio of Poisson is %g: it must be from 0 to less than 0.5", p.Poisson)
	}
	if ratio := max(p.Width, p.Height) / min(p.Width, p.Height); ratio > 50 {
		return fmt.Errorf("sides %g and %g m: a pane 50 times longer than wide is a strip, compute it as a beam", p.Width, p.Height)
	}
	for s, e := range p.Edges {
		if e > Clamped {
			return fmt.Errorf("%s edge: support %d is none of free, held and clamped", Side(s), e)
		}
	}
	for i, b := range p.Braces {
		if err := p.checkBrace(i, b); err != nil {
			return err
		}
	}
	for i, b := range p.Beds {
		if !(0 <= b.X0 && b.X0 < b.X1 && b.X1 <= p.Width && 0 <= b.Y0 && b.Y0 < b.Y1 && b.Y1 <= p.Height) {
			return fmt.Errorf("bed %d from (%g, %g) to (%g, %g) m is no rectangle inside the pane", i+1, b.X0, b.Y0, b.X1, b.Y1)
		}
		if !(b.Stiffness > 0) || math.IsInf(b.Stiffness, 0) {
			return fmt.Errorf("bed %d: stiffness is %g: it must be more than 0 Pa/m; a stiff pad has its modulus over its thickness", i+1, b.Stiffness)
		}
	}
	for _, x := range []float64{l.Uniform, l.Inner, l.Outer, l.Weight} {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return fmt.Errorf("load %+v is not all numbers", l)
		}
	}
	if !(l.Weight >= 0) || l.Weight == 0 && max(l.Inner, l.Outer) > 0 {
		return fmt.Errorf("weight of water is %g: it must be more than 0 N/m3 where there is water", l.Weight)
	}
	for i, q := range l.Patches {
		if !(0 <= q.X0 && q.X0 < q.X1 && q.X1 <= p.Width && 0 <= q.Y0 && q.Y0 < q.Y1 && q.Y1 <= p.Height) {
			return fmt.Errorf("patch %d from (%g, %g) to (%g, %g) m is no rectangle inside the pane", i+1, q.X0, q.Y0, q.X1, q.Y1)
		}
		if math.IsNaN(q.Force) || math.IsInf(q.Force, 0) {
			return fmt.Errorf("patch %d: force is %g: it must be a number of N", i+1, q.Force)
		}
	}
	return p.steady()
}

func (p *Pane) checkBrace(i int, b Brace) error {
	if b.Side > Left {
		return fmt.Errorf("brace %d is on side %d: use bottom, right, top or left", i+1, b.Side)
	}
	length := p.edgeLength(b.Side)
	switch {
	case p.Edges[b.Side] != Free:
		return fmt.Errorf("brace %d is on the %s edge, which is held already: leave the brace out or make the edge free", i+1, b.Side)
	case !(0 <= b.From && b.From < b.To && b.To <= length):
		return fmt.Errorf("brace %d from %g to %g m is no stretch of the %s edge, %g m long", i+1, b.From, b.To, b.Side, length)
	case !(b.Stiffness >= 0) || math.IsInf(b.Stiffness, 0):
		return fmt.Errorf("brace %d: stiffness is %g: it must be a number of Pa, or 0 for as stiff as the pane", i+1, b.Stiffness)
	}
	for j, c := range p.Braces[:i] {
		if b.Side == c.Side && b.From < c.To && c.From < b.To {
			return fmt.Errorf("braces %d and %d lie over each other on the %s edge: give them as one", j+1, i+1, b.Side)
		}
	}
	return nil
}

func (p *Pane) edgeLength(s Side) float64 {
	if s == Bottom || s == Top {
		return p.Width
	}
	return p.Height
}

// point returns the place on an edge at a distance from its left or bottom end.
func (p *Pane) point(s Side, at float64) (x, y float64) {
	switch s {
	case Bottom:
		return at, 0
	case Top:
		return at, p.Height
	case Left:
		return 0, at
	default:
		return p.Width, at
	}
}

// steady reports which movement the supports do not stop, nil if none. A pane
// stands still unless some w = a + b x + c y is 0 wherever it is held; that is
// so if all supports lie on one line.
func (p *Pane) steady() error {
	var held [][2]float64
	var where Side
	for s := Bottom; s <= Left; s++ {
		switch p.Edges[s] {
		case Clamped:
			return nil
		case Held:
			x0, y0 := p.point(s, 0)
			x1, y1 := p.point(s, p.edgeLength(s))
			held, where = append(held, [2]float64{x0, y0}, [2]float64{x1, y1}), s
		}
	}
	for _, b := range p.Braces {
		x0, y0 := p.point(b.Side, b.From)
		x1, y1 := p.point(b.Side, b.To)
		held, where = append(held, [2]float64{x0, y0}, [2]float64{x1, y1}), b.Side
	}
	if len(p.Beds) > 0 {
		return nil
	}
	if len(held) == 0 {
		return fmt.Errorf("nothing holds the pane: hold two edges at least, or lay it on a bed")
	}
	first, second := held[0], held[1]
	for _, q := range held[2:] {
		if area := (second[0]-first[0])*(q[1]-first[1]) - (second[1]-first[1])*(q[0]-first[0]); area != 0 {
			return nil
		}
	}
	return fmt.Errorf("the pane is held along its %s edge only and can swing about it: hold another edge, or brace it", where)
}

// even reports whether supports and patches are the same on the left and on the
// right, so that half of the pane answers for the whole.
func (p *Pane) even(l Load) bool {
	if p.Edges[Left] != p.Edges[Right] {
		return false
	}
	near := func(u, v float64) bool { return math.Abs(u-v) <= 1e-12*p.Width }
	for _, q := range l.Patches {
		if !slices.ContainsFunc(l.Patches, func(r Patch) bool {
			return r.Force == q.Force && r.Y0 == q.Y0 && r.Y1 == q.Y1 && near(r.X0, p.Width-q.X1) && near(r.X1, p.Width-q.X0)
		}) {
			return false
		}
	}
	for _, b := range p.Braces {
		found := false
		for _, c := range p.Braces {
			switch {
			case b.Stiffness != c.Stiffness:
			case b.Side == Bottom || b.Side == Top:
				found = found || c.Side == b.Side && near(c.From, p.Width-b.To) && near(c.To, p.Width-b.From)
			default:
				found = found || c.Side == Left+Right-b.Side && c.From == b.From && c.To == b.To
			}
		}
		if !found {
			return false
		}
	}
	for _, b := range p.Beds {
		found := false
		for _, c := range p.Beds {
			found = found || c.Stiffness == b.Stiffness && c.Y0 == b.Y0 && c.Y1 == b.Y1 &&
				near(c.X0, p.Width-b.X1) && near(c.X1, p.Width-b.X0)
		}
		if !found {
			return false
		}
	}
	return true
}
