package enclosure

import (
	"fmt"

	"rillwright/catalogue"
	"rillwright/design"
)

func (r *resolver) pump(p *design.Pump) {
	field := "pumps[" + p.Name.Value + "]"
	curve, part, ok := r.curve(field, p)
	if !ok {
		return
	}
	out := Pump{
		Name: p.Name.Value, Curve: curve, Speed: 1, InSump: p.In.Given(),
		Inlet: r.e.Sump.Bottom + float64(p.Inlet.Value), OutletBore: float64(p.Bore.Value),
		Power: float64(p.Power.Value), Price: p.Price.Value, Pos: p.Pos,
	}
	if p.Speed.Given() {
		out.Speed = float64(p.Speed.Value)
	}
	if len(part.Ends) > 0 {
		out.Outlet = part.Ends[0]
	}
	if p.Outlet.Given() {
		end, err := catalogue.ParseEnd(p.Outlet.Value)
		if err != nil {
			r.fault(p.Outlet.Pos, field+".outlet", err.Error(), "write an end such as barb 16 mm, or thread G 1/2 male")
		}
		out.Outlet = end
	}
	out.StrainerK, _, out.StrainerLoss = r.strainer(field, &p.Strainer)
	r.switches(p, &out)
	r.e.Pumps = append(r.e.Pumps, out)
}

func (r *resolver) shelf(p *design.Pump) {
	// A pump that is not in the circuit puts nothing in doubt: its label is
	// read both ways where it is looked at.
	doubts := len(r.e.Doubts)
	curve, _, ok := r.curve("shelf["+p.Name.Value+"]", p)
	r.e.Doubts = r.e.Doubts[:doubts]
	if ok {
		curve.Shape = Known(curve.Shape.Value)
		r.e.Shelf = append(r.e.Shelf, ShelfPump{Name: p.Name.Value, Curve: curve, Price: p.Price.Value})
	}
}

// curve resolves a pump's curve, however it is given. That points rise in flow
// and fall in head was checked where they were read.
func (r *resolver) curve(field string, p *design.Pump) (Curve, catalogue.Part, bool) {
	name := p.Name.Value
	switch {
	case p.Label.Given():
		return r.label(name, float64(p.Label.Head.Value), float64(p.Label.Flow.Value)), catalogue.Part{}, true
	case len(p.Curve) > 0:
		var c Curve
		for i := range p.Curve {
			c.Flow = append(c.Flow, float64(p.Curve[i].Flow.Value))
			c.Head = append(c.Head, float64(p.Curve[i].Head.Value))
		}
		return c, catalogue.Part{}, true
	case p.CurveFile.Given():
		points, ok := r.curves[p.CurveFile.Value]
		if !ok {
			r.fault(p.CurveFile.Pos, field+".curve-file", fmt.Sprintf("%q was not read", p.CurveFile.Value), "put the file beside this one")
			return Curve{}, catalogue.Part{}, false
		}
		return pointsCurve(points), catalogue.Part{}, true
	}
	part, ok := r.part(p.Part, field+".part", catalogue.KindPump)
	if !ok {
		return Curve{}, part, false
	}
	return PartCurve(r.e, name, part), part, true
}

// PartCurve returns the curve of a pump from the catalogue, adding the doubt
// about its shape to e.
func PartCurve(e *Enclosure, name string, part catalogue.Part) Curve {
	if len(part.Curve) >= 2 {
		return pointsCurve(part.Curve)
	}
	r := resolver{e: e}
	return r.label(name, float64(part.Label.Head), float64(part.Label.Flow))
}

func pointsCurve(points []catalogue.Point) Curve {
	var c Curve
	for _, p := range points {
		c.Flow = append(c.Flow, float64(p.Flow))
		c.Head = append(c.Head, float64(p.Head))
	}
	return c
}

// label returns the curve of a pump known by the two figures on its box. How
// the curve runs between them is the largest doubt of most designs.
func (r *resolver) label(name string, hMax, qMax float64) Curve {
	return Curve{HMax: hMax, QMax: qMax, Label: true, Shape: r.e.doubt(Doubt{
		ID: "pump-curve[" + name + "]", What: "shape of the " + name + "'s curve", Low: 1, Likely: 1.5, High: 2, Unit: Shape,
		Why:    "the box gives only the two ends: a straight line is the pessimistic reading, a parabola the optimistic one",
		Settle: "flow into a bucket at the height of the manifold, or the maker's printed curve",
	})}
}

// strainer resolves a strainer: k velocity heads of the pipe it guards, its
// open area as a multiple of the pipe's, and a loss per square of the flow if
// it was measured.
func (r *resolver) strainer(field string, s *design.Strainer) (k, area, loss float64) {
	if !s.Given() {
		return 0, 0, 0
	}
	if s.Part.Given() {
		if p, ok := r.part(s.Part, field+".strainer.part", catalogue.KindStrainer); ok {
			k, area = p.Loss.KInf, float64(p.Strainer.OpenArea)
		}
	}
	if s.OpenArea.Given() {
		area = float64(s.OpenArea.Value)
		// An orifice of coefficient 0.6 with that open area.
		c := 0.6 * area
		k = 1 / (c * c)
	}
	if s.Loss.Given() && s.At.Given() {
		q := float64(s.At.Value)
		return 0, area, float64(s.Loss.Value) / (q * q)
	}
	return k, area, 0
}
