package rillwright

import (
	"errors"
	"time"

	"rillwright/answers"
	"rillwright/enclosure"
	"rillwright/keeping"
	"rillwright/record"
)

// longestChange is the time between changes of water, days, past which none is asked
// for: ten years.
const longestChange = 3650

// Chores lists what an enclosure wants again and again, with changes of water by its
// minerals; lacks says what keeps those from being told, or "". What was put back in the
// year to now stands in for what is computed to go. Readings must be in order of time.
func Chores(e *enclosure.Enclosure, readings []record.Reading, now time.Time) (list []keeping.Chore, lacks string) {
	list = keeping.Chores(e)
	c, err := answers.WaterChangeOf(e, keeping.Loss(readings, now.Add(-365*24*time.Hour)))
	switch {
	case errors.Is(err, answers.ErrNoWater):
		return list, "When to change water is not told: write what is dissolved in yours as water.solids."
	case err != nil:
		return list, "When to change water is not told: " + err.Error() + "."
	}
	keeping.SoakWithin(list, c.Soak)
	if !(c.Days < longestChange) {
		return list, "Hardly anything gathers in the water: no change of it is wanted for that."
	}
	return append(list, keeping.ChangeWater(c.Share, int(c.Days), c.From(e))), ""
}
