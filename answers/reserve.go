package answers

// ReservePoint is one way to fill the sump and what follows from it, in SI. The
// figures are those at the bad end of every doubt.
type ReservePoint struct {
	Level  float64 // m above the sump's bottom, with the pump standing still
	Volume float64 // m3 in the sump at that level
	Days   float64 // s until the pump draws air with nobody there
	Spill  float64 // m3 on the floor if a drain blocks, the worst of them
	Free   float64 // m3 left below the sump's rim after a power cut
}
