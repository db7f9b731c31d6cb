package works

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"rillwright/enclosure"
	"rillwright/schedule"
	"rillwright/structure/cure"
	"rillwright/study"
)

// Work is a design's steps and the project that they make.
type Work struct {
	Steps   []Step // in the order of the project's tasks
	Project *schedule.Project
	Later   []Step // what comes after the deadline is met: settling before animals
	Things  Things
	Air     cure.Air // in which joints cure, as is likely
	Assumed []string // what was taken where the file says nothing, or only words

	marks map[string]mark // by task
}

// Plan makes the project of a design by the usual rules: start, deadline, hours,
// deliveries and the air for cures from its budget, what is done from its marks.
// today is the first day where the file gives none; marked steps may not lie after
// it, and what is not done is planned from it on if any is marked. Where today is not
// known, 0, it is the last day marked. Errors name line and key.
func Plan(e *enclosure.Enclosure, joints study.Joints, today schedule.Day) (*Work, error) {
	b := &e.Design.Budget
	w := &Work{Project: &schedule.Project{}}
	var errs []error
	if b.Deadline.Given() {
		d, err := schedule.ParseDay(strings.TrimSpace(b.Deadline.Value))
		errs = append(errs, at("budget.deadline", b.Deadline.Pos.Line, err))
		w.Project.Deadline = d.At(0)
	}
	if b.Start.Given() {
		d, err := schedule.ParseDay(strings.TrimSpace(b.Start.Value))
		errs = append(errs, at("budget.start", b.Start.Pos.Line, err))
		w.Project.Start = d.At(0)
	}
	w.Project.Resources = w.hours(b)
	season, key, line := w.season(e)
	w.Air = season.Likely
	var err error
	if w.Things, err = Find(e, joints, season); err != nil {
		errs = append(errs, at(key, line, err))
	}
	rules, err := Read(Table(e))
	errs = append(errs, err)
	list, err := usualGoods()
	errs = append(errs, err)
	if err := errors.Join(errs...); err != nil {
		return nil, err
	}
	w.Steps = Steps(rules, w.Things)
	season.slow(w.Steps)
	if err := w.spots(season); err != nil {
		return nil, at(key, line, err)
	}
	for _, c := range w.coming(b) {
		w.deliver(list, c)
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
	if err := w.past(e.Design, today); err != nil {
		return nil, err
	}
	if !b.Start.Given() {
		w.Project.Start = today.At(0)
		for _, d := range w.Project.Done {
			w.Project.Start = min(w.Project.Start, d.Start.Day().At(0))
		}
	}
	w.onTheWay()
	return w, nil
}

// Table returns the text of the table of steps that a design is planned by: its own,
// else the usual one.
func Table(e *enclosure.Enclosure) string {
	if e.Steps != "" {
		return e.Steps
	}
	return Usual()
}

func at(key string, line int, err error) error {
	if err == nil {
		return nil
	}
	return fmt.Errorf("line %d, %s: %w", line, key, err)
}
