package enclosure

import (
	"math"

	"rillwright/catalogue"
	"rillwright/design"
)

func (r *resolver) drain(d *design.Drain) {
	name := d.Name.Value
	field := "drains[" + name + "]"
	floor := r.e.Pool.Floor
	out := Drain{
		Name: name, Kind: d.Kind.Value, Lip: floor + float64(d.Lip.Value), Hole: d.Hole,
		Vented: d.Vented.Value, Pos: d.Pos, To: r.place(d.To.Value),
	}
	if d.Part.Given() {
		p, ok := r.part(d.Part, field+".part", catalogue.KindBulkhead)
		if !ok {
			return
		}
		out.Part = p
		out.Bulkhead = r.bore(p, d.Bore)
	} else {
		out.Bulkhead = r.bore(catalogue.Part{Name: name}, d.Bore)
	}
	if out.Bulkhead.Value == 0 {
		r.fault(d.Name.Pos, field, "the bore of its bulkhead is not known", "name the bulkhead's part, or measure its smallest inside as bore:")
		return
	}
	out.LipBore = out.Bulkhead
	if d.Standpipe.Given() {
		p, ok := r.part(d.Standpipe, field+".standpipe", catalogue.KindPipe, catalogue.KindTube)
		if !ok {
			return
		}
		out.Standpipe, out.LipBore = p, r.bore(p, d.LipBore)
	} else if d.LipBore.Given() {
		out.LipBore = r.bore(catalogue.Part{Name: name + " standpipe"}, d.LipBore)
	}
	// Without a hole drawn yet, a standpipe's bulkhead is taken to sit on the
	// pool's floor and an opening where its lip says.
	bulk := out.Bulkhead.Value
	switch {
	case d.Hole.Given():
		out.BulkheadAt = floor - float64(r.d.Pool.Floor.Value) + float64(d.Hole.Up.Value)
	case d.Kind.Value == "wall opening":
		out.BulkheadAt = out.Lip + bulk/2
	default:
		out.BulkheadAt = floor + bulk/2
	}
	out.BulkheadAt = math.Min(out.BulkheadAt, out.Lip+bulk/2)
	_, out.StrainerArea, out.StrainerLoss = r.strainer(field, &d.Strainer)
	out.Intake = band(r, r.d.Assume.DrainIntake, Doubt{
		ID: "drain-intake", What: "discharge coefficient of the drain's mouth", Low: 0.55, Likely: 0.60, High: 0.62,
		Why:    "a sharp opening; a burr or a fitting's step lowers it",
		Settle: "pour measured buckets into the pool and mark how high it stands",
	})
	out.Pieces = r.pieces(field, d.Pieces)
	out.End = r.e.Sump.Bottom + float64(d.EndHeight.Value)
	if !d.EndHeight.Given() {
		out.End = r.e.Sump.Level
		r.assumed(field+".end-height", "lower end of the "+name, "just above the sump's water", "the file does not say")
	}
	r.e.Drains = append(r.e.Drains, out)
}
