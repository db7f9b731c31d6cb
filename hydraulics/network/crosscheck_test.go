package network

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"testing"

	"rillwright/fluid"
	"rillwright/hydraulics"
)

// checkNode and checkLink are what testdata/crosscheck.py reads. Both solvers
// are given the same circuits, each writes its own equations.
type checkNode struct {
	Fixed  bool    `json:"fixed"`
	Head   float64 `json:"head"`
	Demand float64 `json:"demand"`
}

type checkLink struct {
	Kind      string  `json:"kind"` // pipe, pump or outlet
	From      int     `json:"from"`
	To        int     `json:"to"`
	OneWay    bool    `json:"oneWay"`
	Bore      float64 `json:"bore"`
	Length    float64 `json:"length"`
	Roughness float64 `json:"roughness"`
	K1        float64 `json:"k1"`
	KInf      float64 `json:"kInf"`
	H0        float64 `json:"h0"`
	A         float64 `json:"a"`
	C         float64 `json:"c"`
	K         float64 `json:"k"`
	X         float64 `json:"x"`
}

type checkCircuit struct {
	Kinematic float64     `json:"kinematic"`
	Nodes     []checkNode `json:"nodes"`
	Links     []checkLink `json:"links"`
}

// drawCircuit invents a circuit of the size of a real one: a sump, a pump with
// its check valve, a tree of pipes with up to three loops, sometimes a second
// water surface, outlets at most ends, some of them above what the pump
// reaches.
func drawCircuit(r *rand.Rand) checkCircuit {
	w, _ := fluid.AtCelsius(5 + 30*r.Float64())
	c := checkCircuit{Kinematic: w.Kinematic}
	n := 3 + r.IntN(6)
	c.Nodes = append(c.Nodes, checkNode{Fixed: true, Head: 0.3 * r.Float64()})
	for range n {
		c.Nodes = append(c.Nodes, checkNode{})
	}
	h0 := 1 + 2*r.Float64()
	exponent := 1.2 + 0.8*r.Float64()
	c.Links = append(c.Links, checkLink{Kind: "pump", From: 0, To: 1, OneWay: true, H0: h0, C: exponent, A: h0 / math.Pow(1e-4+4e-4*r.Float64(), exponent)})
	pipe := func(i, j int) {
		c.Links = append(c.Links, checkLink{
			Kind: "pipe", From: i, To: j,
			Bore: 0.005 + 0.02*r.Float64(), Length: 0.05 + 3*r.Float64(), Roughness: []float64{0, 1.5e-6, 1e-4}[r.IntN(3)],
			K1: 800 * r.Float64(), KInf: 5 * r.Float64(),
		})
	}
	for i := 2; i <= n; i++ {
		pipe(1+r.IntN(i-1), i)
	}
	for range r.IntN(4) {
		if i, j := 1+r.IntN(n), 1+r.IntN(n); i != j {
			pipe(i, j)
		}
	}
	if r.IntN(3) == 0 {
		c.Nodes = append(c.Nodes, checkNode{Fixed: true, Head: 0.5 + r.Float64()})
		pipe(1+r.IntN(n), len(c.Nodes)-1)
	}
	for i := 1; i <= n; i++ {
		switch r.IntN(4) {
		case 0:
			c.Nodes[i].Demand = 1e-6 * r.Float64()
			continue
		case 1:
			continue
		}
		c.Nodes = append(c.Nodes, checkNode{Fixed: true, Head: 0.4 + 1.2*r.Float64()})
		c.Links = append(c.Links, checkLink{
			Kind: "outlet", From: i, To: len(c.Nodes) - 1, OneWay: true,
			K: 3e-6 * math.Exp(3*r.Float64()), X: []float64{0.5, 0.5, 0.6, 1}[r.IntN(4)],
		})
	}
	return c
}

