package keeping

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/ics"
	"rillwright/internal/trial"
	"rillwright/quantity"
	"rillwright/record"
)

var names = record.Names{Pumps: []string{"main pump"}, Manifolds: []string{"drip bar"}}

func note(tb testing.TB, at time.Time, line string) record.Reading {
	tb.Helper()
	r, err := record.Typed(line, names)
	if err != nil {
		tb.Fatal(err)
	}
	r.Time = at
	return r
}

var begin = time.Date(2025, 3, 1, 10, 0, 0, 0, time.UTC)

func on(d float64) time.Time { return begin.Add(time.Duration(d * float64(day))) }

func find(t *testing.T, list []Due, id string) *Due {
	t.Helper()
	for i := range list {
		if list[i].ID == id {
			return &list[i]
		}
	}
	t.Fatalf("no chore %s", id)
	return nil
}

func TestDue(t *testing.T) {
	e := trial.Resolved(t, examples.CorridorCabinet, enclosure.Resolve)
	log := []record.Reading{note(t, on(0), "manifold 5 L in 60 s"), note(t, on(10), "cleaned strainer"), note(t, on(40), "breaker ok"), note(t, on(99), "cleaned strainer")}
	list := DueAt(Chores(e), log, on(41)) // what is yet to come does not count
	if d := find(t, list, "strainer[main pump]"); !d.Last.Equal(on(10)) || !d.Next.Equal(on(24)) || math.Abs(d.Late(on(41))-17) > 1e-9 {
		t.Errorf("strainer: %+v", d)
	}
	if d := find(t, list, "breaker"); !d.Next.Equal(on(70)) || d.Late(on(41)) > 0 {
		t.Errorf("breaker: %+v", d)
	}
	if d := find(t, list, "rotor[main pump]"); !d.Last.IsZero() || !d.Next.Equal(on(91)) {
		t.Errorf("rotor: %+v", d)
	}
	other := note(t, on(1), "cups 40 38 ml in 30 s")
	other.Part = "another bar"
	if d := find(t, DueAt(Chores(e), []record.Reading{other}, on(41)), "even[drip bar]"); !d.Last.IsZero() {
		t.Errorf("cups of another manifold count: %+v", d)
	}
	for i := 1; i < len(list); i++ {
		if list[i].Next.Before(list[i-1].Next) {
			t.Error("not in order")
		}
	}
}

// A flow that falls by 2 % a month from 100 % crosses 85 % after seven and a half
// months; the bands hold that day as often as they should.
func TestTrend(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	held, falls, n := 0, 0, 200
	for range n {
		var log []record.Reading
		for k := range 6 {
			r := note(t, on(30*float64(k)), "manifold 5 L in 60 s")
			r.Values[0] *= (1 - 0.02*float64(k)) * (1 + spread*rng.NormFloat64())
			log = append(log, r)
		}
		first := log[0].Values[0] * (60.0 / 5e-3)
		list := Trends(log)
		if len(list) != 1 {
			t.Fatal(list)
		}
		if !list[0].Falls {
			continue
		}
		falls++
		// What is crossed is a share of the first reading, as it was read.
		truth := on(30 * (1 - Fallen*first) / 0.02)
		if !truth.Before(list[0].Crosses[0].Add(-day)) && !truth.After(list[0].Crosses[2].Add(day)) {
			held++
		}
	}
	// Nine of ten by the slope; the level's own doubt takes some of them, and three
	// standard deviations of 200 draws are 6 of 100.
	if falls < n*95/100 || held < falls*80/100 {
		t.Errorf("%d of %d fall, %d crossings held", falls, n, held)
	}
}

// Readings that only scatter are not said to fall more often than two standard
// deviations allow.
func TestNoTrend(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	falls := 0
	for range 400 {
		var log []record.Reading
		for k := range 6 {
			r := note(t, on(30*float64(k)), "wall 5 L in 60 s")
			r.Values[0] *= 1 + spread*rng.NormFloat64()
			log = append(log, r)
		}
		if Trends(log)[0].Falls {
			falls++
		}
	}
	if falls > 24 { // 2.3 %, and three deviations more, of 400
		t.Errorf("%d of 400 that only scatter are said to fall", falls)
	}
}

// A line begins anew behind a cleaning that has three readings behind it.
func TestTrendSinceCleaned(t *testing.T) {
	log := []record.Reading{note(t, on(0), "manifold 5 L in 60 s"), note(t, on(30), "manifold 5 L in 70 s"), note(t, on(40), "cleaned rotor")}
	for k := range 3 {
		log = append(log, note(t, on(50+30*float64(k)), "manifold 5 L in 61 s"))
	}
	list := Trends(log)
	if len(list) != 1 || !list[0].Since.Equal(on(40)) || list[0].Falls || math.Abs(list[0].Month) > 1e-9 {
		t.Errorf("%+v", list)
	}
	if two := Trends(log[:2]); len(two) != 1 || !math.IsNaN(two[0].Month) || two[0].Falls {
		t.Errorf("of two readings a trend is drawn: %+v", two)
	}
}

