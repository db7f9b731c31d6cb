package plate

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"
)

// record is one row of a table of testdata.
type record map[string]string

func (r record) num(t *testing.T, column string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(r[column], 64)
	if err != nil {
		t.Fatalf("column %s: %v", column, err)
	}
	return v
}

// digit returns the worth of the last digit of a printed number.
func (r record) digit(column string) float64 {
	_, decimals, _ := strings.Cut(r[column], ".")
	return math.Pow(10, -float64(len(decimals)))
}

func table(t *testing.T, name string) []record {
	t.Helper()
	f, err := os.Open("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	c := csv.NewReader(f)
	c.Comment = '#'
	rows, err := c.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []record
	for _, row := range rows[1:] {
		r := record{}
		for i, v := range row {
			r[rows[0][i]] = v
		}
		out = append(out, r)
	}
	if len(out) < 5 {
		t.Fatalf("%s has only %d rows", name, len(out))
	}
	return out
}

const waterWeight = 9806.65 // N/m3, 1000 kg/m3 in standard gravity, as in all tables

// glass returns a pane of the tables' glass, held at the bottom and both sides.
func glass(w, h, t float64, top Support) *Pane {
	return &Pane{Width: w, Height: h, Thickness: t, Young: 70e9, Poisson: 0.23, Edges: [4]Support{Held, Held, top, Held}}
}

func mustSolve(t testing.TB, p *Pane, l Load, s Settings) *Result {
	t.Helper()
	r, err := Solve(p, l, s)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// near reports a value that is off by more than a share of what is wanted, or by
// more than an amount.
func near(t *testing.T, what string, got, want, share, amount float64) {
	t.Helper()
	if !(math.Abs(got-want) <= share*math.Abs(want)+amount) {
		t.Errorf("%s is %.6g, want %.6g (%+.2f %%)", what, got, want, 100*(got/want-1))
	}
}

func topOf(name string) Support {
	if strings.HasPrefix(name, "SSSF") || name == "free" {
		return Free
	}
	return Held
}
