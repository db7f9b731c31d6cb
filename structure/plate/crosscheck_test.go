package plate

import (
	"bufio"
	"bytes"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// deck writes a pane for CalculiX: its left half in shells S8R (eight nodes),
// nx by ny of them. Supports keep their line straight, as thin plates do; the
// edges slide in their plane.
func deck(p *Pane, l Load, nx, ny int, large bool) []byte {
	var b bytes.Buffer
	dx, dy := p.Width/2/float64(nx), p.Height/float64(ny)
	node := func(i, j int) int { return j*(2*nx+1) + i + 1 } // in half elements
	exists := func(i, j int) bool { return i%2 == 0 || j%2 == 0 }
	fmt.Fprintln(&b, "*NODE, NSET=NALL")
	for j := range 2*ny + 1 {
		for i := range 2*nx + 1 {
			if exists(i, j) {
				fmt.Fprintf(&b, "%d,%.12g,%.12g,0\n", node(i, j), float64(i)*dx/2, float64(j)*dy/2)
			}
		}
	}
	fmt.Fprintln(&b, "*ELEMENT, TYPE=S8R, ELSET=GLASS")
	for j := range ny {
		for i := range nx {
			u, v := 2*i, 2*j
			fmt.Fprintf(&b, "%d,%d,%d,%d,%d,%d,%d,%d,%d\n", j*nx+i+1,
				node(u, v), node(u+2, v), node(u+2, v+2), node(u, v+2), node(u+1, v), node(u+2, v+1), node(u+1, v+2), node(u, v+1))
		}
	}
	// Springs of a brace along the top, shared by Simpson's rule. All elements must
	// stand before what they are made of, and a stiffness must have a point.
	next := nx*ny + 1
	var springs bytes.Buffer
	for _, brace := range p.Braces {
		for i := range nx {
			if x := (float64(i) + 0.5) * dx; x < brace.From || x > brace.To {
				continue
			}
			for k, share := range []float64{1, 4, 1} {
				fmt.Fprintf(&b, "*ELEMENT, TYPE=SPRING1, ELSET=S%d\n%d,%d\n", next, next, node(2*i+k, 2*ny))
				fmt.Fprintf(&springs, "*SPRING, ELSET=S%d\n3\n%.12e\n", next, share/6*dx*brace.Stiffness)
				next++
			}
		}
	}
	fmt.Fprintf(&b, "*MATERIAL, NAME=M\n*ELASTIC\n%.12g,%.12g\n*SHELL SECTION, ELSET=GLASS, MATERIAL=M\n%.12g\n", p.Young, p.Poisson, p.Thickness)
	springs.WriteTo(&b)
	fmt.Fprintln(&b, "*BOUNDARY")
	fix := func(i, j, from, to int) {
		if exists(i, j) {
			fmt.Fprintf(&b, "%d,%d,%d,0\n", node(i, j), from, to)
		}
	}
	edge := func(s Support, i, j, along int) {
		switch s {
		case Held:
			fix(i, j, 3, 3)
			fix(i, j, along, along)
		case Clamped:
			fix(i, j, 3, 5)
		}
	}
	for i := range 2*nx + 1 {
		edge(p.Edges[Bottom], i, 0, 5)
		edge(p.Edges[Top], i, 2*ny, 5)
	}
	for j := range 2*ny + 1 {
		edge(p.Edges[Left], 0, j, 4)
		fix(2*nx, j, 1, 1) // symmetry
		fix(2*nx, j, 5, 6)
	}
	fix(2*nx, 0, 2, 2)
	if large {
		fmt.Fprint(&b, "*STEP, NLGEOM, INC=200\n*STATIC\n0.25,1\n*DLOAD\n")
	} else {
		fmt.Fprint(&b, "*STEP\n*STATIC\n*DLOAD\n")
	}
	for e := range nx * ny {
		x, y := (float64(e%nx)+0.5)*dx, (float64(e/nx)+0.5)*dy
		pressure := l.Pressure(y)
		for _, q := range l.Patches { // they must end where elements end
			if q.X0 < x && x < q.X1 && q.Y0 < y && y < q.Y1 {
				pressure += q.pressure()
			}
		}
		fmt.Fprintf(&b, "%d,P,%.12g\n", e+1, pressure)
	}
	fmt.Fprint(&b, "*NODE FILE, OUTPUT=3D, FREQUENCY=200\nU\n*EL FILE, FREQUENCY=200\nS\n*END STEP\n")
	return b.Bytes()
}

// readOut returns the largest deflection and principal tension in a result file
// of CalculiX (.frd, text: a block begins with its name in a line " -4", each
// node's values follow in a line " -1", twelve letters each).
func readOut(t *testing.T, path string) (bow, stress float64) {
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	block, nodes := "", 0
	scan := bufio.NewScanner(f)
	for scan.Scan() {
		s := scan.Text()
		switch {
		case strings.HasPrefix(s, " -4"):
			block = strings.Fields(s)[1]
			if block == "DISP" { // a later increment replaces the one before
				bow, stress = 0, math.Inf(-1)
			}
		case strings.HasPrefix(s, " -1") && len(s) >= 13+36 && (block == "DISP" || block == "STRESS"):
			var v []float64
			for i := 13; i+12 <= len(s); i += 12 {
				x, err := strconv.ParseFloat(strings.TrimSpace(s[i:i+12]), 64)
				if err != nil {
					t.Fatalf("%s: %q: %v", path, s, err)
				}
				v = append(v, x)
			}
			nodes++
			if block == "DISP" {
				bow = max(bow, math.Abs(v[2]))
			} else if len(v) == 6 {
				stress = max(stress, principal(v[0], v[1], v[3]))
			}
		}
	}
	if err := scan.Err(); err != nil || nodes == 0 || math.IsInf(stress, 0) {
		t.Fatalf("%s has no result: %v", path, err)
	}
	return bow, stress
}

// TestCrosscheck compares with CalculiX, an independent finite element program.
// It is skipped where that is missing, unless RILLWRIGHT_CROSSCHECK=1 says it
// must be there.
func TestCrosscheck(t *testing.T) {
	ccx, err := exec.LookPath("ccx")
	if err != nil {
		if os.Getenv("RILLWRIGHT_CROSSCHECK") == "1" {
			t.Fatal(err)
		}
		t.Skipf("no cross-check without CalculiX (Debian: calculix-ccx): %v", err)
	}
	// Thin, so that shear, which only shells have, moves the bow by less than 0.5 %
	// (see TestPanes). The mesh of the shells moves the stress by as much (elements.csv).
	brim := Load{Inner: 0.6, Weight: waterWeight}
	braced := glass(1.2, 0.6, 0.004, Free)
	braced.Braces = []Brace{{Top, 0.48, 0.72, 2e5}}
	clamped := glass(0.6, 0.6, 0.003, Free)
	clamped.Edges[Bottom] = Clamped
	between := glass(0.9, 0.6, 0.003, Held)
	for _, c := range []struct {
		name  string
		p     *Pane
		l     Load
		large bool
	}{
		{"held all round", glass(0.6, 0.6, 0.003, Held), brim, false},
		{"top free", glass(1.2, 0.6, 0.003, Free), brim, false},
		{"top free, wide, part full", glass(1.8, 0.6, 0.003, Free), Load{Inner: 0.36, Weight: waterWeight}, false},
		{"floor", glass(0.9, 0.6, 0.003, Held), Load{Uniform: 5000}, false},
		{"clamped below", clamped, brim, false},
		{"water on both faces", between, Load{Inner: 0.48, Outer: 0.24, Weight: waterWeight}, false},
		{"braced at the middle", braced, brim, false},
		{"pushed at the free edge", glass(1.2, 0.6, 0.003, Free), Load{Inner: 0.6, Weight: waterWeight, Patches: []Patch{{0.54, 0.66, 0.48, 0.6, 250}}}, false},
		{"pushed at the middle", glass(0.6, 0.6, 0.003, Held), middle(glass(0.6, 0.6, 0.003, Held), 0.24, 0.24, 250), false},
		{"held all round, stretched", glass(1, 0.6, 0.003, Held), brim, true},
		{"top free, stretched", glass(0.8, 0.4, 0.003, Free), Load{Inner: 0.4, Weight: waterWeight}, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			if c.large && testing.Short() {
				t.Skip("seconds of somebody else's work")
			}
			dir := t.TempDir()
			ny := 20
			if c.large { // each of some thirty iterations costs as much as a linear case
				ny = 14
			}
			if len(c.l.Patches) > 0 { // the stress gathers under the patch
				ny = 40
			}
			nx := int(math.Round(float64(ny) * c.p.Width / 2 / c.p.Height))
			if err := os.WriteFile(filepath.Join(dir, "pane.inp"), deck(c.p, c.l, nx, ny, c.large), 0o600); err != nil {
				t.Fatal(err)
			}
			cmd := exec.Command(ccx, "-i", "pane")
			cmd.Dir = dir
			cmd.Env = append(os.Environ(), "OMP_NUM_THREADS=1")
			if out, err := cmd.CombinedOutput(); err != nil {
				t.Fatalf("ccx: %v\n%s", err, out)
			}
			bow, stress := readOut(t, filepath.Join(dir, "pane.frd"))
			r := mustSolve(t, c.p, c.l, Settings{Linear: !c.large})
			t.Logf("bow %.5g mm (ccx %.5g, %+.2f %%), stress %.5g MPa (ccx %.5g, %+.2f %%) at %.3f, %.3f", 1e3*r.Bow.Value, 1e3*bow, 100*(r.Bow.Value/bow-1), 1e-6*r.Stress.Value, 1e-6*stress, 100*(r.Stress.Value/stress-1), r.Stress.X, r.Stress.Y)
			near(t, "bow", math.Abs(r.Bow.Value), bow, 0.005, 0)
			near(t, "stress", r.Stress.Value, stress, 0.005, 0)
		})
	}
}
