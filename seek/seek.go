package seek

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"sync"
	"time"

	"rillwright/answers"
	"rillwright/catalogue"
	"rillwright/design"
	"rillwright/fixes"
	"rillwright/study"
)

// Problem is a design with what is open in it.
type Problem struct {
	File   string
	Data   []byte
	Design *design.Design // as read from Data, without errors
	Parts  *catalogue.Catalogue
	Curves map[string][]catalogue.Point
	Slots  []Slot
	// Check gives every answer to a text, as the command of that name does.
	Check func(text []byte) ([]answers.Answer, error)
}

// seeker is one search.
type seeker struct {
	o       Options
	r       *Result
	data    []byte
	check   func(text []byte) ([]answers.Answer, error)
	drawn   map[string]answers.Verdict // of the drawn design, by id
	base    *design.Design
	units   []unit
	cat     *catalogue.Catalogue
	curves  map[string][]catalogue.Point
	survey  *answers.Survey // of the drawn design, with all its answers read
	like    *answers.FaultSurvey
	apart   bool // see side.go
	known   map[int32]decision
	let     Let
	fates   []fate   // by number
	whys    []string // ids of answers, as fates number them
	powered bool     // some choice says what power it takes
	order   []int32  // designs, by number, in the order of the goal
}

// Seek looks for the best design. The error is of a search that cannot be begun; where
// ctx ends before all is decided, the result is the best so far, and not proven.
func Seek(ctx context.Context, p Problem, o Options) (*Result, error) {
	begin := time.Now()
	s := &seeker{o: o, data: p.Data, check: p.Check, base: p.Design, cat: p.Parts, curves: p.Curves, r: &Result{Slots: p.Slots, Because: map[string]int{}}}
	if s.o.Most <= 0 {
		s.o.Most = MostDesigns
	}
	if o.Tight {
		s.let = AllTight
	}
	if err := s.begin(p); err != nil {
		return nil, err
	}
	s.fates = make([]fate, s.r.Space)
	err := s.run(ctx)
	for err == nil && s.r.Best == nil && s.r.Proven && s.let < AllTight {
		s.relax()
		err = s.run(ctx)
	}
	s.r.Let = s.let
	s.r.Took = time.Since(begin)
	return s.r, err
}

func (s *seeker) begin(p Problem) error {
	space := 1.0
	for i := range p.Slots {
		if len(p.Slots[i].Choices) == 0 {
			return fmt.Errorf("%s: there is no choice", p.Slots[i].Word)
		}
		space *= float64(len(p.Slots[i].Choices))
	}
	switch {
	case space < 2:
		return ErrNothingOpen
	case space > mostSpace:
		return fmt.Errorf("%.0f designs are more than the %d that can be gone through: leave less open", space, mostSpace)
	}
	s.r.Space = int(space)
	e := resolved(p.Design, p.Parts, p.Curves)
	if e == nil {
		return fmt.Errorf("%s: the drawn design has errors: see what check says", p.File)
	}
	var err error
	if s.survey, err = answers.NewSurvey(e); err != nil {
		return err
	}
	s.survey.All(p.Parts) // so that all measures are known to Again
	if rep, err := s.survey.Floods(answers.FaultOptions{Brief: true, NoLines: true}); err == nil {
		s.like = rep.Survey
	}
	list, err := p.Check(p.Data)
	if err != nil {
		return err
	}
	s.drawn = map[string]answers.Verdict{}
	for i := range list {
		s.drawn[list[i].ID] = list[i].Verdict
	}
	s.apart, s.known = apart(e), map[int32]decision{}
	if s.units, err = units(p.File, p.Data, p.Design, p.Slots); err != nil {
		return err
	}
	s.sort()
	return nil
}

// choice returns the choices of a design by its number.
func (s *seeker) choice(n int32, into []int) []int {
	rest := int(n)
	for i := len(s.r.Slots) - 1; i >= 0; i-- {
		c := len(s.r.Slots[i].Choices)
		into[i] = rest % c
		rest /= c
	}
	return into
}

