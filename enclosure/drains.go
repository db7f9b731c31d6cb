package enclosure

import (
	"fmt"
	"math"
	"strings"

	"rillwright/catalogue"
	"rillwright/design"
	"rillwright/finding"
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
	out.BulkheadAt = r.bulkheadAt(d, &out, field)
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
	r.pipeLength(&out, field)
	r.e.Drains = append(r.e.Drains, out)
}

// bulkheadAt returns the height of a bulkhead's axis. A hole's distance up is a
// height in upright panes alone: in a base pane it lies in plan. Without a hole
// drawn, a standpipe's bulkhead is taken to sit on the pool's floor.
func (r *resolver) bulkheadAt(d *design.Drain, out *Drain, field string) float64 {
	floor := r.e.Pool.Floor
	bulk := out.Bulkhead.Value
	drawn := floor - float64(r.d.Pool.Floor.Value) + float64(d.Hole.Up.Value)
	upright := out.HoleUpright()
	switch {
	case d.Kind.Value == "wall opening":
		if upright && math.Abs(drawn-bulk/2-out.Lip) > 0.010 {
			r.fault(d.Hole.Up.Pos, field+".hole.up", fmt.Sprintf("a bore of %.0f mm with its centre %s up has its lowest point %.0f mm above the pool's floor, and the lip says %s", bulk*1000, d.Hole.Up.Text, (drawn-bulk/2-floor)*1000, d.Lip.Text), "the lip of a wall opening is the lowest point of its bore: mend the one or the other")
		}
		return out.Lip + bulk/2
	case d.Kind.Value == "floor opening":
		return out.Lip
	case upright:
		if drawn > out.Lip {
			r.fault(d.Hole.Up.Pos, field+".hole.up", fmt.Sprintf("the bulkhead's centre, %s up, lies above the standpipe's lip of %s", d.Hole.Up.Text, d.Lip.Text), "lower the hole or raise the lip")
		}
		return drawn
	}
	return math.Min(floor+bulk/2, out.Lip)
}

// HoleUpright reports whether the hole of a drain is drawn in a pane that stands, so
// that its distance up is a height.
func (d *Drain) HoleUpright() bool { return d.Hole.Given() && !lying(d.Hole.Pane.Value) }

// lying reports whether a pane lies flat, by its name.
func lying(pane string) bool {
	pane = strings.ToLower(pane)
	return strings.Contains(pane, "base") || strings.Contains(pane, "floor") || strings.Contains(pane, "bottom")
}

// pipeLength warns if a drain's pieces are too short to reach its lower end.
func (r *resolver) pipeLength(d *Drain, field string) {
	reach, upright := 0.0, false
	for k := range d.Pieces {
		p := &d.Pieces[k]
		switch {
		case p.Flat:
			reach += p.Fall
		case p.Kind.HasLength():
			reach += p.Length
			upright = true
		default:
			reach += 0.05 // a fitting is some centimetres long
		}
	}
	if drop := d.BulkheadAt - d.End; d.To.Kind == AtSump && upright && drop > reach+0.02 {
		r.list = append(r.list, finding.Finding{
			Place: finding.Place{Line: d.Pos.Line, Column: d.Pos.Column, Width: d.Pos.Width}, Severity: finding.Warning, Field: field,
			What: fmt.Sprintf("its pieces reach down %.0f mm, and its lower end is %.0f mm below its bulkhead", reach*1000, drop*1000),
			Do:   "lengthen the pipe, or mend end-height or a piece's fall",
		})
	}
}
