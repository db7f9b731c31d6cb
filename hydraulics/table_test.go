package hydraulics

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"rillwright/fluid"
)

// printed is the relative tolerance against the files of testdata. They print
// ten significant digits, so each figure is good to 5e-10 at worst; the rest
// is for rounding in the other program.
const printed = 1e-9

const litrePerHour = 1e-3 / 3600 // m3/s

// row is one line of a testdata file, by column name.
type row struct {
	t    *testing.T
	file string
	line int
	cell map[string]string
}

// rows reads testdata/name.csv.
func rows(t *testing.T, name string) []row {
	t.Helper()
	f, err := os.Open("testdata/" + name + ".csv")
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
	if len(all) < 2 {
		t.Fatalf("%s: no rows", name)
	}
	out := make([]row, 0, len(all)-1)
	for i, rec := range all[1:] {
		cell := make(map[string]string, len(rec))
		for j, v := range rec {
			cell[all[0][j]] = v
		}
		out = append(out, row{t, name, i + 1, cell})
	}
	return out
}

// text returns a cell.
func (r row) text(col string) string {
	r.t.Helper()
	v, ok := r.cell[col]
	if !ok {
		r.t.Fatalf("%s row %d: no column %q", r.file, r.line, col)
	}
	return v
}

// num returns a cell as a number.
func (r row) num(col string) float64 {
	r.t.Helper()
	v, err := strconv.ParseFloat(r.text(col), 64)
	if err != nil {
		r.t.Fatalf("%s row %d: %v", r.file, r.line, err)
	}
	return v
}

// inputs splits a cell of the form "a=1;b=2".
func (r row) inputs() map[string]float64 {
	r.t.Helper()
	out := map[string]float64{}
	for part := range strings.SplitSeq(r.text("inputs"), ";") {
		k, v, _ := strings.Cut(part, "=")
		x, err := strconv.ParseFloat(v, 64)
		if err != nil {
			r.t.Fatalf("%s row %d: %v", r.file, r.line, err)
		}
		out[k] = x
	}
	return out
}

// want checks got against a column, in the column's own unit.
func (r row) want(col string, got float64) {
	r.t.Helper()
	r.wantWithin(col, got, printed)
}

func (r row) wantWithin(col string, got, rel float64) {
	r.t.Helper()
	want := r.num(col)
	if !within(got, want, rel) {
		r.t.Errorf("%s row %d, %s: got %.12g, want %.12g (off by %.2g)", r.file, r.line, col, got, want, got/want-1)
	}
}

// within reports whether got is within rel of want, or both are 0 to rounding.
func within(got, want, rel float64) bool {
	return math.Abs(got-want) <= rel*math.Abs(want)+1e-15
}

func water(t *testing.T, celsius float64) fluid.Water {
	t.Helper()
	w, ok := fluid.AtCelsius(celsius)
	if !ok {
		t.Fatalf("no water at %g C", celsius)
	}
	return w
}

func pipe(t *testing.T, length, bore, celsius float64, k float64) Pipe {
	t.Helper()
	p, err := NewPipe(length, bore, RoughnessSmooth, water(t, celsius).Kinematic, ConstantK(k))
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// checkSlope compares the derivative that f returns with a central difference of
// its value. The tolerance leaves room for the difference's own error, about
// h^2 + 1e-16/h relative with the step h = 1e-5 x: near 1e-10 for smooth
// functions, and up to 1e-7 where the function is steep or cancels.
func checkSlope(t *testing.T, what string, x float64, f func(float64) (float64, float64)) {
	t.Helper()
	h := 1e-5 * x
	a, _ := f(x - h)
	b, _ := f(x + h)
	v, got := f(x)
	want := (b - a) / (2 * h)
	// The second term is the rounding of the difference itself.
	if math.Abs(got-want) > 1e-7*math.Abs(want)+4e-16*math.Abs(v)/h {
		t.Errorf("%s at %g: slope %.10g, central difference %.10g", what, x, got, want)
	}
}
