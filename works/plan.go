package works

import (
	"errors"
	"fmt"
	"slices"

	"rillwright/enclosure"
	"rillwright/quantity"
	"rillwright/schedule"
	"rillwright/structure/cure"
	"rillwright/study"
)

// Shop is the resource that delivers on working days, Monday to Friday.
const Shop = "shop"

// usualDelivery is how many working days cut glass takes where the file says
// nothing. Assumed.
var usualDelivery = [3]float64{5, 8, 15}

// delivered is the step that is the coming of the glass.
const delivered = "delivery"

// Work is a design's steps and the project that they make.
type Work struct {
	Steps   []Step // in the order of the project's tasks
	Project *schedule.Project
	Later   []Step // what comes after the deadline is met: settling before animals
	Things  Things
	Air     cure.Air // in which joints cure
	Assumed []string // what was taken where the file says nothing, or only words
}

// Plan makes the project of a design by the usual rules: start, deadline, hours
// and delivery from its budget. today is the first day where the file gives none.
// A helper is taken to come whenever the builder works. Errors name the key.
func Plan(e *enclosure.Enclosure, joints study.Joints, today schedule.Day) (*Work, error) {
	b := &e.Design.Budget
	w := &Work{Project: &schedule.Project{Start: today.At(0)}}
	var errs []error
	if b.Start.Given() {
		d, err := schedule.ParseDay(b.Start.Value)
		errs = append(errs, at("budget.start", b.Start.Pos.Line, err))
		w.Project.Start = d.At(0)
	}
	if b.Deadline.Given() {
		d, err := schedule.ParseDay(b.Deadline.Value)
		errs = append(errs, at("budget.deadline", b.Deadline.Pos.Line, err))
		w.Project.Deadline = d.At(0)
	}
	hours := b.Hours.Value
	if !b.Hours.Given() {
		hours = "weekends"
		w.Assumed = append(w.Assumed, "you work at weekends: budget.hours does not say")
	}
	week, words, err := Hours(hours)
	errs = append(errs, at("budget.hours", b.Hours.Pos.Line, err))
	w.Assumed = append(w.Assumed, words...)
	air := cure.Air{Celsius: 20, Humidity: 0.5}
	if a := e.Design.Place.Air; a.Given() {
		air.Celsius = float64(a.Value.Low)
	} else {
		w.Assumed = append(w.Assumed, "joints cure at 20 C: place.air does not say")
	}
	w.Assumed = append(w.Assumed, fmt.Sprintf("joints cure at %.3g C and a humidity of 50 %%, where the enclosure will stand", air.Celsius), "a helper comes when two are wanted")
	w.Air = air
	if w.Things, err = Find(e, joints, air); err != nil {
		errs = append(errs, at("place.air", e.Design.Place.Air.Pos.Line, err))
	}
	rules, err := Read(Usual())
	errs = append(errs, err)
	delivery, calendarDays := usualDelivery, false
	if b.Delivery.Given() {
		n, working, err := Delivery(b.Delivery.Value)
		errs = append(errs, at("budget.delivery", b.Delivery.Pos.Line, err))
		delivery, calendarDays = [3]float64{float64(n), float64(n), float64(n)}, !working
	}
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	w.Steps = Steps(rules, w.Things)
	w.deliver(delivery, calendarDays, !b.Delivery.Given())
	always := schedule.Always()
	always.Week[5], always.Week[6] = nil, nil
	w.Project.Resources = []schedule.Resource{
		{Name: Builder, Hours: week, Count: 1}, {Name: Helper, Hours: week, Count: 1}, {Name: Shop, Hours: always},
	}
	w.Steps = slices.DeleteFunc(w.Steps, func(s Step) bool {
		later := s.Rule.Each == "animals" // no step waits for it
		if later {
			w.Later = append(w.Later, s)
		}
		return later
	})
	for _, s := range w.Steps {
		w.Project.Tasks = append(w.Project.Tasks, s.Task)
	}
	return w, nil
}

func at(key string, line int, err error) error {
	if err == nil {
		return nil
	}
	return fmt.Errorf("line %d, %s: %w", line, key, err)
}

// deliver puts the coming of the glass between its order and what waits for that.
func (w *Work) deliver(days [3]float64, calendar, assumed bool) {
	for i := range w.Steps {
		if w.Steps[i].Rule.ID != "order" {
			continue
		}
		band := schedule.Lasting{Low: quantity.Duration(days[0] * 86400), Likely: quantity.Duration(days[1] * 86400), High: quantity.Duration(days[2] * 86400)}
		rule := *w.Steps[i].Rule
		rule.ID, rule.Say, rule.Mark = delivered, "The glass comes", "the design file"
		rule.Why, rule.Tools, rule.Closes, rule.CleanUp, rule.Wet = "", "", "", "", false
		if assumed {
			rule.Mark = "assumed"
			w.Assumed = append(w.Assumed, fmt.Sprintf("glass comes after %g to %g working days: budget.delivery does not say", days[0], days[2]))
		}
		s := Step{Rule: &rule, Say: rule.Say}
		s.Task = schedule.Task{ID: rule.ID, After: []schedule.Cause{{Task: w.Steps[i].Task.ID}}}
		if calendar {
			s.Task.Wait = band
		} else {
			s.Task.Work, s.Task.Needs = band, []schedule.Need{{Resource: Shop}}
		}
		order := w.Steps[i].Task.ID
		for k := range w.Steps {
			for n, c := range w.Steps[k].Task.After {
				if c.Task == order {
					after := append([]schedule.Cause(nil), w.Steps[k].Task.After...)
					after[n].Task = rule.ID
					w.Steps[k].Task.After = after
				}
			}
		}
		w.Steps = append(w.Steps, s)
		return
	}
}
