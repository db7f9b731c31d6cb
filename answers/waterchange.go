package answers

import (
	"errors"
	"fmt"
	"math"

	"rillwright/enclosure"
	"rillwright/minerals"
	"rillwright/quantity"
	"rillwright/study"
)

// usualShare is the share of the water that a change is taken to replace where the
// file does not say. Common practice, no source.
const usualShare = 0.25

// WaterChange is how often a share of the water wants to be changed for fresh.
type WaterChange struct {
	Share float64 // of the water
	Days  float64 // from one change to the next; +Inf where nothing gathers
	Line  int     // of the file that says so; 0 if it was computed
	// MakeUp is the loss by which it was computed, m3/s, and Measured whether that is
	// what the builder put back.
	MakeUp   float64
	Measured bool
	// Soak is the days until scale wants the outlets cleaned, with the loss above and
	// scale as thick at the holes as it may be; +Inf where it does not.
	Soak float64
}

// From says where the figure comes from.
func (c *WaterChange) From(e *enclosure.Enclosure) string {
	loss := quantity.Volume(c.MakeUp*86400).Show(e.Units) + " a day"
	switch {
	case c.Line > 0:
		return fmt.Sprintf("your own figure, line %d", c.Line)
	case c.Measured:
		return "what is dissolved stays under twice your tap water's at " + loss + ", as you put back"
	}
	return "what is dissolved stays under twice your tap water's even if " + loss + " goes, the bad end"
}

// ErrNoWater is returned where the file does not say what is dissolved in the water.
var ErrNoWater = errors.New("the file has no water.solids")

// WaterChangeOf returns how often the water is to be changed: as the file says, or so
// that what is dissolved never grows past the limit of the answer "minerals". That is
// computed with a measured loss of water, m3/s; for 0 or less with the bad end of the
// computed one, which takes as long as Living's first half. The error is ErrNoWater, or
// that of a balance that was not found.
func WaterChangeOf(e *enclosure.Enclosure, measured float64) (WaterChange, error) {
	w := &e.Design.Water
	if !w.Given() {
		return WaterChange{}, ErrNoWater
	}
	l := newLiving(e)
	in := l.l.Inputs(l.l.Likely())
	c := WaterChange{Share: in.ChangeShare, MakeUp: measured, Measured: measured > 0}
	if !c.Measured {
		a, err := l.over(nil)
		if err != nil {
			return WaterChange{}, err
		}
		c.MakeUp = a.band("make-up").High / waterDensity / 86400
	}
	c.Soak = l.crustsIn(c.MakeUp*waterDensity*86400, gathersAtHoles().High) / 86400
	if c.Share > 0 && in.ChangeEvery > 0 {
		c.Days, c.Line = in.ChangeEvery/86400, w.Change.Pos.Line
		return c, nil
	}
	if c.Share <= 0 {
		c.Share = usualShare
	}
	tap := tapSolids(e)
	r := regimeOf(&in, tap, c.MakeUp)
	r.Share = c.Share
	c.Days = r.EveryFor(mostDissolved(tap)) / 86400
	return c, nil
}

const waterDensity = 998.0 // kg/m3, about 20 degC

// tapSolids is what is dissolved in tap water, kg/m3.
func tapSolids(e *enclosure.Enclosure) float64 { return float64(e.Design.Water.Solids.Value) * 1e-3 }

// mostDissolved is the limit of what is dissolved, kg/m3.
func mostDissolved(tap float64) float64 { return gathers * math.Max(tap, 0.05) }

// regimeOf is the water with its top-up and its changes at a loss, m3/s.
func regimeOf(in *study.Inputs, tap, loss float64) minerals.Regime {
	r := minerals.Regime{Volume: in.Volume(), Evaporation: math.Max(loss, 0), TopUp: tap, ChangeWater: tap, Share: in.ChangeShare, Every: in.ChangeEvery}
	if in.PureTopUp {
		r.TopUp = 0.02 // some comes through all the same; assumed
	}
	return r
}
