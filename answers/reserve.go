package answers

// ReservePoint is what one fill of the sump brings and what it costs: the
// fuller it is, the longer it runs unwatched, and the more of its water is on
// the floor when a drain blocks.
type ReservePoint struct {
	// Level is how high the water stands in the pump's chamber while it runs,
	// m above the sump's bottom.
	Level float64
	// Volume is the water in the sump then, m3.
	Volume float64
	// Days is how long evaporation takes to bring it down to the pump's inlet,
	// with nothing added, s.
	Days float64
	// Spill is what reaches the floor if the drain blocks, m3, at the bad end
	// of the doubts.
	Spill float64
	// Free is the room left below the sump's rim once the pump has stopped and
	// all has run back, m3; 0 or less if it runs over.
	Free float64
}
