package keeping

import (
	"fmt"
	"slices"
	"time"

	"rillwright/enclosure"
	"rillwright/quantity"
	"rillwright/record"
)

// Year is what the log of a year comes to.
type Year struct {
	From     time.Time `json:"from"`
	To       time.Time `json:"to"`
	Readings int       `json:"readings"`
	Days     int       `json:"days"` // on which something was noted
	// Water is what was topped up, m3, over the days that the readings cover.
	Water     float64 `json:"water"`
	WaterDays float64 `json:"water-days"`
	Done      []Done  `json:"done"`   // what was cleaned, replaced and changed
	Failed    []Done  `json:"failed"` // what was tried and was not well
}

// Done is something done a number of times.
type Done struct {
	What  string    `json:"what"`
	Times int       `json:"times"`
	Last  time.Time `json:"last"`
}

// YearTo sums up the 365 days to a time. Readings must be in order of time.
func YearTo(readings []record.Reading, to time.Time) Year {
	y := Year{From: to.Add(-365 * day), To: to}
	days := map[string]bool{}
	add := func(list *[]Done, r *record.Reading, what string) {
		i := slices.IndexFunc(*list, func(d Done) bool { return d.What == what })
		if i < 0 {
			*list = append(*list, Done{What: what})
			i = len(*list) - 1
		}
		(*list)[i].Times++
		(*list)[i].Last = r.Time
	}
	for i := range readings {
		r := &readings[i]
		if !r.Time.After(y.From) || r.Time.After(to) {
			continue
		}
		y.Readings++
		days[r.Time.Format(time.DateOnly)] = true
		switch {
		case r.Kind == record.Event:
			add(&y.Done, r, r.What+" "+r.Part)
		case r.Kind == record.Seen && len(r.Values) == 1 && r.Values[0] == 0:
			add(&y.Failed, r, r.What)
		case r.What == "top-up":
			amount, took := r.Amounts()
			y.Water += amount
			y.WaterDays += took / 86400
		}
	}
	y.Days = len(days)
	return y
}

// Spare is a part to have in the cupboard.
type Spare struct {
	What string `json:"what"`
	Why  string `json:"why"`
}

// Spares lists what a design wants at hand, common practice without a source: what
// stops the water, dries the wall or cannot be bought on a Sunday.
func Spares(e *enclosure.Enclosure) []Spare {
	var out []Spare
	for i := range e.Pumps {
		p := &e.Pumps[i]
		curve := "its curve"
		if p.Curve.Label {
			curve = quantity.Flow(p.Curve.QMax).Show(e.Units) + " and " + showHead(p.Curve.HMax, e.Units)
		}
		out = append(out,
			Spare{"a pump like the " + p.Name + ", " + curve, "the wall dries while a new one is on its way"},
			Spare{"a rotor with its shaft for the " + p.Name, "it wears first"})
		if p.StrainerK > 0 || p.StrainerLoss > 0 {
			out = append(out, Spare{"a strainer or sponge for the " + p.Name, "one in, one drying"})
		}
		if p.Float.Given {
			out = append(out, Spare{"a float switch", "it guards the pump and sticks unseen"})
		}
	}
	lengths := map[string]float64{}
	var names []string
	for i := range e.Runs {
		for k := range e.Runs[i].Pieces {
			if p := &e.Runs[i].Pieces[k]; p.Kind.HasLength() && e.Runs[i].From.Kind == enclosure.AtPump {
				if lengths[p.Name] == 0 {
					names = append(names, p.Name)
				}
				lengths[p.Name] += p.Length
			}
		}
	}
	for _, n := range names {
		out = append(out, Spare{fmt.Sprintf("%s of %s, with two clamps", quantity.Length(lengths[n]).Show(e.Units), n), "it hardens, and kinks where it was bent"})
	}
	for i := range e.Drains {
		out = append(out, Spare{"a gasket for the bulkhead of the " + e.Drains[i].Name, "old ones do not seal twice"})
	}
	return out
}

func showHead(v float64, sys quantity.System) string {
	if sys == quantity.US {
		return fmt.Sprintf("%.1f ft", v/0.3048)
	}
	return fmt.Sprintf("%.2f m", v)
}
