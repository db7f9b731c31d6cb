package catalogue

import (
	"fmt"

	"rillwright/quantity"
)

// How far a barb's named size may be off the inside of a vinyl hose. Common
// practice, no source: soft hose warmed in hot water stretches by about a
// fifteenth; a clamp closes about a thirtieth.
const (
	sameWithin   = 0.02 // as good as the same size
	tightWithin  = 0.07 // barb larger than the hose
	looseWithin  = 0.03 // barb smaller than the hose
	pipeGripsOff = 0.01 // compression end against tube outside
)

// Mates reports whether the ends a and b fit each other, in either order. When
// they do not, why says in plain words what is in the way and which adapter
// helps; when they do, why holds a caution or is empty.
//
// Thread facts: ASME B1.20.1 (NPT), ISO 7-1 and ISO 228-1 (R and G), ASME
// B1.20.7 (garden hose), pitches from memory. What a soft hose tolerates is
// common practice.
func Mates(a, b End) (ok bool, why string) {
	if a.Form == Open || b.Form == Open {
		return false, "an open end joins nothing: give the end that the other part screws, slides or glues to"
	}
	if rank(a.Form) > rank(b.Form) {
		a, b = b, a
	}
	switch {
	case a.Form == Hose && b.Form == Barb:
		return hoseOnBarb(a, b)
	case a.Form == Hose && b.Form == Spigot:
		return hoseOnPipe(a, b)
	case b.Form == Compression && (a.Form == Hose || a.Form == Spigot):
		return gripped(a, b)
	case a.Form == Spigot && b.Form == Socket:
		return glued(a, b)
	case a.Form == MaleThread && b.Form == FemaleThread:
		return screwed(a, b)
	}
	return false, wrongForms(a, b)
}

// formsMeet reports whether ends of these forms join at all, sizes apart.
func formsMeet(a, b End) bool {
	if rank(a.Form) > rank(b.Form) {
		a, b = b, a
	}
	switch a.Form {
	case Hose:
		return b.Form == Barb || b.Form == Spigot || b.Form == Compression
	case Spigot:
		return b.Form == Compression || b.Form == Socket
	case MaleThread:
		return b.Form == FemaleThread
	}
	return false
}

// rank orders forms so that each pair needs handling one way round.
func rank(f Form) int {
	switch f {
	case Hose:
		return 0
	case Spigot:
		return 1
	case Barb:
		return 2
	case Socket:
		return 3
	case Compression:
		return 4
	case MaleThread:
		return 5
	}
	return 6
}

func hoseOnBarb(hose, barb End) (bool, string) {
	in, _ := hose.Inside()
	switch {
	case hose.System == barb.System && hose.System != VinylHose:
		if hose.Size == barb.Size {
			if hose.System == PEXTube {
				return true, "PEX holds on its barb by a crimp or clamp ring: buy the ring with it"
			}
			return true, ""
		}
		return false, fmt.Sprintf("%s needs a barb of its own size, not %s: take a reducing barb", hose, barb.Size.Text)
	case hose.System == IrrigationTube && barb.System == VinylHose:
		return false, irrigationOnVinyl(hose, barb, in)
	case hose.System == VinylHose && barb.System == IrrigationTube:
		return false, fmt.Sprintf("an irrigation barb is made for the tube that is called %s, not for vinyl hose: take an adapter from irrigation barb to barb %s", barb.Size.Text, hose.Size.Text)
	case hose.System == PEXTube || barb.System == PEXTube:
		return false, fmt.Sprintf("PEX tube and its barbs are stiff and have sizes of their own (1/2 in is about 12.1 mm inside): %s does not seal on %s; go through a thread, PEX barb to thread to %s", hose, barb, oppositeOf(hose, barb))
	}
	return vinylOnBarb(hose, barb)
}

// oppositeOf names the other thing that is not PEX.
func oppositeOf(hose, barb End) string {
	if hose.System == PEXTube {
		return barb.String()
	}
	return hose.String()
}

func irrigationOnVinyl(tube, barb End, inside quantity.Length) string {
	if tube.Size.Text == "16 mm" {
		return fmt.Sprintf("16 mm is the outside of irrigation tube; inside it is about %s, and stiff: %s does not go in. Take an irrigation barb 16 mm, or an adapter from irrigation barb 16 mm to %s and a piece of hose between", millimetres(inside), barb, barb)
	}
	return fmt.Sprintf("irrigation tube %s is about %s (%s in) inside, vinyl hose of that name %s: %s does not hold in it. Take an irrigation barb %s, or an adapter from that to %s and a piece of hose between", tube.Size.Text, millimetres(inside), decimalInches(inside), tube.Size.mm(), barb, tube.Size.Text, barb)
}

func decimalInches(l quantity.Length) string {
	return fmt.Sprintf("%.2f", float64(l)/inch)
}

func vinylOnBarb(hose, barb End) (bool, string) {
	off := float64(barb.Size.Length-hose.Size.Length) / float64(hose.Size.Length)
	sizes := fmt.Sprintf("barb %s, hose %s inside", barb.Size.mm(), hose.Size.mm())
	switch {
	case hose.Size == barb.Size:
		return true, ""
	case off > -sameWithin && off < 0:
		return true, "a little loose but it works in practice (" + sizes + "): clamp it"
	case off >= 0 && off < sameWithin:
		return true, "tight but it works in practice (" + sizes + "): warm the hose in hot water"
	case off >= sameWithin && off <= tightWithin:
		return true, "very tight (" + sizes + "): soften the hose in hot water, or take a barb of the hose's size"
	case off <= -sameWithin && off >= -looseWithin:
		return true, "loose (" + sizes + "): only with a good clamp, and try it over the sump"
	case off < 0:
		return false, "the hose is too wide (" + sizes + "): a clamp folds it and it leaks. Take barb " + hose.Size.Text + " or a reducing barb " + hose.Size.Text + " to " + barb.Size.Text
	}
	return false, "the hose is too narrow (" + sizes + "): it will not go over. Take barb " + hose.Size.Text + " or a reducing barb " + barb.Size.Text + " to " + hose.Size.Text
}

