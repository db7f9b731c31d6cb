package asbuilt

import (
	"fmt"
	"math"
	"strings"

	"rillwright/commission"
	"rillwright/quantity"
)

// Show is a figure of something measured, SI, for people; id is its site's or its
// reading's.
func Show(id string, v float64, sys quantity.System) string {
	word, _, _ := strings.Cut(id, "[")
	switch word {
	case "rise", "draw":
		return commission.Show(commission.Height, v, sys)
	case "shut-off":
		return commission.Show(commission.Head, v, sys)
	case "top-up":
		return quantity.Volume(v*86400).Show(sys) + " a day"
	}
	return commission.Show(commission.Flow, v, sys)
}

// Words says what is measured now, of what it was or was foretold to be.
func (c *Change) Words(sys quantity.System) string {
	out := fmt.Sprintf("%s %s, %.0f %% of what ", c.ID, Show(c.ID, c.Now, sys), 100*c.Share)
	if math.IsNaN(c.Before) {
		return out + "was to be expected"
	}
	return out + "it was: " + Show(c.ID, c.Before, sys)
}

// Share is how probable a suspect is. Past 99 % it says no more: that is of what is on
// the list, and nobody is surer than that.
func (s *Suspect) Share() string {
	switch p := 100 * s.Probability; {
	case p > 99:
		return "> 99 %"
	case p > 0 && p < 0.5:
		return "< 1 %"
	default:
		return fmt.Sprintf("%.0f %%", p)
	}
}

// Settles reports whether a measurement is likely to split the leading two alone.
func (n *Next) Settles() bool { return n.Apart >= 2 }

// NotAlone is said of a measurement that does not settle it.
const NotAlone = "that alone may not settle it: clean what is easiest, and measure again"

// Pairing says what is to be made of two at once where no one thing explains the
// readings: "" if one does, or if two do.
func (d *Diagnosis) Pairing() string {
	switch {
	case d.Chance >= Unexplained:
		return ""
	case len(d.Pairs) == 0:
		return "nor do two at once, of what is looked for: measure again what looks odd, and look for what is not on the list"
	case d.Pairs[0].Chance < Unexplained:
		return "they explain it better, but not well: measure again what looks odd"
	}
	return ""
}

// Worth is how many of the suspects are worth telling of, the first at least.
func (d *Diagnosis) Worth() int {
	for i := range d.Suspects {
		if p := d.Suspects[i].Probability; i > 2 && p < 0.05 || i > 0 && p < 0.01 {
			return i
		}
	}
	return len(d.Suspects)
}
