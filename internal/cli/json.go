package cli

import (
	"encoding/json"
	"io"
	"math"
	"slices"
	"strconv"

	"rillwright"
	"rillwright/answers"
	"rillwright/enclosure"
	"rillwright/finding"
)

// findingsJSON is what check prints of a file that cannot be computed.
type findingsJSON struct {
	File     string       `json:"file"`
	Findings finding.List `json:"findings"`
}

// reportJSON is what check prints of one that can. Every list is there, if
// empty, and every number is finite.
type reportJSON struct {
	Name     string           `json:"name"`
	File     string           `json:"file"`
	Findings finding.List     `json:"findings"` // notes and warnings
	Units    string           `json:"units"`
	Verdict  answers.Verdict  `json:"verdict"` // the worst of the answers shown
	Answers  []answers.Answer `json:"answers"`
	Assumed  []assumedJSON    `json:"assumed"`
	Doubts   []doubtJSON      `json:"doubts"`
	AsBuilt  []asBuiltJSON    `json:"asBuilt"`
}

type assumedJSON struct {
	What  string `json:"what"`
	Value string `json:"value"`
	Why   string `json:"why"`
	Field string `json:"field"` // the key that would say it
}

// doubtJSON is a figure known as a band. Numbers are in SI, temperatures in
// degrees Celsius; the text is in the builder's units.
type doubtJSON struct {
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

type asBuiltJSON struct {
	Field    string `json:"field"`
	Planned  string `json:"planned"`
	Measured string `json:"measured"`
	Line     int    `json:"line"`
}

func toJSON(r *rillwright.Report, shown []answers.Answer) reportJSON {
	e := r.Enclosure
	out := reportJSON{
		Name: r.Name, File: r.File, Findings: r.Findings, Units: e.Units.String(),
		Verdict: answers.Worst(shown), Answers: make([]answers.Answer, len(shown)),
		Assumed: make([]assumedJSON, len(e.Assumed)), Doubts: make([]doubtJSON, len(e.Doubts)),
		AsBuilt: []asBuiltJSON{},
	}
	for i := range shown {
		out.Answers[i] = rounded(shown[i])
	}
	for i, a := range e.Assumed {
		out.Assumed[i] = assumedJSON{What: a.What, Value: a.Value, Why: a.Why, Field: a.Field}
	}
	for i := range e.Doubts {
		d := &e.Doubts[i]
		out.Doubts[i] = doubtJSON{
			ID: d.ID, What: d.What, Low: round(d.Low), Likely: round(d.Likely), High: round(d.High),
			Unit: siUnit(d.Unit), Text: doubtText(d, e.Units), Why: d.Why, Settle: d.Settle, Line: d.Pos.Line,
		}
	}
	for _, o := range e.Design.Overrides() {
		out.AsBuilt = append(out.AsBuilt, asBuiltJSON{Field: o.Path, Planned: o.Planned, Measured: o.Measured, Line: o.Pos.Line})
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

// rounded returns an answer with its numbers rounded. The last digits of a
// double differ from one processor family to another and mean nothing here.
func rounded(a answers.Answer) answers.Answer {
	a.Figures = append([]answers.Figure{}, a.Figures...) // never null
	for i := range a.Figures {
		f := &a.Figures[i]
		f.Low, f.Likely, f.High = round(f.Low), round(f.Likely), round(f.High)
	}
	a.Matters = slices.Clone(a.Matters)
	for i := range a.Matters {
		a.Matters[i].Swing = round(a.Matters[i].Swing)
	}
	return a
}

// round rounds to six significant figures, more than anything here is good for.
func round(v float64) float64 {
	if v == 0 || math.IsNaN(v) || math.IsInf(v, 0) {
		return v // what is not finite is refused by the encoder
	}
	r, err := strconv.ParseFloat(strconv.FormatFloat(v, 'e', 5, 64), 64)
	if err != nil {
		return v
	}
	return r
}

func printJSON(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(v)
}
