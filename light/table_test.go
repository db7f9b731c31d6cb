package light

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"
)

// row is one line of a testdata file, by column name.
type row struct {
	t    *testing.T
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
	var out []row
	for _, rec := range all[1:] {
		cell := map[string]string{}
		for j, v := range rec {
			cell[all[0][j]] = v
		}
		out = append(out, row{t, cell})
	}
	return out
}

// text returns a cell.
func (r row) text(col string) string {
	r.t.Helper()
	v, ok := r.cell[col]
	if !ok {
		r.t.Fatalf("no column %q", col)
	}
	return v
}

// num returns a cell as a number.
func (r row) num(col string) float64 {
	r.t.Helper()
	v, err := strconv.ParseFloat(r.text(col), 64)
	if err != nil {
		r.t.Fatalf("%s: %v", r.cell["case"], err)
	}
	return v
}

// Tables print four or five significant digits: half of the last is at worst
// this share of the figure.
const (
	four = 0.5e-3
	five = 0.5e-4
)

// want checks got against a column, in the column's own unit.
func (r row) want(col string, got, rel float64) {
	r.t.Helper()
	if want := r.num(col); !within(got, want, rel) {
		r.t.Errorf("%s, %s: got %.8g, want %.8g", r.cell["case"], col, got, want)
	}
}

// within reports whether got is within rel of want, or both are 0 to rounding.
func within(got, want, rel float64) bool {
	return math.Abs(got-want) <= rel*math.Abs(want)*(1+1e-9)+1e-15
}
