// Package gravity computes how water leaves a pool by itself: over the lip of a
// standpipe, through an opening in a wall or floor, down pipes that may run part
// full or full, through several drains at different heights, joined or not.
//
// The rule throughout is that a drain is vented: nowhere along it may the
// pressure fall below that of the air, so that no drain is ever credited with
// the pull of a siphon. FullPipe tells what it would carry if it did run full;
// no safety verdict may use it.
//
// Heights are in metres above one datum, flows in m3/s. All figures must be
// finite; nothing here checks them.
package gravity

import (
	"math"

	"rillwright/hydraulics"
	"rillwright/hydraulics/network"
)

// Mouth is the shape of a drain's upper end.
type Mouth int

// The mouths a drain can have.
const (
	// Upright is an open pipe standing up: its rim is the lip.
	Upright Mouth = iota
	// InWall is a round opening in an upright pane: its lowest point is the lip.
	InWall
	// InFloor is a round opening in a floor.
	InFloor
)

// Drain is one way out of a pool.
type Drain struct {
	ID    string
	Mouth Mouth
	Lip   float64 // rim of an upright pipe, lowest point of an opening in a wall, floor level
	Bore  float64 // of the mouth; a drain without bore takes nothing
	// Intake is the discharge coefficient of the drowned mouth (about 0.60);
	// the rim as a weir is scaled by Intake/0.60 with it.
	Intake float64
	// Screen is the loss of a strainer before the mouth; nil for none.
	Screen network.Law
	// Reaches are the places along the drain where water may back up.
	Reaches []Reach
	// Stack is the bore of the narrowest upright pipe that water falls
	// through, 0 if there is none.
	Stack float64
	// Tail is the head at the drain's lower end: its height, or the water
	// level there if it ends under water.
	Tail float64
	// Joins is the index of the Junction it runs into, -1 if it ends freely.
	Joins int
}

// Reach is a place along a drain that runs full once the water backs up to it.
type Reach struct {
	ID     string
	Height float64 // of the pipe's axis at the end of the reach
	// Law is the loss from the pool to there, with the velocity head that the
	// water has at that point.
	Law *network.Conduit
}

// Junction is a tee at which drains meet and go on in one pipe.
type Junction struct {
	ID     string
	Height float64 // of its axis
	Pipe   *network.Conduit
	Tail   float64
	Joins  int // the next junction, -1 if its pipe ends freely
}

// Limit says what holds a drain's flow down.
type Limit struct {
	Kind  LimitKind
	Reach int // which reach, for Backed
}

// LimitKind is the kind of a Limit.
type LimitKind int

// What can hold a drain's flow down.
const (
	Dry      LimitKind = iota // the level is below the lip
	Lip                       // the rim or the part-filled opening acts as a weir
	Opening                   // the drowned mouth
	Backed                    // a reach runs full
	Falling                   // an upright pipe full of falling water and air
	JoinFull                  // the pipe after a junction runs full
)

// Level returns the level at which the drain alone takes flow q, and what sets
// it: for no flow, the level at which it starts to run. A drain with an upright
// pipe takes no more than its stack limit: beyond that the level is infinite.
func (d *Drain) Level(q float64) (level float64, limit Limit) {
	switch {
	case q <= 0:
		return d.starts(d.Tail), Limit{Kind: Dry}
	case d.Stack > 0 && q > hydraulics.StackFlow(d.Stack):
		return math.Inf(1), Limit{Kind: Falling}
	case d.Bore <= 0 || d.Intake <= 0:
		return math.Inf(1), Limit{Kind: Opening}
	}
	return d.needed(q, d.Tail)
}

// Capacity returns the largest flow that the drain takes at the given level
// without help from a siphon, and what limits it. Level is its inverse.
func (d *Drain) Capacity(level float64) (q float64, limit Limit) {
	return d.flow(level, d.Tail)
}

// drowned tells whether the head at the lower end reaches into the drain's last
// reach, or into the mouth of a drain without one.
func (d *Drain) drowned(tail float64) bool {
	if n := len(d.Reaches); n > 0 {
		return tail > d.Reaches[n-1].Height
	}
	return tail > d.Lip
}

