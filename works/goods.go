package works

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"slices"
	"strings"

	"rillwright/design"
	"rillwright/quantity"
	"rillwright/schedule"
)

// Shop is the resource that delivers on working days, Monday to Friday.
const Shop = "shop"

// usualLead is how many working days cut glass takes where the file says nothing,
// low, likely and high. Assumed.
var usualLead = [3]float64{5, 8, 15}

// delivered is the step that something comes.
const delivered = "delivery"

// noon is when something is taken to be there that comes on a date, in minutes.
// Assumed.
const noon = 12 * 60

//go:embed goods.csv
var goods string

// Goods is something that has to come.
type Goods struct {
	Name, Say string
	Steps     []string // ids of the rules that wait for it
}

// ReadGoods reads a table of goods, whose steps are ids of rules. The error names
// the line.
func ReadGoods(text string, rules []Rule) ([]Goods, error) {
	r := csv.NewReader(strings.NewReader(text))
	r.Comment, r.FieldsPerRecord = '#', 3
	rows, err := r.ReadAll()
	if err != nil {
		return nil, fmt.Errorf("goods: %w", err)
	}
	var out []Goods
	for i, rec := range rows {
		if i == 0 {
			if !slices.Equal(rec, []string{"goods", "say", "steps"}) {
				return nil, fmt.Errorf("goods: the first line must be goods,say,steps")
			}
			continue
		}
		g := Goods{rec[0], rec[1], strings.Fields(rec[2])}
		for _, id := range g.Steps {
			if !slices.ContainsFunc(rules, func(u Rule) bool { return u.ID == id }) {
				return nil, fmt.Errorf("goods: %s is for %q, which is no step", g.Name, id)
			}
		}
		out = append(out, g)
	}
	return out, nil
}

// usualGoods are those of the table here. Steps that a table of the builder's has not
// wait for nothing.
func usualGoods() ([]Goods, error) {
	rules, err := Read(Usual())
	if err != nil {
		return nil, err
	}
	return ReadGoods(goods, rules)
}

// come is one delivery, as the file has it or as is assumed.
type come struct {
	what string
	days [3]float64 // from the order; none if on is given
	work bool       // working days
	on   schedule.Day
	line int // 0 if it is assumed
}

// coming lists what has to come; dates that cannot be read are left out, since
// reading the file has said so.
func (w *Work) coming(b *design.Budget) []come {
	var out []come
	glass := false
	lead := func(what string, l design.Lead, line int) {
		c := come{what: what, work: l.Working, line: line}
		c.days = [3]float64{float64(l.Low), float64(l.Low+l.High) / 2, float64(l.High)}
		out = append(out, c)
		glass = glass || what == "glass"
	}
	if b.Delivery.Given() {
		lead("glass", b.Delivery.Value, b.Delivery.Pos.Line)
	}
	for i := range b.Comes {
		d := &b.Comes[i]
		if d.Takes.Given() {
			lead(d.What.Value, d.Takes.Value, d.Pos.Line)
			continue
		}
		if on, err := schedule.ParseDay(strings.TrimSpace(d.On.Value)); err == nil {
			out = append(out, come{what: d.What.Value, on: on, line: d.Pos.Line})
			glass = glass || d.What.Value == "glass"
			w.take(fmt.Sprintf("what comes on a date is there from %d:00", noon/60))
		}
	}
	if !glass && slices.ContainsFunc(w.Steps, func(s Step) bool { return s.Rule.ID == "order" }) {
		out = append(out, come{what: "glass", days: usualLead, work: true})
		w.take(fmt.Sprintf("glass comes after %g to %g working days: budget.deliveries does not say", usualLead[0], usualLead[2]))
	}
	return out
}

// deliver makes a step of what comes and lets those steps wait for it that need it.
func (w *Work) deliver(list []Goods, c come) {
	k := slices.IndexFunc(list, func(g Goods) bool { return g.Name == c.what })
	if k < 0 {
		return
	}
	g := &list[k]
	rule := Rule{ID: delivered, Each: "build", Say: g.Say, Hands: 1, Mark: "the design file"}
	if c.line == 0 {
		rule.Mark = "assumed"
	}
	s := Step{Rule: &rule, Say: rule.Say, Task: schedule.Task{ID: rule.ID}}
	if c.what != "glass" {
		s.Task.ID += ": " + c.what
	}
	band := schedule.Lasting{Low: quantity.Duration(c.days[0] * 86400), Likely: quantity.Duration(c.days[1] * 86400), High: quantity.Duration(c.days[2] * 86400)}
	switch {
	case c.on != 0:
		s.Task.Earliest = c.on.At(noon)
	case c.work:
		s.Task.Work, s.Task.Needs = band, []schedule.Need{{Resource: Shop}}
	default:
		s.Task.Work = band // by day and night
	}
	order := ""
	if c.what == "glass" {
		if i := slices.IndexFunc(w.Steps, func(s Step) bool { return s.Rule.ID == "order" }); i >= 0 {
			order = w.Steps[i].Task.ID
			s.Task.After, s.Because = []schedule.Cause{{Task: order}}, []string{"it is made for you"}
		}
	}
	for i := range w.Steps {
		t := &w.Steps[i].Task
		after, why := slices.Clone(t.After), slices.Clone(w.Steps[i].Because)
		if n := slices.IndexFunc(after, func(a schedule.Cause) bool { return a.Task == order }); n >= 0 {
			after[n] = schedule.Cause{Task: s.Task.ID}
		} else if slices.Contains(g.Steps, w.Steps[i].Rule.ID) {
			after, why = append(after, schedule.Cause{Task: s.Task.ID}), append(why, "it has to be here")
		}
		t.After, w.Steps[i].Because = after, why
	}
	w.Steps = append(w.Steps, s)
}
