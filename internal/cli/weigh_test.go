package cli

import (
	"encoding/json"
	"strings"
	"testing"
)

// Text and JSON of weigh come from one result, and its keys are in lower case as all are.
func TestWeighJSON(t *testing.T) {
	args := []string{"weigh", "--draws", "400", "--seed", "9", "demo-us"}
	status, text, _ := run(args...)
	if status != exitOK {
		t.Fatalf("status %d", status)
	}
	status, data, stderr := run(append(args, "--format", "json")...)
	if status != exitOK || stderr != "" {
		t.Fatalf("status %d: %s", status, stderr)
	}
	var r struct {
		Draws   int
		Open    []string
		First   struct{ What, Settle string }
		Answers []struct {
			ID, Question string
			Holds        struct{ Share float64 }
		}
	}
	if err := json.Unmarshal([]byte(data), &r); err != nil {
		t.Fatal(err)
	}
	if r.Draws != 400 || len(r.Open) == 0 || r.First.What == "" || strings.Contains(data, `"P"`) || strings.Contains(data, `"Total"`) {
		t.Errorf("%.600s", data)
	}
	flat := strings.Join(strings.Fields(text), " ")
	for _, want := range []string{"Measure first: " + r.First.What + ", by " + r.First.Settle + ".", "[" + strings.Join(r.Open, "], [") + "]"} {
		if !strings.Contains(flat, want) {
			t.Errorf("the text lacks %q", want)
		}
	}
	for _, a := range r.Answers {
		if line := "holds in " + percent(a.Holds.Share) + " of draws " + a.Question + " [" + a.ID + "]"; !strings.Contains(flat, line) {
			t.Errorf("the text lacks %q", line)
		}
	}
}

func TestFiguresForPeople(t *testing.T) {
	for v, want := range map[float64]string{0: "0", 1234.5: "1234", 12.345: "12.3", 0.98765: "0.988", -0.00123456: "-0.00123"} {
		if have := threeDigits(v); have != want {
			t.Errorf("%g: %s, expected %s", v, have, want)
		}
	}
	for v, want := range map[float64]string{0: "0 %", 0.004: "< 1 %", 0.5: "50 %", 0.996: "> 99 %", 1: "100 %"} {
		if have := percent(v); have != want {
			t.Errorf("%g: %s, expected %s", v, have, want)
		}
	}
}
