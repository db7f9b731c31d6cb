package sheets

import (
	"bytes"
	"encoding/xml"
	"errors"
	"flag"
	"io"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"rillwright/answers"
	"rillwright/drawing"
	"rillwright/drawing/svg"
	"rillwright/enclosure"
	"rillwright/examples"
	"rillwright/internal/trial"
)

var update = flag.Bool("update", false, "write the golden files anew; then look at them")

// survey runs a design.
func survey(t testing.TB, file []byte) *answers.Survey {
	t.Helper()
	s, err := answers.NewSurvey(trial.Resolved(t, file, enclosure.Resolve))
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// written returns a sheet as SVG, after the checks that every sheet must pass.
func written(t testing.TB, s drawing.Sheet) []byte {
	t.Helper()
	for _, i := range s.Outside() {
		t.Errorf("outside the sheet: %+v in %+v", i, i.Bounds())
	}
	var texts []*drawing.Text
	for _, i := range s.Items {
		x, ok := i.(*drawing.Text)
		if !ok {
			continue
		}
		if x.Height < small {
			t.Errorf("%q has capitals of %g mm", x.Text, x.Height)
		}
		for _, y := range texts {
			if x.Bounds().Overlaps(y.Bounds()) {
				t.Errorf("%q lies over %q", x.Text, y.Text)
			}
		}
		texts = append(texts, x)
	}
	var b bytes.Buffer
	if err := svg.Write(&b, &s); err != nil {
		t.Fatal(err)
	}
	for d := xml.NewDecoder(bytes.NewReader(b.Bytes())); ; {
		_, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	return b.Bytes()
}

// texts returns all words of sheets, in order.
func texts(list []drawing.Sheet) string {
	var b strings.Builder
	for _, s := range list {
		for _, i := range s.Items {
			if x, ok := i.(*drawing.Text); ok {
				b.WriteString(x.Text + " ")
			}
		}
	}
	return b.String()
}

// number is a figure, spoken what stands between tags.
var (
	number = regexp.MustCompile(`-?\d+(?:\.\d+)?`)
	spoken = regexp.MustCompile(`>[^<]*<`)
)

// same compares two drawings. Processors may round the last bit of a result in
// different ways, and with it a coordinate: 0.1 mm is allowed. Words, with the
// figures in them, must be the same.
func same(got, want []byte) bool {
	if !slices.EqualFunc(spoken.FindAll(got, -1), spoken.FindAll(want, -1), bytes.Equal) {
		return false
	}
	got, want = spoken.ReplaceAll(got, []byte("><")), spoken.ReplaceAll(want, []byte("><"))
	if !bytes.Equal(number.ReplaceAll(got, []byte("#")), number.ReplaceAll(want, []byte("#"))) {
		return false
	}
	return slices.EqualFunc(number.FindAll(got, -1), number.FindAll(want, -1), func(a, b []byte) bool {
		x, errX := strconv.ParseFloat(string(a), 64)
		y, errY := strconv.ParseFloat(string(b), 64)
		return errX == nil && errY == nil && math.Abs(x-y) <= 0.1
	})
}

func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", name+".svg")
	if *update {
		if err := os.WriteFile(path, got, 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !same(got, want) {
		t.Errorf("%s differs: run go test ./sheets -update, look at it and at the difference", path)
	}
}

func TestSame(t *testing.T) {
	for _, c := range []struct {
		a, b string
		same bool
	}{
		{`<line x1="1.04"/>`, `<line x1="1.1"/>`, true},
		{`<line x1="1.04"/>`, `<line x1="1.3"/>`, false},
		{`<line x1="1.04"/>`, `<rect x1="1.04"/>`, false},
		{`<text x="1">flow 1.95</text>`, `<text x="1.09">flow 1.95</text>`, true},
		{`<text x="1">flow 1.95</text>`, `<text x="1">flow 1.96</text>`, false},
	} {
		if same([]byte(c.a), []byte(c.b)) != c.same {
			t.Errorf("same(%s, %s) = %v", c.a, c.b, !c.same)
		}
	}
}

func TestGolden(t *testing.T) {
	for _, c := range []struct {
		name string
		file []byte
	}{{"corridor-cabinet", examples.CorridorCabinet}, {"counter-wall", examples.CounterWall}} {
		s := survey(t, c.file)
		p, err := PumpPlot(s)
		if err != nil {
			t.Fatal(err)
		}
		golden(t, c.name+"-pump", written(t, p))
		o, err := OutletPlot(s, 0)
		if err != nil {
			t.Fatal(err)
		}
		golden(t, c.name+"-outlets", written(t, o))
		// A second run of the whole chain gives the same bytes.
		again, err := PumpPlot(survey(t, c.file))
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(written(t, again), written(t, p)) {
			t.Errorf("%s: two runs differ", c.name)
		}
	}
}
