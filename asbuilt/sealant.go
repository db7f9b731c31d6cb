package asbuilt

import (
	"fmt"
	"math"

	"rillwright/num/fit"
	"rillwright/quantity"
	"rillwright/record"
)

// Sealant is what test beads tell of how fast theirs cures.
type Sealant struct {
	// Rate is k in depth = k sqrt(t), m/s^0.5, in the air in which they lay.
	Rate  quantity.Band[float64] `json:"rate"`
	Beads int                    `json:"beads"`
	// Longest is the longest time after which one was cut, s, and Skin how deep one
	// has cured by then, m: what to write into the design file.
	Longest float64 `json:"longest"`
	Skin    float64 `json:"skin"`
	// Outliers are beads that do not go with the others; the fit leaves them little say.
	Outliers []Outlier `json:"outliers,omitempty"`
}

// cutDoubt is how exactly people read the depth of a bead cut through, m, as a standard
// deviation; assumed, no source.
const cutDoubt = 0.3e-3

// SealantOf fits the rate of cure to the test beads of readings, by least squares of
// their depths over the roots of their times; found is false if there is none. The band has nine in ten, with the scatter
// of the beads where that is more than the reading of them.
func SealantOf(readings []record.Reading) (s Sealant, found bool, err error) {
	type bead struct {
		reading    int
		deep, root float64
	}
	var beads []bead
	for i := range readings {
		deep, after := readings[i].Beads()
		for k := range deep {
			beads = append(beads, bead{i, deep[k], math.Sqrt(after[k])})
			s.Longest = math.Max(s.Longest, after[k])
		}
	}
	if len(beads) == 0 {
		return s, false, nil
	}
	const unit = 1e-3 / 294 // about 1 mm in a day, m/s^0.5: near 1 in it
	res, err := fit.Solve(fit.Problem{
		Parameters: 1, Residuals: len(beads),
		Of: func(p, r []float64) error {
			for i, b := range beads {
				r[i] = (p[0]*unit*b.root - b.deep) / cutDoubt
			}
			return nil
		},
	}, []float64{3}, fit.Settings{Huber: huber})
	if err != nil {
		return s, false, fmt.Errorf("test beads: %w", err)
	}
	doubt := math.Sqrt(res.Cov[0][0])
	if v := res.Variance(); v > 1 {
		doubt *= math.Sqrt(v)
	}
	k := res.P[0]
	end := bandEnd * doubt
	s.Rate = quantity.Band[float64]{Low: math.Max(k-end, 0) * unit, Likely: k * unit, High: (k + end) * unit}
	s.Beads, s.Skin = len(beads), s.Rate.Likely*math.Sqrt(s.Longest)
	for _, o := range res.Outliers(len(beads), outlying) {
		b := &beads[o.Index]
		s.Outliers = append(s.Outliers, Outlier{Reading: b.reading, Cup: -1, Read: b.deep, Others: b.deep + res.R[o.Index]*cutDoubt, Doubts: math.Abs(o.T)})
	}
	return s, true, nil
}
