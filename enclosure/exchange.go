package enclosure

import (
	"fmt"

	"rillwright/catalogue"
)

// The functions here change an enclosure after it was resolved, to try what a
// change would do. They work on a Clone. A new part is known no better than
// the catalogue knows it, so each brings doubts of its own.

// PartBore returns the bore of a part that takes the place of another.
func (e *Enclosure) PartBore(p catalogue.Part) Figure {
	return e.doubt(boreDoubt(p))
}

// Repipe makes a manifold of another pipe. Its outlets stay as drilled; how
// they discharge changes with the pipe's wall.
func (e *Enclosure) Repipe(manifold int, p catalogue.Part) {
	m := &e.Manifolds[manifold]
	m.Part, m.Bore = p.Name, e.PartBore(p)
	if p.Roughness > 0 {
		m.Roughness = float64(p.Roughness)
	}
	for i := range m.Groups {
		g := &m.Groups[i]
		if g.Hole.Value == 0 {
			continue
		}
		g.Wall = float64(p.Wall)
		g.Discharge = e.discharge(g, fmt.Sprintf("%s of %s", groupLabel(m.Name, i), p.Name))
	}
}

// Redrill gives all drilled outlets of a manifold another size, m, drilled as
// well as those of the plan.
func (e *Enclosure) Redrill(manifold int, size float64) {
	m := &e.Manifolds[manifold]
	for i := range m.Groups {
		g := &m.Groups[i]
		if g.Hole.Value == 0 {
			continue
		}
		label := fmt.Sprintf("%s drilled %s mm", groupLabel(m.Name, i), trim(size*1000))
		g.Cv = holeCv(size, g.HoleError)
		g.Hole = e.doubt(Doubt{
			ID: "hole[" + label + "]", What: "true size of the holes in the " + label, Low: size - g.HoleError, Likely: size, High: size + g.HoleError, Unit: Bore,
			Why: "as well drilled as the plan says", Settle: "the shank of a drill that just passes",
		})
		g.Discharge = e.discharge(g, label)
	}
}

// discharge returns the discharge coefficient of a group whose hole or wall was
// changed: the builder's own figure if there is one.
func (e *Enclosure) discharge(g *OutletGroup, label string) Figure {
	if e.Design != nil && e.Design.Assume.HoleDischarge.Given() {
		return g.Discharge
	}
	return e.doubt(dischargeDoubt(label, g.Wall, g.Hole.Value))
}
