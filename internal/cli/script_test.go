package cli

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"rillwright/examples"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "write the transcripts in testdata anew")

// long are the transcripts that take seconds. Under the race detector, which runs
// short tests, the others run through the same code.
var long = []string{"floods.txt", "verdicts.txt", "third.txt", "packet.txt", "beside.txt", "dead.txt", "diagnose.txt", "climate.txt", "seek.txt", "suppose.txt"}

// whole skips a test in which one design after the other is computed whole, where
// tests are to be short.
func whole(t *testing.T) {
	t.Helper()
	if testing.Short() {
		t.Skip("computes several designs whole")
	}
}

// Each file of testdata is a transcript: a line that begins with "$ " is typed
// in an empty folder, what stands below is what comes back. "! " marks what
// went to the standard error and "? " an exit status other than 0; lines that
// begin with "# " say what it is about. Behind a line "-- name --" stands a file
// of the folder. Beside rillwright a line may call what scriptHelpers tells.
// With -update the transcripts are written anew; read the difference.
func TestTranscripts(t *testing.T) {
	names, err := filepath.Glob("testdata/*.txt")
	if err != nil || len(names) == 0 {
		t.Fatalf("no transcripts: %v", err)
	}
	for _, name := range names {
		t.Run(strings.TrimSuffix(filepath.Base(name), ".txt"), func(t *testing.T) {
			if testing.Short() && slices.Contains(long, filepath.Base(name)) {
				t.Skip("follows every fault many times")
			}
			golden, err := filepath.Abs(name)
			if err != nil {
				t.Fatal(err)
			}
			data, err := os.ReadFile(golden)
			if err != nil {
				t.Fatal(err)
			}
			script, files := cutFiles(strings.ReplaceAll(string(data), "\r\n", "\n"))
			t.Chdir(t.TempDir())
			for name, text := range files.all() {
				write(t, name, text)
			}
			got := replay(t, script)
			if *update {
				if err := os.WriteFile(golden, []byte(got+files.text), 0o644); err != nil {
					t.Fatal(err)
				}
				return
			}
			if diff := cmp.Diff(strings.Split(script, "\n"), strings.Split(got, "\n")); diff != "" {
				t.Errorf("the transcript changed (-golden +now); if rightly, run with -update:\n%s", diff)
			}
		})
	}
}

// archive is the files at the end of a transcript, as they stand there.
type archive struct{ text string }

func cutFiles(data string) (script string, files archive) {
	if i := strings.Index(data, "\n-- "); i >= 0 {
		return data[:i+1], archive{data[i+1:]}
	}
	return data, archive{}
}

func (a archive) all() map[string]string {
	out := map[string]string{}
	name := ""
	for line := range strings.Lines(a.text) {
		if rest, ok := strings.CutPrefix(line, "-- "); ok {
			if n, ok := strings.CutSuffix(strings.TrimSpace(rest), " --"); ok {
				name = n
				out[name] = ""
				continue
			}
		}
		out[name] += line
	}
	return out
}

// replay runs the commands of a transcript and returns it with what came back.
func replay(t *testing.T, script string) string {
	t.Helper()
	var b strings.Builder
	for line := range strings.Lines(script) {
		command, ok := strings.CutPrefix(line, "$ ")
		if !ok {
			if strings.HasPrefix(line, "# ") {
				b.WriteString(line)
			}
			continue
		}
		b.WriteString(line)
		args := words(t, strings.TrimSpace(command))
		if args[0] != "rillwright" {
			scriptHelpers(t, args)
			continue
		}
		status, out, err := run(args[1:]...)
		b.WriteString(out)
		if out != "" && !strings.HasSuffix(out, "\n") {
			b.WriteString("\n")
		}
		for l := range strings.Lines(err) {
			b.WriteString("! " + l)
		}
		if status != 0 {
			fmt.Fprintf(&b, "? %d\n", status)
		}
	}
	return b.String()
}

// scriptHelpers are the commands of a transcript that are not the program's:
//
//	copy demo NAME             writes a built-in design (demo, demo-us) as a file
//	edit NAME TO OLD NEW ...   writes a copy with pieces of text replaced
//	fill NAME BYTES            writes a remark of so many bytes
//	folder NAME                makes a folder
func scriptHelpers(t *testing.T, args []string) {
	t.Helper()
	switch args[0] {
	case "copy":
		text := map[string][]byte{"demo": examples.CorridorCabinet, "demo-us": examples.CounterWall}[args[1]]
		write(t, args[2], string(text))
	case "edit":
		data, err := os.ReadFile(args[1])
		if err != nil {
			t.Fatal(err)
		}
		text := string(data)
		for i := 3; i+1 < len(args); i += 2 {
			if !strings.Contains(text, args[i]) {
				t.Fatalf("%s has no %q", args[1], args[i])
			}
			text = strings.ReplaceAll(text, args[i], args[i+1])
		}
		write(t, args[2], text)
	case "fill":
		n, err := strconv.Atoi(args[2])
		if err != nil {
			t.Fatal(err)
		}
		write(t, args[1], "#"+strings.Repeat("x", n-2)+"\n")
	case "folder":
		if err := os.MkdirAll(args[1], 0o755); err != nil {
			t.Fatal(err)
		}
	default:
		t.Fatalf("no command %q", args[0])
	}
}

func write(t *testing.T, name, text string) {
	t.Helper()
	if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
}

// words splits a command line; what stands in quotes is Go's quoted string.
func words(t *testing.T, line string) []string {
	t.Helper()
	var out []string
	for line = strings.TrimLeft(line, " "); line != ""; line = strings.TrimLeft(line, " ") {
		if line[0] == '"' {
			q, err := strconv.QuotedPrefix(line)
			if err != nil {
				t.Fatalf("%s: %v", line, err)
			}
			w, err := strconv.Unquote(q)
			if err != nil {
				t.Fatalf("%s: %v", line, err)
			}
			out, line = append(out, w), line[len(q):]
			continue
		}
		w, rest, _ := strings.Cut(line, " ")
		out, line = append(out, w), rest
	}
	return out
}

// run runs a command line in memory.
func run(args ...string) (status int, out, err string) {
	var o, e bytes.Buffer
	status = Run(args, Streams{In: strings.NewReader(""), Out: &o, Err: &e})
	return status, o.String(), e.String()
}
