package workbench

import (
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"rillwright/internal/logbook"
	"rillwright/record"
)

// send fills in the form of a log as a browser does.
func send(t *testing.T, b *Bench, path string, what, value, note string, change ...func(*http.Request)) *httptest.ResponseRecorder {
	t.Helper()
	r := httptest.NewRequest("POST", path, strings.NewReader(url.Values{"what": {what}, "value": {value}, "note": {note}}.Encode()))
	r.Host = "localhost:1234"
	r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	for _, f := range change {
		f(r)
	}
	w := httptest.NewRecorder()
	b.Handler().ServeHTTP(w, r)
	return w
}

func TestLogPage(t *testing.T) {
	b, folder := bench(t)
	status, page := ask(t, b, "GET", "/log/wall.yaml", nil)
	if status != http.StatusOK || !strings.Contains(string(page), `<option value="bare[main pump]">`) || !strings.Contains(string(page), "Nothing is noted yet") {
		t.Fatalf("%d: %s", status, page)
	}
	w := send(t, b, "/log/wall.yaml", "bare[main pump]", "10 L in 31 s, 1 US gal in 12 s", "<b>first</b> # water")
	if w.Code != http.StatusSeeOther {
		t.Fatalf("%d: %s", w.Code, w.Body)
	}
	l, found, err := logbook.Read(filepath.Join(folder, "wall.log"))
	if err != nil || len(found) > 0 || len(l.Readings) != 1 || l.Readings[0].Note != "<b>first</b> # water" || len(l.Readings[0].Values) != 2 || len(l.Readings[0].Design) != 8 {
		t.Fatalf("%+v, %v, %v", l, found, err)
	}
	status, page = ask(t, b, "GET", w.Header().Get("Location"), nil)
	for _, want := range []string{"Noted: bare[main pump]", "passes: ", "&lt;b&gt;first&lt;/b&gt;", "What is wrong?"} {
		if status != http.StatusOK || !strings.Contains(string(page), want) {
			t.Errorf("%d: no %q in %s", status, want, page)
		}
	}
}

// What cannot be noted is told beside what was typed, and the log stays as it is.
func TestLogRefuses(t *testing.T) {
	b, folder := bench(t)
	for _, c := range [][2]string{{"rise", "12"}, {"bare[gone]", "10 L in 3 s"}, {"nonsense", "1"}, {"cleaned", ""}, {"", ""}} {
		w := send(t, b, "/log/wall.yaml", c[0], c[1], "kept as typed")
		if w.Code != http.StatusUnprocessableEntity || !strings.Contains(w.Body.String(), "Do: ") || !strings.Contains(w.Body.String(), "kept as typed") {
			t.Errorf("%v: %d", c, w.Code)
		}
	}
	for path, want := range map[string]int{"/log/demo": 403, "/log/gone.yaml": 404, "/log/..%2Fwall.yaml": 400} {
		if w := send(t, b, path, "rise", "12 mm", ""); w.Code != want {
			t.Errorf("%s: %d, want %d", path, w.Code, want)
		}
	}
	if w := send(t, b, "/log/wall.yaml", "rise", "12 mm", "", func(r *http.Request) { r.Header.Set("Sec-Fetch-Site", "cross-site") }); w.Code != http.StatusForbidden {
		t.Errorf("from elsewhere: %d", w.Code)
	}
	if _, err := os.Stat(filepath.Join(folder, "wall.log")); !os.IsNotExist(err) {
		t.Errorf("something was noted: %v", err)
	}
	empty, err := New(Options{})
	if err != nil {
		t.Fatal(err)
	}
	if w := send(t, empty, "/log/demo", "rise", "12 mm", ""); w.Code != http.StatusForbidden {
		t.Errorf("without a folder: %d", w.Code)
	}
}

// A log that leads out of the folder is not followed.
func TestLogStaysInside(t *testing.T) {
	b, folder := bench(t)
	out := filepath.Join(t.TempDir(), "other.log")
	put(t, out, record.Header)
	if err := os.Symlink(out, filepath.Join(folder, "wall.log")); err != nil {
		t.Skip(err)
	}
	if w := send(t, b, "/log/wall.yaml", "rise", "12 mm", ""); w.Code < 400 {
		t.Errorf("%d", w.Code)
	}
	if text, err := os.ReadFile(out); err != nil || string(text) != record.Header {
		t.Errorf("%q %v", text, err)
	}
}

// Months later the page says what is wrong and where the flow is going.
func TestLogLooks(t *testing.T) {
	b, folder := bench(t)
	names := record.Names{Pumps: []string{"main pump"}, Manifolds: []string{"drip bar"}}
	start := time.Now().Add(-120 * 24 * time.Hour)
	for _, c := range []struct {
		day  int
		line string
	}{
		{0, "bare 10 L in 31 s, 31 s, 30 s"},
		{0, "shut-off 2.35 m"},
		{0, "manifold 5 L in 51 s, 50 s, 51 s"},
		{40, "manifold 5 L in 54 s, 54 s, 55 s"},
		{80, "manifold 5 L in 57 s, 58 s, 58 s"},
		{119, "manifold 5 L in 62 s, 62 s, 61 s"},
		{119, "shut-off 2.35 m"},
		{119, "bare 10 L in 31 s, 31 s, 31 s"},
	} {
		r, err := record.Typed(c.line, names)
		if err != nil {
			t.Fatal(err)
		}
		r.Time = start.Add(time.Duration(c.day) * 24 * time.Hour)
		if err := logbook.Add(filepath.Join(folder, "wall.log"), r); err != nil {
			t.Fatal(err)
		}
	}
	status, page := ask(t, b, "GET", "/log/wall.yaml?look=1", nil)
	for _, want := range []string{"Measure next: ", `<a href="/#wall.yaml/trouble">`, "<polyline points=\"0.0,", "of the first", "late, ", "Do: "} {
		if status != http.StatusOK || !strings.Contains(string(page), want) {
			t.Errorf("%d: no %q in\n%s", status, want, page)
		}
	}
}
