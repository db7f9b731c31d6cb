package catalogue

import (
	"strings"

	"rillwright/quantity"
)

// Form is the shape of a part's end.
type Form string

// The forms of end.
const (
	Hose         Form = "hose"          // hose or soft tube: goes over a barb
	Barb         Form = "barb"          // goes into hose or tube
	Spigot       Form = "spigot"        // plain outside of a rigid pipe
	Socket       Form = "socket"        // takes a spigot with solvent cement; "slip"
	MaleThread   Form = "male thread"   // thread on the outside
	FemaleThread Form = "female thread" // thread on the inside
	Compression  Form = "compression"   // grips the outside of tube or pipe
	Open         Form = "open"          // joins nothing
)

// System is the family of sizes an end belongs to. Ends of two systems with the
// same number on the label seldom fit.
type System string

// The systems of sizes.
const (
	VinylHose      System = "vinyl hose"      // named by the hose's inside
	IrrigationTube System = "irrigation tube" // polyethylene, named by habit
	PEXTube        System = "PEX tube"        // ASTM F876, copper tube outside
	InchPipe       System = "US inch pipe"    // schedule 40 and 80 share the outside
	MetricPipe     System = "metric pipe"     // named by the outside
	NPT            System = "NPT"             // American taper pipe thread
	BSPTaper       System = "R"               // ISO 7-1: R outside, Rp and Rc inside
	BSPParallel    System = "G"               // ISO 228-1, seals on a washer
	BSPUnknown     System = "BSP"             // British pipe thread, label does not say which
	GardenHose     System = "garden hose"     // American garden hose thread
)

// End is one end of a part.
type End struct {
	Form   Form
	System System
	Size   Size
}

// IsThread reports whether the end is a thread.
func (e End) IsThread() bool { return e.Form == MaleThread || e.Form == FemaleThread }

// String writes the end in the form that ParseEnd reads.
func (e End) String() string {
	switch e.Form {
	case Hose:
		switch e.System {
		case IrrigationTube, PEXTube:
			return string(e.System) + " " + e.Size.Text
		}
		return "hose " + e.Size.Text
	case Barb, Compression:
		switch e.System {
		case IrrigationTube:
			return "irrigation " + string(e.Form) + " " + e.Size.Text
		case PEXTube:
			return "PEX " + string(e.Form) + " " + e.Size.Text
		}
		return string(e.Form) + " " + e.Size.Text
	case Spigot, Socket:
		if e.System == InchPipe {
			return string(e.Form) + " " + e.Size.Text + " sch 40"
		}
		return string(e.Form) + " " + e.Size.Text
	case MaleThread, FemaleThread:
		sex := strings.TrimSuffix(string(e.Form), " thread")
		switch e.System {
		case GardenHose:
			return "garden hose thread " + e.Size.bare() + " " + sex
		case NPT:
			return "thread NPT " + e.Size.Text + " " + sex
		}
		return "thread " + string(e.System) + " " + e.Size.bare() + " " + sex
	}
	return string(e.Form)
}

// Inside returns the inside of a hose or tube end; ok is false for other ends.
// Vinyl hose is named by it; irrigation tube is trade-typical, from memory:
// measure; PEX is the mean of ASTM F876.
func (e End) Inside() (l quantity.Length, ok bool) {
	if e.Form != Hose {
		return 0, false
	}
	switch e.System {
	case IrrigationTube, PEXTube:
		in, _ := softTube(e)
		return in, in > 0
	}
	return e.Size.Length, true
}

// Outside returns the outside of the pipe or tube that the end is, takes or
// grips; ok is false where no figure is known, as for vinyl hose and threads.
func (e End) Outside() (l quantity.Length, ok bool) {
	switch {
	case e.System == MetricPipe:
		return e.Size.Length, true
	case e.System == InchPipe:
		l = inchPipeOutside(e.Size)
	case e.System == IrrigationTube || e.System == PEXTube:
		_, l = softTube(e)
	}
	return l, l > 0
}

// softTube returns inside and outside of an irrigation or PEX tube, 0 where not
// known. Irrigation tube: trade-typical, from memory. PEX: ASTM F876.
func softTube(e End) (inside, outside quantity.Length) {
	if e.System == IrrigationTube {
		switch e.Size.Text {
		case "1/4 in":
			return 0.170 * inch, 0.250 * inch
		case "1/2 in":
			return 0.600 * inch, 0.700 * inch
		case "16 mm":
			return 13.6 * mm, 16 * mm
		}
		return 0, 0
	}
	switch e.Size.Text {
	case "3/8 in":
		return 0.350 * inch, 0.500 * inch
	case "1/2 in":
		return 0.475 * inch, 0.625 * inch
	case "3/4 in":
		return 0.671 * inch, 0.875 * inch
	case "1 in":
		return 0.862 * inch, 1.125 * inch
	}
	return 0, 0
}

// inchPipeOutside returns the outside of US inch pipe, 0 for a size that does
// not exist. Source: ASTM D1785, table 1.
func inchPipeOutside(s Size) quantity.Length {
	switch s.Text {
	case "1/8 in":
		return 0.405 * inch
	case "1/4 in":
		return 0.540 * inch
	case "3/8 in":
		return 0.675 * inch
	case "1/2 in":
		return 0.840 * inch
	case "3/4 in":
		return 1.050 * inch
	case "1 in":
		return 1.315 * inch
	case "1 1/4 in":
		return 1.660 * inch
	case "1 1/2 in":
		return 1.900 * inch
	case "2 in":
		return 2.375 * inch
	}
	return 0
}
