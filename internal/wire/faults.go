package wire

import (
	"math"

	"rillwright"
	"rillwright/answers"
	"rillwright/faults"
	"rillwright/finding"
)

// Faults is what faults prints. Volumes are in m3, levels in m above the
// sump's bottom, times in s.
type Faults struct {
	Name     string           `json:"name"`
	File     string           `json:"file"`
	Findings finding.List     `json:"findings"`
	Units    string           `json:"units"`
	Verdict  answers.Verdict  `json:"verdict"`
	Answers  []answers.Answer `json:"answers"`
	FillLine FillLine         `json:"fillLine"` // without points if it was not asked for
	Courses  []Course         `json:"courses"`
	Pairs    []Pair           `json:"pairs"`
}

// FillLine is the levels between which the sump may be filled, and what each gives.
type FillLine struct {
	Lowest  float64   `json:"lowest"`
	Highest float64   `json:"highest"`
	Exists  bool      `json:"exists"` // false if no mark will do
	Points  []Reserve `json:"points"`
}

// Reserve is one level of the sump: what it holds, how long that lasts and what a flood would take.
type Reserve struct {
	Level  float64 `json:"level"`
	Volume float64 `json:"volume"`
	Lasts  float64 `json:"lasts"`
	Spill  float64 `json:"spill"`
	Free   float64 `json:"free"`
}

// Pair is two faults at once.
type Pair struct {
	What    string  `json:"what"`
	First   string  `json:"first"`
	Second  string  `json:"second"`
	Spilled float64 `json:"spilled"`
}

// Course is one fault followed through time.
type Course struct {
	ID      string    `json:"id"`
	Ended   float64   `json:"ended"`
	Why     string    `json:"why,omitempty"`
	Spilled float64   `json:"spilled"`
	Spills  []Spill   `json:"spills"`
	Events  []Event   `json:"events"`
	Stores  []Store   `json:"stores"`
	Time    []float64 `json:"time"`
}

// Spill is water that reached the floor.
type Spill struct {
	From   string  `json:"from"`
	Volume float64 `json:"volume"`
}

// Event is what happened when.
type Event struct {
	At   float64 `json:"at"`
	What string  `json:"what"`
}

// Store is one body of water through a course.
type Store struct {
	Name   string    `json:"name"`
	Begin  float64   `json:"begin"`
	End    float64   `json:"end"`
	Volume []float64 `json:"volume"` // at each time
}

// OfFaults puts what is known of a report's faults into that shape, with those of
// its answers that are shown and the courses that were followed for them.
func OfFaults(r *rillwright.Report, shown []answers.Answer, courses []Course) Faults {
	out := Faults{
		Name: r.Name, File: r.File, Findings: r.Findings, Units: r.Enclosure.Units.String(), Verdict: answers.Worst(shown),
		Answers: make([]answers.Answer, len(shown)), Courses: []Course{}, Pairs: []Pair{},
	}
	for i := range shown {
		out.Answers[i] = Answer(shown[i])
	}
	out.FillLine.Points = []Reserve{}
	l := r.Faults.Line
	if l == nil {
		l = &answers.FillLine{Highest: math.Inf(-1)}
	}
	bottom := r.Enclosure.Sump.Bottom
	out.FillLine = FillLine{Lowest: Round(l.Lowest - bottom), Exists: l.Highest >= l.Lowest, Points: []Reserve{}}
	if !math.IsInf(l.Highest, 0) {
		out.FillLine.Highest = Round(l.Highest - bottom)
	}
	for _, p := range l.Points {
		out.FillLine.Points = append(out.FillLine.Points, Reserve{Round(p.Level), Round(p.Volume), Round(p.Days), Round(p.Spill), Round(p.Free)})
	}
	for _, p := range r.Faults.Pairs {
		out.Pairs = append(out.Pairs, Pair{p.What, p.First, p.Second, Round(p.Spilled)})
	}
	out.Courses = append(out.Courses, courses...)
	return out
}

// OfCourse puts the course of a fault into that shape.
func OfCourse(f *faults.Fault, r *faults.Result) Course {
	out := Course{ID: f.ID, Ended: Round(r.Ended), Why: r.Why, Spilled: Round(r.Spilled), Spills: []Spill{}, Events: []Event{}}
	for _, s := range r.Spills {
		out.Spills = append(out.Spills, Spill{s.From, Round(s.Volume)})
	}
	for _, e := range r.Events {
		out.Events = append(out.Events, Event{Round(e.At), e.What})
	}
	for _, t := range r.Track.Time {
		out.Time = append(out.Time, Round(t))
	}
	for i, name := range r.Stores {
		s := Store{Name: name, Begin: Round(r.Begin[i]), End: Round(r.End[i])}
		for _, v := range r.Track.Volume[i] {
			s.Volume = append(s.Volume, Round(Tidy(v)))
		}
		out.Stores = append(out.Stores, s)
	}
	return out
}

// Tidy drops what is less than any arithmetic here is good for.
func Tidy(v float64) float64 {
	if math.Abs(v) < 1e-9 {
		return 0
	}
	return v
}
