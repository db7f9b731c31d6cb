package design

import (
	"errors"
	"fmt"
	"slices"

	"rillwright/document"
)

// Override is a measured fact that stands in the design in place of a planned
// one.
type Override struct {
	Path     string // of the value: "drains[main drain].lip"
	Planned  string // as the plan has it, "" if it has nothing
	Measured string // as measured
	Pos      Pos    // of the measured text
}

// Overrides returns the measured facts that override the plan, in the order of
// the file.
func (d *Design) Overrides() []Override { return slices.Clone(d.overrides) }

// asBuilt puts measured facts in place of planned ones.
func (c *checker) asBuilt() {
	for i := range c.d.AsBuilt {
		a := &c.d.AsBuilt[i]
		if reads(c, a.Of) && reads(c, a.Is) {
			c.override(a, fmt.Sprintf("as-built[%d]", i+1))
		}
	}
}

func (c *checker) override(a *AsBuilt, path string) {
	spot, err := document.Lookup(c.d, a.Of.Value)
	if err != nil {
		what, do := err.Error(), ""
		var p *document.Problem
		if errors.As(err, &p) {
			what, do = p.What, p.Do
		}
		if !c.partial {
			c.report(a.Of.Pos, path+".of", what, do)
		}
		return
	}
	planned, at := spot.Leaf.Source()
	if p := measurable(spot); p != nil {
		c.report(a.Of.Pos, path+".of", p.What, p.Do)
		return
	}
	for _, o := range c.d.overrides {
		if o.Path == spot.Path {
			c.report(a.Of.Pos, path+".of", fmt.Sprintf("%s is measured a second time; the first is on line %d", spot.Path, o.Pos.Line), "keep the one that holds, and put the other in its note")
			return
		}
	}
	if problem := spot.Read(a.Is.Value, a.Is.Pos); problem != nil {
		// The plan stands; reading its text again cannot go worse than before.
		_ = spot.Leaf.Read(planned, at)
		c.report(a.Is.Pos, path+".is", problem.What, problem.Do)
		return
	}
	c.d.overrides = append(c.d.overrides, Override{Path: spot.Path, Planned: planned, Measured: a.Is.Text, Pos: a.Is.Pos})
}