// sums are what is known of a design before anything is computed.
func (s *seeker) sums(choice []int) (f Found) {
	f.Known = true
	for i, k := range choice {
		c := &s.r.Slots[i].Choices[k]
		f.Cost += c.Cost
		f.Known = f.Known && c.Known
		f.Memory = f.Memory || c.Memory
		f.Power += c.Power
		if c.Trip {
			f.Buys++
		}
	}
	return f
}

// sort puts the designs in the order of the goal, of equal ones those with less changed
// first.
func (s *seeker) sort() {
	s.powered = slices.ContainsFunc(s.r.Slots, func(t Slot) bool {
		return slices.ContainsFunc(t.Choices, func(c fixes.Instead) bool { return c.Power > 0 })
	})
	n := s.r.Space
	type key struct{ first, cost float64 }
	keys := make([]key, n)
	s.order = make([]int32, n)
	choice := make([]int, len(s.r.Slots))
	for i := range n {
		s.order[i] = int32(i)
		f := s.sums(s.choice(int32(i), choice))
		k := key{cost: f.Cost}
		switch s.o.Goal {
		case LeastPower:
			k.first = s.power(&f)
		case FewestBuys:
			k.first = float64(f.Buys)
		case Cheapest, Quietest:
		}
		keys[i] = k
	}
	slices.SortFunc(s.order, func(a, b int32) int {
		return cmp.Or(cmp.Compare(keys[a].first, keys[b].first), cmp.Compare(keys[a].cost, keys[b].cost), cmp.Compare(a, b))
	})
}

// power is what a design's pumps take, W: where some choice says it, what is not known is
// not the least.
func (s *seeker) power(f *Found) float64 {
	if f.Power == 0 && s.powered {
		return math.Inf(1)
	}
	return f.Power
}

// fate is what became of a design, 0 while that is not known: 1 and the stage.
type fate struct {
	stage, verdict uint8
	why            int16 // in whys; -1 for none
}

// relax lets more pass: what was left out by an answer that now may be so is to be looked
// at again.
func (s *seeker) relax() {
	s.let++
	clear(s.known)
	for i := range s.fates {
		f := &s.fates[i]
		if f.why >= 0 && answers.Verdict(f.verdict) <= s.may(s.whys[f.why], Stage(f.stage-1) < Faulty) {
			s.r.Decided--
			s.r.Out[f.stage-1]--
			s.r.Because[s.whys[f.why]]--
			*f = fate{}
		}
	}
}

// decide notes what became of a design.
func (s *seeker) decide(n int32, d *decision) {
	s.r.Decided++
	s.r.Out[d.stage]++
	f := fate{stage: uint8(d.stage) + 1, verdict: uint8(d.verdict), why: -1}
	if d.because != "" {
		s.r.Because[d.because]++
		k := slices.Index(s.whys, d.because)
		if k < 0 {
			k, s.whys = len(s.whys), append(s.whys, d.because)
		}
		f.why = int16(k)
	}
	s.fates[n] = f
}

// chunk is how many designs are decided before the next look at whether one holds. It
// is the same on every machine, so that what is counted is too.
const chunk = 64

