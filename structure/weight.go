package structure

import (
	"fmt"
	"math"

	"rillwright/quantity"
)

// Point is a place, m: X along the front, Y from the back, Z up, from the
// caller's datum.
type Point struct{ X, Y, Z float64 }

// Part is anything with a weight: a pane, the water, a whole enclosure.
type Part struct {
	Name   string
	Mass   float64 // kg, 0 or more
	Centre Point   // of gravity
}

// BoxPart returns the part that fills a box between two opposite corners with
// some density (kg/m3). Derived.
func BoxPart(name string, density float64, a, b Point) Part {
	volume := math.Abs((b.X - a.X) * (b.Y - a.Y) * (b.Z - a.Z))
	return Part{name, density * volume, Point{(a.X + b.X) / 2, (a.Y + b.Y) / 2, (a.Z + b.Z) / 2}}
}

// Assemble returns parts as one with the centre of gravity of all; its centre is
// at the origin if they weigh nothing. The error names a part with a mass below
// nothing or a figure that is not finite. Derived.
func Assemble(name string, parts ...Part) (Part, error) {
	all := Part{Name: name}
	var mx, my, mz float64
	for _, p := range parts {
		if !(p.Mass >= 0) || !finite(p.Mass, p.Centre.X, p.Centre.Y, p.Centre.Z) {
			return Part{}, fmt.Errorf("weight: part %q has a mass of %g kg at %g, %g, %g m; give a mass of 0 or more and its centre", p.Name, p.Mass, p.Centre.X, p.Centre.Y, p.Centre.Z)
		}
		all.Mass += p.Mass
		mx += p.Mass * p.Centre.X
		my += p.Mass * p.Centre.Y
		mz += p.Mass * p.Centre.Z
	}
	if all.Mass > 0 {
		all.Centre = Point{mx / all.Mass, my / all.Mass, mz / all.Mass}
	}
	return all, nil
}

// Weight returns the force (N) of a mass (kg).
func Weight(mass float64) float64 { return mass * G }

// FloorPressure returns the pressure (Pa) of a mass (kg) spread evenly over an
// area (m2, over 0).
func FloorPressure(mass, area float64) float64 { return Weight(mass) / area }

// FeetLoads returns the share of a part's weight (N) on each foot of a stiff
// stand, with the feet as equal springs on a flat floor: its linear distribution
// in x and y. Three feet are exact; with more a floor that is not flat may shift
// much: see WorstFoot. The error says that there are fewer than three feet, that
// they stand in one line, or that a foot would have to pull: then it tips or
// rocks.
//
// Derived: elastic distribution, as of rivets.
func FeetLoads(p Part, feet ...Point) ([]float64, error) {
	n := float64(len(feet))
	if len(feet) < 3 {
		return nil, fmt.Errorf("feet: %d, at least three are needed to stand", len(feet))
	}
	var cx, cy, xx, yy, xy float64
	for _, f := range feet {
		cx, cy = cx+f.X/n, cy+f.Y/n
	}
	for _, f := range feet {
		x, y := f.X-cx, f.Y-cy
		xx, yy, xy = xx+x*x, yy+y*y, xy+x*y
	}
	det := xx*yy - xy*xy
	if !(det > 1e-9*(xx+yy)*(xx+yy)) || !finite(p.Mass, p.Centre.X, p.Centre.Y) {
		return nil, fmt.Errorf("feet: all %d stand in one line", len(feet))
	}
	x, y := p.Centre.X-cx, p.Centre.Y-cy
	a, b := (x*yy-y*xy)/det, (y*xx-x*xy)/det
	out := make([]float64, len(feet))
	w := Weight(p.Mass)
	for i, f := range feet {
		out[i] = w * (1/n + a*(f.X-cx) + b*(f.Y-cy))
		if out[i] < -1e-9*w {
			return nil, fmt.Errorf("feet: foot %d at %g, %g m would have to pull with %.3g N: the weight stands too far to one side", i, f.X, f.Y, -out[i])
		}
	}
	return out, nil
}

// WorstFoot returns the largest load (N) that any foot may get when an uneven
// floor leaves only some three of them standing: over all threes around the
// centre of gravity. 0 if it lies over none.
//
// Derived. Nothing may bend, so it is cautious.
func WorstFoot(p Part, feet ...Point) float64 {
	worst := 0.0
	area := func(a, b, c Point) float64 { return (b.X-a.X)*(c.Y-a.Y) - (c.X-a.X)*(b.Y-a.Y) }
	for i, a := range feet {
		for j, b := range feet[:i] {
			for _, c := range feet[:j] {
				all := area(a, b, c)
				if all == 0 {
					continue
				}
				u, v := area(p.Centre, b, c)/all, area(a, p.Centre, c)/all
				if u >= -1e-12 && v >= -1e-12 && u+v <= 1+1e-12 {
					worst = max(worst, u, v, 1-u-v)
				}
			}
		}
	}
	return worst * Weight(p.Mass)
}

// LiftLimit returns the mass (kg) that people may lift together now and then,
// held close, at waist height, with a good grip: alone 16 to 25 kg (women, men),
// two two thirds of both together, three half of all. Held away, low, high,
// wet or sharp-edged it is much less, a pane among these; nobody is measured by
// it. ok is false for fewer than one or more than three. Likely is the middle
// (assumed).
//
// Source: guidance to British regulations, as quoted.
func LiftLimit(people int) (f Figure, ok bool) {
	const low, high = 16.0, 25.0
	var factor float64
	switch people {
	case 1:
		factor = 1
	case 2:
		factor = 2 * 2. / 3
	case 3:
		factor = 3 * 1. / 2
	default:
		return Figure{}, false
	}
	return Figure{
		Band:   quantity.Band[float64]{Low: low, Likely: (low + high) / 2, High: high}.Scale(factor),
		Source: "team-lifting", Note: "16 and 25 kg from what a page made of them; likely is the middle: assumed",
	}, true
}

// PeopleToLift returns how many people, up to three, are needed to lift a mass
// (kg) by a side of LiftLimit (low for -1, likely 0, high 1); 0 if three are not
// enough: empty it, take it apart or use a machine.
func PeopleToLift(mass float64, side int) int {
	for n := 1; n <= 3; n++ {
		if f, _ := LiftLimit(n); mass <= f.At(side) {
			return n
		}
	}
	return 0
}
