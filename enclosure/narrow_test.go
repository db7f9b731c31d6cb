package enclosure

import (
	"reflect"
	"testing"

	"rillwright/examples"
	"rillwright/internal/trial"
)

// Every figure of an enclosure is reached, whatever is added to it later.
func TestFiguresReachAll(t *testing.T) {
	e := trial.Resolved(t, examples.CorridorCabinet, Resolve)
	e.Pool.Zones = append(e.Pool.Zones, Zone{})
	want := 0
	var count func(v reflect.Value)
	count = func(v reflect.Value) {
		switch {
		case v.Type() == reflect.TypeFor[Figure]():
			want++
		case v.Kind() == reflect.Struct && v.Type().PkgPath() == reflect.TypeFor[Enclosure]().PkgPath():
			for i := range v.NumField() {
				count(v.Field(i))
			}
		case v.Kind() == reflect.Slice:
			for i := range v.Len() {
				count(v.Index(i))
			}
		}
	}
	shelf := e.Shelf // known figures, of pumps that are not in the circuit
	e.Shelf = nil
	count(reflect.ValueOf(*e))
	got := 0
	e.figures(func(*Figure) { got++ })
	if got != want || want < 20 {
		t.Errorf("%d figures are reached of %d", got, want)
	}
	e.Shelf = shelf
}

func TestNarrow(t *testing.T) {
	e := trial.Resolved(t, examples.CorridorCabinet, Resolve)
	c := e.Clone()
	i, ok := c.FilmHoldUp.Doubt()
	if !ok {
		t.Fatal("the film is not in doubt")
	}
	c.Narrow(i, 0.003, 0.0031, 0.0032, "watched")
	if d := &c.Doubts[i]; c.FilmHoldUp.Value != 0.0031 || d.Low != 0.003 || d.High != 0.0032 || d.Why != "watched" || c.Likely().Of(c.FilmHoldUp) != 0.0031 {
		t.Errorf("%+v %+v", c.FilmHoldUp, d)
	}
	if e.FilmHoldUp.Value == 0.0031 || e.Doubts[i].Low == 0.003 {
		t.Error("the original was changed")
	}
}
