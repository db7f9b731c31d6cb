package wire

import (
	"strconv"

	"rillwright/answers"
	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/fixes"
	"rillwright/seek"
)

// Sought is what a search found.
type Sought struct {
	Currency string         `json:"currency"`
	Designs  int            `json:"designs"`
	Decided  int            `json:"decided"`
	Proven   bool           `json:"proven"`
	Let      int            `json:"let"` // 0 all hold, 1 tight where they do not hold as drawn, 2 any tight
	Out      map[string]int `json:"out"`
	Because  map[string]int `json:"because"`
	Best     *SoughtDesign  `json:"best,omitempty"`
	Front    []SoughtDesign `json:"front,omitempty"`
}

// SoughtDesign is a design that was found.
type SoughtDesign struct {
	Choices []string        `json:"choices"`
	Cost    float64         `json:"cost"`
	Priced  bool            `json:"priced"` // no cost is a guess
	Memory  bool            `json:"memory"`
	Power   float64         `json:"power"`
	Buys    int             `json:"buys"`
	Margin  float64         `json:"margin"`
	Near    string          `json:"near"`
	Noise   float64         `json:"noise"`
	Edits   []design.Edit   `json:"edits"`
	Answers []SoughtVerdict `json:"answers"`
}

// SoughtVerdict is an answer to a design that was found.
type SoughtVerdict struct {
	ID      string          `json:"id"`
	Verdict answers.Verdict `json:"verdict"`
}

// SoughtOf returns what a search in an enclosure found.
func SoughtOf(e *enclosure.Enclosure, res *seek.Result) Sought {
	one := func(f *seek.Found) SoughtDesign {
		d := SoughtDesign{
			Choices: []string{}, Cost: digits(f.Cost), Priced: f.Known, Memory: f.Memory, Power: f.Power, Buys: f.Buys,
			Margin: digits(f.Margin), Near: f.Near, Noise: digits(f.Noise), Edits: append([]design.Edit{}, res.Edits(f)...), Answers: []SoughtVerdict{},
		}
		for i, k := range f.Choice {
			d.Choices = append(d.Choices, res.Slots[i].Word+": "+res.Slots[i].Choices[k].Do)
		}
		for i := range f.Answers {
			d.Answers = append(d.Answers, SoughtVerdict{f.Answers[i].ID, f.Answers[i].Verdict})
		}
		return d
	}
	out := Sought{Currency: fixes.Currency(e), Designs: res.Space, Decided: res.Decided, Proven: res.Proven, Let: int(res.Let), Out: map[string]int{}, Because: map[string]int{}}
	for s, n := range res.Out {
		if n > 0 && seek.Stage(s) != seek.Held {
			out.Out[seek.Stage(s).String()] = n
		}
	}
	for id, n := range res.Because {
		if n > 0 {
			out.Because[id] = n
		}
	}
	if res.Best != nil {
		b := one(res.Best)
		out.Best = &b
	}
	for i := range res.Front {
		out.Front = append(out.Front, one(&res.Front[i]))
	}
	return out
}

// digits keeps six digits: more are not known, and would differ from machine to machine.
func digits(v float64) float64 {
	out, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', 6, 64), 64)
	if err != nil {
		return v
	}
	return out
}
