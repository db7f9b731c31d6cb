// Package seek looks for the design that serves best among all that can be made of one
// by choosing what is left open: which pump, which hose, which drain. Every answer about
// the water must hold, with all doubts at their bad end, and no other answer, about what
// goes wrong or anything else, may come out worse than it is as drawn. Where nothing makes
// them hold, they may be tight.
//
// Designs are gone through in the order of what is wanted, cheapest first, so that the
// first one that holds is the best there is: all that come before it were computed and
// found wanting. Each meets the least work first: that its parts join, then its likely
// state, then corners of its doubts, then all of them, then faults through time, then every
// other answer. A design
// that fails where nothing is in doubt, or at one corner of its doubts, fails at the bad
// end too, so what is left out early is left out for good.
package seek

import (
	"errors"
	"time"

	"rillwright/answers"
	"rillwright/design"
	"rillwright/fixes"
)

// Slot is one thing that is left open.
type Slot struct {
	Word    string // as asked for: "pump", or the path of a key
	Choices []fixes.Instead
}

// Goal is what is wanted most. Cost comes second everywhere.
type Goal int

// The goals.
const (
	Cheapest   Goal = iota
	LeastPower      // of pumps, W
	FewestBuys      // things that are neither drawn nor on the shelf
	Quietest        // by the figure of the answer "quiet"
)

// Goals names the goals as they are typed.
func Goals() []string { return []string{"cheapest", "least-power", "fewest-buys", "quietest"} }

// Options say what is looked for.
type Options struct {
	Goal Goal
	// Leave lists ids of answers that are no condition.
	Leave []string
	// Mend lists ids of answers that must hold though they do not as drawn.
	Mend []string
	// Tight lets answers be tight from the start.
	Tight bool
	// Front goes on until every design is decided and lists those of which none is both
	// cheaper and has more margin.
	Front bool
	// Most is how many designs are decided at most; 0 for MostDesigns.
	Most int
	// Workers is how many work side by side; 0 for one. It changes no result.
	Workers int
	// Progress, if given, is told how many designs are decided; calls do not overlap.
	Progress func(done, of int)
}

// MostDesigns is how many designs are decided where nobody says otherwise.
const MostDesigns = 200_000

// mostSpace is how many designs may be to choose from.
const mostSpace = 4_000_000

// Let is what is let pass of answers about the water.
type Let int

// From the strictest. What fails passes none of them.
const (
	Strict   Let = iota // all hold
	AsDrawn             // they may be tight where they are as drawn
	AllTight            // they may be tight
)

// Stage is where a design was found wanting, or that it was not.
type Stage int

// The stages, in the order of their work.
const (
	Unjoined Stage = iota // its parts do not make a design
	Likely                // where nothing is in doubt
	Corner                // at the worst corners of the doubts by those of the drawn design
	BadEnd                // with every doubt at its bad end
	Faulty                // when something goes wrong
	Spoils                // it makes another answer worse than it is as drawn
	Held                  // it holds
)

func (s Stage) String() string {
	return [...]string{"parts that do not join", "the likely state", "a corner of the doubts", "the bad end", "a fault", "what it makes worse elsewhere", "none: it holds"}[s]
}

// Found is a design.
type Found struct {
	Choice []int // of each slot
	number int32
	Cost   float64 // of what is chosen between, in the design's currency
	Known  bool    // whether all of it are prices, no guesses
	Memory bool    // whether some of it is from memory
	Power  float64
	Buys   int
	// Margin is the least share by which a figure about the water stays clear of its
	// limit at the bad end, and Noise the likely figure of "quiet".
	Margin float64
	Near   string // id of the answer whose margin that is
	Noise  float64
	// Answers are all that check gives, nil where nobody asked for them.
	Answers []answers.Answer
}

// Result is what was found.
type Result struct {
	Slots []Slot
	// Space is how many designs there are, Decided how many were found wanting or good,
	// and Out how many of them at each stage.
	Space, Decided int
	Out            [Held + 1]int
	// Because counts, by the id of an answer, the designs that it ruled out first.
	Because map[string]int
	Best    *Found // nil if none holds
	// Let is what was let pass in the end.
	Let Let
	// Proven says that no design is better than Best, or, without one, that none holds.
	Proven bool
	// Least is a cost that no design not yet decided is below, if not Proven and the goal
	// is Cheapest.
	Least float64
	Front []Found // by rising cost
	Took  time.Duration
}

// ErrNothingOpen is returned where there is nothing to choose.
var ErrNothingOpen = errors.New("nothing is open: there is no other choice")

// Edits returns what writes a design into the file, in order.
func (r *Result) Edits(f *Found) []design.Edit {
	var out []design.Edit
	for i, k := range f.Choice {
		out = append(out, r.Slots[i].Choices[k].Edits...)
	}
	return out
}