// starts returns the level above which the drain takes water: its lip, or what
// stands behind it. tail is the head where it ends.
func (d *Drain) starts(tail float64) float64 {
	level := d.Lip
	for i := range d.Reaches {
		level = max(level, d.Reaches[i].Height)
	}
	if d.drowned(tail) {
		level = max(level, tail)
	}
	return level
}

// needed returns the level that the pool must have for the drain to take flow
// q > 0, if the head where it ends is tail, and what sets that level.
func (d *Drain) needed(q, tail float64) (level float64, limit Limit) {
	head, kind := d.mouthHead(q)
	level, limit = d.Lip+head, Limit{Kind: kind}
	for i := range d.Reaches {
		r := &d.Reaches[i]
		h, _ := r.Law.Loss(q)
		if l := r.Height + h; l > level {
			level, limit = l, Limit{Backed, i}
		}
	}
	if d.drowned(tail) {
		h, _ := d.endLoss(q)
		if l := tail + h; l > level {
			level, limit = l, d.drownedLimit()
		}
	}
	if d.Screen != nil {
		h, _ := d.Screen.Loss(q)
		level += h
	}
	return level, limit
}

// flow is the inverse of needed, and no more than the stack limit: the least of
// what the mouth, the stack, each reach and the drowned end let through.
func (d *Drain) flow(level, tail float64) (q float64, limit Limit) {
	if level <= d.starts(tail) || d.Bore <= 0 || d.Intake <= 0 {
		return 0, Limit{Kind: Dry}
	}
	q, kind := d.mouthFlow(level)
	limit = Limit{Kind: kind}
	if d.Stack > 0 {
		if s := hydraulics.StackFlow(d.Stack); s < q {
			q, limit = s, Limit{Kind: Falling}
		}
	}
	for i := range d.Reaches {
		r := &d.Reaches[i]
		if least, less := d.held(q, level-r.Height, r.Law.Loss); less {
			q, limit = least, Limit{Backed, i}
		}
	}
	if d.drowned(tail) {
		if least, less := d.held(q, level-tail, d.endLoss); less {
			q, limit = least, d.drownedLimit()
		}
	}
	return q, limit
}

// held returns the flow at which loss and the strainer together use up the
// head there is, if that is less than q.
func (d *Drain) held(q, there float64, loss func(q float64) (h, slope float64)) (least float64, less bool) {
	over := func(q float64) (float64, float64) {
		h, slope := loss(q)
		if d.Screen != nil {
			hs, ss := d.Screen.Loss(q)
			h, slope = h+hs, slope+ss
		}
		return h - there, slope
	}
	if h, _ := over(q); h <= 0 {
		return q, false
	}
	return newton(q, over), true
}

// endLoss is the loss from the pool to the drain's lower end.
func (d *Drain) endLoss(q float64) (h, slope float64) {
	if n := len(d.Reaches); n > 0 {
		return d.Reaches[n-1].Law.Loss(q)
	}
	h = hydraulics.OrificeHead(d.Intake, hydraulics.CircleArea(d.Bore), q)
	return h, 2 * h / q
}

func (d *Drain) drownedLimit() Limit {
	switch {
	case d.Joins >= 0:
		return Limit{Kind: JoinFull}
	case len(d.Reaches) > 0:
		return Limit{Backed, len(d.Reaches) - 1}
	}
	return Limit{Kind: Opening}
}

// FullPipe returns what the drain would carry if it ran full from the pool to
// its lower end, as a siphon does. It may be several times the capacity, and
// must not be relied on.
func (d *Drain) FullPipe(level float64) float64 {
	n := len(d.Reaches)
	if n == 0 || level <= d.Lip {
		return 0
	}
	h := level - d.Tail
	if h <= 0 {
		return 0
	}
	law := d.Reaches[n-1].Law
	hi := 1e-4
	for {
		if l, _ := law.Loss(hi); l > h || hi > 10 {
			break
		}
		hi *= 2
	}
	return newton(hi, func(q float64) (float64, float64) {
		l, slope := law.Loss(q)
		return l - h, slope
	})
}
