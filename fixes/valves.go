package fixes

import (
	"errors"
	"fmt"
	"sort"

	"rillwright/catalogue"
	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/quantity"
)

// openValves tries every part-closed valve open.
func (f *finder) openValves() []change {
	var out []change
	for i := range f.s.E.Runs {
		for k := range f.s.E.Runs[i].Pieces {
			p := &f.s.E.Runs[i].Pieces[k]
			if p.Open >= 1 {
				continue
			}
			out = append(out, change{
				do: fmt.Sprintf("open the %s in the %s fully", p.Name, f.s.E.Runs[i].Name), cost: nothing("nothing"),
				edit: fmt.Sprintf("runs[%s].pieces[%d].open: 100 %%", f.s.E.Runs[i].Name, k+1), edits: []design.Edit{put(f.piecePath(i, k)+".open", "100 %")},
				apply: func(e *enclosure.Enclosure) bool {
					e.Runs[i].Pieces[k].Open = 1
					return true
				},
			})
		}
	}
	return out
}

// throttle closes a valve until the likely flow is the one wanted.
func (f *finder) throttle() []change {
	if !f.throttlingDone {
		f.throttling, f.throttlingDone = f.findThrottle(), true
	}
	return f.throttling
}

func (f *finder) findThrottle() []change {
	target := f.s.Target()
	for i := range f.s.E.Runs {
		for k := range f.s.E.Runs[i].Pieces {
			p := &f.s.E.Runs[i].Pieces[k]
			if p.Kind != catalogue.KindValve || target <= 0 || f.s.Likely.Outlets <= target*1.02 {
				continue
			}
			open, ok := f.opening(i, k, target)
			if !ok {
				continue
			}
			text := quantity.Ratio(open).Show(f.s.E.Units)
			return []change{{
				do: fmt.Sprintf("close the %s to about %s open, until the bucket shows what you want", p.Name, text), cost: nothing("nothing"),
				edit: fmt.Sprintf("runs[%s].pieces[%d].open: %s", f.s.E.Runs[i].Name, k+1, text), edits: []design.Edit{put(f.piecePath(i, k)+".open", text)},
				apply: func(e *enclosure.Enclosure) bool {
					e.Runs[i].Pieces[k].Open = open
					return true
				},
			}}
		}
	}
	return nil
}

// opening finds the opening of a valve, from 10 % in steps of 2 %, at which the
// likely flow is nearest to the target.
func (f *finder) opening(run, piece int, target float64) (float64, bool) {
	const least, step = 5, 0.02
	var failed error
	steps := sort.Search(1/step-least, func(k int) bool {
		e := f.s.E.Clone()
		e.Runs[run].Pieces[piece].Open = (least + float64(k) + 0.5) * step
		q, err := f.s.LikelyFlow(e)
		failed = errors.Join(failed, err)
		return q > target
	})
	return float64(least+steps) * step, failed == nil && steps < 1/step-least
}
