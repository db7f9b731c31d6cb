package takeoff

import (
	"fmt"

	"rillwright/catalogue"
	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/geom"
	"rillwright/layout"
)

// hoseMore is how much hose is cut too long or spoiled, as a share: assumed, no
// source.
var hoseMore = Band{Low: 0.05, Likely: 0.10, High: 0.15}

// spareElbows is how many elbows of a sort are bought beyond those in use: common
// practice, no source.
const spareElbows = 2

// plumbing counts pumps, pipe, hose and fittings.
func (t *taker) plumbing() {
	t.pumps()
	t.sump()
	for i := range t.e.Runs {
		r := &t.e.Runs[i]
		t.pieces(r.Name, "runs["+r.Name+"]", r.Pieces)
	}
	for i := range t.d.Tees {
		f := &t.d.Tees[i]
		name := "tee"
		if f.Part.Given() {
			name = f.Part.Value
		}
		t.piece(Need{Name: name, Key: "tee", Group: Plumbing, Field: "tees[" + f.Name.Value + "]", Line: f.Pos.Line}, f.Name.Value, 1)
	}
	t.manifolds()
	for i := range t.e.Drains {
		t.drain(&t.e.Drains[i], &t.d.Drains[i])
	}
	t.clamps()
	t.cement()
	t.spares()
}

func (t *taker) pumps() {
	for i := range t.d.Pumps {
		p := &t.d.Pumps[i]
		n := Need{Name: "pump: " + p.Name.Value, Key: "pump", Group: Plumbing, Price: p.Price.Value, Field: "pumps[" + p.Name.Value + "]", Line: p.Pos.Line}
		if p.Label.Given() {
			n.Note = "label " + p.Label.Flow.Text + " / " + p.Label.Head.Text
		} else if p.Part.Given() {
			n.Note = p.Part.Value
		}
		t.piece(n, p.Name.Value, 1)
		t.strainer(p.Name.Value, n.Field, &p.Strainer)
	}
}

func (t *taker) strainer(of, field string, s *design.Strainer) {
	if !s.Given() {
		return
	}
	name := "strainer for the " + of
	if s.Part.Given() {
		name = s.Part.Value
	}
	t.piece(Need{Name: name, Key: "strainer", Group: Plumbing, Field: field + ".strainer", Line: s.Pos.Line}, of, 1)
}

func (t *taker) sump() {
	b := &t.d.Sump.Inside
	t.piece(Need{
		Name: "sump box", Key: "sump box", Group: Structure, Field: "sump", Line: t.d.Sump.Pos.Line,
		Note: "inside " + b.Width.Text + " x " + b.Depth.Text + " x " + b.Height.Text + "; thin boxes bulge when full",
	}, "sump", 1)
}

// pieces adds what a run or drain passes.
func (t *taker) pieces(of, field string, list []enclosure.Piece) {
	for i := range list {
		p := &list[i]
		if p.Kind.HasLength() {
			t.length(p.Part, field, p.Pos.Line, fmt.Sprintf("%s, piece %d", of, i+1), p.Length, p.Count)
			continue
		}
		t.piece(Need{Name: p.Name, Key: string(p.Kind), Group: Plumbing, Part: p.Part, Field: field, Line: p.Pos.Line}, of, p.Count)
	}
}

// length adds some equal lengths (m) of hose or pipe.
func (t *taker) length(p catalogue.Part, field string, line int, what string, long float64, many int) {
	if !(long > 0) {
		return
	}
	i, ok := t.parts[p.Name]
	if !ok {
		i = len(t.list)
		t.parts[p.Name] = i
		t.list = append(t.list, Need{Name: p.Name, Key: string(p.Kind), Group: Plumbing, Unit: Metres, Part: p, Field: field, Line: line})
	}
	n := &t.list[i]
	all := exactly(long * float64(many))
	if p.Kind != catalogue.KindPipe {
		all = Band{Low: all.Low * (1 + hoseMore.Low), Likely: all.Likely * (1 + hoseMore.Likely), High: all.High * (1 + hoseMore.High)}
	}
	n.add(what, all)
	n.Lengths = append(n.Lengths, Length{what, long, many})
}

