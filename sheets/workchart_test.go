package sheets

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"rillwright/drawing"
	"rillwright/examples"
	"rillwright/works"

	"pgregory.net/rapid"
)

// frameOf is the frame of a chart's days.
func frameOf(t testing.TB, s *drawing.Sheet) drawing.Box {
	t.Helper()
	var out drawing.Box
	for _, i := range s.Items {
		if p, ok := i.(*drawing.Path); ok && p.Closed && p.Pen == drawing.Medium && p.Fill == drawing.NoFill {
			out = drawing.BoundsOf(p.Points) // the last one lies over the bars
		}
	}
	return out
}

// The chart of both demos on either paper and on a sheet of its own: every step is
// named, no words over words, and what is solid lies where the plan has it.
func TestPlanChart(t *testing.T) {
	for name, file := range map[string][]byte{"corridor-cabinet": examples.CorridorCabinet, "counter-wall": examples.CounterWall} {
		e, w, lines := planned(t, file)
		whole := WholePlanChart(e, w, lines, print4(drawing.A4()))
		golden(t, name+"-plan", written(t, whole))
		for _, p := range papers {
			list := PlanChart(e, w, lines, print4(p))
			drawing.Number(list)
			for i := range list {
				written(t, list[i])
			}
			if len(list) > 2 {
				t.Errorf("%s takes %d sheets of %s", name, len(list), p.Name)
			}
			for _, all := range []string{texts(list), texts([]drawing.Sheet{whole})} {
				for i := range lines {
					for word := range strings.FieldsSeq(lines[i].Say) {
						if !strings.Contains(all, word) {
							t.Errorf("%s: no %q of %s", name, word, lines[i].ID)
						}
					}
				}
			}
		}
		// Days from the frame alone: it begins on the Monday before the first step.
		frame := frameOf(t, &whole)
		first := int(lines[0].Start.Day()) - lines[0].Start.Day().Weekday()
		perDay := 0.0
		var solid []float64
		for _, i := range whole.Items {
			p, ok := i.(*drawing.Path)
			if !ok {
				continue
			}
			b := drawing.BoundsOf(p.Points)
			switch {
			case p.Pen == drawing.LongDashes:
				perDay = (b.Left - frame.Left) / (float64(w.Project.Deadline)/1440 - float64(first))
			case p.Fill == drawing.Solid && b.Bottom <= frame.Bottom:
				solid = append(solid, b.Left)
			}
		}
		var want []float64
		for i := range lines {
			if !lines[i].Comes {
				for _, piece := range lines[i].Pieces {
					want = append(want, frame.Left+perDay*(float64(piece.From)/1440-float64(first)))
				}
			}
		}
		if len(solid) != len(want) {
			t.Fatalf("%s: %d bars for %d sittings", name, len(solid), len(want))
		}
		for i := range want {
			if math.Abs(solid[i]-want[i]) > 0.05 {
				t.Errorf("%s: bar %d begins at %.2f mm, not %.2f", name, i, solid[i], want[i])
			}
		}
	}
}

// Whatever the plan, each day of each step is on one sheet, days are wide enough, and
// no words lie over others.
func TestPlanChartOfAnyPlan(t *testing.T) {
	e, w, demo := planned(t, examples.CorridorCabinet)
	rapid.Check(t, func(rt *rapid.T) {
		lines := slices.Clone(demo[:1])[:0]
		n, span := rapid.IntRange(1, 60).Draw(rt, "steps"), rapid.IntRange(1, 400*1440).Draw(rt, "span")
		for i := range n {
			l := demo[i%len(demo)]
			l.ID = fmt.Sprint(i)
			l.Say = strings.Join(rapid.SliceOfN(rapid.StringMatching(`[a-zA-Z]{1,20}`), 1, 12).Draw(rt, "say"), " ")
			l.Start = demo[0].Start.Day().At(rapid.IntRange(0, span).Draw(rt, "start"))
			l.End = l.Start.Day().At(l.Start.Minute() + rapid.IntRange(0, 3000).Draw(rt, "work"))
			l.Finish = l.End.Day().At(l.End.Minute() + rapid.IntRange(0, span).Draw(rt, "wait"))
			l.Pieces = append(l.Pieces[:0:0], l.Pieces...)
			for k := range l.Pieces {
				l.Pieces[k].From, l.Pieces[k].To = l.Start, l.End
			}
			l.Comes, l.Sets, l.Done = l.Comes && i < 12, rapid.Bool().Draw(rt, "sets"), rapid.Bool().Draw(rt, "done")
			lines = append(lines, l)
		}
		p := print4(papers[rapid.IntRange(0, 1).Draw(rt, "paper")])
		list := PlanChart(e, w, lines, p)
		for i := range list {
			written(t, list[i])
		}
		written(t, WholePlanChart(e, w, lines, p))
		c := newWorkChart(e, w, lines, p)
		seen := map[[2]int]int{}
		pages := c.layout(p.Paper)
		for _, page := range pages {
			room := c.room(p.Paper)
			if (room.Right-room.Left-chartNames)/float64(page.days) < leastDay-1e-9 {
				rt.Fatalf("%d days on a sheet", page.days)
			}
			for _, r := range page.rows {
				for d := page.from; d < page.from+page.days; d++ {
					seen[[2]int{r, d}]++
				}
			}
		}
		for i := range lines {
			for d := int(lines[i].Start.Day()); d <= int(lines[i].Finish.Day()); d++ {
				if seen[[2]int{i, d}] != 1 {
					rt.Fatalf("day %d of step %d is on %d sheets", d, i, seen[[2]int{i, d}])
				}
			}
		}
	})
}

func BenchmarkPlanChart(b *testing.B) {
	e, w, lines := planned(b, examples.CorridorCabinet)
	var list []works.Line
	list = append(list, lines...)
	for b.Loop() {
		PlanChart(e, w, list, print4(drawing.A4()))
	}
}
