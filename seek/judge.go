package seek

import (
	"context"
	"errors"
	"math"
	"slices"

	"rillwright/answers"
	"rillwright/catalogue"
	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/study"
)

// judge decides about one design after the other. It belongs to one worker.
type judge struct {
	s     *seeker
	space [2]study.Workspace
	near  [2]*study.State // of the drawn design, from which every state starts
}

// decision is what became of a design.
type decision struct {
	stage   Stage
	because string          // id of the answer that it failed
	verdict answers.Verdict // of that
	margin  float64
	near    string // id of the answer whose margin that is
	noise   float64
}

// may is the worst that an answer may be: of one about the water, or to be mended, what
// is let pass; of all others what it is as drawn.
func (s *seeker) may(id string, water bool) answers.Verdict {
	strict := water || slices.Contains(s.o.Mend, id)
	switch {
	case !strict && s.let == Strict:
		return s.drawn[id]
	case !strict:
		return max(s.drawn[id], answers.Tight)
	case s.let == AsDrawn:
		return min(s.drawn[id], answers.Tight)
	case s.let == AllTight:
		return answers.Tight
	}
	return answers.Holds
}

// wanting looks for the first answer that is worse than it may be.
func (s *seeker) wanting(list []answers.Answer, water bool, d *decision) bool {
	for i := range list {
		a := &list[i]
		if a.Verdict > s.may(a.ID, water) && !slices.Contains(s.o.Leave, a.ID) {
			d.because, d.verdict = a.ID, a.Verdict
			return true
		}
	}
	return false
}

// resolve makes an enclosure of a choice, nil if its parts do not make one.
func (s *seeker) resolve(choice []int) *enclosure.Enclosure {
	d := compose(s.base, s.units, choice, s.r.Slots)
	if d == nil {
		return nil
	}
	return resolved(d, s.cat, s.curves)
}

func resolved(d *design.Design, cat *catalogue.Catalogue, curves map[string][]catalogue.Point) *enclosure.Enclosure {
	e, found := enclosure.Resolve(d, cat, curves)
	if found.HasErrors() {
		return nil
	}
	return e
}

// water decides about a design as far as its water goes.
func (j *judge) water(choice []int) (d decision) {
	if d, ok := j.s.known[j.s.supply(choice)]; ok {
		return d
	}
	e := j.s.resolve(choice)
	if e == nil {
		return decision{stage: Unjoined}
	}
	list, ok := j.likely(e)
	if !ok {
		return decision{stage: Likely}
	}
	if d.stage = Likely; j.s.wanting(list, true, &d) {
		return d
	}
	d.noise = noise(list)
	// Whichever corners these are, the bad end is no better.
	again, err := j.s.survey.Again(e, false)
	if err == nil {
		list = again.Water()
		if d.stage = Corner; again.Err() == nil && j.s.wanting(list, true, &d) {
			return d
		}
	}
	full, err := answers.NewSurvey(e)
	if err != nil {
		return decision{stage: BadEnd}
	}
	list = full.Water()
	if full.Err() != nil {
		return decision{stage: BadEnd}
	}
	if d.stage = BadEnd; j.s.wanting(list, true, &d) {
		return d
	}
	d.stage = Faulty // it is decided up to faults
	d.margin, d.near = margin(list)
	return d
}

// faults decides about a design that stands as far as its water goes: what goes wrong, by
// the ends of the doubts that hurt as drawn first, and then every other answer.
func (s *seeker) faults(ctx context.Context, f *Found, d *decision) error {
	e := s.resolve(f.Choice)
	survey, err := answers.NewSurvey(e)
	if err != nil {
		d.stage = BadEnd
		return nil
	}
	ways := []*answers.FaultSurvey{nil}
	if s.like != nil {
		ways = []*answers.FaultSurvey{s.like, nil}
	}
	for _, like := range ways {
		rep, err := survey.Floods(answers.FaultOptions{Brief: true, NoLines: true, Like: like, Stop: ctx.Err})
		if ctx.Err() != nil {
			return ctx.Err()
		}
		if err != nil {
			d.stage = Faulty
			return nil
		}
		if d.stage = Faulty; s.wanting(rep.Answers, false, d) {
			return nil
		}
	}
	return s.spoils(f, d)
}

// spoils looks at every answer of a design, as check gives them.
func (s *seeker) spoils(f *Found, d *decision) error {
	text, err := s.text(f)
	if err != nil {
		d.stage = Unjoined
		return nil
	}
	list, err := s.check(text)
	if err != nil {
		return err
	}
	f.Answers = list
	if d.stage = Spoils; s.wanting(list, false, d) {
		return nil
	}
	d.stage = Held
	return nil
}

// text is the file of a design.
func (s *seeker) text(f *Found) ([]byte, error) {
	edits, ok := s.base.Replanned(s.r.Edits(f))
	if !ok {
		return nil, errors.New("a measured fact names a piece by a number that changes")
	}
	return design.Apply(s.data, edits)
}

// likely answers about the water where nothing is in doubt.
func (j *judge) likely(e *enclosure.Enclosure) ([]answers.Answer, bool) {
	at := e.Likely()
	was := slices.Clone(e.Doubts)
	for i := range e.Doubts {
		x := &e.Doubts[i]
		x.Low, x.High = x.Likely, x.Likely
	}
	defer func() { copy(e.Doubts, was) }()
	st, err := study.Run(e, at, study.Setting{Near: j.near[0], Workspace: &j.space[0]})
	if err != nil {
		return nil, false
	}
	open := st
	if answers.Throttled(e) {
		if open, err = study.Run(e, at, study.Setting{OpenValves: true, Near: j.near[1], Workspace: &j.space[1]}); err != nil {
			return nil, false
		}
	}
	return answers.Pinned(e, st, open).Water(), true
}

// noise is the likely figure of the answer about noise.
func noise(list []answers.Answer) float64 {
	for i := range list {
		if a := &list[i]; a.ID == "quiet" && a.Key < len(a.Figures) {
			return a.Figures[a.Key].Likely
		}
	}
	return 0
}

// margin is the least share by which a figure that a verdict turns on stays clear of its
// limit at the bad end, below 0 where one is past it, with the id of its answer.
func margin(list []answers.Answer) (least float64, id string) {
	least = math.Inf(1)
	for i := range list {
		a := &list[i]
		if a.Key >= len(a.Figures) {
			continue
		}
		f := &a.Figures[a.Key]
		if f.Bound == nil || f.Words || *f.Bound == 0 {
			continue
		}
		limit := *f.Bound
		room := 1 - f.High/limit
		if f.Least {
			room = f.Low/limit - 1
		}
		if room < least {
			least, id = room, a.ID
		}
	}
	if id == "" {
		return 0, ""
	}
	return least, id
}
