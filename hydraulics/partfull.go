package hydraulics

import "math"

// ManningPlastic is Manning's n of smooth plastic pipe, m^(-1/3) s: 0.009 to
// 0.011 (from memory).
const ManningPlastic = 0.010

// Section is the wetted section of a part-full pipe.
type Section struct {
	Area      float64 // m2
	Perimeter float64 // wetted, m
	TopWidth  float64 // of the free surface, m
}

// HydraulicDiameter returns 4A/P, for friction by Darcy where Manning is doubtful:
// bores under 40 mm and Reynolds numbers on A/P under 2000.
func (s Section) HydraulicDiameter() float64 { return 4 * s.Area / s.Perimeter }

// PartFull returns the wetted section of a pipe of bore d with water y deep; y
// at or below 0 gives the zero Section and y at or above d the full pipe.
func PartFull(d, y float64) Section {
	if y <= 0 {
		return Section{}
	}
	if y >= d {
		return Section{Area: CircleArea(d), Perimeter: math.Pi * d}
	}
	th := 2 * math.Acos(1-2*y/d)
	return Section{
		Area:      d * d * (th - math.Sin(th)) / 8,
		Perimeter: d * th / 2,
		TopWidth:  d * math.Sin(th/2),
	}
}

// ManningFlow returns the normal flow (m3/s) of a pipe of bore d, water y deep,
// on a slope (fall over length), with roughness n: (A/n) (A/P)^(2/3) sqrt S. It
// is greatest at y/d = 0.938; design for 0.5 or less.
//
// Source: Manning 1891; any text.
func ManningFlow(d, y, slope, n float64) float64 {
	s := PartFull(d, y)
	if s.Area == 0 || slope <= 0 {
		return 0
	}
	r := math.Cbrt(s.Area / s.Perimeter)
	return s.Area / n * r * r * math.Sqrt(slope)
}

// CriticalFlow returns the flow (m3/s) that is critical in a pipe of bore d at
// depth y: A sqrt(g A/T). It is the flow over a free end with y at the brink
// section upstream, or from a tank into a steep pipe; +Inf for a full pipe.
func CriticalFlow(d, y float64) float64 {
	s := PartFull(d, y)
	if s.Area == 0 {
		return 0
	}
	return s.Area * math.Sqrt(G*s.Area/s.TopWidth)
}

// PipeRunLimit names what limits a sloping drain pipe.
type PipeRunLimit int

// What can limit a sloping drain pipe.
const (
	LimitInlet    PipeRunLimit = iota // the opening out of the tank
	LimitCritical                     // critical flow at the inlet
	LimitNormal                       // friction along the slope (Manning)
)

// String returns the limit in words.
func (l PipeRunLimit) String() string {
	switch l {
	case LimitInlet:
		return "inlet opening"
	case LimitCritical:
		return "critical flow at the inlet"
	case LimitNormal:
		return "normal flow on the slope"
	}
	return "unknown limit"
}

// SlopingDrainCapacity returns the flow (m3/s) that a nearly flat pipe of bore d
// takes from a tank without filling beyond fill (depth over bore, 0 to 1), and
// what limits it: the least of the inlet opening at level h above its invert,
// critical flow and Manning's normal flow at that depth. On a level pipe it is
// 0: the fall over the length must come from somewhere.
func SlopingDrainCapacity(d, h, fill, slope, n float64) (q float64, limit PipeRunLimit) {
	q, limit = SideOutletFlow(CdOutlet, d, h), LimitInlet
	if c := CriticalFlow(d, fill*d); c < q {
		q, limit = c, LimitCritical
	}
	if m := ManningFlow(d, fill*d, slope, n); m < q {
		q, limit = m, LimitNormal
	}
	return q, limit
}
