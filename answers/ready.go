package answers

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"rillwright/enclosure"
	"rillwright/quantity"
	"rillwright/schedule"
	"rillwright/study"
	"rillwright/works"
)

// readyDraws is how many ends of a plan are drawn for its band, and readySeed what
// they start from: any would do.
const (
	readyDraws = 200
	readySeed  = 1
)

// Steps at which water comes, by their rules.
const (
	firstWater = "leak-test"
	runs       = "wet-run"
)

// Plan is the order of work of a design with what is drawn of it.
type Plan struct {
	Work    *works.Work
	Likely  *schedule.Plan
	Chances *schedule.Chances
	Joints  study.Joints
	Today   schedule.Day // 0 if it is not known
	// Counted says that the file gives no date at all, so that days are counted from
	// the first, which is taken to be a Monday.
	Counted bool
}

// aMonday is the first day of a plan without dates: 1970-01-05.
const aMonday = 4

// PlanOf plans a design whose joints are known; today is that of works.Plan.
func PlanOf(e *enclosure.Enclosure, joints study.Joints, today schedule.Day) (*Plan, error) {
	p := &Plan{Joints: joints, Today: today}
	b := &e.Design.Budget
	if !b.Start.Given() && len(e.Design.Done) == 0 {
		switch {
		case !b.Deadline.Given():
			p.Counted, today = true, aMonday
		case today == 0:
			return nil, fmt.Errorf("answers: line %d: there is a deadline and no first day: write budget.start", b.Deadline.Pos.Line)
		}
	}
	var err error
	if p.Work, err = works.Plan(e, joints, today); err != nil {
		return nil, fmt.Errorf("answers: %w", err)
	}
	if p.Likely, err = p.Work.Make(0); err != nil {
		return nil, fmt.Errorf("answers: %w", err)
	}
	return p, nil
}

// Ready answers when water may go in and when all is done, with the plan that it is
// taken from, nil if the design cannot be planned. today is that of works.Plan.
func (s *Survey) Ready(today schedule.Day) (Answer, *Plan) {
	p, err := PlanOf(s.E, study.SealedJoints(s.E, s.glass()), today)
	if err != nil {
		a := Answer{ID: "ready", Question: readyQuestion, Figures: []Figure{}, Verdict: Unknown}
		a.Say = "Not known yet. It cannot be planned: " + strings.ReplaceAll(strings.TrimPrefix(err.Error(), "answers: "), "\n", "; ")
		return a, nil
	}
	a := p.Answer(s.E)
	if a.Verdict != Unknown {
		p.matters(&a)
	}
	return a, p
}

const readyQuestion = "When may water go in, and when is it done?"

// Answer is that of Ready without what matters.
func (p *Plan) Answer(e *enclosure.Enclosure) Answer {
	a := Answer{ID: "ready", Question: readyQuestion, Figures: []Figure{}, Key: 1}
	w := p.Work
	tasks := []string{p.step(firstWater), p.step(runs)}
	var err error
	if p.Chances, err = schedule.Draw(w.Project, readyDraws, readySeed, tasks...); err != nil {
		a.Verdict, a.Say = Unknown, "Not known yet. "+err.Error()
		return a
	}
	deadline := w.Project.Deadline
	all := p.band(p.Chances.Finishes, p.Likely.Finish)
	f := dayFigure("from the first day to the end", all, w.Project.Start)
	if deadline != 0 {
		f = bounded(f, days(deadline-w.Project.Start))
	}
	a.Figures = append(a.Figures, f, p.dateFigure("the end", all))
	for i, name := range []string{"first water, for the leak test", "water runs, over the bare frame"} {
		if it := p.item(tasks[i]); it != nil {
			b := [3]schedule.Moment{it.Start, it.Start, it.Start}
			if !it.Done && !it.Under {
				b = p.band(p.Chances.Starts[i], it.Start)
			}
			a.Figures = append(a.Figures, p.dateFigure(name, b))
		}
	}
	p.slowest(&a, e)
	p.judge(&a, all)
	p.notes(&a)
	return a
}

