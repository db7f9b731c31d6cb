// Package keeping works out what an enclosure wants after it runs: which chores are
// due by the design and the log, where what was measured is going and when it
// crosses its limit, what spares to have, and what a year came to. It looks at no
// clock: the time is given.
//
// How often something is done, and how far a flow may fall, is practice from memory
// of the trade; each chore says so in its From.
package keeping

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"

	"rillwright/enclosure"
	"rillwright/quantity"
	"rillwright/record"
)

// Chore is something done again and again.
type Chore struct {
	ID   string // stable, for the machine: "strainer[main pump]"
	What string
	How  string
	Days int // from one time to the next
	From string
	// done tells whether a reading is of it.
	done func(r *record.Reading) bool
}

// Memory is where most chores have their days from.
const Memory = "from memory of the trade"

const day = 24 * time.Hour

// Chores lists what an enclosure wants, oftenest first.
func Chores(e *enclosure.Enclosure) []Chore {
	breaker := "RCD"
	if e.Units == quantity.US {
		breaker = "GFCI"
	}
	out := []Chore{
		{ID: "top-up", What: "Top up with water low in minerals", How: "Fill to the mark; note how much and in how many days it went: top-up 2 L in 7 days.", Days: 7, done: noted("top-up")},
		{ID: "bucket", What: "Time the flow", How: "A bucket or jug under all that the outlets give, three times: manifold 5 L in 60 s, 61 s, 60 s.", Days: 30, done: noted("manifold", "wall", "hose")},
		{ID: "breaker", What: "Press the test button of the " + breaker, How: "The pump must stop at once, and run again after the reset.", Days: 30, done: noted("breaker")},
		{ID: "hose", What: "Feel along every hose", How: "Hard, cloudy or flattened hose is replaced; clamps are looked at.", Days: 182, done: touched("hose", "tube", "riser")},
		{ID: "strip-down", What: "Drain it fully and look at everything", How: "Gaskets of the bulkheads, edges of the silicone, the spare pump tried.", Days: 365, done: touched("everything", "gasket", "strip-down")},
	}
	for i := range e.Pumps {
		p := &e.Pumps[i]
		out = append(out, Chore{
			ID: "rotor[" + p.Name + "]", What: "Clean the rotor of the " + p.Name, Days: 91, done: touched("rotor", p.Name),
			How: "Out of the water, into dilute citric acid or vinegar, brushed and rinsed.",
		})
		if p.StrainerK > 0 || p.StrainerLoss > 0 {
			out = append(out, Chore{
				ID: "strainer[" + p.Name + "]", What: "Rinse the strainer of the " + p.Name, Days: 14, done: touched("strainer", "sponge"),
				How: "In water from the sump; weekly where leaves fall.",
			})
		}
	}
	for i := range e.Manifolds {
		m := &e.Manifolds[i]
		out = append(out,
			Chore{
				ID: "outlets[" + m.Name + "]", What: "Poke the outlets of the " + m.Name, Days: 30, done: touched("outlet", "hole", m.Name),
				How: "A wire through each; then the ends open and flushed.",
			},
			Chore{
				ID: "soak[" + m.Name + "]", What: "Take the " + m.Name + " off and soak it", Days: 91, done: touched("soaked", m.Name),
				How: "In dilute vinegar or citric acid, out of the tank, and rinse it.",
			},
			Chore{
				ID: "even[" + m.Name + "]", What: "Catch a row of cups under the " + m.Name, Days: 365, done: func(r *record.Reading) bool { return r.What == "even" && r.Part == m.Name },
				How: "One under each outlet for the same time, set against the first row.",
			})
	}
	for i := range e.Drains {
		if d := &e.Drains[i]; d.StrainerArea > 0 || d.StrainerLoss > 0 {
			out = append(out, Chore{
				ID: "drain[" + d.Name + "]", What: "Clear the strainer of the " + d.Name, Days: 14, done: touched("drain", d.Name),
				How: "Leaves and roots off; a look down the pipe.",
			})
		}
	}
	for i := range out {
		out[i].From = Memory
	}
	slices.SortStableFunc(out, soonest)
	return out
}

// SoakWithin brings forward the soaking of outlets that scale would narrow before, in
// days.
func SoakWithin(list []Chore, days float64) {
	for i := range list {
		if c := &list[i]; strings.HasPrefix(c.ID, "soak[") && days < float64(c.Days) {
			c.Days, c.From = max(7, int(days)), "scale by the hardness of your water, at the bad end"
		}
	}
	slices.SortStableFunc(list, soonest)
}

func soonest(a, b Chore) int { return cmp.Or(cmp.Compare(a.Days, b.Days), strings.Compare(a.ID, b.ID)) }

// ChangeWater is the chore of changing a share of the water for fresh every so many
// days, 1 or more; from says where that comes from.
func ChangeWater(share float64, days int, from string) Chore {
	return Chore{
		ID: "water", What: fmt.Sprintf("Change %.0f %% of the water", 100*share), Days: max(days, 1), From: from,
		How: "Fresh water as warm as what is in it, its chlorine taken out where animals live; note it: changed water 10 L.",
		done: func(r *record.Reading) bool {
			return r.Kind == record.Event && r.What == "changed" && strings.Contains(strings.ToLower(r.Part+" "+r.Note), "water")
		},
	}
}

// Loss is how much water was put back after a time, m3/s; 0 if it was not noted
// with how long it took.
func Loss(readings []record.Reading, since time.Time) float64 {
	var water, took float64
	for i := range readings {
		if r := &readings[i]; r.What == "top-up" && r.Time.After(since) {
			w, t := r.Amounts()
			if t > 0 {
				water, took = water+w, took+t
			}
		}
	}
	if took <= 0 {
		return 0
	}
	return water / took
}

// noted is done by measuring one of several things.
func noted(words ...string) func(*record.Reading) bool {
	return func(r *record.Reading) bool { return slices.Contains(words, r.What) }
}

// touched is done by cleaning or replacing something whose name has one of the
// words in it.
func touched(words ...string) func(*record.Reading) bool {
	return func(r *record.Reading) bool {
		if r.Kind != record.Event {
			return false
		}
		text := strings.ToLower(r.Part + " " + r.Note)
		return slices.ContainsFunc(words, func(w string) bool { return strings.Contains(text, strings.ToLower(w)) })
	}
}

// Due is a chore with when it was done last and is wanted next.
type Due struct {
	Chore
	Last time.Time // zero if it was never noted
	Next time.Time
}

// Late returns by how many days it is late; less than 0 for days that are left.
func (d *Due) Late(now time.Time) float64 { return now.Sub(d.Next).Hours() / 24 }

// DueAt returns every chore with when it is wanted, soonest first. What was never
// done counts from the first reading, or from now if there is none.
func DueAt(chores []Chore, readings []record.Reading, now time.Time) []Due {
	begin := now
	if len(readings) > 0 {
		begin = readings[0].Time
	}
	out := make([]Due, 0, len(chores))
	for i := range chores {
		d := Due{Chore: chores[i]}
		for k := range readings {
			if r := &readings[k]; !r.Time.After(now) && d.done(r) {
				d.Last = r.Time
			}
		}
		from := d.Last
		if from.IsZero() {
			from = begin
		}
		d.Next = from.Add(time.Duration(d.Days) * day)
		out = append(out, d)
	}
	slices.SortStableFunc(out, func(a, b Due) int { return a.Next.Compare(b.Next) })
	return out
}
