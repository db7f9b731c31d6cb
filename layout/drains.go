package layout

import (
	"math"
	"strconv"

	"rillwright/enclosure"
	"rillwright/geom"
	"rillwright/quantity"
)

// pipeWall is the wall of a pipe whose outside is not known, m: assumed, no source.
const pipeWall = 0.003

// drains places each drain that has a hole in a pane with a place.
func (l *Layout) drains() {
	for i := range l.e.Drains {
		l.drain(&l.e.Drains[i], i)
	}
}

func (l *Layout) drain(d *enclosure.Drain, index int) {
	field := "drains[" + d.Name + "]"
	if !d.Hole.Given() {
		l.left(d.Name, field, d.Pos.Line, field+".hole")
		return
	}
	var assumed []string
	p, ok := l.holePane(d.Hole.Pane.Value, &assumed)
	if !ok {
		l.left(d.Name, field, d.Pos.Line, "the pane its hole is in has no place")
		return
	}
	at, why := p.spot(float64(d.Hole.Up.Value), float64(d.Hole.In.Value), d.Hole.Edge.Value)
	assumed = append(assumed, why...)
	part := func(kind Kind, key string, s geom.Solid, more ...string) {
		line := d.Pos.Line
		if kind == KindHole || kind == KindFlange || kind == KindNut {
			line = d.Hole.Pos.Line
		}
		l.add(Part{Kind: kind, Name: d.Name, Field: field + key, Line: line, Solid: s, Assumed: append(append([]string(nil), assumed...), more...)})
	}
	size := float64(d.Hole.Size.Value)
	hole := p.bore(at, size)
	part(KindHole, ".hole", hole)
	flange, fromPart := float64(d.Part.Flange), []string{l.show(l.taken.FlangeThick) + " thick with its gasket"}
	if flange == 0 {
		flange = size * l.taken.FlangeShare
		fromPart = append(fromPart, times(l.taken.FlangeShare, "as wide as its hole"))
	}
	across := p.Across()
	inner, outer := p.inward(0), p.inward(-p.Thick)
	in := math.Copysign(1, -p.Normal.On(across)) // inwards
	part(KindFlange, ".part", geom.Rod(at, across, inner, inner+in*l.taken.FlangeThick, flange/2), fromPart...)
	part(KindNut, ".part", geom.Rod(at, across, outer, outer-in*l.taken.NutThick, flange/2), "as wide as the flange, "+l.show(l.taken.NutThick)+" thick")
	mouth, outside, more := l.inside(d, p, at, in, part)
	if l.e.Design.Drains[index].Strainer.Given() {
		more = append(more, l.show(l.taken.StrainerMore)+" wider than its pipe all round", l.show(l.taken.StrainerReach)+" long")
		c := geom.Rod(mouth, geom.Z, mouth.Z, mouth.Z+l.taken.StrainerReach, outside/2+l.taken.StrainerMore)
		if d.Kind != "standpipe" && !p.Lies() {
			c = geom.Rod(mouth, across, mouth.On(across), mouth.On(across)+in*l.taken.StrainerReach, outside/2+l.taken.StrainerMore)
		}
		part(KindStrainer, ".strainer", c, more...)
	}
	l.down(d, p, at, in, part)
}

// inside places what stands on the wet side: for a standpipe the pipe, and the
// elbow that leads to it from an upright pane. It returns the middle of the mouth
// that the water enters and the outside of what it is in.
func (l *Layout) inside(d *enclosure.Drain, p *Pane, at geom.Vec, in float64, part func(Kind, string, geom.Solid, ...string)) (mouth geom.Vec, outside float64, assumed []string) {
	across := p.Across()
	outside = float64(d.Standpipe.Outside)
	if outside == 0 {
		outside = d.LipBore.Value + 2*pipeWall
		assumed = append(assumed, "with a pipe wall of "+l.show(pipeWall))
	}
	if d.Kind != "standpipe" {
		return at.With(across, p.inward(l.taken.FlangeThick)), outside, assumed
	}
	lip := l.Z(d.Lip)
	foot := at
	if !p.Lies() {
		foot = at.With(across, p.inward(l.taken.Turn*outside))
		assumed = append(assumed, times(l.taken.Turn, "its outside from the glass"))
		part(KindElbow, "", geom.Path{Points: []geom.Vec{at.With(across, p.inward(outside/2)), foot}, Radius: outside / 2}, assumed...)
	} else {
		foot.Z = p.inward(0)
	}
	mouth = foot
	mouth.Z = lip
	part(KindStandpipe, ".standpipe", geom.Rod(foot, geom.Z, foot.Z, lip, outside/2), assumed...)
	return mouth, outside, assumed
}

// down draws the drain's pipe outside: straight out of the pane by the pieces that
// lie flat, then straight down to its lower end. Where else it may turn is not in
// the file.
func (l *Layout) down(d *enclosure.Drain, p *Pane, at geom.Vec, in float64, part func(Kind, string, geom.Solid, ...string)) {
	across := p.Across()
	outer := p.inward(-p.Thick)
	radius := d.Bulkhead.Value/2 + pipeWall
	flat, first := 0.0, true
	if !p.Lies() {
		for i := range d.Pieces {
			q := &d.Pieces[i]
			if q.Part.Outside > 0 && first {
				radius, first = float64(q.Part.Outside)/2, false
			}
			if q.Flat {
				flat += q.Length * float64(q.Count)
			}
		}
		if flat == 0 {
			flat = l.taken.Turn * 2 * radius
		}
	}
	// The line's ends are round: it begins a radius off the glass.
	line := []geom.Vec{at.With(across, outer-in*radius)}
	if !p.Lies() {
		line = append(line, at.With(across, outer-in*max(flat, radius)))
	}
	end := line[len(line)-1]
	end.Z = min(end.Z, l.Z(d.End))
	line = append(line, end)
	part(KindDrainPipe, ".pieces", geom.Path{Points: line, Radius: radius}, "straight out of the pane and then straight down")
}

// show writes a length in the builder's units.
func (l *Layout) show(v float64) string { return quantity.Length(v).Show(l.e.Units) }

func times(k float64, what string) string {
	return strconv.FormatFloat(k, 'f', -1, 64) + " times " + what
}
