package layout

import (
	"fmt"

	"rillwright/enclosure"
	"rillwright/geom"
)

// usualFoot is the side of a foot that is drawn when the file has none, m:
// assumed, no source.
const usualFoot = 0.05

// sump places the sump's inside, its chambers, its water and its pumps.
func (l *Layout) sump() {
	s, d := &l.e.Sump, &l.e.Design.Sump
	var assumed []string
	lo := geom.Vec{X: float64(d.Left.Value), Y: float64(d.Front.Value) - s.Depth, Z: l.Z(s.Bottom)}
	mid := l.Inside.Centre()
	if !d.Left.Given() {
		lo.X = mid.X - s.Width/2
		assumed = append(assumed, "under the middle, left to right (sump.left says where)")
	}
	if !d.Front.Given() {
		lo.Y = mid.Y - s.Depth/2
		assumed = append(assumed, "under the middle, front to back (sump.front says where)")
	}
	box := geom.Box{Min: lo, Max: lo.Add(geom.Vec{X: s.Width, Y: s.Depth, Z: s.Height})}
	l.add(Part{Kind: KindSump, Name: "sump", Field: "sump", Line: s.Pos.Line, Solid: box, Assumed: assumed})
	water := box
	water.Max.Z = l.Z(s.Level)
	l.add(Part{Kind: KindSumpWater, Name: "sump", Field: "sump.water", Line: d.Water.Pos.Line, Solid: water, Assumed: assumed})
	rooms := make([]geom.Box, len(s.Chambers))
	x := lo.X
	for i := range s.Chambers {
		c := box
		c.Min.X, c.Max.X = x, min(x+s.Chambers[i].Length, box.Max.X)
		x = c.Max.X
		rooms[i] = c
		l.add(Part{
			Kind: KindChamber, Name: s.Chambers[i].Name, Field: "sump.chambers[" + s.Chambers[i].Name + "]", Line: d.Chambers[i].Pos.Line, Solid: c,
			Assumed: append([]string{"from left to right in the order of the file"}, assumed...),
		})
	}
	for i := range l.e.Pumps {
		l.pump(&l.e.Pumps[i], box, rooms)
	}
}

// pump marks where a pump stands: in the middle of its chamber, at the height of
// its inlet. Its size is not in the file.
func (l *Layout) pump(p *enclosure.Pump, sump geom.Box, rooms []geom.Box) {
	field := "pumps[" + p.Name + "]"
	if !p.InSump {
		l.left(p.Name, field, p.Pos.Line, "a pump outside the sump has no place in the file")
		return
	}
	room := sump
	for i := range l.e.Design.Pumps {
		q := &l.e.Design.Pumps[i]
		for k := range l.e.Sump.Chambers {
			if q.Name.Value == p.Name && q.In.Value == l.e.Sump.Chambers[k].Name {
				room = rooms[k]
			}
		}
	}
	at := room.Centre()
	at.Z = l.Z(p.Inlet)
	l.add(Part{
		Kind: KindPump, Name: p.Name, Field: field, Line: p.Pos.Line, Solid: at,
		Assumed: []string{"in the middle of its chamber, as a point: its size is not in the file"},
	})
}

// stand places what the enclosure stands on and its feet.
func (l *Layout) stand() {
	s := &l.e.Design.Stand
	if !s.Given() {
		return
	}
	w, depth := float64(s.Width.Value), float64(s.Depth.Value)
	out := l.Outside
	assumed := []string{"in the middle under the enclosure, left to right"}
	x, y := middle(out.Min.X, out.Max.X, w), out.Max.Y+float64(s.Front.Value)-depth
	if !s.Front.Given() {
		y = middle(out.Min.Y, out.Max.Y, depth)
		assumed = append(assumed, "in the middle under it, front to back (stand.front says where)")
	}
	top := max(out.Min.Z, l.Floor)
	b := geom.Box{Min: geom.Vec{X: x, Y: y, Z: l.Floor}, Max: geom.Vec{X: x + w, Y: y + depth, Z: top}}
	l.add(Part{Kind: KindStand, Name: "stand", Field: "stand", Line: s.Pos.Line, Solid: b, Assumed: assumed})
	foot := float64(s.Foot.Value)
	why := assumed
	if !s.Foot.Given() {
		foot = usualFoot
		why = append([]string{l.show(usualFoot) + " across"}, assumed...)
	}
	if s.Feet.Value%2 == 1 {
		why = append([]string{"the rear row with one foot less"}, why...)
	}
	in := float64(s.Inset.Value)
	for k, at := range feet(s.Feet.Value, b, in, foot) {
		l.add(Part{Kind: KindFoot, Name: fmt.Sprintf("foot %d", k+1), Field: "stand.feet", Line: s.Pos.Line, Solid: at, Assumed: why})
	}
}

// feet returns n feet: two rows from left to right, the rear one with one less if
// n is odd. Below three there are none.
func feet(n int, stand geom.Box, inset, size float64) []geom.Box {
	if n < 3 {
		return nil
	}
	var out []geom.Box
	row := func(count int, y float64) {
		lo, hi := stand.Min.X+inset, stand.Max.X-inset-size
		for k := range count {
			x := (lo + hi) / 2
			if count > 1 {
				x = lo + (hi-lo)*float64(k)/float64(count-1)
			}
			at := geom.Vec{X: x, Y: y, Z: stand.Min.Z}
			out = append(out, geom.Box{Min: at, Max: at.Add(geom.Vec{X: size, Y: size, Z: min(size, stand.Max.Z-stand.Min.Z)})})
		}
	}
	row(n/2, stand.Min.Y+inset)
	row(n-n/2, stand.Max.Y-inset-size)
	return out
}
