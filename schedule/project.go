package schedule

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"rillwright/quantity"
)

// Lasting is a length of time known roughly, s.
type Lasting = quantity.Band[quantity.Duration]

// Cause is what must be over before a task begins.
type Cause struct {
	Task string
	Work bool // its work suffices; its waiting may go on
}

// Need is what a task takes up while it is worked on.
type Need struct {
	Resource string
	Count    int // 0 counts as 1
}

// Task is a step of a project.
type Task struct {
	ID    string
	After []Cause
	Work  Lasting // hands-on, in the hours of all it needs; without needs by day and night
	// Wait follows the work without a break: cure, drying, delivery. A task with causes that has
	// no work and needs nothing goes by itself: it begins as soon as they are over,
	// before Now as well, whether or not it is marked.
	Wait     Lasting
	Needs    []Need
	Whole    bool   // the work must be done in one sitting
	Earliest Moment // it may not begin before; 0 is no bound
}

// Resource is somebody or something that tasks need.
type Resource struct {
	Name  string
	Hours Calendar
	Count int // how many there are; 0 for as many as are wanted
}

// Done is what has happened to a task.
type Done struct {
	Task  string
	Start Moment
	End   Moment // of the work; ignored while under way
	Under bool   // begun, not ended
	// Over is when its waiting was taken as over; 0 for as long as it is planned.
	Over Moment
}

// Project is what is to be planned.
type Project struct {
	Tasks     []Task
	Resources []Resource
	Start     Moment // nothing begins before
	Now       Moment // no work that is not done is planned before; what is done lies before; 0 is Start
	Deadline  Moment // the end that is wanted; 0 for none
	Done      []Done
}

// ErrInput is wrapped by every error about a project.
var ErrInput = errors.New("cannot be planned")

// CycleError says that tasks wait for each other in a ring.
type CycleError struct {
	Tasks []string // each waits for the one before it, the first for the last
}

func (e *CycleError) Error() string {
	return fmt.Sprintf("%s wait for each other in a ring: take one cause out", strings.Join(e.Tasks, " -> ")+" -> "+e.Tasks[0])
}

// Unwrap returns ErrInput.
func (e *CycleError) Unwrap() error { return ErrInput }

// TaskError says what is wrong with one task, or with one resource.
type TaskError struct {
	Kind Kind
	Task string // or the name of the resource
	Say  string
	// Cause is what comes before it, of errors BeforeCause.
	Cause string
}

// Kind tells errors of tasks apart.
type Kind int

// What may be wrong with a task.
const (
	BadFigures  Kind = iota // bands that do not rise, hours outside the day, two of a name
	Unknown                 // a name that no task or resource has
	BeforeCause             // done, or begun, before a cause was over
	InFuture                // done after now
	NeverFits               // no hours, or too few in one sitting
)

func (e *TaskError) Error() string { return e.Task + ": " + e.Say }

// Unwrap returns ErrInput.
func (e *TaskError) Unwrap() error { return ErrInput }

// minutes rounds seconds up to minutes; what is left of a rounding error is none.
func minutes(d quantity.Duration) Moment { return Moment(math.Ceil(float64(d)/60 - 1e-6)) }

const mostMinutes = 50 * 366 * DayMinutes

func lastingFault(name string, l Lasting) string {
	if !(l.Low >= 0 && l.Low <= l.Likely && l.Likely <= l.High) {
		return name + " must rise from 0 or more: give low, likely and high"
	}
	if float64(l.High) > mostMinutes*60 {
		return name + " is over 50 years"
	}
	return ""
}

// checked gathers everything that is wrong with the figures and names.
func (n *net) checked(p *Project) error {
	var errs []error
	fault := func(k Kind, task, say string, args ...any) {
		errs = append(errs, &TaskError{Kind: k, Task: task, Say: fmt.Sprintf(say, args...)})
	}
	for i, r := range p.Resources {
		if _, twice := n.resource[r.Name]; twice {
			fault(BadFigures, r.Name, "two resources have this name")
		}
		n.resource[r.Name] = i
		if r.Count < 0 {
			fault(BadFigures, r.Name, "there cannot be %d of it", r.Count)
		}
		if h, bad := badHours(r.Hours); bad {
			fault(BadFigures, r.Name, "hours from minute %d to %d: write 0 <= from < to <= 1440", h.From, h.To)
		}
	}
	for i, t := range p.Tasks {
		if _, twice := n.index[t.ID]; twice {
			fault(BadFigures, t.ID, "two tasks have this name")
		}
		n.index[t.ID] = i
	}
	for i, t := range p.Tasks {
		for _, f := range []string{lastingFault("work", t.Work), lastingFault("waiting", t.Wait)} {
			if f != "" {
				fault(BadFigures, t.ID, "%s", f)
			}
		}
		for _, c := range t.After {
			j, ok := n.index[c.Task]
			if !ok {
				fault(Unknown, t.ID, "its cause %q is no task", c.Task)
				continue
			}
			n.after[i] = append(n.after[i], link{j, c.Work})
			n.next[j] = append(n.next[j], link{i, c.Work})
		}
		for _, need := range t.Needs {
			k, ok := n.resource[need.Resource]
			switch {
			case !ok:
				fault(Unknown, t.ID, "it needs %q, which is no resource", need.Resource)
			case need.Count < 0 || p.Resources[k].Count > 0 && need.Count > p.Resources[k].Count:
				fault(NeverFits, t.ID, "it needs %d of %s and there are %d", need.Count, need.Resource, p.Resources[k].Count)
			}
		}
	}
	return errors.Join(errs...)
}

func badHours(c Calendar) (Hours, bool) {
	wrong := func(hours []Hours) (Hours, bool) {
		for _, h := range hours {
			if h.From < 0 || h.From >= h.To || h.To > DayMinutes {
				return h, true
			}
		}
		return Hours{}, false
	}
	for _, w := range c.Week {
		if h, bad := wrong(w); bad {
			return h, true
		}
	}
	var first Day
	found := false
	for d, hours := range c.Days {
		if _, bad := wrong(hours); bad && (!found || d < first) {
			first, found = d, true
		}
	}
	if found {
		return wrong(c.Days[first])
	}
	return Hours{}, false
}