// run decides designs in order until the best is known. Where all of them must be looked
// at, faults are followed only through those that would be best.
func (s *seeker) run(ctx context.Context) error {
	workers := max(1, s.o.Workers)
	judges := make([]judge, workers)
	for i := range judges {
		judges[i] = judge{s: s, near: [2]*study.State{s.survey.Likely, s.survey.Open()}}
	}
	whole := s.o.Front || s.o.Goal == Quietest
	decided := make([]decision, chunk)
	var stand []Found // as far as their water goes
	var next []int32
	for at := 0; at < len(s.order) && s.r.Decided+len(stand) < s.o.Most; {
		next = next[:0]
		for ; at < len(s.order) && len(next) < min(chunk, s.o.Most-s.r.Decided-len(stand)); at++ {
			if n := s.order[at]; s.fates[n].stage == 0 {
				next = append(next, n)
			}
		}
		var wg sync.WaitGroup
		for w := range workers {
			wg.Go(func() {
				choice := make([]int, len(s.r.Slots))
				for i := w; i < len(next) && ctx.Err() == nil; i += workers {
					decided[i] = judges[w].water(s.choice(next[i], choice))
				}
			})
		}
		wg.Wait()
		for i, n := range next {
			if ctx.Err() != nil {
				break
			}
			d := &decided[i]
			f := s.found(n, d)
			if d.stage == Faulty && whole {
				stand = append(stand, f)
				continue
			}
			if d.stage == Faulty {
				if err := s.faults(ctx, &f, d); err != nil && ctx.Err() == nil {
					return err
				}
				if ctx.Err() != nil {
					break
				}
			}
			s.decide(n, d)
			s.remember(n, d)
			if d.stage == Held {
				s.r.Best, s.r.Proven = &f, true
				return nil
			}
		}
		if ctx.Err() != nil {
			break
		}
		if s.o.Progress != nil {
			s.o.Progress(s.r.Decided+len(stand), min(s.r.Space, s.o.Most))
		}
	}
	s.r.Proven = s.r.Decided+len(stand) == s.r.Space
	if !s.r.Proven && s.o.Goal == Cheapest {
		for _, n := range s.order {
			if s.fates[n].stage == 0 {
				f := s.sums(s.choice(n, make([]int, len(s.r.Slots))))
				s.r.Least = f.Cost
				break
			}
		}
	}
	if whole {
		return s.choose(ctx, stand)
	}
	return nil
}

// choose finds the best of designs that stand as far as their water goes, and the front.
func (s *seeker) choose(ctx context.Context, stand []Found) error {
	try := func(f *Found) (bool, error) {
		if k := s.fates[f.number].stage; k > 0 {
			return Stage(k-1) == Held, nil
		}
		d := decision{}
		if err := s.faults(ctx, f, &d); err != nil {
			return false, err
		}
		s.decide(f.number, &d)
		return d.stage == Held, nil
	}
	if s.o.Front {
		slices.SortStableFunc(stand, func(a, b Found) int {
			return cmp.Or(cmp.Compare(a.Cost, b.Cost), cmp.Compare(b.Margin, a.Margin))
		})
		most := math.Inf(-1)
		for i := range stand {
			f := &stand[i]
			if f.Margin <= most+1e-9 {
				continue
			}
			switch held, err := try(f); {
			case ctx.Err() != nil:
				s.r.Proven = false
				return nil
			case err != nil:
				return err
			case held:
				most = f.Margin
				s.r.Front = append(s.r.Front, *f)
			}
		}
		if len(s.r.Front) > 0 && s.o.Goal == Cheapest {
			s.r.Best = &s.r.Front[0]
			return nil
		}
	}
	slices.SortStableFunc(stand, func(a, b Found) int { return s.compare(&a, &b) })
	for i := range stand {
		switch held, err := try(&stand[i]); {
		case ctx.Err() != nil:
			s.r.Proven = false
			return nil
		case err != nil:
			return err
		case held:
			s.r.Best = &stand[i]
			return nil
		}
	}
	return nil
}

// compare puts designs in the order of the goal.
func (s *seeker) compare(a, b *Found) int {
	first := 0
	switch s.o.Goal {
	case LeastPower:
		first = cmp.Compare(s.power(a), s.power(b))
	case FewestBuys:
		first = cmp.Compare(a.Buys, b.Buys)
	case Quietest:
		first = cmp.Compare(a.Noise, b.Noise)
	case Cheapest:
	}
	return cmp.Or(first, cmp.Compare(a.Cost, b.Cost))
}

func (s *seeker) found(n int32, d *decision) Found {
	choice := s.choice(n, make([]int, len(s.r.Slots)))
	f := s.sums(choice)
	f.Choice, f.Margin, f.Near, f.Noise, f.number = choice, d.margin, d.near, d.noise, n
	return f
}
