package gravity

import (
	"math"

	"rillwright/hydraulics"
)

// mouthHead returns the head over the lip that the mouth alone needs for flow
// q > 0, without its strainer.
func (d *Drain) mouthHead(q float64) (head float64, kind LimitKind) {
	scale := d.Intake / hydraulics.CdOutlet
	if d.Mouth == InWall {
		head = wallHead(d.Bore, q/scale)
		if head > d.Bore {
			return head, Opening
		}
		return head, Lip
	}
	head = hydraulics.RimWeirHead(d.Bore, q/scale)
	if o := hydraulics.OrificeHead(d.Intake, hydraulics.CircleArea(d.Bore), q); o > head {
		return o, Opening
	}
	return head, Lip
}

// mouthFlow returns what the mouth takes at a level above the lip, with its
// strainer.
func (d *Drain) mouthFlow(level float64) (q float64, kind LimitKind) {
	q, kind = d.bareFlow(level - d.Lip)
	if d.Screen == nil {
		return q, kind
	}
	h, _ := d.Screen.Loss(q)
	if h <= 0 {
		return q, kind
	}
	q, _ = root(q, func(q float64) float64 {
		h, _ := d.Screen.Loss(q)
		bare, _ := d.bareFlow(level - d.Lip - h)
		return q - bare
	})
	h, _ = d.Screen.Loss(q)
	_, kind = d.bareFlow(level - d.Lip - h)
	return q, kind
}

// bareFlow returns what the mouth takes under a head over its lip.
func (d *Drain) bareFlow(head float64) (q float64, kind LimitKind) {
	if head <= 0 {
		return 0, Lip
	}
	if d.Mouth == InWall {
		q = hydraulics.SideOutletFlow(d.Intake, d.Bore, head)
		if head > d.Bore {
			return q, Opening
		}
		return q, Lip
	}
	q = d.Intake / hydraulics.CdOutlet * hydraulics.RimWeirFlow(d.Bore, head)
	if o := hydraulics.OrificeFlow(d.Intake, hydraulics.CircleArea(d.Bore), head); o < q {
		return o, Opening
	}
	return q, Lip
}

// wallHead returns the level above the lowest point of a round opening in a
// wall for flow q: the inverse of hydraulics.SideOutletFlow at CdOutlet, by
// Newton's method on the logarithms of level and flow. There the curve runs
// from slope 2 to slope 1/2 and is nearly straight, so that no start is bad.
func wallHead(bore, q float64) float64 {
	phi := q / (hydraulics.CdOutlet * math.Sqrt(2*hydraulics.G*bore) * bore * bore)
	eta := math.Sqrt(phi / (math.Pi / 4)) // low water: phi = pi/4 eta^2
	if phi > 8.0/15 {
		eta = phi * phi * (16 / (math.Pi * math.Pi)) // deep water
		eta += 0.5
	}
	for range 30 {
		f := hydraulics.SideOutletPhi(eta)
		step := f * math.Log(f/phi) / (eta * hydraulics.SideOutletPhiSlope(eta))
		eta *= math.Exp(-step)
		if math.Abs(step) < 1e-9 {
			break // the error left is of the order of its square
		}
	}
	return eta * bore
}
