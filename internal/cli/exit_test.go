package cli

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// run runs a command line in memory.
func run(args ...string) (status int, out, err string) {
	var o, e bytes.Buffer
	status = Run(args, Streams{In: strings.NewReader(""), Out: &o, Err: &e})
	return status, o.String(), e.String()
}

// The exit status and where the words go are what scripts rely on.
func TestExitStatus(t *testing.T) {
	dir := t.TempDir()
	bad := filepath.Join(dir, "bad.yaml")
	if err := os.WriteFile(bad, []byte("rillwright: 1\nname: x\nunits: metrc\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	fresh := filepath.Join(dir, "new.yaml")
	for _, c := range []struct {
		args   []string
		status int
		out    string
		err    string
	}{
		{[]string{"check", "demo"}, exitOK, "Will this pump reach the top", ""},
		{[]string{"check", "-b", "demo-us"}, exitOK, "Is the drain big enough? [drain]", ""},
		{[]string{"check", "--strict", "demo"}, exitTight, "TIGHT", ""},
		{[]string{"check", "--only", "nothing", "demo"}, exitInput, "", "choose one of"},
		{[]string{"check", filepath.Join(dir, "none.yaml")}, exitInput, "", "there is no file"},
		{[]string{"check", dir}, exitInput, "", "is a folder"},
		{[]string{"check", bad}, exitInput, "", `did you mean "metric"?`},
		{[]string{"new", fresh}, exitOK, "rillwright check", ""},
		{[]string{"new", fresh}, exitInput, "", "is there already"},
		{[]string{"parts", "elbow", "16"}, exitOK, "elbow 90 barbed 16 mm", ""},
		{[]string{"parts", "no-such-part"}, exitInput, "", "no part matches"},
		{[]string{"schema"}, exitOK, `"$schema"`, ""},
		{[]string{"chek"}, exitInput, "", `did you mean "check"?`},
		{nil, exitOK, "Exit status", ""},
	} {
		status, out, err := run(c.args...)
		if status != c.status || !strings.Contains(out, c.out) || !strings.Contains(err, c.err) {
			t.Errorf("%v: status %d, want %d\nout: %.300s\nerr: %.300s", c.args, status, c.status, out, err)
		}
		if c.err != "" && out != "" {
			t.Errorf("%v: a message beside results on the standard output: %.200s", c.args, out)
		}
	}
	// What new writes can be checked at once, and holds or is tight.
	if status, out, err := run("check", fresh); status != exitOK && status != exitFails || err != "" || out == "" {
		t.Errorf("the starter: status %d, %s", status, err)
	}
}

// Text and JSON come from one result.
func TestJSONEqualsText(t *testing.T) {
	_, text, _ := run("check", "demo")
	_, data, _ := run("check", "--format", "json", "demo")
	var r struct {
		Answers []struct {
			Say     string
			Figures []struct{ Name, Text string }
		}
	}
	if err := json.Unmarshal([]byte(data), &r); err != nil {
		t.Fatal(err)
	}
	if len(r.Answers) == 0 {
		t.Fatal("no answers")
	}
	flat := strings.Join(strings.Fields(text), " ")
	for _, a := range r.Answers {
		if !strings.Contains(flat, strings.Join(strings.Fields(a.Say), " ")) {
			t.Errorf("the text lacks %q", a.Say)
		}
		for _, f := range a.Figures {
			if !strings.Contains(flat, strings.Join(strings.Fields(f.Name+" "+f.Text), " ")) {
				t.Errorf("the text lacks %s %s", f.Name, f.Text)
			}
		}
	}
}

func TestPlotsAreWritten(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "plots")
	if status, _, err := run("check", "-b", "--plot", dir, "demo"); status != exitOK {
		t.Fatal(err)
	}
	for _, name := range []string{"pump.svg", "outlets.svg"} {
		data, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil || !bytes.Contains(data, []byte("</svg>")) {
			t.Errorf("%s: %v", name, err)
		}
	}
}