func TestYear(t *testing.T) {
	log := []record.Reading{
		note(t, on(-400), "cleaned rotor"), note(t, on(-300), "cleaned rotor"), note(t, on(-200), "cleaned rotor"),
		note(t, on(-100), "top-up 2 L in 7 days, 3 L in 7 days"), note(t, on(-100), "breaker not ok"), note(t, on(1), "breaker ok"),
	}
	y := YearTo(log, begin)
	if y.Readings != 4 || y.Days != 3 || len(y.Done) != 1 || y.Done[0].Times != 2 || !y.Done[0].Last.Equal(on(-200)) || len(y.Failed) != 1 || math.Abs(y.Water-0.005) > 1e-12 || y.WaterDays != 14 {
		t.Errorf("%+v", y)
	}
}

func TestSpares(t *testing.T) {
	e := trial.Resolved(t, examples.CorridorCabinet, enclosure.Resolve)
	all := ""
	for _, s := range Spares(e) {
		all += s.What + "\n"
	}
	// 0.40 + 2.35 + 0.05 m of hose stand in the file.
	for _, want := range []string{"1200 L/h", "2.40 m", "2.80 m of vinyl hose 16 mm", "strainer", "gasket"} {
		if !strings.Contains(all, want) {
			t.Errorf("no %q in\n%s", want, all)
		}
	}
}

func TestCalendar(t *testing.T) {
	e := trial.Resolved(t, examples.CorridorCabinet, enclosure.Resolve)
	due := DueAt(Chores(e), nil, begin)
	text := string(Calendar("Wall; one, two", due, ics.Issue{Stamp: begin}))
	if strings.Count(text, "BEGIN:VEVENT") != len(due) || strings.Count(text, "UID:") != len(due) {
		t.Errorf("not one event for each of %d chores", len(due))
	}
	for _, want := range []string{"BEGIN:VCALENDAR\r\nVERSION:2.0\r\n", `SUMMARY:Wall\; one\, two: `, "DTSTART;VALUE=DATE:20250308\r\n", "RRULE:FREQ=DAILY;INTERVAL=7\r\n", "END:VCALENDAR\r\n"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q", want)
		}
	}
	uids := map[string]bool{}
	for l := range strings.Lines(text) {
		if strings.HasPrefix(l, "UID:") {
			uids[l] = true
		}
	}
	if len(uids) != len(due) {
		t.Errorf("%d different UIDs of %d", len(uids), len(due))
	}
}

// Only water that was changed counts as a change of water; a year's top-ups are its loss.
func TestChangeWater(t *testing.T) {
	log := []record.Reading{
		note(t, on(0), "manifold 5 L in 60 s"), note(t, on(3), "changed water 10 L"), note(t, on(9), "changed hose"), note(t, on(10), "top-up 1 L in 4 days, 2 L in 6 days"), note(t, on(11), "cleaned water line"),
	}
	c := ChangeWater(0.25, 20, "a test")
	if d := find(t, DueAt([]Chore{c}, log, on(12)), "water"); !d.Last.Equal(on(3)) || !d.Next.Equal(on(23)) || d.What != "Change 25 % of the water" {
		t.Errorf("%+v", d)
	}
	if got, want := Loss(log, on(0)), 0.003/(10*86400); math.Abs(got-want) > 1e-15 {
		t.Errorf("loss %g m3/s, put back %g", got, want)
	}
	if got := Loss(log, on(10)); got != 0 {
		t.Errorf("loss %g m3/s of what was put back before", got)
	}
	if c := ChangeWater(0.25, 0, "a test"); c.Days != 1 {
		t.Errorf("every %d days", c.Days)
	}
}

func TestWords(t *testing.T) {
	y := YearTo([]record.Reading{note(t, on(-100), "top-up 2 L in 8 days"), note(t, on(-50), "breaker not ok"), note(t, on(-40), "cleaned rotor"), note(t, on(-20), "cleaned rotor")}, begin)
	first, rest := y.Words(quantity.Metric)
	want := []string{"topped up 2.0 L in 8 days, 250 ml a day", "cleaned rotor 2 times, last 2025-02-09", "breaker was not well once, last 2025-01-10"}
	if first != "The last year: 4 notes on 4 days" || !slices.Equal(rest, want) {
		t.Errorf("%q, %q", first, rest)
	}
}

// Hard water brings the soaking of outlets forward, never back, and the list stays in
// order.
func TestSoakWithin(t *testing.T) {
	for _, days := range []float64{3, 40, 5000} {
		list := Chores(&enclosure.Enclosure{Manifolds: []enclosure.Manifold{{Name: "bar"}}})
		SoakWithin(list, days)
		for i, c := range list {
			if c.ID == "soak[bar]" && c.Days != map[float64]int{3: 7, 40: 40, 5000: 91}[days] {
				t.Errorf("scale after %g days: soaked every %d", days, c.Days)
			}
			if i > 0 && list[i-1].Days > c.Days {
				t.Errorf("%s stands before %s", list[i-1].ID, c.ID)
			}
		}
	}
}
