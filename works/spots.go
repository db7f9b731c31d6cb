package works

import (
	"fmt"

	"rillwright/structure/cure"
)

// Which share of the area of a grid's spots must have cured before the next step: a
// quarter for foam, which is light, half for all wet weight. Assumed.
const (
	bearsFoam = 0.25
	bearsWet  = 0.5
)

// through is how long a way takes to cure, each end in the air that makes it.
func (s Season) through(way float64) (cure.Time, error) {
	var t [3]cure.Time
	for i, a := range []cure.Air{s.Best, s.Likely, s.Worst} {
		var err error
		if t[i], err = s.Sealant.Through(way, a); err != nil {
			return cure.Time{}, fmt.Errorf("%w", err)
		}
	}
	likely := t[1].Likely
	return cure.Time{Low: min(t[0].Low, likely), Likely: likely, High: max(t[2].High, likely)}, nil
}

// spots lets what waits for a bonded grid wait until so much of its spots has cured from
// their rims, where that takes longer than practice waits. Each spot lies between two
// faces that let no vapour through.
func (w *Work) spots(s Season) error {
	for i := range w.Steps {
		step := &w.Steps[i]
		side := step.Thing.Spot
		if !step.Rule.Cure || side[0] <= 0 || side[1] <= 0 {
			continue
		}
		share := bearsFoam
		if step.waits() {
			share = bearsWet
		}
		var t [2]cure.Time
		for k, part := range []float64{share, 1} {
			d, err := cure.SpotDepth(side[0], side[1], part)
			if err == nil {
				t[k], err = s.through(d)
			}
			if err != nil {
				return fmt.Errorf("%s: %w", step.Thing.Name, err)
			}
		}
		wait := &step.Task.Wait
		if t[0].Likely > wait.Likely {
			step.ByCure, step.Thing.By = true, "the spots of "+step.Thing.Name
		}
		wait.Low, wait.Likely, wait.High = max(wait.Low, t[0].Low), max(wait.Likely, t[0].Likely), max(wait.High, t[0].High)
		if step.waits() && t[1].Likely > wait.Likely {
			w.take("the spots of %s have cured through only after %.0f to %.0f days, likely %.0f: it bears foam once a quarter of their area has cured, wet weight once half of it has", step.Thing.Name, float64(t[1].Low)/86400, float64(t[1].High)/86400, float64(t[1].Likely)/86400)
		}
	}
	return nil
}
