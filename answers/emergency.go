package answers

// Situation is one entry of the emergency card: what is seen, what to do at once
// and where the water goes, each in words read from a metre away.
type Situation struct {
	Sign  string   // "Water runs over the dam"
	Do    []string // in order: "Pull the plug of the main pump"
	Water string   // "11 L can reach the floor in front of the dam"
}
