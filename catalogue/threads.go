package catalogue

import (
	"fmt"
	"strconv"
)

// threadsPerInch returns the pitch of thread e as threads an inch, 0 for a size
// not listed. Sources, from memory: ASME B1.20.1 (NPT), ISO 7-1 and ISO 228-1
// (R and G), ASME B1.20.7 (garden hose).
func threadsPerInch(e End) float64 {
	if e.System == GardenHose {
		return 11.5
	}
	npt := e.System == NPT
	switch e.Size.Text {
	case "1/8 in":
		return either(npt, 27, 28)
	case "1/4 in", "3/8 in":
		return either(npt, 18, 19)
	case "1/2 in", "3/4 in":
		return 14
	case "1 in", "1 1/4 in", "1 1/2 in", "2 in":
		return either(npt, 11.5, 11)
	}
	return 0
}

func either(first bool, a, b float64) float64 {
	if first {
		return a
	}
	return b
}

// screwed judges a male thread m in a female thread f.
func screwed(m, f End) (bool, string) {
	mBSP, fBSP := isBSP(m.System), isBSP(f.System)
	switch {
	case (m.System == GardenHose) != (f.System == GardenHose):
		return false, gardenTrap(m, f)
	case m.System == GardenHose:
		if m.Size != f.Size {
			return false, "different garden hose threads: take an adapter between the two sizes"
		}
		return true, "a garden hose thread seals on a flat washer in the female end, not on tape"
	case mBSP != fBSP:
		return false, nptTrap(m, f)
	case m.Size != f.Size:
		return false, fmt.Sprintf("different sizes, %s and %s: take a threaded reducing bush %s to %s", m.Size.bare(), f.Size.bare(), larger(m.Size, f.Size).bare(), smaller(m.Size, f.Size).bare())
	case m.System == NPT:
		return true, ""
	}
	return bspPair(m, f)
}

func isBSP(s System) bool { return s == BSPTaper || s == BSPParallel || s == BSPUnknown }

// bspPair judges two British pipe threads of one size.
func bspPair(m, f End) (bool, string) {
	switch {
	case m.System == BSPUnknown || f.System == BSPUnknown:
		return true, "they screw together; look whether the male thread is taper (R, tape seals it) or parallel (G, a washer seals it)"
	case m.System == BSPTaper && f.System == BSPTaper:
		return true, ""
	case m.System == BSPParallel && f.System == BSPParallel:
		return true, "parallel threads seal on a flat washer or O-ring, not on tape"
	case m.System == BSPTaper:
		return true, "taper into parallel: it seals with tape in practice, but bottom out gently or the female part splits"
	}
	return false, fmt.Sprintf("a parallel male thread (G) in a taper socket (Rc) or one without a flat face does not seal: take a male R %s, or a female G %s with a washer", m.Size.bare(), m.Size.bare())
}

// nptTrap says why American and British pipe threads do not join.
func nptTrap(m, f End) string {
	adapter := fmt.Sprintf("Take an adapter, %s to %s", opposite(m), opposite(f))
	if m.Size != f.Size {
		return fmt.Sprintf("American (NPT) and British (BSP) pipe thread, and %s is not %s. %s", m.Size.bare(), f.Size.bare(), adapter)
	}
	a, b := threadsPerInch(m), threadsPerInch(f)
	if a == b && a > 0 {
		return fmt.Sprintf("American (NPT) and British (BSP) pipe thread share the pitch at %s (%s threads an inch) but not the angle (60 and 55 degrees) nor the taper: it starts, then leaks. %s", m.Size.bare(), pitch(a), adapter)
	}
	return fmt.Sprintf("American (NPT) and British (BSP) pipe thread differ in pitch at %s (%s and %s threads an inch): it binds after a turn or two and leaks. %s", m.Size.bare(), pitch(a), pitch(b), adapter)
}

// gardenTrap says why a garden hose thread and a pipe thread do not join.
func gardenTrap(m, f End) string {
	adapter := fmt.Sprintf("Take an adapter, %s to %s", opposite(m), opposite(f))
	pipe := m
	if m.System == GardenHose {
		pipe = f
	}
	return fmt.Sprintf("a garden hose thread is straight, 11.5 threads an inch, and seals on a washer; %s %s has %s threads an inch: it starts, crosses and leaks. %s", pipe.System, pipe.Size.bare(), pitch(threadsPerInch(pipe)), adapter)
}

func pitch(v float64) string {
	if v == 0 {
		return "other"
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}
