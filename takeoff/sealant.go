package takeoff

import (
	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/quantity"
	"rillwright/structure/joint"
	"rillwright/study"
)

// CoatThickness is how thick sealant lies on carved foam, m: common practice, no
// source.
func CoatThickness() Band { return Band{Low: 0.001, Likely: 0.0015, High: 0.002} }

// Ends says at which end of its band each doubt about sealant stands, -1 low, 0
// likely, 1 high.
type Ends struct{ Line, Glass, Fillets int }

// Sealant is what sealant goes where, m3, and over what length of joints, m.
type Sealant struct{ Length, Beds, Fillets, Grid float64 }

// All returns the whole volume, m3.
func (v Sealant) All() float64 { return v.Beds + v.Fillets + v.Grid }

// SealantFor sums the sealant of all joints still to be made, with a thickness of the
// bond line (m), at the ends given of bond lines, glass and fillets (the dam has one,
// or one on each side).
func SealantFor(d *design.Design, found study.Joints, bond quantity.Band[float64], at Ends) Sealant {
	leg := float64(d.Sealant.Fillet.Value)
	var v Sealant
	for i := range found.List {
		m := &found.List[i]
		if m.Old {
			continue
		}
		n := float64(m.Count) * m.Length
		v.Length += n
		v.Beds += joint.Volume(joint.Butt{Bite: m.Bite.At(at.Glass), Thickness: bond.At(at.Line)}.Area(), n)
		k := m.Fillets[0]
		if at.Fillets > 0 {
			k = m.Fillets[1]
		}
		v.Fillets += joint.Volume(joint.Fillet{A: leg, B: leg}.Area(), k*n)
	}
	for i := range d.Grid {
		g := &d.Grid[i]
		if !g.Bond.Given() || g.At.Value == "floor" {
			continue
		}
		spots := float64(g.Bond.Spots.Value) * float64(g.Bond.Width.Value) * float64(g.Bond.Height.Value)
		v.Grid += joint.Volume(spots, spotLine(g.Bond.Line).At(at.Line))
	}
	for _, x := range found.BraceEnds {
		v.Grid += joint.Volume(x.Area, spotLine(d.Grid[x.Panel].Bond.Line).At(at.Line))
	}
	return v
}

// spotLine is the thickness of a grid's spots, m: 1 to 4 mm if the file does not say,
// assumed, no source.
func spotLine(f design.Field[design.LengthBand]) Band {
	if f.Given() {
		return metres(f.Value)
	}
	return Band{Low: 0.001, Likely: 0.002, High: 0.004}
}

func metres(b design.LengthBand) Band {
	return Band{Low: float64(b.Low), Likely: float64(b.Likely), High: float64(b.High)}
}

// SealantWaste is the share of all sealant that does not end in a joint: the file's,
// else what cost guides say.
func SealantWaste(d *design.Design) Band {
	if f := d.Sealant.Waste; f.Given() {
		return Band{Low: float64(f.Value.Low), Likely: float64(f.Value.Likely), High: float64(f.Value.High)}
	}
	return joint.Waste().Band
}

// BondLine is the thickness of the sealant between glass and glass, m: the file's,
// else the rule of the trade.
func BondLine(e *enclosure.Enclosure) Band {
	if f := e.Design.Sealant.BondLine; f.Given() {
		return metres(f.Value)
	}
	return joint.LeastBondLine().Band
}

// coats returns the volume of the coats over carved foam, m3.
func coats(d *design.Design) []Share {
	var out []Share
	for i := range d.Coat {
		c := &d.Coat[i]
		area := float64(c.Area.Value)
		if !c.Area.Given() {
			area = float64(c.Width.Value) * float64(c.Height.Value)
		}
		thick := CoatThickness()
		if c.Thickness.Given() {
			thick = metres(c.Thickness.Value)
		}
		out = append(out, Share{"coat: " + c.Name.Value, thick.Scale(area)})
	}
	return out
}

func (t *taker) sealant(joints study.Joints) {
	bond := BondLine(t.e)
	low, likely, high := SealantFor(t.d, joints, bond, Ends{-1, -1, -1}), SealantFor(t.d, joints, bond, Ends{0, 0, -1}), SealantFor(t.d, joints, bond, Ends{1, 1, 1})
	n := Need{Name: "sealant", Key: "sealant", Group: Sealing, Unit: CubicMetres, Field: "sealant", Line: t.d.Sealant.Pos.Line, Note: t.d.Sealant.Label.Value}
	grid := "spots under the grid"
	if len(joints.BraceEnds) > 0 {
		grid += " and ends of its braces"
	}
	for _, s := range []struct {
		what string
		of   func(Sealant) float64
	}{
		{"beds between panes", func(v Sealant) float64 { return v.Beds }},
		{"fillets", func(v Sealant) float64 { return v.Fillets }},
		{grid, func(v Sealant) float64 { return v.Grid }},
	} {
		if s.of(high) > 0 {
			n.add(s.what, Band{Low: s.of(low), Likely: s.of(likely), High: s.of(high)})
		}
	}
	for _, s := range coats(t.d) {
		n.add(s.What, s.Amount)
	}
	if !(n.Amount.High > 0) {
		return
	}
	w, all := SealantWaste(t.d), n.Amount
	n.add("lost in nozzles and on knives", Band{Low: all.Low * w.Low, Likely: all.Likely * w.Likely, High: all.High * w.High})
	t.list = append(t.list, n)
}
