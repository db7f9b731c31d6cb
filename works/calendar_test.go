package works

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"rillwright/design"
	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/internal/trial"
	"rillwright/schedule"
	"rillwright/structure/cure"
	"rillwright/study"
)

// planned plans the cabinet with other keys in its budget and marks behind it.
func planned(t testing.TB, budget, more string, today string) (*Work, error) {
	t.Helper()
	text, _, ok := strings.Cut(string(examples.CorridorCabinet), "  week:\n")
	if !ok {
		t.Fatal("the cabinet has no week")
	}
	text += budget + "\n" + more
	e := trial.Resolved(t, []byte(text), enclosure.Resolve)
	d, err := schedule.ParseDay(today)
	if err != nil {
		t.Fatal(err)
	}
	return Plan(e, study.SealedJoints(e, study.Glass(e, e.Likely(), 0.15)), d)
}

func made(t testing.TB, w *Work, err error) map[string]schedule.Item {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
	plan, err := w.Make(0)
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]schedule.Item{}
	for _, it := range plan.Items {
		out[it.Task] = it
	}
	return out
}

const weekends = "  week: [{ day: weekends, hours: 9:00-17:00 }]\n"

// Words and keys that say the same give the same plan.
func TestWordsAndKeysAgree(t *testing.T) {
	a, err := planned(t, weekends+"  deliveries: [{ what: glass, takes: 8 working days }]", "", "2026-03-01")
	first := made(t, a, err)
	b, err := planned(t, "  hours: weekends\n  delivery: 8 working days for glass", "", "2026-03-01")
	if second := made(t, b, err); !reflect.DeepEqual(first, second) {
		t.Errorf("%v\n%v", first, second)
	}
}

func TestNobodyWorksOnDaysOff(t *testing.T) {
	w, err := planned(t, weekends+"  off: [{ from: 2026-03-14, to: 2026-03-20 }]", "", "2026-03-01")
	for id, it := range made(t, w, err) {
		for _, p := range it.Pieces {
			d := p.From.Day().String()
			if d >= "2026-03-14" && d <= "2026-03-20" && !strings.HasPrefix(id, "delivery") {
				t.Errorf("%s on %s", id, d)
			}
		}
	}
	free, err := planned(t, weekends, "", "2026-03-01")
	if a, b := made(t, free, err)["delivery"].Finish, made(t, w, nil)["delivery"].Finish; b-a < 5*schedule.DayMinutes {
		t.Errorf("glass comes at %s, and with a week off at %s", a, b)
	}
}

// A step for two waits for the helper, one for one person does not.
func TestHelperComesWhenSaid(t *testing.T) {
	w, err := planned(t, weekends+"  helper: [{ on: 2026-04-12, hours: 10:00-14:00 }]", "", "2026-03-01")
	it := made(t, w, err)
	if at := it["bond"].Start.String(); at != "2026-04-12 10:00" {
		t.Errorf("bonded at %s", at)
	}
	if at := it["dry-fit"].Start.String(); at >= "2026-04-01" {
		t.Errorf("dry-fitted at %s", at)
	}
	w, err = planned(t, weekends+"  helper: [{ day: Sunday, hours: 10:00-14:00 }]", "", "2026-03-01")
	if at := made(t, w, err)["bond"].Start; at.Day().Weekday() != 6 || at.Minute() < 600 {
		t.Errorf("bonded at %s", at)
	}
}

func TestStepsWaitForWhatComes(t *testing.T) {
	w, err := planned(t, weekends+"  deliveries: [{ what: glass, on: 2026-03-20 }, { what: foam, on: 2026-05-01 }, { what: pump, takes: 3 to 7 weeks }]", "", "2026-03-01")
	it := made(t, w, err)
	if at := it["delivery"].Finish.String(); at != "2026-03-20 12:00" {
		t.Errorf("glass comes at %s", at)
	}
	if at := it["delivery: pump"].Finish.String(); at != "2026-04-06 00:00" { // 5 weeks from 2026-03-02
		t.Errorf("the pump comes at %s", at)
	}
	if run := it["wet-run"].Start; run < it["delivery: pump"].Finish {
		t.Errorf("water runs at %s", run)
	}
	if at := it["foam: layer 1 of wall foam"].Start.String(); at != "2026-05-02 09:00" { // the first Saturday with foam
		t.Errorf("foamed at %s", at)
	}
}

// The words of the design file and the table of goods are the same.
func TestGoodsAreThoseOfTheFile(t *testing.T) {
	rules, err := Read(Usual())
	if err != nil {
		t.Fatal(err)
	}
	list, err := ReadGoods(goods, rules)
	if err != nil {
		t.Fatal(err)
	}
	f, _ := reflect.TypeFor[design.Delivery]().FieldByName("What")
	var have []string
	for _, g := range list {
		have = append(have, g.Name)
	}
	if words := strings.Split(f.Tag.Get("words"), "|"); !slices.Equal(words, have) {
		t.Errorf("the file has %v, the table %v", words, have)
	}
	for text, says := range map[string]string{"goods,steps\n": "wrong number", "goods,say,step\n": "first line", "goods,say,steps\nglass,It comes,melt\n": `"melt"`} {
		if _, err := ReadGoods(text, rules); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%q: %v", text, err)
		}
	}
}

// A season's clock has each end in the air that makes it: the low end that of warm
// damp air, the high one that of cold dry air.
func TestSeasonBands(t *testing.T) {
	cold, mild, warm := cure.Air{Celsius: 8, Humidity: 0.3}, cure.Air{Celsius: 16, Humidity: 0.5}, cure.Air{Celsius: 22, Humidity: 0.7}
	shape := cure.Shape{Bite: 0.012, Edges: 2}
	got, err := Season{Worst: cold, Likely: mild, Best: warm}.clock(shape, cure.Pane)
	if err != nil {
		t.Fatal(err)
	}
	of := func(a cure.Air) cure.Clock {
		c, err := cure.Of(shape, cure.Pane, a)
		if err != nil {
			t.Fatal(err)
		}
		return c
	}
	if got.Full.Low != of(warm).Full.Low || got.Full.Likely != of(mild).Full.Likely || got.Full.High != of(cold).Full.High {
		t.Errorf("%v", got.Full)
	}
	w, err := planned(t, weekends+"  workshop: { air: 6 to 10 C, humidity: 30 to 40 % }", "", "2026-03-01")
	slow := made(t, w, err)["dam"]
	w, err = planned(t, weekends+"  workshop: { air: 24 C, humidity: 60 % }", "", "2026-03-01")
	fast := made(t, w, err)["dam"]
	stands := fast.Finish - fast.End
	if slow.Finish-slow.End <= stands {
		t.Errorf("the dam stands %d min in the cold, %d min in the warm", slow.Finish-slow.End, stands)
	}
	// A test bead that cured a fifth as deep as is usual makes joints stand longer.
	w, err = planned(t, weekends+"  workshop: { air: 24 C, humidity: 60 %, skin: 1.2 mm, after: 4 days }", "", "2026-03-01")
	if bad := made(t, w, err)["dam"]; bad.Finish-bad.End < 3*stands {
		t.Errorf("the dam of slow sealant stands %d min, else %d min", bad.Finish-bad.End, stands)
	}
}