func (c checkCircuit) problem() *Problem {
	p := &Problem{}
	for i, n := range c.Nodes {
		p.Nodes = append(p.Nodes, Node{ID: fmt.Sprint("n", i), Fixed: n.Fixed, Head: n.Head, Demand: n.Demand})
	}
	for k, l := range c.Links {
		link := Link{ID: fmt.Sprint(l.Kind, " ", k), From: l.From, To: l.To, OneWay: l.OneWay}
		switch l.Kind {
		case "pump":
			link.Law = pumpLaw{hydraulics.PowerCurve{H0: l.H0, A: l.A, C: l.C}}
		case "outlet":
			link.Law = Emitter{l.K, l.X}
		default:
			d := NewConduit(c.Kinematic)
			d.AddPipe(l.Bore, l.Length, l.Roughness, 1)
			d.AddFitting(hydraulics.KModel{K1: l.K1, KInf: l.KInf}, l.Bore)
			link.Law = d
		}
		p.Links = append(p.Links, link)
	}
	return p
}

// pythonWith returns a Python 3 that can import the module, or why none can.
func pythonWith(module string) (path string, err error) {
	for _, path := range []string{"python3", "/usr/bin/python3"} {
		out, e := exec.Command(path, "-c", "import "+module).CombinedOutput()
		if e == nil {
			return path, nil
		}
		err = errors.Join(err, fmt.Errorf("%s: %w %s", path, e, bytes.TrimSpace(out)))
	}
	return "", err
}

// TestCrosscheck compares with scipy's hybr on equations written afresh in
// Python. It is skipped where scipy is missing, unless RILLWRIGHT_CROSSCHECK=1
// says it must be there.
func TestCrosscheck(t *testing.T) {
	python, err := pythonWith("scipy.optimize")
	if err != nil {
		if os.Getenv("RILLWRIGHT_CROSSCHECK") == "1" {
			t.Fatal(err)
		}
		t.Skipf("no cross-check without scipy (Debian: python3-scipy): %v", err)
	}
	r := rand.New(rand.NewPCG(2, 40))
	circuits := make([]checkCircuit, 40)
	for i := range circuits {
		circuits[i] = drawCircuit(r)
	}
	in, err := json.Marshal(circuits)
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(python, "testdata/crosscheck.py")
	cmd.Stdin = bytes.NewReader(in)
	var complaint bytes.Buffer
	cmd.Stderr = &complaint
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("crosscheck.py: %v\n%s", err, complaint.Bytes())
	}
	var answers []struct{ Head, Flow []float64 }
	if err := json.Unmarshal(out, &answers); err != nil {
		t.Fatal(err)
	}
	if len(answers) != len(circuits) {
		t.Fatalf("%d answers to %d circuits", len(answers), len(circuits))
	}
	shut, loops := 0, 0
	for i, c := range circuits {
		// Two solutions to the default 1e-11 of the heads could differ by more
		// than 1e-7 of a flow that takes hardly any head.
		s, err := NewSolver(c.problem(), Settings{Tolerance: 1e-14})
		if err != nil {
			t.Fatal(err)
		}
		res, err := s.Solve()
		if err != nil || res.Status != Converged {
			t.Fatalf("circuit %d: %v, %v", i, err, res.Status)
		}
		largest := 0.0
		for _, q := range answers[i].Flow {
			largest = max(largest, math.Abs(q))
		}
		free := 0
		for j, n := range c.Nodes {
			if n.Fixed {
				continue
			}
			free++
			if got, want := res.Head[j], answers[i].Head[j]; math.Abs(got-want) > 1e-7*math.Abs(want) {
				t.Errorf("circuit %d: head of node %d is %.12g, want %.12g", i, j, got, want)
			}
		}
		for k, want := range answers[i].Flow {
			// A flow of no account, in a loop that is nearly at rest, is the
			// difference of larger ones: hence 1e-10 of the largest. A shut
			// link passes 1e-14 m3/s for a metre of head.
			if got := res.Flow[k]; math.Abs(got-want) > 1e-7*math.Abs(want)+max(1e-10*largest, 1e-13) {
				t.Errorf("circuit %d: %s %d carries %.12g, want %.12g", i, c.Links[k].Kind, k, got, want)
			}
			if want == 0 {
				shut++
			}
		}
		loops += len(c.Links) - free
	}
	// The circuits must be worth the comparison.
	if shut < 5 || loops < 40 {
		t.Errorf("only %d one-way links shut, %d independent paths", shut, loops)
	}
	t.Logf("%d one-way links shut, %d independent paths", shut, loops)
}
