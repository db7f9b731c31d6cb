package design

import (
	"flag"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "write what is found into the golden files; read the difference before keeping it")

// wrongFile is one case of testdata/wrong.txt.
type wrongFile struct {
	name, old, put, want string
}

func wrongFiles(t *testing.T, text string) (head string, cases []wrongFile) {
	t.Helper()
	head, rest, _ := strings.Cut(text, "== ")
	for part := range strings.SplitSeq(rest, "\n== ") {
		lines := strings.SplitN(strings.TrimRight(part, "\n"), "\n", 4)
		if len(lines) < 3 || !strings.HasPrefix(lines[1], "-") || !strings.HasPrefix(lines[2], "+") {
			t.Fatalf("case of another shape: %q", part)
		}
		w := wrongFile{name: strings.TrimPrefix(lines[0], "== "), old: lines[1][1:], put: lines[2][1:]}
		if len(lines) > 3 {
			w.want = lines[3] + "\n"
		}
		cases = append(cases, w)
	}
	return head, cases
}

func TestReadWrong(t *testing.T) {
	const path = "testdata/wrong.txt"
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	head, cases := wrongFiles(t, string(data))
	if len(cases) < 40 {
		t.Errorf("only %d cases", len(cases))
	}
	var out strings.Builder
	out.WriteString(head)
	lineEnds := strings.NewReplacer(`\n`, "\n")
	for i, c := range cases {
		old, put := lineEnds.Replace(c.old), lineEnds.Replace(c.put)
		if !strings.Contains(sound, old) {
			t.Errorf("%s: the sound file has no %q", c.name, old)
		}
		text := strings.Replace(sound, old, put, 1)
		_, list := Read("f", []byte(text))
		got := show(list)
		if got == "" {
			t.Errorf("%s: nothing found", c.name)
		}
		if !*update && got != c.want {
			t.Errorf("%s: %s", c.name, cmp.Diff(c.want, got))
		}
		lines := strings.Split(text, "\n")
		for _, f := range list {
			if f.Place.Line > 0 && f.Excerpt != lines[f.Place.Line-1] {
				t.Errorf("%s: excerpt %q is not line %d", c.name, f.Excerpt, f.Place.Line)
			}
			if f.Do == "" || f.What == "" {
				t.Errorf("%s: a finding without help: %+v", c.name, f)
			}
		}
		if i > 0 {
			out.WriteString("\n")
		}
		out.WriteString("== " + c.name + "\n-" + c.old + "\n+" + c.put + "\n" + got)
	}
	if *update {
		if err := os.WriteFile(path, []byte(out.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}
