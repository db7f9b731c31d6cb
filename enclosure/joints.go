package enclosure

import (
	"fmt"

	"rillwright/catalogue"
	"rillwright/design"
)

// Rejoin looks at every joint again after parts were exchanged. It does not look
// for adapters.
func (e *Enclosure) Rejoin() {
	e.Joints = nil
	(&resolver{e: e}).joints()
}

// joints lists every place where two ends meet, along each run and drain, and
// whether they fit.
func (r *resolver) joints() {
	for i := range r.e.Runs {
		u := &r.e.Runs[i]
		open, from := catalogue.End{}, u.From.Name
		say := ""
		switch {
		case u.From.Kind == AtPump && u.From.Index < len(r.e.Pumps):
			open, say = r.e.Pumps[u.From.Index].Outlet, "pumps["+from+"].outlet"
		case u.From.Kind == AtTee && u.From.Index < len(r.e.Tees):
			open, say = r.teeEnd(u.From.Index, u.Name), "tees["+from+"].part"
		}
		open, from = r.along(u.Name, open, from, say, u.Pieces)
		switch {
		case u.To.Kind == AtManifold && u.To.Index < len(r.e.Manifolds):
			r.joint(u.Name, from, u.To.Name, open, r.e.Manifolds[u.To.Index].Inlet, "manifolds["+u.To.Name+"].inlet", u.Pos)
		case u.To.Kind == AtTee && u.To.Index < len(r.e.Tees):
			r.joint(u.Name, from, u.To.Name, open, r.teeEnd(u.To.Index, u.Name), "tees["+u.To.Name+"].part", u.Pos)
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
		if len(d.Part.Ends) > 0 && len(d.Standpipe.Ends) > 0 {
			r.joint(d.Name, d.Part.Name, "standpipe, "+d.Standpipe.Name, d.Part.Ends[0], d.Standpipe.Ends[0], "", d.Pos)
		}
		open, name = r.along(d.Name, open, name, "drains["+d.Name+"].part", d.Pieces)
		if d.To.Kind == AtTee && d.To.Index < len(r.e.Tees) {
			r.joint(d.Name, name, d.To.Name, open, r.teeEnd(d.To.Index, d.Name), "tees["+d.To.Name+"].part", d.Pos)
		}
	}
}

// teeEnd returns the end of a tee that a run or drain meets: the side one if it
// is the branch.
func (r *resolver) teeEnd(tee int, leg string) catalogue.End {
	t := &r.e.Tees[tee]
	switch {
	case len(t.Ends) < 3:
		return catalogue.End{}
	case t.Branch == leg:
		return t.Ends[2]
	}
	return t.Ends[0]
}

// along checks the joints of pieces one behind the other and returns the end
// left open and whose it is. A fitting may be turned either way round.
//
// say is the field that would tell the end before the first piece.
func (r *resolver) along(where string, open catalogue.End, from, say string, pieces []Piece) (catalogue.End, string) {
	for k := range pieces {
		p := &pieces[k]
		if len(p.Ends) < 2 {
			r.joint(where, from, p.Name, open, catalogue.End{}, "the ends of "+p.Name+" in your parts file", p.Pos)
			open, from = catalogue.End{}, p.Name
			continue
		}
		near, far := p.Ends[0], p.Ends[1]
		if ok, _ := catalogue.Mates(open, near); !ok {
			if ok, _ := catalogue.Mates(open, far); ok {
				near, far = far, near
			}
		}
		r.joint(where, from, p.Name, open, near, say, p.Pos)
		open, from, say = far, p.Name, ""
	}
	return open, from
}

func (r *resolver) joint(where, from, to string, a, b catalogue.End, say string, at design.Pos) {
	j := Joint{Say: say, Where: fmt.Sprintf("%s: %s to %s", where, from, to), A: a, B: b, Pos: at}
	j.Known = a.Form != "" && b.Form != ""
	if j.Known {
		j.OK, j.Why = catalogue.Mates(a, b)
		if !j.OK && r.cat != nil {
			for _, p := range r.cat.Adapters(a, b) {
				if j.Help = append(j.Help, p.Name); len(j.Help) == 3 {
					break
				}
			}
		}
	}
	r.e.Joints = append(r.e.Joints, j)
}
