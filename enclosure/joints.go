package enclosure

import (
	"fmt"

	"rillwright/catalogue"
	"rillwright/design"
)

// joints lists every place where two ends meet, along each run and drain, and
// whether they fit.
func (r *resolver) joints() {
	for i := range r.e.Runs {
		u := &r.e.Runs[i]
		open, from := catalogue.End{}, u.From.Name
		if u.From.Kind == AtPump && u.From.Index < len(r.e.Pumps) {
			open = r.e.Pumps[u.From.Index].Outlet
		}
		open, from = r.along(u.Name, open, from, u.Pieces)
		if u.To.Kind == AtManifold && u.To.Index < len(r.e.Manifolds) {
			r.joint(u.Name, from, u.To.Name, open, r.e.Manifolds[u.To.Index].Inlet, u.Pos)
		}
	}
	for i := range r.e.Drains {
		d := &r.e.Drains[i]
		open := catalogue.End{}
		if n := len(d.Part.Ends); n > 0 {
			open = d.Part.Ends[n-1]
		}
		name := d.Part.Name
		if name == "" {
			name = d.Name
		}
		r.along(d.Name, open, name, d.Pieces)
	}
}

// along checks the joints of pieces one behind the other and returns the end
// left open and whose it is. A fitting may be turned either way round.
func (r *resolver) along(where string, open catalogue.End, from string, pieces []Piece) (catalogue.End, string) {
	for k := range pieces {
		p := &pieces[k]
		if len(p.Ends) < 2 {
			r.joint(where, from, p.Name, open, catalogue.End{}, p.Pos)
			open, from = catalogue.End{}, p.Name
			continue
		}
		near, far := p.Ends[0], p.Ends[1]
		if ok, _ := catalogue.Mates(open, near); !ok {
			if ok, _ := catalogue.Mates(open, far); ok {
				near, far = far, near
			}
		}
		r.joint(where, from, p.Name, open, near, p.Pos)
		open, from = far, p.Name
	}
	return open, from
}

func (r *resolver) joint(where, from, to string, a, b catalogue.End, at design.Pos) {
	j := Joint{Where: fmt.Sprintf("%s: %s to %s", where, from, to), A: a, B: b, Pos: at}
	j.Known = a.Form != "" && b.Form != ""
	if j.Known {
		j.OK, j.Why = catalogue.Mates(a, b)
		if !j.OK {
			for _, p := range r.cat.Adapters(a, b) {
				if j.Help = append(j.Help, p.Name); len(j.Help) == 3 {
					break
				}
			}
		}
	}
	r.e.Joints = append(r.e.Joints, j)
}
