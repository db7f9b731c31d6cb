// Package wire is the shape in which results leave the program as JSON: for the
// command line and for the workbench alike, so that both tell the same numbers.
// Every list is there, if empty, every number is finite and rounded to six figures.
package wire

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"rillwright"
	"rillwright/answers"
	"rillwright/enclosure"
	"rillwright/finding"
	"rillwright/quantity"
)

// Findings is what check prints of a file that cannot be computed.
type Findings struct {
	File     string       `json:"file"`
	Findings finding.List `json:"findings"`
}

// Report is what check prints of one that can. Every list is there, if
// empty, and every number is finite.
type Report struct {
	Name     string           `json:"name"`
	File     string           `json:"file"`
	Findings finding.List     `json:"findings"` // notes and warnings
	Units    string           `json:"units"`
	Verdict  answers.Verdict  `json:"verdict"` // the worst of the answers shown
	Answers  []answers.Answer `json:"answers"`
	Assumed  []Assumed        `json:"assumed"`
	Doubts   []Doubt          `json:"doubts"`
	AsBuilt  []AsBuilt        `json:"asBuilt"`
}

// Assumed is what the file leaves open and the program took.
type Assumed struct {
	What  string `json:"what"`
	Value string `json:"value"`
	Why   string `json:"why"`
	Field string `json:"field"` // the key that would say it
}

// Doubt is a figure known as a band. Numbers are in SI, temperatures in
// degrees Celsius; the text is in the builder's units.
type Doubt struct {
	ID     string  `json:"id"`
	What   string  `json:"what"`
	Low    float64 `json:"low"`
	Likely float64 `json:"likely"`
	High   float64 `json:"high"`
	Unit   string  `json:"unit"` // "" for a pure number
	Text   string  `json:"text"`
	Why    string  `json:"why"`
	Settle string  `json:"settle,omitempty"`
	Line   int     `json:"line,omitempty"` // 0 if it is an assumption of the program
}

// AsBuilt is a measured figure beside the planned one.
type AsBuilt struct {
	Field    string `json:"field"`
	Planned  string `json:"planned"`
	Measured string `json:"measured"`
	Line     int    `json:"line"`
}

// Of puts a report into that shape, with those of its answers that are shown.
func Of(r *rillwright.Report, shown []answers.Answer) Report {
	e := r.Enclosure
	out := Report{
		Name: r.Name, File: r.File, Findings: r.Findings, Units: e.Units.String(),
		Verdict: answers.Worst(shown), Answers: make([]answers.Answer, len(shown)),
		Assumed: make([]Assumed, len(e.Assumed)), Doubts: make([]Doubt, len(e.Doubts)),
		AsBuilt: []AsBuilt{},
	}
	for i := range shown {
		out.Answers[i] = Answer(shown[i])
	}
	for i, a := range e.Assumed {
		out.Assumed[i] = Assumed{What: a.What, Value: a.Value, Why: a.Why, Field: a.Field}
	}
	for i := range e.Doubts {
		d := &e.Doubts[i]
		out.Doubts[i] = Doubt{
			ID: d.ID, What: d.What, Low: Round(d.Low), Likely: Round(d.Likely), High: Round(d.High),
			Unit: siUnit(d.Unit), Text: DoubtText(d, e.Units), Why: d.Why, Settle: d.Settle, Line: d.Pos.Line,
		}
	}
	for _, o := range e.Design.Overrides() {
		out.AsBuilt = append(out.AsBuilt, AsBuilt{Field: o.Path, Planned: o.Planned, Measured: o.Measured, Line: o.Pos.Line})
	}
	return out
}

func siUnit(u enclosure.Unit) string {
	switch u {
	case enclosure.Metres, enclosure.Bore:
		return "m"
	case enclosure.Degrees:
		return "C"
	case enclosure.PerDay:
		return "m/s"
	}
	return ""
}

// Answer returns an answer with its numbers rounded. The last digits of a
// double differ from one processor family to another and mean nothing here.
func Answer(a answers.Answer) answers.Answer {
	a.Figures = append([]answers.Figure{}, a.Figures...) // never null
	for i := range a.Figures {
		f := &a.Figures[i]
		f.Low, f.Likely, f.High = Round(f.Low), Round(f.Likely), Round(f.High)
		if f.Bound != nil {
			v := Round(*f.Bound)
			f.Bound = &v
		}
	}
	a.Matters = slices.Clone(a.Matters)
	for i := range a.Matters {
		a.Matters[i].Swing = Round(a.Matters[i].Swing)
	}
	return a
}

// Round rounds to six significant figures, more than anything here is good for.
func Round(v float64) float64 {
	if v == 0 || math.IsNaN(v) || math.IsInf(v, 0) {
		return v // what is not finite is refused by the encoder
	}
	r, err := strconv.ParseFloat(strconv.FormatFloat(v, 'e', 5, 64), 64)
	if err != nil {
		return v
	}
	return r
}

// DoubtText shows a doubt as a band: "15.5 to 16.5 mm, likely 16.0 mm".
func DoubtText(d *enclosure.Doubt, sys quantity.System) string {
	low, high := d.Show(d.Low, sys), d.Show(d.High, sys)
	if _, unit, ok := cutLast(high); ok {
		if v, u, ok := cutLast(low); ok && u == unit {
			low = v
		}
	}
	return fmt.Sprintf("%s to %s, likely %s", low, high, d.Show(d.Likely, sys))
}

// cutLast cuts a text at its last blank.
func cutLast(text string) (before, after string, ok bool) {
	i := strings.LastIndexByte(text, ' ')
	if i < 0 {
		return text, "", false
	}
	return text[:i], text[i+1:], true
}
