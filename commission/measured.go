package commission

import (
	"fmt"
	"math"

	"rillwright/quantity"
	"rillwright/record"
)

// Measured returns what the values of a reading come to, SI, to hold against the
// check of its id, and its unit; ok is false for what has no figure.
func Measured(r *record.Reading) (v float64, u Unit, ok bool) {
	v, _ = record.Mean(r.Values)
	switch r.Kind {
	case record.Flow:
		u = Flow
	case record.Height:
		if u = Height; r.What == "shut-off" {
			u = Head
		}
	case record.Time:
		u = Time
	case record.Cups:
		v, u = record.Evenness(r.Values), Share
	case record.Seen, record.Event, record.Skin:
		return 0, Seen, false
	}
	return v, u, !math.IsNaN(v)
}

// ShowCure says how fast sealant cures, k in depth = k sqrt(t), m/s^0.5.
func ShowCure(k float64) string {
	return fmt.Sprintf("%.1f mm deep in the first day", 1000*k*math.Sqrt(86400))
}

// ShowReading returns what Measured does for people, "" if there is no figure. What
// is topped up is shown by the day.
func ShowReading(r *record.Reading, sys quantity.System) string {
	v, u, ok := Measured(r)
	switch {
	case r.Kind == record.Skin:
		k, _ := record.Mean(r.Values)
		return ShowCure(k)
	case !ok:
		return ""
	case r.What == "top-up":
		return quantity.Volume(v*86400).Show(sys) + " a day"
	}
	return Show(u, v, sys)
}
