package joint

import (
	"fmt"
	"math"
)

// Patch is one rectangle of bonded area on an upright face, m: X to the right and
// Y up, from any corner.
type Patch struct{ X, Y, Width, Height float64 }

// Hang is a weight that hangs on the bond.
type Hang struct {
	Down    float64 // its weight, N
	Out     float64 // a pull away from the face, N; negative if it is pressed on
	X, Y, Z float64 // where both act: in the face, and out from it, m
}

// BondStress is what a bond bears.
type BondStress struct {
	Shear   float64 // largest along the face, Pa
	Tension float64 // largest away from the face, Pa; 0 if it is pressed on all over
	Worst   float64 // largest of sqrt(shear^2 + tension^2) at one place, Pa
	X, Y    float64 // that place, m
	Mean    float64 // weight over area, Pa
	Area    float64 // m2
}

// Bond returns the stresses in the bonded patches between a stiff thing, such as
// a grid with its wall, and a stiff face, under all that hangs on it:
//
//	shear   = V/A + T x r/J           about the patches' centre
//	tension = N/A + Mx, My over Ix, Iy, Ixy
//
// The sealant is one spring per area, linear, alike in push and pull; what leans
// on the face or stands on the floor carries the rest, and is left out here, as
// are stresses within one patch's edge. Share, 0 to 1, is the part of the patches
// that really bonds: 1 if the sealant meets both faces all over. The error names
// patches without size, a share out of range or a load that is not finite.
//
// Derived: elastic distribution over an area, as of bolts in a bracket.
func Bond(share float64, patches []Patch, loads ...Hang) (BondStress, error) {
	a, err := areaOf(patches)
	switch {
	case err != nil:
		return BondStress{}, err
	case !(share > 0 && share <= 1):
		return BondStress{}, fmt.Errorf("bond: a share of %g of the patches bonds; give more than 0, at most 1", share)
	}
	var down, out, turn, mx, my float64 // about the centre
	for _, l := range loads {
		if !finite(l.Down, l.Out, l.X, l.Y, l.Z) {
			return BondStress{}, fmt.Errorf("bond: a load of %g N down and %g N out at %g, %g, %g m must be finite", l.Down, l.Out, l.X, l.Y, l.Z)
		}
		down += l.Down
		out += l.Out
		turn += l.Down * (l.X - a.x)
		mx += l.Down*l.Z + l.Out*(l.Y-a.y) // pulls the upper part away
		my += l.Out * (l.X - a.x)
	}
	det := a.xx*a.yy - a.xy*a.xy
	px, py := (my*a.yy-mx*a.xy)/det, (mx*a.xx-my*a.xy)/det
	s := BondStress{Mean: down / (a.area * share), Area: a.area, X: a.x, Y: a.y}
	for _, p := range patches {
		for _, c := range [4][2]float64{{p.X, p.Y}, {p.X + p.Width, p.Y}, {p.X, p.Y + p.Height}, {p.X + p.Width, p.Y + p.Height}} {
			x, y := c[0]-a.x, c[1]-a.y
			// A weight to the right turns the thing clockwise: what lies to the
			// right of the centre is dragged down, what lies above it right.
			tau := math.Hypot(turn*y/(a.xx+a.yy), down/a.area+turn*x/(a.xx+a.yy)) / share
			sigma := max(out/a.area+px*x+py*y, 0) / share
			s.Shear, s.Tension = max(s.Shear, tau), max(s.Tension, sigma)
			if both := math.Hypot(tau, sigma); both > s.Worst {
				s.Worst, s.X, s.Y = both, c[0], c[1]
			}
		}
	}
	return s, nil
}

// area is the sum of patches with its centre and second moments about it.
type area struct{ area, x, y, xx, yy, xy float64 }

func areaOf(patches []Patch) (area, error) {
	var a area
	if len(patches) == 0 {
		return a, fmt.Errorf("bond: there is no patch that bonds")
	}
	for i, p := range patches {
		if !positive(p.Width, p.Height) || !finite(p.X, p.Y) {
			return a, fmt.Errorf("bond: patch %d of %g by %g m at %g, %g m must have a size", i, p.Width, p.Height, p.X, p.Y)
		}
		d := p.Width * p.Height
		a.area += d
		a.x += d * (p.X + p.Width/2)
		a.y += d * (p.Y + p.Height/2)
	}
	a.x, a.y = a.x/a.area, a.y/a.area
	for _, p := range patches {
		d, x, y := p.Width*p.Height, p.X+p.Width/2-a.x, p.Y+p.Height/2-a.y
		a.xx += d * (x*x + p.Width*p.Width/12)
		a.yy += d * (y*y + p.Height*p.Height/12)
		a.xy += d * x * y
	}
	return a, nil
}
