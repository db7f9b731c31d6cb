package answers

import (
	"errors"
	"slices"

	"rillwright/faults"
)

// FaultReport is what all faults of an enclosure come to.
type FaultReport struct {
	Survey  *FaultSurvey
	Answers []Answer
	Line    *FillLine
	// Pairs are two faults at once by what they spill likely, most first; nil
	// if they were not asked for.
	Pairs []faults.Pair
}

// FaultOptions steer Floods.
type FaultOptions struct {
	// Brief follows the faults alone that everybody asks about: a power cut,
	// blocked drains and being away, and leaves the rest out.
	Brief bool
	// NoLines leaves out the fill lines and what creeps.
	NoLines bool
	// Pairs also follows every two faults at once.
	Pairs bool
	// Progress, if given, is told what is done; calls do not overlap.
	Progress func(done, of int)
	// Stop, if given, is asked now and then; an error of it ends the work and is
	// what Floods returns.
	Stop func() error
	// Like, if given, is of nearly the same design: which end of each doubt hurts
	// is taken from it, so that only the likely case and the bad end are followed.
	// Then answers come without the doubts that matter, and where the change turned
	// a doubt round the bad end may not be the worst.
	Like *FaultSurvey
}

// Floods follows the faults of a surveyed enclosure and answers what builders
// ask about them, worst first.
func (s *Survey) Floods(o FaultOptions) (*FaultReport, error) {
	list := faults.Usual(s.E)
	if o.Brief {
		var few []faults.Fault
		for _, x := range list {
			if x.Kind == faults.PowerCut || x.Kind == faults.Blocked || x.Kind == faults.Away {
				few = append(few, x)
			}
		}
		list = few
	}
	f, err := s.faultSurvey(list, &o)
	if err != nil {
		return nil, err
	}
	out := &FaultReport{Survey: f, Answers: f.Answers()}
	if !o.Brief && !o.NoLines {
		if out.Line, err = f.FillLine(); err != nil {
			return nil, err
		}
		creep, err := walk(f.S, f.Likely())
		if err != nil {
			return nil, err
		}
		out.Answers = append(out.Answers, f.fillAnswer(out.Line), creep)
	}
	if o.Pairs {
		if out.Pairs, err = f.pairs(o.Progress); err != nil {
			return nil, err
		}
	}
	Sort(out.Answers)
	return out, nil
}

// faultSurvey follows a list of faults. Where one of nearly the same design is at
// hand that followed the same, the senses found there serve.
func (s *Survey) faultSurvey(list []faults.Fault, o *FaultOptions) (*FaultSurvey, error) {
	same := func(x, y faults.Fault) bool { return x.ID == y.ID && x.Kind == y.Kind }
	if o.Like != nil && slices.EqualFunc(list, o.Like.Faults, same) {
		return o.Like.Again(s, o.Stop)
	}
	return s.newFaultSurvey(list, o.Progress, o.Stop)
}

// Creeps answers what water may leave by itself, without following any fault.
func (s *Survey) Creeps() (Answer, error) {
	r, err := faults.NewRig(s.E, s.E.Likely())
	if err != nil {
		return Answer{}, err
	}
	return walk(s, r)
}

// pairs follows every two faults at once, likely.
func (f *FaultSurvey) pairs(progress func(done, of int)) ([]faults.Pair, error) {
	list, ids := faults.PairList(f.S.E)
	pairs := make([]faults.Pair, len(list))
	errs := make([]error, len(list))
	told := newTally(len(list), progress)
	InParallel(len(list), func(i int) {
		if errs[i] = f.stopped(); errs[i] != nil {
			return
		}
		r, err := f.Likely().Run(&list[i], faults.Options{Tolerance: coarse, NoTimers: true})
		pairs[i], errs[i] = faults.Pair{What: list[i].Name, First: ids[i][0], Second: ids[i][1], Result: r}, err
		if r != nil {
			pairs[i].Spilled = r.Spilled
		}
		told.one()
	})
	return faults.Rank(pairs), errors.Join(errs...)
}