// slowest names the joint that lets water in last.
func (p *Plan) slowest(a *Answer, e *enclosure.Enclosure) {
	var by *works.Thing
	for _, kind := range []string{"joints", "dam"} {
		for i := range p.Work.Things[kind] {
			if t := &p.Work.Things[kind][i]; t.Clock != nil && (by == nil || t.Clock.Water.Likely > by.Clock.Water.Likely) {
				by = t
			}
		}
	}
	if by == nil {
		return
	}
	a.Limiting = "the joint " + by.By
	b := quantity.Band[quantity.Duration]{Low: by.Clock.Water.Low, Likely: by.Clock.Water.Likely, High: by.Clock.Water.High}
	a.Figures = append(a.Figures, figure("slowest joint, "+by.By+", from its last bead to water", b, e.Units))
}

// judge holds the end against the deadline.
func (p *Plan) judge(a *Answer, all [3]schedule.Moment) {
	first := ""
	if it := p.item(p.step(firstWater)); it != nil {
		first = fmt.Sprintf("Water may go in for the leak test on %s, as is likely. ", p.day(it.Start))
		if it.Done || it.Under {
			first = fmt.Sprintf("Water first went in on %s. ", p.day(it.Start))
		}
	}
	deadline := p.Work.Project.Deadline
	if deadline == 0 {
		a.Limit.Mark = "no deadline is given"
		a.Say = first + fmt.Sprintf("All is done on %s, as is likely.", p.day(all[1]))
		if p.Counted {
			a.Cautions = append(a.Cautions, "The file gives no first day: it is taken to be a Monday, and days are counted from it. Write budget.start.")
		}
		a.Cautions = append(a.Cautions, "The file gives no deadline: write budget.deadline to see whether it is met.")
		return
	}
	a.Limit = Limit{Text: "done by " + deadline.Day().Named(), Mark: "your deadline"}
	a.Score = days(deadline - all[1])
	a.Margin = daysText(int(math.Floor(days(deadline-all[1])))) + " left, as is likely"
	switch {
	case p.Likely.Late > 0:
		late := daysText(int(math.Ceil(days(p.Likely.Late))))
		a.Verdict, a.Margin = Fails, late+" missing, as is likely"
		a.Say = fmt.Sprintf("Not by the deadline. %sAll is likely done on %s, %s after the deadline.", first, p.day(all[1]), late)
		if best, err := p.Work.Make(-1); err == nil && best.Late > 0 {
			a.Cautions = append(a.Cautions, fmt.Sprintf("As things stand the deadline cannot be met: with every step at its shortest all is done %s after it.", daysText(int(math.Ceil(days(best.Late))))))
		}
	case all[2] > deadline:
		a.Verdict = Tight
		a.Say = fmt.Sprintf("Likely. %sAll is likely done on %s, but one time in ten only after %s, and the deadline is before that.", first, p.day(all[1]), p.day(all[2]))
	default:
		a.Say = fmt.Sprintf("Yes. %sAll is done on %s, as is likely.", first, p.day(all[1]))
	}
}

// notes tells what was taken, what was cut short and what comes after.
func (p *Plan) notes(a *Answer) {
	for _, c := range p.Work.Short(p.Likely) {
		a.raise(Tight, fmt.Sprintf("%s stood %s less than is wanted before %s was begun: look at it again before you go on.", upperFirst(c.Task), daysText(int(math.Ceil(days(c.Short)))), c.By), 0)
	}
	for i := range p.Work.Later {
		l := &p.Work.Later[i]
		a.Cautions = append(a.Cautions, fmt.Sprintf("After that: %s, %.0f to %.0f days.", l.Say, float64(l.Task.Wait.Low)/86400, float64(l.Task.Wait.High)/86400))
	}
	if len(p.Work.Assumed) > 0 {
		a.Cautions = append(a.Cautions, "Taken: "+strings.Join(p.Work.Assumed, "; ")+".")
	}
}

