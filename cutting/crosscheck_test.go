package cutting

import (
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// glpsol returns GLPK's program, an independent solver of integer programs. Tests
// that need it are skipped where it is missing, unless RILLWRIGHT_CROSSCHECK=1
// says it must be there.
func glpsol(t *testing.T) string {
	t.Helper()
	path, err := exec.LookPath("glpsol")
	if err != nil {
		if os.Getenv("RILLWRIGHT_CROSSCHECK") == "1" {
			t.Fatal(err)
		}
		t.Skipf("no cross-check without GLPK (Debian: glpk-utils): %v", err)
	}
	return path
}

// program writes a job of whole mm as an integer program: which piece comes from
// which single bar (Kantorovich 1960, Manage. Sci. 6, 366-422), the bars of one
// stock in falling order of use.
func program(j BarJob) string {
	mm := func(m float64) int { return int(math.Round(1e3 * m)) }
	pieces := 0
	for _, p := range j.Pieces {
		pieces += p.Count
	}
	var cost, rows, ints, used strings.Builder
	held := make([]strings.Builder, len(j.Pieces))
	for k, s := range j.Stock {
		n := s.Count
		if n == 0 || n > pieces {
			n = pieces
		}
		for b := range n {
			if !s.OnHand {
				fmt.Fprintf(&cost, " + %g y%d_%d", s.Cost, k, b)
			}
			fmt.Fprintf(&used, " y%d_%d", k, b)
			fmt.Fprintf(&rows, " w%d_%d:", k, b)
			for i, p := range j.Pieces {
				fmt.Fprintf(&rows, " + %d x%d_%d_%d", mm(p.Length)+mm(j.Kerf), i, k, b)
				fmt.Fprintf(&held[i], " + x%d_%d_%d", i, k, b)
				fmt.Fprintf(&ints, " x%d_%d_%d", i, k, b)
			}
			fmt.Fprintf(&rows, " - %d y%d_%d <= 0\n", mm(s.Length)-2*mm(s.Trim)+mm(j.Kerf), k, b)
			if b > 0 {
				fmt.Fprintf(&rows, " o%d_%d: y%d_%d - y%d_%d >= 0\n", k, b, k, b-1, k, b)
			}
		}
	}
	for i, p := range j.Pieces {
		fmt.Fprintf(&rows, " d%d:%s = %d\n", i, held[i].String(), p.Count)
	}
	return fmt.Sprintf("Minimize\n cost: 0 z%s\nSubject To\n%sGeneral\n%s\nBinary\n%s\nEnd\n", cost.String(), rows.String(), ints.String(), used.String())
}

// TestBarsCrosscheck compares the least cost with GLPK's on random small jobs.
func TestBarsCrosscheck(t *testing.T) {
	path := glpsol(t)
	seq := sequence(6)
	met := map[string]int{}
	for n := range 40 {
		j := BarJob{Kerf: float64(seq.below(4)) / 1e3}
		for range 3 + seq.below(3) {
			j.Pieces = append(j.Pieces, BarPiece{Length: float64(100+seq.below(800)) / 1e3, Count: 1 + seq.below(2)})
		}
		for range 1 + seq.below(3) {
			s := BarStock{Length: float64(600+seq.below(1400)) / 1e3, Trim: float64(seq.below(10)) / 1e3, Cost: float64(1 + seq.below(9))}
			if seq.below(3) == 0 {
				s.OnHand, s.Count = true, 1+seq.below(2)
			} else if seq.below(4) == 0 {
				s.Count = 1 + seq.below(2)
			}
			j.Stock = append(j.Stock, s)
		}
		dir := t.TempDir()
		if err := os.WriteFile(filepath.Join(dir, "job.lp"), []byte(program(j)), 0o600); err != nil {
			t.Fatal(err)
		}
		cmd := exec.Command(path, "--lp", "job.lp", "--cuts", "-w", "out", "--tmlim", "20")
		cmd.Dir = dir
		if out, err := cmd.CombinedOutput(); err != nil {
			t.Fatalf("glpsol: %v\n%s", err, out)
		}
		out, err := os.ReadFile(filepath.Join(dir, "out"))
		if err != nil {
			t.Fatal(err)
		}
		// "s mip ROWS COLUMNS STATUS VALUE", o is optimal, n is without solution.
		var status string
		var want float64
		for line := range strings.Lines(string(out)) {
			if f := strings.Fields(line); len(f) == 6 && f[0] == "s" {
				status = f[4]
				if want, err = strconv.ParseFloat(f[5], 64); err != nil {
					t.Fatal(err)
				}
			}
		}
		met[status]++
		p := cutBars(t, j)
		checkBars(t, j, p)
		switch {
		case p.Status != Proven:
			t.Errorf("job %d: %v", n, p.Status)
		case status == "n" || status == "u":
			if len(p.Missing) == 0 {
				t.Errorf("job %d: cost %g, where GLPK finds none", n, p.Cost)
			}
		case status == "o":
			if len(p.Missing) > 0 || math.Abs(p.Cost-want) > 1e-6 {
				t.Errorf("job %d: cost %g with %d missing, GLPK %g: %+v", n, p.Cost, len(p.Missing), want, j)
			}
		}
	}
	t.Log(met)
	if met["o"] < 20 {
		t.Errorf("GLPK finished only %d of the jobs", met["o"])
	}
}
