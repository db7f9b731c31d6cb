package record

import (
	"slices"
	"strings"

	"rillwright/finding"
)

// Kind is what the figures of a reading are.
type Kind uint8

// The kinds.
const (
	Event  Kind = iota // something done; no figure
	Seen               // ok or not: 1 or 0
	Flow               // m3/s
	Height             // m
	Cups               // of each outlet in turn: m3/s, or m3 if no time was given
	Time               // s
	Skin               // of sealant: depth over the root of time, m/s^0.5
)

// Of is the kind of part that a word is about.
type Of uint8

// The kinds of parts.
const (
	Whole Of = iota // the enclosure
	Pump
	Manifold
	Thing // whatever is named behind the word
)

// Word is one thing that can be noted.
type Word struct {
	Name string // as typed, and the id of its check without the part
	Kind Kind
	Of   Of
	Help string // what it is, in a few words
}

// Words returns all that can be noted, in the order in which it is measured. The
// slice is the caller's.
func Words() []Word {
	return []Word{
		{"bare", Flow, Pump, "the pump's flow into a bucket level with the sump's water"},
		{"no-strainer", Flow, Pump, "as bare, with the strainer taken off"},
		{"no-barb", Flow, Pump, "as no-strainer, with the barb taken off the pump"},
		{"shut-off", Height, Pump, "how high the pump lifts at no flow, above the sump's water"},
		{"hose", Flow, Whole, "the flow of the hose held at the manifold's height"},
		{"hose-low", Flow, Whole, "the flow of the hose held level with the sump's water"},
		{"manifold", Flow, Whole, "the flow of all outlets"},
		{"wall", Flow, Whole, "what comes back at the ends of the drains"},
		{"even", Cups, Manifold, "a cup under each outlet, in turn, for the same time"},
		{"rise", Height, Whole, "how far the pool rises while it runs"},
		{"draw", Height, Whole, "how far the sump falls while it runs"},
		{"drain", Height, Whole, "the pool above its floor with every valve open"},
		{"power-cut", Height, Whole, "the sump above its bottom after a power cut"},
		{"restart", Time, Whole, "from plugging in until water is at every outlet"},
		{"blocked-drain", Seen, Whole, "the drain blocked: did it end well"},
		{"lost-standpipe", Height, Whole, "the sump above its bottom with the standpipe out"},
		{"breaker", Seen, Whole, "the test button of the RCD or GFCI"},
		{"loops", Seen, Whole, "drip loops of the cords"},
		{"soak", Seen, Whole, "a night with dry tissues"},
		{"noise", Seen, Whole, "at night, from 1 m"},
		{"top-up", Flow, Whole, "water put back, and in what time it went"},
		{"skin", Skin, Whole, "how deep a test bead of the sealant had cured, cut through, and after what time"},
		{"cleaned", Event, Thing, "what was cleaned"},
		{"replaced", Event, Thing, "what was replaced"},
		{"changed", Event, Thing, "what was changed, as the water"},
	}
}

// FindWord returns the word of a name; ok is false if there is none. "cups" is
// another name of "even".
func FindWord(name string) (w Word, ok bool) {
	if name == "cups" {
		name = "even"
	}
	list := Words()
	i := slices.IndexFunc(list, func(w Word) bool { return w.Name == name })
	if i < 0 {
		return Word{}, false
	}
	return list[i], true
}

// wordSlip says what to write in place of a word that is not known.
func wordSlip(name string) string {
	list := Words()
	names := make([]string, 0, len(list)+1)
	for i := range list {
		names = append(names, list[i].Name)
	}
	names = append(names, "cups")
	if near, ok := finding.Nearest(name, names); ok {
		return "write " + near
	}
	return "begin with one of: " + strings.Join(names, ", ")
}