func hoseOnPipe(hose, pipe End) (bool, string) {
	out, known := pipe.Outside()
	if hose.System != VinylHose {
		return false, fmt.Sprintf("%s does not stretch over pipe: take an adapter from %s to a barb of the tube's own kind", hose, oppositePipe(pipe))
	}
	if known {
		off := float64(out-hose.Size.Length) / float64(hose.Size.Length)
		if off > -looseWithin/2 && off <= tightWithin {
			return true, fmt.Sprintf("the hose goes over the pipe (%s outside) but smooth pipe has no barb to hold it: clamp it, and only at the low pressure of a drip line", millimetres(out))
		}
	}
	return false, fmt.Sprintf("the pipe is %s outside, the hose %s inside: glue an adapter to the pipe, %s to barb %s", millimetres(out), hose.Size.mm(), oppositePipe(pipe), hose.Size.Text)
}

// oppositePipe names the end that takes or enters the pipe end e.
func oppositePipe(e End) string {
	if e.Form == Spigot {
		return End{Socket, e.System, e.Size}.String()
	}
	return End{Spigot, e.System, e.Size}.String()
}

func gripped(tube, grip End) (bool, string) {
	if tube.System == VinylHose {
		return false, "a compression end squeezes soft vinyl hose shut or lets it go: take a barb " + tube.Size.Text
	}
	out, okTube := tube.Outside()
	want, okGrip := grip.Outside()
	if !okTube || !okGrip {
		return false, "the outside size is not known: measure it"
	}
	off := float64(out-want) / float64(want)
	if off < pipeGripsOff && off > -pipeGripsOff {
		if tube.Form == Spigot && tube.System == InchPipe {
			return true, "the ring was made for tube: check that its maker allows rigid pipe"
		}
		return true, ""
	}
	return false, fmt.Sprintf("a compression end grips one outside size: it takes %s, this is %s outside. Take a compression fitting for %s", millimetres(want), millimetres(out), tube)
}

func glued(spigot, socket End) (bool, string) {
	out, _ := spigot.Outside()
	takes, _ := socket.Outside()
	switch {
	case spigot.System != socket.System:
		return false, fmt.Sprintf("metric and US inch sockets never mate: the pipe is %s outside, the socket takes %s. Take an adapter with a thread between them, or a rubber sleeve with two clamps on a drain", millimetres(out), millimetres(takes))
	case spigot.Size == socket.Size:
		return true, ""
	}
	return false, fmt.Sprintf("one size off: the pipe is %s outside, the socket takes %s. Take a reducing bush %s to %s", millimetres(out), millimetres(takes), larger(spigot.Size, socket.Size).Text, smaller(spigot.Size, socket.Size).Text)
}

func larger(a, b Size) Size {
	if a.Length > b.Length {
		return a
	}
	return b
}

func smaller(a, b Size) Size {
	if a.Length > b.Length {
		return b
	}
	return a
}

// wrongForms says why two ends that are not a pair cannot join.
func wrongForms(a, b End) string {
	switch {
	case a.Form == Hose && b.Form == Hose:
		if a.System == b.System && a.Size == b.Size {
			return "both are hose: join them with a barb " + a.Size.Text + " of that hose's kind"
		}
		return fmt.Sprintf("both are hose or tube: join them with a fitting that has a barb for %s and one for %s", a, b)
	case a.Form == Barb && b.Form == Barb:
		if a == b {
			return "both are barbs: join them with a short piece of hose " + a.Size.Text
		}
		return "both are barbs of different sizes: change one, or use a reducing barb and two pieces of hose"
	case a.Form == Spigot && b.Form == Spigot:
		return "both are plain pipe ends: join them with a coupling, or a union where you must undo it"
	case a.Form == Socket && b.Form == Socket:
		return "both are sockets: join them with a short piece of pipe " + a.Size.Text
	case a.Form == MaleThread && b.Form == MaleThread:
		return "both threads are male: join them with a female coupling of the same thread"
	case a.Form == FemaleThread && b.Form == FemaleThread:
		return "both threads are female: join them with a nipple of the same thread"
	case a.Form == Hose && b.IsThread():
		return fmt.Sprintf("hose does not screw on: take a hose adapter %s to %s", opposite(b), opposite(a))
	case (a.Form == Spigot || a.Form == Socket) && b.IsThread():
		return fmt.Sprintf("slip is not thread: %s is for solvent cement, %s screws. Take an adapter %s to %s", a, b, opposite(a), opposite(b))
	case a.Form == Hose && b.Form == Socket:
		return fmt.Sprintf("a socket is for rigid pipe and solvent cement: take an adapter %s to %s", oppositePipe(b), opposite(a))
	case a.Form == Barb && (b.Form == Socket || b.IsThread()) || a.Form == Spigot && b.Form == Barb:
		return fmt.Sprintf("%s and %s are not a pair: put a piece of hose on the barb and an adapter on the other", a, b)
	}
	return fmt.Sprintf("%s and %s are not a pair: put a piece of tube or pipe and an adapter between them", a, b)
}

// opposite names the end that would mate with e.
func opposite(e End) string {
	switch e.Form {
	case Hose:
		e.Form = Barb
	case Barb:
		e.Form = Hose
	case Spigot, Socket:
		return oppositePipe(e)
	case MaleThread:
		e.Form = FemaleThread
	case FemaleThread:
		e.Form = MaleThread
	}
	return e.String()
}
