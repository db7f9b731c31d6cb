package cli

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"rillwright/examples"
)

// What others have in the folder keeps its bytes; a folder that is a file, or that
// cannot be written into, is an error that says what to do.
func TestPacketFolder(t *testing.T) {
	whole(t)
	t.Chdir(t.TempDir())
	for _, f := range []string{"full/packet.pdf", "mine"} {
		if err := os.MkdirAll(f, 0o755); err != nil {
			t.Fatal(err)
		}
	}
	write(t, "mine/notes.txt", "do not touch")
	write(t, "file", "a file, not a folder")
	for _, c := range []struct {
		folder string
		status int
		err    string
	}{
		{"mine", exitOK, "wrote mine/packet.pdf"},
		{"file", exitOther, "the folder file cannot be made: "},
		{"file/inner", exitOther, "the folder file/inner cannot be made: "},
		{"full", exitOther, "full/packet.pdf cannot be written: "},
	} {
		status, out, err := run("packet", "demo", c.folder)
		if status != c.status || !strings.Contains(err, c.err) || out != "" || status != exitOK && !strings.Contains(err, "\n  do: ") {
			t.Errorf("%s: status %d, want %d: %s%s", c.folder, status, c.status, out, err)
		}
	}
	notes, err := os.ReadFile("mine/notes.txt")
	if err != nil || string(notes) != "do not touch" {
		t.Errorf("%q, %v", notes, err)
	}
}

// The command gives the same bytes twice, and another mark for another text.
func TestPacketSame(t *testing.T) {
	whole(t)
	t.Chdir(t.TempDir())
	for _, f := range []string{"a", "b"} {
		if status, _, err := run("packet", "demo", f, "--date", "2026-11-25"); status != exitOK {
			t.Fatal(err)
		}
	}
	a, errA := os.ReadFile("a/packet.pdf")
	b, errB := os.ReadFile("b/packet.pdf")
	if errA != nil || errB != nil || !bytes.Equal(a, b) {
		t.Errorf("two runs differ, or are not there: %v, %v", errA, errB)
	}
}

// A packet has what the log beside the design comes to, and tells of lines in it that
// cannot be read; it is the same whenever it is made.
func TestPacketOfLog(t *testing.T) {
	whole(t)
	t.Chdir(t.TempDir())
	write(t, "wall.yaml", string(examples.CorridorCabinet))
	for _, args := range [][]string{{"cleaned strainer"}, {"top-up 2 L in 8 days"}} {
		if status, _, err := run("note", "wall.yaml", "--at", "2025-03-01T10:00:00Z", args[0]); status != exitOK {
			t.Fatal(err)
		}
	}
	for _, f := range []string{"a", "b"} {
		if status, _, err := run("packet", "wall.yaml", f); status != exitOK {
			t.Fatal(err)
		}
	}
	papers, err := filepath.Glob("a/*keeping*.svg")
	if err != nil || len(papers) < 2 {
		t.Fatalf("%q, %v", papers, err)
	}
	all := ""
	for _, f := range papers {
		text, errA := os.ReadFile(f)
		again, errB := os.ReadFile(strings.Replace(f, "a/", "b/", 1))
		if errA != nil || errB != nil || !bytes.Equal(text, again) {
			t.Errorf("%s differs from run to run: %v, %v", f, errA, errB)
		}
		all += string(text)
	}
	for _, want := range []string{"2025-03-15", "250 ml a day", "Cleaned strainer once"} {
		if !strings.Contains(all, want) {
			t.Errorf("no %q", want)
		}
	}
	write(t, "wall.log", "no line of a log\n")
	if _, _, err := run("packet", "wall.yaml", "a"); !strings.Contains(err, "wall.log:1") {
		t.Errorf("a line that cannot be read is not told of: %s", err)
	}
}

// Work that is over within a second is not told of.
func TestAfterASecond(t *testing.T) {
	told := 0
	tell := afterASecond(func(_, _ int) { told++ }, func() time.Duration { return 900 * time.Millisecond })
	tell(1, 2)
	if told != 0 {
		t.Error("told at once")
	}
	tell = afterASecond(func(_, _ int) { told++ }, func() time.Duration { return 1100 * time.Millisecond })
	tell(2, 2)
	if told != 1 {
		t.Error("not told after a second")
	}
	if afterASecond(nil, nil) != nil {
		t.Error("tells nobody")
	}
}
