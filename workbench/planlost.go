package workbench

import (
	"slices"
	"strings"

	"rillwright/enclosure"
	"rillwright/layout"
	"rillwright/works"
)

// closing tells which parts of the layout a rule's step closes off: kinds, those of
// the step's own thing alone, or those behind what it is about.
type closing struct {
	kinds         []layout.Kind
	own, isBehind bool
}

// closings are those of the rules that close anything off, by their ids.
func closings() map[string]closing {
	nuts := []layout.Kind{layout.KindNut, layout.KindFlange, layout.KindElbow, layout.KindDrainPipe, layout.KindRun, layout.KindTail, layout.KindHole, layout.KindWay}
	return map[string]closing{
		"order":     {kinds: []layout.Kind{layout.KindPane, layout.KindDam}},
		"drill":     {kinds: []layout.Kind{layout.KindHole, layout.KindWay}, own: true},
		"bond":      {kinds: []layout.Kind{layout.KindPane}},
		"dam":       {kinds: []layout.Kind{layout.KindDam, layout.KindFlange, layout.KindElbow, layout.KindStandpipe, layout.KindStrainer}},
		"solvent":   {kinds: []layout.Kind{layout.KindRun, layout.KindTail, layout.KindDrainPipe}, own: true},
		"bond-grid": {kinds: nuts, isBehind: true},
		"foam":      {kinds: append([]layout.Kind{layout.KindGrid}, nuts...), isBehind: true},
	}
}

// lostBy lists, by step, the parts that it closes off.
func lostBy(e *enclosure.Enclosure, k *works.Work) map[string][]lostPart {
	l := layout.Of(e)
	out := map[string][]lostPart{}
	for i := range k.Steps {
		s := &k.Steps[i]
		c, ok := closings()[s.Rule.ID]
		if !ok || s.Rule.Closes == "" {
			continue
		}
		own := strings.TrimPrefix(s.Thing.Name, "the hole of ")
		for n := range l.Parts {
			p := &l.Parts[n]
			if !slices.Contains(c.kinds, p.Kind) || c.own && p.Name != own || c.isBehind && !behind(l, s, p) {
				continue
			}
			if part := (lostPart{string(p.Kind), p.Name, p.Field}); !slices.Contains(out[s.Task.ID], part) {
				out[s.Task.ID] = append(out[s.Task.ID], part)
			}
		}
	}
	return out
}

// behind reports whether a part lies, at least in part, behind or under a grid: that of
// the step, or any if it is of foam, which lies on grids.
func behind(l *layout.Layout, s *works.Step, p *layout.Part) bool {
	for i := range l.Grids {
		g := &l.Grids[i]
		if s.Rule.ID == "bond-grid" && s.Thing.Name != g.Name {
			continue
		}
		far := 1.0 // all the way to the glass and through it
		b := g.Box
		switch g.At {
		case "back":
			b.Min.Y -= far
		case "left":
			b.Min.X -= far
		case "right":
			b.Max.X += far
		default: // it lies
			b.Min.Z -= far
		}
		if p.Solid == nil {
			continue
		}
		x := p.Solid.Bounds()
		if x.Min.X < b.Max.X && x.Max.X > b.Min.X && x.Min.Y < b.Max.Y && x.Max.Y > b.Min.Y && x.Min.Z < b.Max.Z && x.Max.Z > b.Min.Z {
			return true
		}
	}
	return false
}
