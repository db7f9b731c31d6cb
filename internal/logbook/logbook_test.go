package logbook

import (
	"fmt"
	"os"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"rillwright/record"
)

func reading(t *testing.T, note string) record.Reading {
	t.Helper()
	r, err := record.Typed("rise 12 mm", record.Names{})
	if err != nil {
		t.Fatal(err)
	}
	r.Time, r.Note = time.Unix(1.7e9, 0).UTC(), note
	return r
}

// Many write at once, each through files of its own: nothing is lost and no line
// is torn.
func TestWritersAtOnce(t *testing.T) {
	name := filepath.Join(t.TempDir(), "a.log")
	const writers, each = 8, 25
	var wg sync.WaitGroup
	errs := make([]error, writers)
	for w := range writers {
		list := make([]record.Reading, each)
		for i := range list {
			list[i] = reading(t, fmt.Sprintf("%d of writer %d", i, w))
		}
		wg.Go(func() {
			for _, r := range list {
				if err := Add(name, r); err != nil {
					errs[w] = err
				}
			}
		})
	}
	wg.Wait()
	l, found, err := Read(name)
	if err != nil || len(found) > 0 || len(l.Readings) != writers*each {
		t.Fatalf("%d readings, want %d; %v %v %v", len(l.Readings), writers*each, err, found, errs)
	}
}

// After a crash at any byte the piece stays and the next reading is whole.
func TestAddAfterACrash(t *testing.T) {
	name := filepath.Join(t.TempDir(), "a.log")
	if err := Add(name, reading(t, "first"), reading(t, "second")); err != nil {
		t.Fatal(err)
	}
	whole, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	for cut := len(record.Header); cut < len(whole); cut++ {
		if err := os.WriteFile(name, whole[:cut], 0o644); err != nil {
			t.Fatal(err)
		}
		before, _, err := Read(name)
		if err != nil {
			t.Fatal(err)
		}
		if err := Add(name, reading(t, "after")); err != nil {
			t.Fatal(err)
		}
		l, found, err := Read(name)
		if err != nil || len(l.Readings) != len(before.Readings)+1 || found.HasErrors() || len(found) != len(l.Unread) {
			t.Fatalf("cut at %d: %d readings, found %v, %v", cut, len(l.Readings), found, err)
		}
		now, err := os.ReadFile(name)
		if err != nil || string(now[:cut]) != string(whole[:cut]) {
			t.Fatalf("cut at %d: what stood in the log was changed (%v)", cut, err)
		}
	}
}

func TestRefuses(t *testing.T) {
	name := filepath.Join(t.TempDir(), "a.log")
	if err := Add(name, reading(t, "fine"), reading(t, "two\nlines")); err == nil {
		t.Error("a note of two lines is taken")
	}
	if l, _, err := Read(name); err != nil || len(l.Readings) > 0 {
		t.Errorf("%v, %v: half of what was refused is in the log", l, err)
	}
	if err := Add(t.TempDir(), reading(t, "")); err == nil {
		t.Error("a folder is taken for a log")
	}
}

func TestName(t *testing.T) {
	for design, want := range map[string]string{"grotto.yaml": "grotto.log", "a.b/wall": "a.b/wall.log"} {
		if got := Name(design); got != want {
			t.Errorf("log of %s is %s, want %s", design, got, want)
		}
	}
}

// Adding takes as long to a long log as to a short one.
func BenchmarkAdd(b *testing.B) {
	for _, n := range []int{100, 100_000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			name := filepath.Join(b.TempDir(), "a.log")
			if err := os.WriteFile(name, make([]byte, 120*n), 0o644); err != nil {
				b.Fatal(err)
			}
			r := record.Reading{Time: time.Unix(1.7e9, 0), What: "rise", Text: "12 mm"}
			for b.Loop() {
				if err := Add(name, r); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
