package fit

import (
	"bufio"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"
)

// certified is one data set of testdata: see testdata/README.md.
type certified struct {
	x, y      []float64
	starts    [2][]float64
	want, dev []float64
	sum       float64
}

// models are the data sets' models, as NIST gives them.
var models = map[string]func(b []float64, x float64) float64{
	"misra1a":  func(b []float64, x float64) float64 { return b[0] * (1 - math.Exp(-b[1]*x)) },
	"boxbod":   func(b []float64, x float64) float64 { return b[0] * (1 - math.Exp(-b[1]*x)) },
	"mgh10":    func(b []float64, x float64) float64 { return b[0] * math.Exp(b[1]/(x+b[2])) },
	"mgh09":    func(b []float64, x float64) float64 { return b[0] * (x*x + x*b[1]) / (x*x + x*b[2] + b[3]) },
	"eckerle4": func(b []float64, x float64) float64 { u := (x - b[2]) / b[1]; return b[0] / b[1] * math.Exp(-u*u/2) },
	"rat42":    func(b []float64, x float64) float64 { return b[0] / (1 + math.Exp(b[1]-b[2]*x)) },
	"thurber": func(b []float64, x float64) float64 {
		return (b[0] + x*(b[1]+x*(b[2]+x*b[3]))) / (1 + x*(b[4]+x*(b[5]+x*b[6])))
	},
}

func readSet(t *testing.T, name string) certified {
	t.Helper()
	f, err := os.Open("testdata/" + name + ".txt")
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = f.Close() }()
	var c certified
	lines := bufio.NewScanner(f)
	for lines.Scan() {
		word, rest, _ := strings.Cut(lines.Text(), ":")
		var v []float64
		for _, s := range strings.Fields(strings.ReplaceAll(rest, ",", " ")) {
			x, err := strconv.ParseFloat(s, 64)
			if err != nil {
				t.Fatal(err)
			}
			v = append(v, x)
		}
		switch word {
		case "x":
			c.x = v
		case "y":
			c.y = v
		case "start 1":
			c.starts[0] = v
		case "start 2":
			c.starts[1] = v
		case "certified":
			c.want = v
		case "deviation":
			c.dev = v
		case "sum":
			c.sum = v[0]
		}
	}
	if len(c.x) != len(c.y) || len(c.x) == 0 || len(c.want) == 0 {
		t.Fatalf("%s: %d x, %d y, %d certified", name, len(c.x), len(c.y), len(c.want))
	}
	return c
}

// From NIST's starts the certified parameters are met to seven digits, the
// sum of squares to eight, standard deviations to five, since slopes come from
// differences. NIST asks of a good program four to five digits and says that hard
// sets may not be solved from start 1. MGH10 is not from its start 1; what matters
// is that this is said and not taken for an answer.
func TestCertified(t *testing.T) {
	for name, model := range models {
		c := readSet(t, name)
		for k, start := range c.starts {
			res, err := Solve(Problem{
				Parameters: len(start), Residuals: len(c.y),
				Of: func(p, r []float64) error {
					for i := range r {
						r[i] = model(p, c.x[i]) - c.y[i]
					}
					return nil
				},
			}, start, Settings{})
			if err != nil {
				t.Errorf("%s from start %d: %v", name, k+1, err)
				continue
			}
			if name == "mgh10" && k == 0 {
				if res.Status == Converged {
					t.Errorf("%s from start %d: settled at a sum of %g: if rightly, take this exception out", name, k+1, res.Sum)
				}
				continue
			}
			if res.Status != Converged || res.Rank != len(start) {
				t.Errorf("%s from start %d: status %d, rank %d after %d steps", name, k+1, res.Status, res.Rank, res.Steps)
			}
			if name == "eckerle4" && res.P[1] < 0 { // both signs turned give the same curve
				res.P[0], res.P[1] = -res.P[0], -res.P[1]
			}
			for i, want := range c.want {
				if math.Abs(res.P[i]-want) > 1e-7*math.Abs(want) {
					t.Errorf("%s from start %d: b%d = %.11g, certified %.11g", name, k+1, i+1, res.P[i], want)
				}
				if i < len(c.dev) {
					if dev := math.Sqrt(res.Variance() * res.Cov[i][i]); math.Abs(dev-c.dev[i]) > 1e-5*c.dev[i] {
						t.Errorf("%s from start %d: deviation of b%d = %.11g, certified %.11g", name, k+1, i+1, dev, c.dev[i])
					}
				}
			}
			if math.Abs(res.Sum-c.sum) > 1e-8*c.sum {
				t.Errorf("%s from start %d: sum of squares %.11g, certified %.11g", name, k+1, res.Sum, c.sum)
			}
		}
	}
}
