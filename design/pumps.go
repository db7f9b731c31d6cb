package design

import (
	"fmt"
	"slices"
	"strings"
)

// pumps checks every pump, and those on the shelf.
func (c *checker) pumps() {
	for i := range c.d.Pumps {
		p := &c.d.Pumps[i]
		path := entry("pumps", p.Name, i)
		c.figures(p, path)
		c.stands(p, path)
		c.switches(p, path, false)
		c.below(p.Inlet, path+".inlet", c.d.Sump.Inside.Height, "sump.inside.height", "measure both from the sump's inside bottom")
	}
	for i := range c.d.Shelf {
		p := &c.d.Shelf[i]
		path := entry("shelf", p.Name, i)
		c.figures(p, path)
		c.switches(p, path, true)
	}
}

// figures checks that a pump is described in exactly one way.
func (c *checker) figures(p *Pump, path string) {
	var ways []string
	for _, w := range []struct {
		key   string
		given bool
	}{{"part", p.Part.Given()}, {"label", p.Label.Given()}, {"curve", len(p.Curve) > 0}, {"curve-file", p.CurveFile.Given()}} {
		if w.given || slices.Contains(c.broken, path+"."+w.key) {
			ways = append(ways, w.key)
		}
	}
	switch len(ways) {
	case 0:
		c.report(p.Pos, path, "nothing says what this pump can do", `write "label: { flow: ..., head: ... }" with the two figures on its box, or "part", "curve" or "curve-file"`)
	case 1:
	default:
		c.report(p.Pos, path, "what this pump can do is said in several ways: "+strings.Join(ways, ", "), "keep the one you trust most; a measured curve is better than a label")
	}
	c.curve(p.Curve, path+".curve")
	c.strainer(&p.Strainer, path+".strainer")
	if reads(c, p.CurveFile) {
		c.besides(p.CurveFile, path+".curve-file")
	}
}

// curve checks that head falls as flow rises.
func (c *checker) curve(points []CurvePoint, path string) {
	if len(points) == 1 {
		c.report(points[0].Pos, path, "a curve of one point", "write at least two points, the smallest flow first")
	}
	for i := 1; i < len(points); i++ {
		a, b := &points[i-1], &points[i]
		at := fmt.Sprintf("%s[%d]", path, i+1)
		if reads(c, a.Flow) && reads(c, b.Flow) && b.Flow.Value <= a.Flow.Value {
			c.report(b.Flow.Pos, at+".flow", fmt.Sprintf("flow %s is not more than the %s before it", b.Flow.Text, a.Flow.Text), "write the points in order, the smallest flow first")
			continue
		}
		if reads(c, a.Head) && reads(c, b.Head) && b.Head.Value >= a.Head.Value {
			c.report(b.Head.Pos, at+".head", fmt.Sprintf("head %s is not less than the %s before it", b.Head.Text, a.Head.Text), "a pump lifts less high the more it delivers: measure or read these points again")
		}
	}
}

// stands checks where a pump gets its water.
func (c *checker) stands(p *Pump, path string) {
	fed := reads(c, p.Name) && c.runTo(p.Name.Value)
	if !p.In.Given() {
		if !fed && !c.partial && lacks(c, p.In, path+".in") {
			c.report(p.Pos, path, "nothing says where this pump gets its water", `write "in: sump" or "in:" and the chamber it stands in`)
		}
		return
	}
	if fed {
		c.report(p.In.Pos, path+".in", fmt.Sprintf("the pump stands in %q, and a run feeds it as well", p.In.Value), `leave "in" out, or take the run away`)
	}
	kind, ok := c.refer(p.In, path+".in", []string{aChamber}, sumpName)
	if ok && kind == sumpName && len(c.d.Sump.Chambers) > 0 {
		c.report(p.In.Pos, path+".in", "the sump has chambers, and it is not said in which this pump stands", "name one of "+either(chamberNames(c.d.Sump.Chambers)))
	}
	if list := c.d.Sump.Chambers; ok && kind == aChamber && len(list) > 0 && !c.partial && p.In.Value != list[len(list)-1].Name.Value {
		c.report(p.In.Pos, path+".in", fmt.Sprintf("the pump stands in %q, and water goes on from there to %q", p.In.Value, list[len(list)-1].Name.Value), "list the chambers in the order the water passes them, the pump's last")
	}
}

func chamberNames(list []Chamber) []string {
	var out []string
	for _, ch := range list {
		out = append(out, ch.Name.Value)
	}
	return out
}

// strainer checks that a strainer says something, and a loss its flow.
func (c *checker) strainer(s *Strainer, path string) {
	if !s.Given() || slices.Contains(c.broken, path) {
		return
	}
	loss, at := s.Loss.Given(), s.At.Given()
	switch {
	case loss && lacks(c, s.At, path+".at"):
		c.report(s.Loss.Pos, path+".loss", "a loss counts only with the flow it was measured at", `write "at:" and that flow`)
	case at && lacks(c, s.Loss, path+".loss"):
		c.report(s.At.Pos, path+".at", "a flow stands here without the loss measured at it", `write "loss:" and the head it costs`)
	case !loss && !at && lacks(c, s.Part, path+".part") && lacks(c, s.OpenArea, path+".open-area"):
		c.report(s.Pos, path, "nothing is said of this strainer", `write "part:" or "open-area:"`)
	}
}

// besides checks that a file named in the design lies beside it.
func (c *checker) besides(f Field[string], path string) {
	if strings.ContainsAny(f.Value, `/\:`) || f.Value == ".." {
		c.report(f.Pos, path, fmt.Sprintf("%q is not beside this file", f.Value), "put the file in the folder of this one and write its bare name")
	}
}

func (c *checker) runFrom(name string) bool {
	return slices.ContainsFunc(c.d.Runs, func(r Run) bool { return r.From.Value == name })
}

func (c *checker) runTo(name string) bool {
	return slices.ContainsFunc(c.d.Runs, func(r Run) bool { return r.To.Value == name })
}
