package wire

import (
	"math"
	"strconv"

	"rillwright/asbuilt"
	"rillwright/quantity"
)

// Diagnosis is what readings say of what is wrong. Figures are SI; texts are in the
// builder's units.
type Diagnosis struct {
	Design   string        `json:"design"`
	Used     int           `json:"used"` // figures read
	Suspects []Suspect     `json:"suspects"`
	Chance   float64       `json:"chance"` // of such readings if the first suspect is right
	Pairs    []SuspectPair `json:"pairs,omitempty"`
	Changes  []Change      `json:"changes"`
	Next     *NextReading  `json:"next,omitempty"`
}

// Suspect is one thing that may be wrong.
type Suspect struct {
	ID          string  `json:"id"`
	What        string  `json:"what"`
	Do          string  `json:"do"`
	Probability float64 `json:"probability"`
	Flow        float64 `json:"flow"` // of the outlets, as a share
}

// SuspectPair is two at once.
type SuspectPair struct {
	IDs         [2]string `json:"ids"`
	Probability float64   `json:"probability"`
	Chance      float64   `json:"chance"`
	Flow        float64   `json:"flow"`
}

// Change is what is measured now, of what it was before.
type Change struct {
	ID     string   `json:"id"`
	Before *float64 `json:"before,omitempty"`
	Now    float64  `json:"now"`
	Share  float64  `json:"share"`
	Text   string   `json:"text"`
}

// NextReading is what to measure next, with what the two leading suspects foretell.
type NextReading struct {
	ID      string    `json:"id"`
	Minutes float64   `json:"minutes"`
	Apart   float64   `json:"apart"`
	First   float64   `json:"first"`
	Second  float64   `json:"second"`
	Split   [2]string `json:"split"` // their ids
	Texts   [2]string `json:"texts"`
}

// DiagnosisOf puts a diagnosis into that shape.
func DiagnosisOf(file string, d *asbuilt.Diagnosis, sys quantity.System) Diagnosis {
	out := Diagnosis{Design: file, Used: d.Used, Suspects: []Suspect{}, Changes: []Change{}, Chance: digits(d.Chance, 2)}
	for i := range d.Pairs {
		x := &d.Pairs[i]
		out.Pairs = append(out.Pairs, SuspectPair{[2]string{x.Faults[0].ID, x.Faults[1].ID}, math.Round(x.Probability*1e4) / 1e4, digits(x.Chance, 2), digits(x.Flow, 3)})
	}
	for i := range d.Suspects {
		s := &d.Suspects[i]
		out.Suspects = append(out.Suspects, Suspect{s.ID, s.What, s.Do, math.Round(s.Probability*1e4) / 1e4, digits(s.Flow, 3)})
	}
	for i := range d.Changes {
		x := &d.Changes[i]
		j := Change{ID: x.ID, Now: x.Now, Share: digits(x.Share, 3), Text: x.Words(sys)}
		if !math.IsNaN(x.Before) {
			j.Before = &x.Before
		}
		out.Changes = append(out.Changes, j)
	}
	if n := d.Next; n != nil {
		out.Next = &NextReading{
			n.ID, n.Minutes, digits(n.Apart, 2), digits(n.First, 4), digits(n.Second, 4), n.Split,
			[2]string{asbuilt.Show(n.ID, n.First, sys), asbuilt.Show(n.ID, n.Second, sys)},
		}
	}
	return out
}

// digits keeps the first digits of a figure.
func digits(v float64, n int) float64 {
	out, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', n, 64), 64)
	if err != nil { // NaN and infinities are what they were
		return v
	}
	return out
}
