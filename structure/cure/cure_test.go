package cure

import (
	"encoding/csv"
	"errors"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"rillwright/structure/joint"
)

func within(a, b, tol float64) bool { return math.Abs(a-b) <= tol*math.Abs(b) }

// Rows of the reference at k of 2, 3 or 4 mm per root day are ends or middle of
// the band; 15 C and above carry no margin. They are given to four digits.
func TestCureRows(t *testing.T) {
	f, err := os.Open("testdata/silicone_cure.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	all, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	checked := 0
	for _, row := range all[1:] {
		num := func(col int) float64 {
			x, err := strconv.ParseFloat(row[col], 64)
			if err != nil {
				t.Fatal(err)
			}
			return x
		}
		full, err := Through(num(4)/1e3, Air{Celsius: num(2), Humidity: num(3)})
		if err != nil {
			t.Fatal(err)
		}
		got := full.Likely
		switch num(1) {
		case 2:
			got = full.High
		case 4:
			got = full.Low
		case 3:
		default: // between the ends: (2.5/3)^2 of the likely rate
			got *= 9 / 6.25
		}
		if !within(float64(got)/day, num(9), 5e-4) {
			t.Errorf("%s: %g days, not %g", row[0], float64(got)/day, num(9))
		}
		checked++
	}
	if checked != 8 {
		t.Errorf("%d rows", checked)
	}
}

// Rule of the trade, days (mm/2)^2: a 6 mm pane edge open on both sides 2 to 3 days,
// 10 mm 6 days, a 12 mm bed 9 days; half again under 15 C.
func TestTradeRules(t *testing.T) {
	for bite, days := range map[float64]float64{0.006: 2.25, 0.010: 6.25, 0.012: 9} {
		c, err := Of(Shape{Bite: bite, Edges: 2}, Pane, Usual())
		if err != nil || !within(float64(c.Full.High)/day, days, 1e-9) {
			t.Errorf("%g m: %v, %v", bite, c.Full.High/day, err)
		}
	}
	cold, err := Through(0.003, Air{Celsius: 14.999999, Humidity: 0.5})
	warm, err2 := Through(0.003, Air{Celsius: 15, Humidity: 0.5})
	if err != nil || err2 != nil || !within(float64(cold.High), 1.5*float64(warm.High), 1e-6) {
		t.Error(cold, warm, err, err2)
	}
}

func TestShapes(t *testing.T) {
	for name, c := range map[string]struct {
		s    Shape
		want float64
	}{
		"bed, two edges":        {Shape{Bite: 0.02, Edges: 2}, 0.01},
		"bed, one edge":         {Shape{Bite: 0.02, Edges: 1}, 0.02},
		"behind a fillet":       {Shape{Bite: 0.006, Edges: 1, Leg: 0.01, Before: 0.01}, 0.006 + 0.01/math.Sqrt2},
		"a fillet on one side":  {Shape{Bite: 0.01, Edges: 2, Leg: 0.006, Before: 0.006}, (0.01 + 0.006/math.Sqrt2) / 2},
		"a fat one":             {Shape{Bite: 0.003, Edges: 2, Before: 0.02}, 0.003},
		"fillet":                {Shape{Leg: 0.01}, 0.01 / math.Sqrt2},
		"coat":                  {Shape{Layer: 0.002}, 0.002},
		"narrow bed, big bead":  {Shape{Bite: 0.004, Edges: 2, Leg: 0.02}, 0.02 / math.Sqrt2},
		"half a rib of grid":    {Shape{Bite: 0.002, Edges: 2}, 0.001},
		"coat over a thin bead": {Shape{Leg: 0.001, Layer: 0.002}, 0.002},
	} {
		if got, err := Path(c.s); err != nil || !within(got, c.want, 1e-12) {
			t.Errorf("%s: %g m, not %g; %v", name, got, c.want, err)
		}
	}
	for name, s := range map[string]Shape{
		"nothing": {}, "no open edge": {Bite: 0.01}, "three edges": {Bite: 0.01, Edges: 3},
		"negative": {Leg: -1}, "not a number": {Leg: math.NaN()}, "in mm": {Leg: 10},
	} {
		if got, err := Path(s); !errors.Is(err, ErrInput) {
			t.Errorf("%s: %g, %v", name, got, err)
		}
	}
	for _, a := range []Air{{Celsius: 4, Humidity: 0.5}, {Celsius: 45, Humidity: 0.5}, {Celsius: 20, Humidity: 50}, {Celsius: 20}, {Celsius: math.NaN(), Humidity: 0.5}} {
		if c, err := Of(Shape{Leg: 0.01}, Fillet, a); !errors.Is(err, ErrInput) {
			t.Errorf("%v: %v, %v", a, c, err)
		}
	}
}

// A wide bed waits for its way, a thin one for practice; the slowest is named.
func TestClocks(t *testing.T) {
	thin, _ := Of(Shape{Bite: 0.006, Edges: 2}, Pane, Usual())
	wide, _ := Of(Shape{Bite: 0.04, Edges: 2}, Grid, Usual())
	if thin.ByPath || thin.Water != Standing(Pane) || thin.Off.Likely != day {
		t.Errorf("thin: %+v", thin)
	}
	if !wide.ByPath || wide.Water != wide.Full || !within(float64(wide.Full.Likely)/day, 400.0/9, 1e-9) {
		t.Errorf("wide: %+v", wide)
	}
	if Slowest([]Clock{thin, wide, wide}) != 1 || Slowest(nil) != -1 {
		t.Error("another is slowest")
	}
	if open := Open(Usual()); open.Low != 600 || open.High != 1800 {
		t.Error(open)
	}
	if note := joint.CureRate().Note; !strings.Contains(note, "memory") {
		t.Errorf("the rate is no longer from memory: %q", note)
	}
}

// A test bead tells of the joints beside it: in the air in which it lay, a way as long
// as it was deep takes as long as it took, however cold; between the ends of its reading.
// What practice lets a joint stand holds all the same.
func TestMeasured(t *testing.T) {
	for _, a := range []Air{Usual(), {Celsius: 10, Humidity: 0.4}, {Celsius: 30, Humidity: 0.8}} {
		k, err := Measured(0.003, 30*hour, a)
		if err != nil {
			t.Fatal(err)
		}
		got, err := k.Through(0.003, a)
		if err != nil || !within(float64(got.Likely), 30*hour, 1e-12) {
			t.Errorf("%v: %v, %v", a, got, err)
		}
		if deep, _ := k.Through(0.0035, a); !within(float64(deep.Low), 30*hour, 1e-12) {
			t.Errorf("%v: what may have cured 3.5 mm deep: %v", a, deep)
		}
		if thin, _ := k.Through(0.0025, a); !within(float64(thin.High), 30*hour, 1e-12) {
			t.Errorf("%v: what may have cured 2.5 mm deep: %v", a, thin)
		}
	}
	// The usual sealant's likely 3 mm in a day, measured, changes no likely time.
	k, _ := Measured(0.003, day, Usual())
	a := Air{Celsius: 12, Humidity: 0.6}
	was, _ := Through(0.01, a)
	if is, _ := k.Through(0.01, a); !within(float64(is.Likely), float64(was.Likely), 1e-12) || is.Low <= was.Low || is.High >= was.High {
		t.Errorf("%v, measured %v", was, is)
	}
	fast, _ := Measured(0.01, day, Usual())
	if c, err := fast.Of(Shape{Bite: 0.006, Edges: 2}, Pane, Usual()); err != nil || c.Water != Standing(Pane) {
		t.Errorf("a fast sealant: %+v, %v", c, err)
	}
	for _, bad := range []func() (Sealant, error){
		func() (Sealant, error) { return Measured(ReadDoubt, day, Usual()) },
		func() (Sealant, error) { return Measured(0.003, 0, Usual()) },
		func() (Sealant, error) { return Measured(math.NaN(), day, Usual()) },
		func() (Sealant, error) { return Measured(0.003, day, Air{Celsius: 2, Humidity: 0.5}) },
	} {
		if k, err := bad(); !errors.Is(err, ErrInput) {
			t.Errorf("%v, %v", k, err)
		}
	}
}

// Colder, drier, wider or deeper never cures sooner; bands rise; nothing bears
// water before the last point has cured.
func TestNeverSooner(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		s := Shape{Bite: draw("bite", 1e-4, 0.05), Edges: rapid.IntRange(1, 2).Draw(t, "edges"), Leg: draw("leg", 0, 0.02), Before: draw("before", 0, 0.02), Layer: draw("layer", 0, 0.01)}
		a := Air{Celsius: draw("C", 6, 40), Humidity: draw("humidity", 0.2, 1)}
		use := Use(rapid.IntRange(0, 3).Draw(t, "use"))
		c, err := Of(s, use, a)
		if err != nil {
			t.Fatal(err)
		}
		worse, wa := s, a
		worse.Bite += draw("wider", 0, 0.01)
		worse.Leg += draw("deeper", 0, 0.01)
		wa.Celsius -= draw("colder", 0, 1)
		wa.Humidity -= draw("drier", 0, 0.1)
		w, err := Of(worse, use, wa)
		if err != nil {
			t.Fatal(err)
		}
		for side := -1; side <= 1; side++ {
			const round = 1 + 1e-12
			if w.Full.At(side)*round < c.Full.At(side) || w.Water.At(side)*round < c.Water.At(side) || w.Off.At(side)*round < c.Off.At(side) {
				t.Errorf("worse cures sooner: %+v, %+v", c, w)
			}
			if c.Water.At(side) < c.Full.At(side) || c.Water.At(side) < Standing(use).At(side) {
				t.Errorf("water before the cure: %+v", c)
			}
		}
		for _, b := range []Time{c.Off, c.Water, c.Full, Open(a)} {
			if !(b.Low <= b.Likely && b.Likely <= b.High && b.Low > 0) {
				t.Errorf("band %v", b)
			}
		}
	})
}