func (t *taker) manifolds() {
	for i := range t.d.Manifolds {
		m := &t.d.Manifolds[i]
		field := "manifolds[" + m.Name.Value + "]"
		pipe := catalogue.Part{Name: "pipe of the " + m.Name.Value, Kind: catalogue.KindPipe}
		if m.Part.Given() {
			if p, ok := t.part(m.Part.Value); ok {
				pipe = p
			}
		}
		t.length(pipe, field, m.Pos.Line, m.Name.Value, float64(m.Length.Value), 1)
		if m.Ring.Given() {
			t.length(pipe, field, m.Pos.Line, m.Name.Value+", return leg", float64(m.Ring.Value), 1)
		}
		if m.Ends.Value != "joined" {
			ends := 2
			if f := m.Feed.Value; f == "left" || f == "right" {
				ends = 1
			} else if f == "both ends" {
				ends = 0
			}
			t.piece(Need{Name: "end cap for " + pipe.Name, Key: "coupling", Group: Plumbing, Field: field, Line: m.Pos.Line}, m.Name.Value, ends)
		}
		if m.Feed.Value == "centre" {
			t.piece(Need{Name: "tee for " + pipe.Name, Key: "tee", Group: Plumbing, Field: field + ".feed", Line: m.Feed.Pos.Line, Note: "its side leg as the inlet: " + m.Inlet.Text}, m.Name.Value+", feed", 1)
		}
		t.piece(Need{Name: "clip for " + pipe.Name, Key: "clip", Group: Plumbing, Field: field, Line: m.Pos.Line, Note: "clipped, not glued: it comes off to be cleaned"}, m.Name.Value, clips(float64(m.Length.Value)))
		for k := range m.Outlets {
			if o := &m.Outlets[k]; o.Emitter.Given() {
				t.piece(Need{Name: o.Emitter.Value, Key: "emitter", Group: Plumbing, Field: field + ".outlets", Line: o.Pos.Line}, m.Name.Value, o.Count.Value)
			}
		}
	}
}

// clips returns how many clips hold a pipe of a length (m): two, and one more for
// each 0.4 m beyond 0.4 m. Assumed, no source.
func clips(long float64) int { return 2 + max(0, int(long/0.4)-1) }

// part finds a part that the resolved enclosure names somewhere.
func (t *taker) part(name string) (catalogue.Part, bool) {
	if t.e.Parts == nil {
		return catalogue.Part{}, false
	}
	return t.e.Parts.Find(name)
}

func (t *taker) drain(d *enclosure.Drain, f *design.Drain) {
	field := "drains[" + d.Name + "]"
	name := "bulkhead for the " + d.Name
	if d.Part.Name != "" {
		name = d.Part.Name
	}
	t.piece(Need{Name: name, Key: "bulkhead", Group: Plumbing, Part: d.Part, Field: field, Line: d.Pos.Line, Note: "with its gasket and nut; measure its thread before the hole is drilled"}, d.Name, 1)
	if d.Kind == "standpipe" && d.Standpipe.Name != "" {
		for _, p := range t.l.All(layout.KindStandpipe) {
			if c, ok := p.Solid.(geom.Cylinder); ok && p.Name == d.Name {
				t.length(d.Standpipe, field+".standpipe", d.Pos.Line, d.Name+", standpipe", c.Length, 1)
			}
		}
		for _, p := range t.l.All(layout.KindElbow) {
			if p.Name == d.Name {
				name, part := "elbow 90 for "+d.Standpipe.Name, catalogue.Part{}
				if q, ok := t.part("elbow 90 solvent " + d.Standpipe.Size.Text); ok {
					name, part = q.Name, q
				}
				t.piece(Need{Name: name, Key: "elbow", Group: Plumbing, Part: part, Field: field + ".standpipe", Line: d.Pos.Line}, d.Name+", inside under its standpipe: not glued there, so that it comes off", 1)
			}
		}
	}
	t.strainer(d.Name, field, &f.Strainer)
	t.pieces(d.Name, field, d.Pieces)
}

// clamps counts one for each end of a hose.
func (t *taker) clamps() {
	n := 0
	for i := range t.e.Joints {
		j := &t.e.Joints[i]
		if j.A.Form == catalogue.Hose || j.B.Form == catalogue.Hose {
			n++
		}
	}
	t.piece(Need{Name: "hose clamp", Key: "hose clamp", Group: Plumbing, Note: "stainless, to the hose's outside"}, "one for each end of a hose", n)
}

// cement counts a can of solvent cement if pipe is joined by it.
func (t *taker) cement() {
	for i := range t.e.Joints {
		if j := &t.e.Joints[i]; j.A.Form == catalogue.Socket || j.B.Form == catalogue.Socket {
			t.piece(Need{Name: "solvent cement for pipe", Key: "solvent cement", Group: Plumbing, Note: "for this very plastic; air the room"}, "glued sockets", 1)
			return
		}
	}
}

// spares adds elbows and gaskets beyond those in use, unless the file leaves them out.
func (t *taker) spares() {
	if f := t.d.Budget.Spares; f.Given() && !f.Value {
		return
	}
	for _, n := range t.list[:len(t.list):len(t.list)] {
		switch n.Key {
		case "elbow":
			s := n
			s.Spare, s.Name, s.From, s.Amount = true, "spare "+n.Name, nil, Band{}
			t.piece(s, "two more of each elbow", spareElbows)
		case "bulkhead":
			t.piece(Need{Name: "spare gasket for " + n.Name, Key: "gasket", Group: Plumbing, Spare: true, Field: n.Field, Line: n.Line}, "one for each sort of bulkhead", 1)
		}
	}
}