// matters tells which steps move the end most, from their low to their high end.
func (p *Plan) matters(a *Answer) {
	var wide []int // those on the way to the end, the least known first
	width := func(i int) quantity.Duration {
		t := &p.Work.Project.Tasks[i]
		return t.Work.High - t.Work.Low + t.Wait.High - t.Wait.Low
	}
	for _, id := range p.Likely.Chain() {
		if i := p.index(id); !p.Likely.Items[i].Done && width(i) > 0 {
			wide = append(wide, i)
		}
	}
	slices.SortStableFunc(wide, func(a, b int) int { return cmp.Compare(width(b), width(a)) })
	for _, i := range wide[:min(len(wide), 8)] {
		t := p.Work.Project.Tasks[i]
		var end [2]schedule.Moment
		ok := true
		for k, high := range []bool{false, true} {
			q := *p.Work.Project
			q.Tasks = append([]schedule.Task(nil), q.Tasks...)
			x := t
			x.Work.Likely, x.Wait.Likely = t.Work.Low, t.Wait.Low
			if high {
				x.Work.Likely, x.Wait.Likely = t.Work.High, t.Wait.High
			}
			q.Tasks[i] = x
			plan, err := schedule.Make(&q, 0)
			if ok = ok && err == nil; ok {
				end[k] = plan.Finish
			}
		}
		if !ok || end[1].Day() == end[0].Day() {
			continue
		}
		s := &p.Work.Steps[i]
		m := Matter{
			What: "how long it takes: " + s.Say, Range: workRange(&t), Why: s.Rule.Mark,
			Effect: p.day(end[0]) + " to " + p.day(end[1]),
			Swing:  math.Abs(days(end[1]-end[0])) / math.Max(days(p.Likely.Finish-p.Work.Project.Start), 1),
		}
		if s.ByCure {
			m.Why, m.Settle = "the sealant of "+s.Thing.By+" in the air of the place", "a thermometer where it cures; write it as budget.workshop.air"
		}
		a.Matters = append(a.Matters, m)
	}
	rank(a.Matters)
	a.Matters = a.Matters[:min(len(a.Matters), 4)]
}

// workRange tells the band of a step, work and waiting together.
func workRange(t *schedule.Task) string {
	low, high := float64(t.Work.Low+t.Wait.Low), float64(t.Work.High+t.Wait.High)
	if high < 86400 {
		return fmt.Sprintf("%.1f to %.1f h", low/3600, high/3600)
	}
	return fmt.Sprintf("%.1f to %.1f days", low/86400, high/86400)
}

// step returns the first step of a rule, "" if there is none.
func (p *Plan) step(rule string) string {
	for i := range p.Work.Steps {
		if p.Work.Steps[i].Rule.ID == rule {
			return p.Work.Steps[i].Task.ID
		}
	}
	return ""
}

func (p *Plan) index(id string) int {
	for i := range p.Likely.Items {
		if p.Likely.Items[i].Task == id {
			return i
		}
	}
	return -1
}

func (p *Plan) item(id string) *schedule.Item {
	if i := p.index(id); i >= 0 {
		return &p.Likely.Items[i]
	}
	return nil
}

// band is the tenth and the ninetieth of a hundred moments drawn, with the likely one
// between.
func (p *Plan) band(drawn []schedule.Moment, likely schedule.Moment) [3]schedule.Moment {
	c := schedule.Chances{Finishes: drawn, Never: p.Chances.Never}
	low, ok1 := c.Quantile(0.1)
	high, ok2 := c.Quantile(0.9)
	if !ok1 || !ok2 {
		return [3]schedule.Moment{likely, likely, likely}
	}
	return [3]schedule.Moment{min(low, likely), likely, max(high, likely)}
}

func days(m schedule.Moment) float64 { return float64(m) / schedule.DayMinutes }

func daysText(n int) string {
	if n == 1 {
		return "1 day"
	}
	return fmt.Sprintf("%d days", n)
}

// dayFigure is a moment as days from another.
func dayFigure(name string, b [3]schedule.Moment, from schedule.Moment) Figure {
	f := Figure{Name: name, Unit: "days", Low: days(b[0] - from), Likely: days(b[1] - from), High: days(b[2] - from)}
	f.Text = fmt.Sprintf("%.0f to %.0f days, likely %.0f days", f.Low, f.High, f.Likely)
	return f
}

// dateFigure is a moment by its date.
func (p *Plan) dateFigure(name string, b [3]schedule.Moment) Figure {
	f := Figure{Name: name, Words: true, Text: p.day(b[1])}
	if b[0].Day() != b[2].Day() {
		f.Text += fmt.Sprintf(", eight times in ten from %s to %s", p.day(b[0]), p.day(b[2]))
	}
	return f
}

// day names the day of a moment.
func (p *Plan) day(m schedule.Moment) string {
	if p.Counted {
		return fmt.Sprintf("day %d", m.Day()-aMonday+1)
	}
	return m.Day().Named()
}
