package enclosure

import (
	"fmt"
	"math"

	"rillwright/catalogue"
	"rillwright/design"
	"rillwright/document"
)

func emitterK(e catalogue.Emitter) float64 {
	return float64(e.Flow) / math.Pow(float64(e.AtHead), e.Exponent)
}

// place finds what a run joins by name. Names were checked by design.Read.
func (r *resolver) place(name string) Place {
	switch name {
	case "pool":
		return Place{AtPool, 0, name}
	case "sump":
		return Place{AtSump, 0, name}
	}
	for i := range r.e.Sump.Chambers {
		if r.e.Sump.Chambers[i].Name == name {
			return Place{AtSump, i, name}
		}
	}
	for i := range r.d.Pumps {
		if r.d.Pumps[i].Name.Value == name {
			return Place{AtPump, i, name}
		}
	}
	for i := range r.d.Manifolds {
		if r.d.Manifolds[i].Name.Value == name {
			return Place{AtManifold, i, name}
		}
	}
	for i := range r.d.Tees {
		if r.d.Tees[i].Name.Value == name {
			return Place{AtTee, i, name}
		}
	}
	return Place{AtPool, -1, name}
}

func (r *resolver) run(u *design.Run) {
	name := u.Name.Value
	out := Run{
		Name: name, From: r.place(u.From.Value), To: r.place(u.To.Value),
		Heads: float64(u.Heads.Value), Pos: u.Pos, At: math.NaN(), FromAt: math.NaN(), Crest: math.NaN(),
	}
	switch out.To.Kind {
	case AtPool:
		out.EndHeight = float64(r.d.Enclosure.Bottom.Value) + float64(u.EndHeight.Value)
	case AtSump:
		out.EndHeight = r.e.Sump.Bottom + float64(u.EndHeight.Value)
	case AtManifold:
		length := float64(r.d.Manifolds[out.To.Index].Length.Value)
		switch u.At.Value {
		case "left":
			out.At = 0
		case "centre":
			out.At = length / 2
		case "right":
			out.At = length
		}
	}
	out.Pieces = r.pieces("runs["+name+"]", u.Pieces)
	r.crest(u, &out)
	r.e.Runs = append(r.e.Runs, out)
}

// feeds settles at which point each run meets its manifold: where the run says,
// else the manifold's own feeds in the order of the runs.
func (r *resolver) feeds() {
	taken := make([]int, len(r.e.Manifolds))
	for i := range r.e.Runs {
		u := &r.e.Runs[i]
		if u.From.Kind == AtManifold && u.From.Index < len(r.e.Manifolds) {
			u.FromAt = r.e.Manifolds[u.From.Index].Length
		}
		if u.To.Kind != AtManifold || u.To.Index >= len(r.e.Manifolds) || !math.IsNaN(u.At) {
			continue
		}
		m := &r.e.Manifolds[u.To.Index]
		k := taken[u.To.Index]
		if k >= len(m.Feeds) {
			r.fault(u.Pos, "runs["+u.Name+"]", fmt.Sprintf("%s has %d feed point(s) and this is one run more", m.Name, len(m.Feeds)), "say at which point this run feeds it (at: left, centre or right), or change the manifold's feed")
			u.At = 0
			continue
		}
		u.At = m.Feeds[k]
		taken[u.To.Index]++
	}
}

// pieces resolves the pieces of a run or drain.
func (r *resolver) pieces(field string, list []design.Piece) []Piece {
	var out []Piece
	for i := range list {
		p := &list[i]
		at := fmt.Sprintf("%s.pieces[%d]", field, i+1)
		part, ok := r.part(p.Part, at+".part")
		if !ok {
			continue
		}
		piece := Piece{
			Name: part.Name, Kind: part.Kind, Length: float64(p.Length.Value), Roughness: float64(part.Roughness),
			Count: max(1, p.Count.Value), Loss: part.Loss, Open: 1, OneWay: part.Kind == catalogue.KindCheckValve,
			Flat: p.Fall.Given(), Fall: float64(p.Fall.Value), Kv: float64(p.Kv.Value), Ends: part.Ends, Part: part, Pos: p.Pos,
		}
		switch part.Kind {
		case catalogue.KindPump, catalogue.KindEmitter, catalogue.KindStrainer, catalogue.KindTee:
			r.fault(p.Part.Pos, at+".part", fmt.Sprintf("%s cannot stand in a run", one(part.Kind)), "list hose, pipe, fittings and valves here; pumps, tees, manifolds and strainers have sections of their own")
			continue
		}
		if part.Kind.HasLength() && piece.Length == 0 {
			r.fault(p.Part.Pos, at, part.Name+" has no length", "add its length, such as length: 2.8 m")
		}
		if p.Open.Given() {
			piece.Open = float64(p.Open.Value)
			if part.Kind != catalogue.KindValve {
				r.fault(p.Open.Pos, at+".open", fmt.Sprintf("%s cannot be part open", one(part.Kind)), "leave it out, or name a valve")
			}
		}
		piece.Gate = isGate(part)
		piece.Bore = r.bore(part, p.Bore)
		if piece.Bore.Value == 0 {
			r.fault(p.Part.Pos, at, "the bore of "+part.Name+" is not known", "measure it and add bore:")
		}
		out = append(out, piece)
	}
	return out
}

func isGate(p catalogue.Part) bool {
	return len(p.Family) >= 4 && p.Family[:4] == "gate" || len(p.Family) >= 5 && p.Family[:5] == "globe"
}

// bore returns a part's bore: measured, or the catalogue's band. Equal parts
// share one doubt: a reel of hose is off everywhere by the same.
func (r *resolver) bore(part catalogue.Part, measured document.Field[design.LengthBand]) Figure {
	d := boreDoubt(part)
	if measured.Given() {
		d.ID += fmt.Sprintf(" at line %d", measured.Pos.Line)
	}
	return band(r, measured, d)
}

func boreDoubt(part catalogue.Part) Doubt {
	return Doubt{
		ID: "bore[" + part.Name + "]", What: "bore of the " + part.Name, Unit: Bore,
		Low: float64(part.Bore.Low), Likely: float64(part.Bore.Likely), High: float64(part.Bore.High),
		Why: "tolerance of the part, " + string(part.Mark), Settle: "callipers, or a drill shank that just passes",
	}
}
