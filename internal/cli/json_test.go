package cli

import (
	"encoding/json"
	"math"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

type figure struct {
	Name              string
	Low, Likely, High float64
	Unit, Text        string
	Words             bool
}

type report struct {
	Verdict string
	Answers []struct {
		ID, Question, Verdict, Say string
		Figures                    []figure
		Cautions                   []string
	}
	Doubts []struct{ What, Text string }
}

func jsonReport(t *testing.T, args ...string) (report, string) {
	t.Helper()
	status, data, stderr := run(append([]string{"check", "--format", "json"}, args...)...)
	if status != exitOK && status != exitFails || stderr != "" {
		t.Fatalf("%q: status %d: %s", args, status, stderr)
	}
	var r report
	if err := json.Unmarshal([]byte(data), &r); err != nil {
		t.Fatal(err)
	}
	if len(r.Answers) == 0 {
		t.Fatalf("%q: no answers", args)
	}
	return r, data
}

// Text and JSON come from one result: whatever the one says stands in the other.
func TestJSONEqualsText(t *testing.T) {
	whole(t)
	third := filepath.Join(thirdDesign(t), "wall.yaml")
	for _, design := range []string{"demo", "demo-us", third} {
		r, _ := jsonReport(t, design)
		_, text, _ := run("check", design)
		flat := strings.Join(strings.Fields(text), " ")
		has := func(s string) {
			if s = strings.Join(strings.Fields(s), " "); !strings.Contains(flat, s) {
				t.Errorf("%s: the text lacks %q", design, s)
			}
		}
		for _, a := range r.Answers {
			has(strings.ToUpper(a.Verdict) + " " + a.Question + " [" + a.ID + "]")
			has(a.Question + " " + strings.ToUpper(a.Verdict) + " " + a.Say)
			for _, f := range a.Figures {
				has(f.Name + " " + f.Text)
			}
			for _, c := range a.Cautions {
				has(c)
			}
		}
	}
}

// The numbers of a figure are those of its text, up to the rounding that the
// text shows.
func TestJSONNumbersEqualText(t *testing.T) {
	whole(t)
	third := filepath.Join(thirdDesign(t), "wall.yaml")
	for _, design := range []string{"demo", "demo-us", third} {
		r, _ := jsonReport(t, design)
		for _, a := range r.Answers {
			for _, f := range a.Figures {
				compare(t, design+" "+a.ID, f)
			}
		}
	}
}

func compare(t *testing.T, where string, f figure) {
	t.Helper()
	if f.Low > f.Likely || f.Likely > f.High {
		t.Errorf("%s: %s: %g, %g, %g are not in order", where, f.Name, f.Low, f.Likely, f.High)
	}
	if f.Text == "nothing" && f.High == 0 || f.Words {
		return
	}
	scale := 1.0
	if strings.Contains(f.Text, "%") && f.Unit == "" {
		scale = 100
	}
	shown, step := numbers(f.Text)
	var want []float64
	switch {
	case strings.Contains(f.Text, "times likely, at most"):
		want = []float64{f.Likely, f.High}
	case strings.Contains(f.Text, " to ") && strings.Contains(f.Text, "likely"):
		want = []float64{f.Low, f.High, f.Likely}
	case strings.Contains(f.Text, "likely"):
		want = []float64{f.Low, f.Likely} // both ends look alike
	case strings.Contains(f.Text, " to "):
		want = []float64{f.Low, f.High}
	default:
		want = []float64{f.Likely}
	}
	if len(shown) < len(want) {
		t.Errorf("%s: %s: %q has %d numbers, the JSON %v", where, f.Name, f.Text, len(shown), want)
		return
	}
	for i, w := range want {
		// Half a step, and the rounding of the JSON to six figures.
		if math.Abs(shown[i]-scale*w) > 0.5*step[i]+1e-5*math.Abs(scale*w) {
			t.Errorf("%s: %s: the text %q says %g, the JSON %g", where, f.Name, f.Text, shown[i], scale*w)
		}
	}
}

var inText = regexp.MustCompile(`(\d+) (\d+)/(\d+)|(\d+)/(\d+)|-?\d+(?:\.\d+)?`)

// exponent is the 2 of "m2", which is no number of a figure.
var exponent = regexp.MustCompile(`(m|ft|in)[23]\b`)

// numbers reads the numbers of a text, "1 3/8" as one, with the step in which
// each is shown. Inches are shown to the nearest sixteenth and in lowest terms.
func numbers(text string) (values, steps []float64) {
	fractions := strings.HasSuffix(text, " in") && !strings.Contains(text, "psi")
	for _, m := range inText.FindAllStringSubmatch(exponent.ReplaceAllString(text, "$1"), -1) {
		part := func(i int) float64 { v, _ := strconv.ParseFloat(m[i], 64); return v }
		switch {
		case m[1] != "":
			values, steps = append(values, part(1)+part(2)/part(3)), append(steps, 1.0/16)
		case m[4] != "":
			values, steps = append(values, part(4)/part(5)), append(steps, 1.0/16)
		default:
			v, _ := strconv.ParseFloat(m[0], 64)
			step := 1.0
			if _, decimals, ok := strings.Cut(m[0], "."); ok {
				step = math.Pow10(-len(decimals))
			} else if fractions {
				step = 1.0 / 16
			}
			values, steps = append(values, v), append(steps, step)
		}
	}
	return values, steps
}

// The comparison must be able to fail.
func TestNumbers(t *testing.T) {
	for text, want := range map[string][]float64{
		"249 to 502 L/h, likely 386 L/h":     {249, 502, 386},
		"1 3/8 to 2 in, likely 1 1/2 in":     {1.375, 2, 1.5},
		"99 to 100 %, likely 99.5 %":         {99, 100, 99.5},
		"5/16 in":                            {0.3125},
		"2.1 to 4.8 times, likely 3.0":       {2.1, 4.8, 3},
		"nothing comes":                      nil,
		"1.3 times likely, at most 2.2":      {1.3, 2.2},
		"0.079 to 0.197 in, likely 0.138":    {0.079, 0.197, 0.138},
		"455 to 556 kg/m2, likely 497 kg/m2": {455, 556, 497},
		"-0.241 to 0.177 in":                 {-0.241, 0.177},
	} {
		got, _ := numbers(text)
		if len(got) != len(want) {
			t.Errorf("%q: %v, want %v", text, got, want)
			continue
		}
		for i := range got {
			if got[i] != want[i] {
				t.Errorf("%q: %v, want %v", text, got, want)
			}
		}
	}
}

var lowerCamel = regexp.MustCompile(`^[a-z][a-zA-Z]*$`)

// Programs read the JSON: its keys are in one style, a list is never null, and
// no text stands for a number that is none.
func TestJSONIsPlain(t *testing.T) {
	whole(t)
	dir := thirdDesign(t)
	empty := filepath.Join(dir, "empty.yaml")
	write(t, empty, "")
	for _, args := range [][]string{
		{"check", "--format", "json", "demo"},
		{"check", "--format", "json", "demo-us"},
		{"check", "--format", "json", "--only", "drain", "demo"},
		{"check", "--format", "json", filepath.Join(dir, "wall.yaml")},
		{"check", "--format", "json", empty},
		{"faults", "--format", "json", "--pairs", "demo-us"},
		{"faults", "--format", "json", "--only", "blocked", "demo"},
		{"faults", "--format", "json", empty},
		{"parts", "--format", "json"},
		{"parts", "--format", "json", "no-such-part"},
	} {
		_, out, _ := run(args...)
		var v any
		if err := json.Unmarshal([]byte(out), &v); err != nil {
			t.Errorf("%q: %v", args, err)
			continue
		}
		walk(v, "", func(path, problem string) { t.Errorf("%q: %s: %s", args, path, problem) })
	}
}

func walk(v any, path string, fault func(path, problem string)) {
	switch v := v.(type) {
	case map[string]any:
		for k, x := range v {
			if !lowerCamel.MatchString(k) {
				fault(path, "key "+k)
			}
			walk(x, path+"."+k, fault)
		}
	case []any:
		for i, x := range v {
			walk(x, path+"["+strconv.Itoa(i)+"]", fault)
		}
	case nil:
		fault(path, "null")
	case string:
		if notNumber.MatchString(v) {
			fault(path, v)
		}
	}
}

// The answers asked for are those that the worst verdict is of.
func TestJSONOnly(t *testing.T) {
	all, _ := jsonReport(t, "demo")
	one, _ := jsonReport(t, "--only", "drain", "demo")
	if len(one.Answers) != 1 || one.Answers[0].ID != "drain" || one.Verdict != one.Answers[0].Verdict || all.Verdict == "" {
		t.Errorf("got %+v", one)
	}
	for i := range all.Answers {
		if all.Answers[i].ID == "drain" && all.Answers[i].Say != one.Answers[0].Say {
			t.Error("alone the answer says something else")
		}
	}
}
