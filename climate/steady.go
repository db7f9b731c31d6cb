package climate

import (
	"errors"
)

// Balance is the state an enclosure comes to.
type Balance struct {
	State
	Flows

	// Residual is the largest part of what flows through water, air or a pane
	// that is left over, of heat or of vapour.
	Residual   float64
	Iterations int
}

// ErrNoBalance says that no steady state was found.
var ErrNoBalance = errors.New("no steady state was found")

// closes is what part of what flows may be left over.
const closes = 1e-9

// SteadyState returns the state to which the enclosure comes in a room that does
// not change. What settles on panes runs back to the water; the heater gives what
// share of its power holds its band. Where several states hold themselves, as with
// large vents about a wall that cools what a lamp warms, it is that with the least
// air: careful about fog.
//
// With the flow of air given, water, air, moisture and panes are found by implicit
// steps in time that grow without end, the last of which are Newton's; the flow is
// the first that the vents let through with that state, between brackets, and both
// are polished together. So it needs no start, and corners of the laws do not
// matter. The balances close to 1e-9 of what flows; otherwise the error is
// ErrNoBalance, with what was reached. Box and room are checked first.
func (b *Box) SteadyState(room Room) (Balance, error) {
	if err := errors.Join(b.Check(), room.Check()); err != nil {
		return Balance{}, err
	}
	m := march{b: b, o: b.outside(room.Celsius, room.vapour()), n: 3 + len(b.Panes)}
	m.begin()
	return m.run()
}
