package pieces

import (
	"fmt"
	"math"

	"rillwright/enclosure"
)

// lengths lists every length of pipe, hose and tube: of runs, drains, standpipes and
// manifolds.
func (b *builder) lengths() {
	for i := range b.e.Runs {
		r := &b.e.Runs[i]
		b.ofList(r.Name, fmt.Sprintf("runs[%s]", r.Name), r.Pieces)
	}
	for i := range b.e.Manifolds {
		m := &b.e.Manifolds[i]
		x := Length{
			Name: m.Name, Of: m.Part, Kind: string(m.Pipe.Kind), Field: fmt.Sprintf("manifolds[%s].length", m.Name), Line: m.Pos.Line,
			Count: 1, Cut: m.Length, Rule: "end to end, as typed",
		}
		b.addLength(x)
		if m.Ring > 0 {
			x.Name, x.Cut, x.Field = m.Name+", return leg", m.Ring, fmt.Sprintf("manifolds[%s].ring", m.Name)
			b.addLength(x)
		}
	}
	for i := range b.e.Drains {
		d := &b.e.Drains[i]
		field := fmt.Sprintf("drains[%s]", d.Name)
		b.standpipe(d, field)
		b.ofList(d.Name, field, d.Pieces)
	}
}

// ofList lists the lengths among the pieces of a run or drain.
func (b *builder) ofList(name, field string, list []enclosure.Piece) {
	n := 0
	for k := range list {
		if p := &list[k]; p.Kind.HasLength() && p.Length > 0 {
			n++
		}
	}
	seen := 0
	for k := range list {
		p := &list[k]
		if !p.Kind.HasLength() || p.Length <= 0 {
			continue
		}
		x := Length{
			Name: name, Of: p.Name, Kind: string(p.Kind), Field: fmt.Sprintf("%s.pieces[%d].length", field, k+1), Line: p.Pos.Line,
			Count: max(1, p.Count), Cut: p.Length, Rule: "end to end, as typed",
		}
		if n > 1 {
			seen++
			x.Name = fmt.Sprintf("%s, %d of %d", name, seen, n)
		}
		b.addLength(x)
	}
}

// standpipe reckons the pipe that stands up from the bulkhead or its elbow to the lip.
// How much of that the elbow takes is seen when all is fitted dry: until then it is
// too long, never too short.
func (b *builder) standpipe(d *enclosure.Drain, field string) {
	if d.Kind != "standpipe" || d.Standpipe.Name == "" {
		return
	}
	up := b.l.Z(d.Lip) - b.l.Z(d.BulkheadAt)
	if up <= 0 {
		return
	}
	b.addLength(Length{
		Name: d.Name + ", standpipe", Of: d.Standpipe.Name, Kind: string(d.Standpipe.Kind), Field: field + ".lip", Line: d.Pos.Line,
		Count: 1, Cut: math.Ceil(up/b.step()-1e-6) * b.step(), Trim: true,
		Rule: "from the bulkhead's middle line up to the lip: longer than the elbow leaves it; trim it to the lip when fitted dry",
	})
}

func (b *builder) addLength(x Length) {
	if x.Of == "" {
		x.Of = "pipe that the file does not name"
	}
	if x.Kind == "" {
		x.Kind = "pipe"
	}
	b.out.Lengths = append(b.out.Lengths, x)
}
