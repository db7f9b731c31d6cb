package cli

import (
	"math"

	"rillwright"
	"rillwright/answers"
	"rillwright/faults"
	"rillwright/finding"
)

// faultsJSON is what faults prints. Volumes are in m3, levels in m above the
// sump's bottom, times in s.
type faultsJSON struct {
	Name     string           `json:"name"`
	File     string           `json:"file"`
	Findings finding.List     `json:"findings"`
	Units    string           `json:"units"`
	Verdict  answers.Verdict  `json:"verdict"`
	Answers  []answers.Answer `json:"answers"`
	FillLine fillLineJSON     `json:"fillLine"` // without points if it was not asked for
	Courses  []courseJSON     `json:"courses"`
	Pairs    []pairJSON       `json:"pairs"`
}

type fillLineJSON struct {
	Lowest  float64       `json:"lowest"`
	Highest float64       `json:"highest"`
	Exists  bool          `json:"exists"` // false if no mark will do
	Points  []reserveJSON `json:"points"`
}

type reserveJSON struct {
	Level  float64 `json:"level"`
	Volume float64 `json:"volume"`
	Lasts  float64 `json:"lasts"`
	Spill  float64 `json:"spill"`
	Free   float64 `json:"free"`
}

type pairJSON struct {
	What    string  `json:"what"`
	First   string  `json:"first"`
	Second  string  `json:"second"`
	Spilled float64 `json:"spilled"`
}

type courseJSON struct {
	ID      string      `json:"id"`
	Ended   float64     `json:"ended"`
	Why     string      `json:"why,omitempty"`
	Spilled float64     `json:"spilled"`
	Spills  []spillJSON `json:"spills"`
	Events  []eventJSON `json:"events"`
	Stores  []storeJSON `json:"stores"`
	Time    []float64   `json:"time"`
}

type spillJSON struct {
	From   string  `json:"from"`
	Volume float64 `json:"volume"`
}

type eventJSON struct {
	At   float64 `json:"at"`
	What string  `json:"what"`
}

type storeJSON struct {
	Name   string    `json:"name"`
	Begin  float64   `json:"begin"`
	End    float64   `json:"end"`
	Volume []float64 `json:"volume"` // at each time
}

func (c *faultsCommand) toJSON(r *rillwright.Report, shown []answers.Answer, courses []course) faultsJSON {
	out := faultsJSON{
		Name: r.Name, File: r.File, Findings: r.Findings, Units: r.Enclosure.Units.String(), Verdict: answers.Worst(shown),
		Answers: make([]answers.Answer, len(shown)), Courses: []courseJSON{}, Pairs: []pairJSON{},
	}
	for i := range shown {
		out.Answers[i] = rounded(shown[i])
	}
	out.FillLine.Points = []reserveJSON{}
	l := r.Faults.Line
	if l == nil {
		l = &answers.FillLine{Highest: math.Inf(-1)}
	}
	bottom := r.Enclosure.Sump.Bottom
	out.FillLine = fillLineJSON{Lowest: round(l.Lowest - bottom), Exists: l.Highest >= l.Lowest, Points: []reserveJSON{}}
	if !math.IsInf(l.Highest, 0) {
		out.FillLine.Highest = round(l.Highest - bottom)
	}
	for _, p := range l.Points {
		out.FillLine.Points = append(out.FillLine.Points, reserveJSON{round(p.Level), round(p.Volume), round(p.Days), round(p.Spill), round(p.Free)})
	}
	for _, p := range r.Faults.Pairs {
		out.Pairs = append(out.Pairs, pairJSON{p.What, p.First, p.Second, round(p.Spilled)})
	}
	for i := range courses {
		out.Courses = append(out.Courses, courseToJSON(courses[i].fault, courses[i].result))
	}
	return out
}

func courseToJSON(f *faults.Fault, r *faults.Result) courseJSON {
	out := courseJSON{ID: f.ID, Ended: round(r.Ended), Why: r.Why, Spilled: round(r.Spilled), Spills: []spillJSON{}, Events: []eventJSON{}}
	for _, s := range r.Spills {
		out.Spills = append(out.Spills, spillJSON{s.From, round(s.Volume)})
	}
	for _, e := range r.Events {
		out.Events = append(out.Events, eventJSON{round(e.At), e.What})
	}
	for _, t := range r.Track.Time {
		out.Time = append(out.Time, round(t))
	}
	for i, name := range r.Stores {
		s := storeJSON{Name: name, Begin: round(r.Begin[i]), End: round(r.End[i])}
		for _, v := range r.Track.Volume[i] {
			s.Volume = append(s.Volume, round(tidy(v)))
		}
		out.Stores = append(out.Stores, s)
	}
	return out
}
