package hydraulics

// BackSiphon describes what can run back into the sump when the pump stops.
// Levels are heights over the sump's floor, except where it says otherwise.
type BackSiphon struct {
	TankArea   float64 // plan area of the upper water, m2
	SumpArea   float64 // plan area of the sump, m2
	TankFloor  float64 // height of the upper floor over the sump's floor, m
	TankLevel  float64 // running level over the upper floor, m
	SumpLevel  float64 // running level in the sump, m
	BreakLevel float64 // lower edge of the siphon-break hole or outlet lip, over the upper floor, m
	PipeVolume float64 // what stands in the pipe and drains too, m3
}

// BackSiphonEnd is where a back-siphon comes to rest.
type BackSiphonEnd struct {
	Returned  float64 // water that reached the sump, m3
	TankLevel float64 // over the upper floor, m
	SumpLevel float64 // over the sump's floor, m
	Equal     bool    // true if the two surfaces met before the break
}

// End returns the state after all has run back. The siphon stops at the higher
// of BreakLevel and the level at which both surfaces are equal,
//
//	z = (A_t z_t + A_s z_s + V_pipe)/(A_t + A_s)
//
// A real break needs time to draw air: take the hole's lower edge less one hose
// bore as BreakLevel. Water above the drain's rim and in film and media comes on
// top. Derived from the volume balance.
func (b BackSiphon) End() BackSiphonEnd {
	top := b.TankFloor + b.TankLevel
	meet := (b.TankArea*top+b.SumpArea*b.SumpLevel+b.PipeVolume)/(b.TankArea+b.SumpArea) - b.TankFloor
	stop := max(b.BreakLevel, meet)
	equal := meet > b.BreakLevel
	if stop > b.TankLevel {
		stop, equal = b.TankLevel, false
	}
	v := b.TankArea*(b.TankLevel-stop) + b.PipeVolume
	return BackSiphonEnd{
		Returned:  v,
		TankLevel: stop,
		SumpLevel: b.SumpLevel + v/b.SumpArea,
		Equal:     equal,
	}
}
