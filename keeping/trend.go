package keeping

import (
	"math"
	"slices"
	"time"

	"rillwright/record"
)

// Fallen is the share of a first reading to which a flow may fall before lines are
// flushed: 10 to 15 % below, from memory of the trade.
const Fallen = 0.85

// Point is one reading of a trend.
type Point struct {
	Time  time.Time `json:"time"`
	Value float64   `json:"value"` // SI
	// Share of the first readings, by which trends are drawn.
	Share float64 `json:"share"`
}

// Trend is where a flow is going.
type Trend struct {
	ID     string  `json:"id"`
	First  float64 `json:"first"` // mean of the first month, m3/s
	Points []Point `json:"points"`
	// Since is from where the line is drawn: the last cleaning or replacing after
	// which there are enough readings.
	Since time.Time `json:"since"`
	// Month is the change in a month as a share of First, with the standard
	// deviation of that; NaN with fewer than three readings.
	Month, Doubt float64 `json:"-"`
	// Falls says that it falls beyond doubt, by two standard deviations.
	Falls bool `json:"falls"`
	// Crosses is when it reaches Fallen: at the earliest, likely and at the latest,
	// as the slope's doubt has it in nine of ten cases; zero where it does not fall beyond doubt. Past if it has.
	Crosses [3]time.Time `json:"crosses,omitzero"`
}

// spread is how much a timed flow scatters, as a share: assumed, no source. Readings
// that happen to lie on a line are not believed to be more exact.
const spread = 0.012

const month = 30 * day

// nine is how many standard deviations each way hold nine of ten.
const nine = 1.645

// Trends follows every flow that was measured on different days, in order of id.
// Readings must be in order of time.
func Trends(readings []record.Reading) []Trend {
	byID := map[string][]Point{}
	for i := range readings {
		if r := &readings[i]; r.Kind == record.Flow && r.What != "top-up" {
			v, _ := record.Mean(r.Values)
			byID[r.ID()] = append(byID[r.ID()], Point{Time: r.Time, Value: v})
		}
	}
	ids := make([]string, 0, len(byID))
	for id := range byID {
		ids = append(ids, id)
	}
	slices.Sort(ids)
	var out []Trend
	for _, id := range ids {
		p := byID[id]
		if len(p) < 2 || p[len(p)-1].Time.Sub(p[0].Time) < day {
			continue
		}
		t := Trend{ID: id, Points: p, Since: p[0].Time, Month: math.NaN()}
		n := 0.0
		for i := range p {
			if p[i].Time.Sub(p[0].Time) <= month {
				t.First += p[i].Value
				n++
			}
		}
		if t.First /= n; !(t.First > 0) {
			continue
		}
		for i := range p {
			p[i].Share = p[i].Value / t.First
		}
		t.draw(readings)
		out = append(out, t)
	}
	return out
}

// draw lays a line through the points since the last cleaning behind which there
// are three or more, or else through all.
func (t *Trend) draw(readings []record.Reading) {
	points := t.Points
	for i := range slices.Backward(readings) {
		r := &readings[i]
		if r.Kind != record.Event {
			continue
		}
		k := slices.IndexFunc(t.Points, func(p Point) bool { return p.Time.After(r.Time) })
		if k >= 0 && len(t.Points)-k >= 3 {
			points, t.Since = t.Points[k:], r.Time
			break
		}
	}
	if len(points) < 3 {
		return
	}
	// Months from the middle, so that height and slope have nothing to do with one
	// another.
	x, n := make([]float64, len(points)), float64(len(points))
	middle, level := 0.0, 0.0
	for i := range points {
		x[i] = points[i].Time.Sub(points[0].Time).Hours() / month.Hours()
		middle += x[i] / n
		level += points[i].Share / n
	}
	sxx, sxy, rest := 0.0, 0.0, 0.0
	for i := range points {
		sxx += (x[i] - middle) * (x[i] - middle)
		sxy += (x[i] - middle) * points[i].Share
	}
	if sxx == 0 {
		return
	}
	t.Month = sxy / sxx
	for i := range points {
		e := points[i].Share - level - t.Month*(x[i]-middle)
		rest += e * e
	}
	scatter := math.Max(spread, math.Sqrt(rest/(n-2)))
	t.Doubt = scatter / math.Sqrt(sxx)
	if t.Falls = t.Month < -2*t.Doubt; !t.Falls {
		return
	}
	for i, slope := range []float64{t.Month - nine*t.Doubt, t.Month, t.Month + nine*t.Doubt} {
		m := middle + (Fallen-level)/slope
		t.Crosses[i] = points[0].Time.Add(time.Duration(m * float64(month))).Truncate(day)
	}
	slices.SortFunc(t.Crosses[:], time.Time.Compare)
}
