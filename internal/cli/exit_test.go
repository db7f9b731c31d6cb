package cli

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"rillwright/design"
)

// What cannot be written ends with status 3 and says so, whatever the system
// calls it.
func TestOtherTroubles(t *testing.T) {
	whole(t)
	t.Chdir(t.TempDir())
	write(t, "plots", "a file, not a folder")
	for _, c := range []struct {
		args   []string
		status int
		err    string
	}{
		{[]string{"check", "-b", "--plot", "plots", "demo"}, exitOther, "the folder plots cannot be made: "},
		{[]string{"check", "-b", "--plot", "plots/inner", "demo"}, exitOther, "the folder plots/inner cannot be made: "},
		{[]string{"new", "none/wall.yaml"}, exitInput, "none/wall.yaml cannot be written: "},
	} {
		status, _, err := run(c.args...)
		if status != c.status || !strings.HasPrefix(err, "rillwright: "+c.err) {
			t.Errorf("%q: status %d, want %d: %s", c.args, status, c.status, err)
		}
	}
}

type brokenPipe struct{}

var errPipe = errors.New("broken pipe")

func (brokenPipe) Write([]byte) (int, error) { return 0, errPipe }

// A result that does not reach the reader is no success.
func TestBrokenOutput(t *testing.T) {
	for _, args := range [][]string{
		{"check", "demo"},
		{"check", "--format", "json", "demo"},
		{"parts", "elbow"},
		{"parts", "--format", "json", "elbow"},
		{"schema"},
		{"new"},
	} {
		var e bytes.Buffer
		status := Run(args, Streams{In: strings.NewReader(""), Out: brokenPipe{}, Err: &e})
		if status != exitOther || !strings.Contains(e.String(), errPipe.Error()) {
			t.Errorf("%q: status %d, want %d: %s", args, status, exitOther, e.String())
		}
	}
}

// The same words in give the same bytes out.
func TestRepeatable(t *testing.T) {
	whole(t)
	for _, args := range [][]string{{"check", "demo-us"}, {"check", "--format", "json", "demo"}} {
		_, one, _ := run(args...)
		if _, two, _ := run(args...); one != two {
			t.Errorf("%q prints something else the second time", args)
		}
	}
}

// A starter printed is the starter written.
func TestNewPrints(t *testing.T) {
	t.Chdir(t.TempDir())
	if status, _, err := run("new", "wall.yaml"); status != exitOK {
		t.Fatal(err)
	}
	data, err := os.ReadFile("wall.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if status, out, err := run("new"); status != exitOK || err != "" || out != string(data) || out != string(design.Starter()) {
		t.Errorf("status %d, %d bytes printed, %d written", status, len(out), len(data))
	}
}

// The schema is one by an independent compiler's judgement.
func TestSchema(t *testing.T) {
	status, out, stderr := run("schema")
	if status != exitOK || stderr != "" {
		t.Fatalf("status %d: %s", status, stderr)
	}
	v, err := jsonschema.UnmarshalJSON(strings.NewReader(out))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("design.json", v); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("design.json")
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Validate(map[string]any{"name": "no pumps"}); err == nil {
		t.Error("a design without pumps passes the schema")
	}
}

// No line of a report is longer than the width, but the list of verdicts, where
// a name has to stay in one piece to be copied.
func TestWidth(t *testing.T) {
	whole(t)
	dir := thirdDesign(t)
	for _, name := range []string{"demo", "demo-us", filepath.Join(dir, "wall.yaml")} {
		_, out, _ := run("check", name)
		for line := range strings.Lines(out) {
			line = strings.TrimRight(line, "\n")
			if n := len([]rune(line)); n > width && !strings.HasSuffix(line, "]") {
				t.Errorf("%s: %d characters: %s", name, n, line)
			}
			if line != strings.TrimRight(line, " ") {
				t.Errorf("%s: blanks at the end of %q", name, line)
			}
		}
	}
}

// thirdDesign writes the files of testdata/third.txt into a folder.
func thirdDesign(t *testing.T) string {
	t.Helper()
	data, err := os.ReadFile("testdata/third.txt")
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	_, files := cutFiles(strings.ReplaceAll(string(data), "\r\n", "\n"))
	for name, text := range files.all() {
		write(t, filepath.Join(dir, name), text)
	}
	return dir
}

// Each plot is a whole SVG document without a figure that is none. One pump
// gives pump.svg, each manifold a file of its own.
func TestPlots(t *testing.T) {
	whole(t)
	third := filepath.Join(thirdDesign(t), "wall.yaml")
	for _, c := range []struct {
		design string
		want   []string
	}{
		{"demo", []string{"outlets.svg", "pump.svg"}},
		{"demo-us", []string{"outlets.svg", "pump.svg"}},
		{third, []string{"outlets-2.svg", "outlets.svg", "pump.svg"}},
	} {
		dir := filepath.Join(t.TempDir(), "new", "plots")
		status, out, stderr := run("check", "-b", "--plot", dir, c.design)
		if status != exitOK && status != exitFails {
			t.Fatalf("%s: status %d: %s", c.design, status, stderr)
		}
		if strings.Contains(out, ".svg") {
			t.Errorf("%s: messages among the results", c.design)
		}
		var names []string
		entries, err := os.ReadDir(dir)
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range entries {
			names = append(names, e.Name())
			if !strings.Contains(stderr, "wrote "+filepath.ToSlash(filepath.Join(dir, e.Name()))+"\n") {
				t.Errorf("%s: %s is not told: %s", c.design, e.Name(), stderr)
			}
			checkSVG(t, filepath.Join(dir, e.Name()))
		}
		if !slices.Equal(names, c.want) {
			t.Errorf("%s: wrote %q, want %q", c.design, names, c.want)
		}
	}
}

var notNumber = regexp.MustCompile(`NaN|[+-]?Inf\b`)

func checkSVG(t *testing.T, path string) {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if notNumber.Match(data) {
		t.Errorf("%s holds something that is no number", path)
	}
	d := xml.NewDecoder(bytes.NewReader(data))
	root, viewBox, shapes := "", "", 0
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatalf("%s is not well-formed: %v", path, err)
		}
		e, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		if root == "" {
			root = e.Name.Space + " " + e.Name.Local
			for _, a := range e.Attr {
				if a.Name.Local == "viewBox" {
					viewBox = a.Value
				}
			}
			continue
		}
		shapes++
	}
	if root != "http://www.w3.org/2000/svg svg" || len(strings.Fields(viewBox)) != 4 || shapes < 10 {
		t.Errorf("%s: root %q, view box %q, %d elements", path, root, viewBox, shapes)
	}
}
