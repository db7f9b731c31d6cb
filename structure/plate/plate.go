// Package plate computes flat rectangular panes that carry water: how far they
// bow, where they are stressed most and what their edges pass on to the joints.
//
// A pane lies in x from 0 (left) to Width and y from 0 (bottom) to Height. Its
// deflection w is positive towards its outer face, and so is pressure; water on
// the inner face pushes outwards. Thin plate theory (Kirchhoff) holds for panes
// whose sides are at least about ten thicknesses; where the bow passes 0.02
// of the thickness, the stretching of the middle plane is added (von Karman)
// with edges that slide freely in their plane, as on silicone. Both are in
// Timoshenko & Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed. 1959
// (from memory).
//
// The solution is sought among products of splines of degree 5, which are smooth
// enough to be bent, by the principle of least energy. A held edge stays straight
// but for its turning, as the theory has it. See Solve.
package plate

// Support says what an edge does to the pane.
type Support uint8

// The kinds of support.
const (
	Free    Support = iota // nothing holds the edge
	Held                   // w = 0 along the edge; it may turn and slide, as on silicone
	Clamped                // w = 0 and no turning
)

// Side names an edge of a pane, seen from its outer face.
type Side uint8

// The four edges.
const (
	Bottom Side = iota // y = 0
	Right              // x = Width
	Top                // y = Height
	Left               // x = 0
)

// String returns the edge's name.
func (s Side) String() string {
	switch s {
	case Bottom:
		return "bottom"
	case Right:
		return "right"
	case Top:
		return "top"
	case Left:
		return "left"
	}
	return "unknown"
}

// Corner names a corner of a pane, seen from its outer face.
type Corner uint8

// The four corners.
const (
	BottomLeft Corner = iota
	BottomRight
	TopRight
	TopLeft
)

// Brace holds a stretch of an edge that is otherwise free, as a cross brace or
// a rim strip does: it pushes back with Stiffness times the deflection.
type Brace struct {
	Side     Side
	From, To float64 // m along the edge, from its left or bottom end, From < To
	// Stiffness is the force in N on each metre of the stretch for each metre of
	// deflection, so Pa. For a strip bonded on edge it is about that of the bond.
	// 0 stands for D/t^3, with D of Pane.Rigidity: as stiff as the pane itself
	// over a length of one thickness (assumed, no source). An unyielding support
	// would make the stress at its ends grow without limit.
	Stiffness float64
}

// Bed is an elastic layer under a rectangle of the pane: a pad, or a mat under
// the whole of a floor. It pushes, and pulls, with Stiffness times deflection;
// BedReaction says whether it would have to pull.
type Bed struct {
	X0, X1, Y0, Y1 float64 // m, inside the pane, X0 < X1, Y0 < Y1
	Stiffness      float64 // Pa per m of deflection (modulus over thickness of the layer), more than 0
}

// Pane is a rectangular plate and what supports it.
type Pane struct {
	Width, Height, Thickness float64 // m
	Young                    float64 // Pa
	Poisson                  float64 // 0 to less than 0.5
	Edges                    [4]Support
	Braces                   []Brace
	Beds                     []Bed
}

// Rigidity returns the bending stiffness of the pane, N m:
//
//	D = E t^3 / (12 (1 - nu^2))
//
// Source: Timoshenko & Woinowsky-Krieger 1959 (from memory).
func (p *Pane) Rigidity() float64 {
	return p.Young * p.Thickness * p.Thickness * p.Thickness / (12 * (1 - p.Poisson*p.Poisson))
}

// Load is what presses on a pane.
type Load struct {
	Uniform float64 // Pa, outwards
	// Inner and Outer are the heights of the water surfaces at the two faces
	// above the bottom edge, m. 0 or less is no water; above the top edge the
	// pane is drowned.
	Inner, Outer float64
	Weight       float64 // N/m3, density of water times gravity; 0 only without water
	// Patches press besides, as a hand or a stone does; they may lie over each other.
	Patches []Patch
}

// Patch is a rectangle of the pane that something presses on evenly.
type Patch struct {
	X0, X1, Y0, Y1 float64 // m, inside the pane, X0 < X1, Y0 < Y1
	Force          float64 // N in all, outwards
}

// pressure returns what a patch puts on its rectangle, Pa.
func (q Patch) pressure() float64 { return q.Force / ((q.X1 - q.X0) * (q.Y1 - q.Y0)) }

// Pressure returns the pressure outwards at a height above the bottom edge, Pa,
// that of patches left out.
func (l Load) Pressure(y float64) float64 {
	return l.Uniform + l.Weight*(max(l.Inner-y, 0)-max(l.Outer-y, 0))
}

// Settings choose how a pane is solved. The zero value is what to use.
type Settings struct {
	// Refine is the number of parts that each span of the coarse mesh is cut
	// into; 0 stands for 2. The error estimates compare with half as many, or with
	// 1 if Refine is 2; with Refine 1 there are none.
	Refine int
	Linear bool // leave out the stretching of the middle plane, however large the bow
}

// Status says how a solution ended.
type Status uint8

const (
	// Linear means bending alone: the bow is small beside the thickness, or so asked.
	Linear Status = iota
	// Stretched means that the stretching of the middle plane is in the result.
	Stretched
	// Stalled means that the equations with stretching were not solved to
	// their tolerance; the result is that of bending alone.
	Stalled
)

// Peak is a largest value and where it is.
type Peak struct {
	Value float64 // Pa or m
	X, Y  float64 // m
}

// Reaction is what a support takes from the pane. Forces count against the
// load: positive where the support pushes the pane inwards.
type Reaction struct {
	Total    float64 // N, corner forces left out
	Mean     float64 // N/m, Total over the length of the support
	Peak, At float64 // largest line load, N/m, and where along the edge, m
	Least    float64 // smallest line load, N/m; less than 0 where the pane must be pulled outwards
}

// BedReaction is what a bed takes from the pane, positive if it pushes inwards.
type BedReaction struct {
	Total       float64 // N
	Peak, Least float64 // Pa; Least below 0 says that the bed would have to pull, and the model fails
}

// Result is the state of a pane under a load.
type Result struct {
	Status     Status
	Iterations int     // Newton steps taken with stretching
	Residual   float64 // what is left out of balance, as a share of the bending energy's norm

	Load   float64 // N, resultant of the load
	Bow    Peak    // deflection of largest amount, m, signed
	Stress Peak    // largest principal tension at a face, Pa
	Inner  bool    // Stress is at the inner face

	// BendingBow and BendingStress are what bending alone gives. Where stretching
	// is counted the bow is too large; the stress may be up to some 2 % too small
	// at a bow of a tenth of the thickness, and is too large at larger bows.
	BendingBow, BendingStress float64

	Edges   [4]Reaction
	Corners [4]float64 // N, point forces of the supports; below 0 the corner is held down against lifting
	Braces  []Reaction
	Beds    []BedReaction

	// Changes on the finer of two meshes as a share of the value: cautious
	// estimates of what the mesh costs. 0 if only one was solved.
	BowError, StressError, ReactionError float64

	m *model
}
