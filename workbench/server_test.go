package workbench

import (
	"bytes"
	"compress/gzip"
	"context"
	"encoding/json"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"rillwright/design"
	"rillwright/examples"
)

// bench serves a fresh folder with one design, wall.yaml.
func bench(t testing.TB, change ...func(*Options)) (*Bench, string) {
	t.Helper()
	folder := t.TempDir()
	put(t, filepath.Join(folder, "wall.yaml"), string(examples.CorridorCabinet))
	o := Options{Folder: folder}
	for _, f := range change {
		f(&o)
	}
	b, err := New(o)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = b.Close() })
	return b, folder
}

func put(t testing.TB, path, text string) {
	t.Helper()
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

// ask sends one request and returns status and body.
func ask(t testing.TB, b *Bench, method, path string, body any, change ...func(*http.Request)) (int, []byte) {
	t.Helper()
	var in io.Reader
	switch v := body.(type) {
	case nil:
	case string:
		in = strings.NewReader(v)
	default:
		data, err := json.Marshal(v)
		if err != nil {
			t.Fatal(err)
		}
		in = bytes.NewReader(data)
	}
	r := httptest.NewRequest(method, path, in)
	r.Host = "localhost:1234"
	for _, f := range change {
		f(r)
	}
	w := httptest.NewRecorder()
	b.Handler().ServeHTTP(w, r)
	return w.Code, w.Body.Bytes()
}

func as[T any](t testing.TB, data []byte) T {
	t.Helper()
	var v T
	if err := json.Unmarshal(data, &v); err != nil {
		t.Fatalf("%v: %.200s", err, data)
	}
	return v
}

// Only this machine's own names are served, whatever points at it.
func TestHosts(t *testing.T) {
	b, _ := bench(t, func(o *Options) { o.Hosts = []string{"192.168.1.7"} })
	for host, want := range map[string]int{
		"localhost": 200, "localhost:80": 200, "LOCALHOST:1": 200, "127.0.0.1:9": 200, "[::1]:9": 200, "192.168.1.7:9": 200,
		"evil.example": 421, "localhost.evil.example:80": 421, "127.0.0.1.evil.example": 421, "": 421, "192.168.1.8": 421, "0.0.0.0": 421,
	} {
		if got, _ := ask(t, b, "GET", "/api/designs", nil, func(r *http.Request) { r.Host = host }); got != want {
			t.Errorf("host %q: %d, want %d", host, got, want)
		}
	}
}

// A page from elsewhere can neither save nor compute.
func TestOtherOrigins(t *testing.T) {
	b, folder := bench(t)
	for _, header := range [][2]string{{"Sec-Fetch-Site", "cross-site"}, {"Sec-Fetch-Site", "same-site"}, {"Origin", "http://evil.example"}, {"Origin", "null"}} {
		for _, m := range [][2]string{{"PUT", "/api/designs/wall.yaml"}, {"POST", "/api/compute"}, {"DELETE", "/api/drafts/wall.yaml"}, {"PUT", "/api/drafts/wall.yaml"}} {
			if got, _ := ask(t, b, m[0], m[1], `{}`, func(r *http.Request) { r.Header.Set(header[0], header[1]) }); got != http.StatusForbidden {
				t.Errorf("%v %v: %d", m, header, got)
			}
		}
	}
	if text, _ := os.ReadFile(filepath.Join(folder, "wall.yaml")); string(text) != string(examples.CorridorCabinet) {
		t.Error("the file changed")
	}
}

// With a key nothing is told without it; with it in the address a cookie is set
// and the address is cleaned.
func TestKey(t *testing.T) {
	b, _ := bench(t, func(o *Options) { o.Key = "sesame" })
	for path, want := range map[string]int{"/": 401, "/api/designs": 401, "/?key=wrong": 401, "/?key=": 401, "/app/x.js": 401, "/?key=sesame": 303} {
		if got, _ := ask(t, b, "GET", path, nil); got != want {
			t.Errorf("%s: %d, want %d", path, got, want)
		}
	}
	with := func(v string) func(*http.Request) {
		return func(r *http.Request) { r.AddCookie(&http.Cookie{Name: cookie, Value: v}) }
	}
	if got, _ := ask(t, b, "GET", "/api/designs", nil, with("sesame")); got != 200 {
		t.Errorf("with the cookie: %d", got)
	}
	if got, _ := ask(t, b, "GET", "/api/designs", nil, with("sesam")); got != 401 {
		t.Errorf("with another cookie: %d", got)
	}
	if _, data := ask(t, b, "GET", "/", nil); !strings.HasPrefix(string(data), "rillwright: the key is missing") {
		t.Errorf("who opens the page reads %q", data)
	}
	// A key in the address of anything but a look does nothing.
	if got, _ := ask(t, b, "POST", "/api/set?key=sesame", `{}`); got != 401 {
		t.Errorf("post with the key: %d", got)
	}
}

// Files of the page come packed to whoever takes them so, and the same otherwise. What
// packing would make larger, as it does a file of one line, comes as it is.
func TestPacked(t *testing.T) {
	b, _ := bench(t)
	list, err := dist.ReadDir("web/dist")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range list {
		if f.Name() == "index.html" {
			continue
		}
		_, plain := ask(t, b, "GET", "/app/"+f.Name(), nil)
		_, small := ask(t, b, "GET", "/app/"+f.Name(), nil, func(r *http.Request) { r.Header.Set("Accept-Encoding", "gzip, br") })
		if bytes.Equal(small, plain) && packedSize(t, plain) >= len(plain) {
			continue // packed it would be no smaller
		}
		if len(small) >= len(plain) {
			t.Errorf("%s: packed %d bytes, plain %d", f.Name(), len(small), len(plain))
		}
		z, err := gzip.NewReader(bytes.NewReader(small))
		if err != nil {
			t.Fatalf("%s: %v", f.Name(), err)
		}
		if got, err := io.ReadAll(z); err != nil || !bytes.Equal(got, plain) {
			t.Errorf("%s: %v, %d bytes of %d", f.Name(), err, len(got), len(plain))
		}
	}
}

// packedSize is how long data is when packed as well as can be.
func packedSize(t *testing.T, data []byte) int {
	t.Helper()
	var b bytes.Buffer
	z, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := z.Write(data); err != nil {
		t.Fatal(err)
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Len()
}

func TestPolicy(t *testing.T) {
	b, _ := bench(t)
	nonces := map[string]bool{}
	for range 2 {
		w := httptest.NewRecorder()
		r := httptest.NewRequest("GET", "/", nil)
		r.Host = "localhost"
		b.Handler().ServeHTTP(w, r)
		csp := w.Header().Get("Content-Security-Policy")
		for _, want := range []string{"default-src 'none'", "script-src 'self'", "frame-ancestors 'none'", "form-action 'none'", "base-uri 'none'"} {
			if !strings.Contains(csp, want) {
				t.Errorf("policy %q lacks %s", csp, want)
			}
		}
		if strings.Contains(csp, "unsafe") || strings.Contains(csp, "*") {
			t.Errorf("policy %q", csp)
		}
		_, rest, _ := strings.Cut(csp, "nonce-")
		nonce, _, _ := strings.Cut(rest, "'")
		nonces[nonce] = true
	}
	if len(nonces) != 2 {
		t.Errorf("nonces %v", nonces)
	}
}

func TestPace(t *testing.T) {
	b, _ := bench(t)
	still := time.Now() // however long the requests take
	b.pace = newPace(perSecond, burst, func() time.Time { return still })
	n := 0
	for range burst + 20 {
		if got, _ := ask(t, b, "GET", "/api/nothing", nil); got == http.StatusTooManyRequests {
			n++
		}
	}
	if n == 0 {
		t.Error("nothing was refused")
	}
}

// Only plain design files of the folder itself are shown, read or written.
func TestFolder(t *testing.T) {
	b, folder := bench(t)
	outside := filepath.Join(t.TempDir(), "secret.yaml")
	put(t, outside, "rillwright: 1\nname: secret\n")
	put(t, filepath.Join(folder, "note.yaml"), "name: no design\n")
	put(t, filepath.Join(folder, "key.txt"), "rillwright: no")
	if err := os.Symlink(outside, filepath.Join(folder, "link.yaml")); err != nil {
		t.Skip(err)
	}
	if err := os.Symlink(filepath.Dir(outside), filepath.Join(folder, "dir")); err != nil {
		t.Skip(err)
	}
	_, data := ask(t, b, "GET", "/api/designs", nil)
	if l := as[designList](t, data); strings.Join(l.Names, " ") != "wall.yaml demo demo-us" || !l.Folder {
		t.Errorf("list %+v", l)
	}
	for _, name := range []string{"link.yaml", "..%2Fsecret.yaml", "dir%2Fsecret.yaml", "key.txt", ".wall.yaml.draft", "%2Fetc%2Fpasswd", "con.yaml", "wall.yaml%00", "none.yaml", "dir"} {
		if got, body := ask(t, b, "GET", "/api/designs/"+name, nil); got < 400 || got >= 500 || bytes.Contains(body, []byte("secret")) {
			t.Errorf("read %s: %d %.80s", name, got, body)
		}
		if got, _ := ask(t, b, "PUT", "/api/designs/"+name, saveRequest{Base: revision([]byte("rillwright: 1\nname: secret\n")), Text: "x"}); got < 400 && name != "link.yaml" && name != "none.yaml" {
			t.Errorf("write %s: %d", name, got)
		}
	}
	if text, _ := os.ReadFile(outside); string(text) != "rillwright: 1\nname: secret\n" {
		t.Errorf("written through a link: %q", text)
	}
	for _, name := range []string{"demo", "demo-us"} {
		if got, _ := ask(t, b, "PUT", "/api/designs/"+name, saveRequest{Text: "x"}); got != http.StatusForbidden {
			t.Errorf("%s: %d", name, got)
		}
	}
}

// What somebody else wrote is never written over.
func TestSave(t *testing.T) {
	b, folder := bench(t)
	path := filepath.Join(folder, "wall.yaml")
	_, data := ask(t, b, "GET", "/api/designs/wall.yaml", nil)
	open := as[stored](t, data)
	code, data := ask(t, b, "PUT", "/api/designs/wall.yaml", saveRequest{open.Revision, open.Text + "# mine\n"})
	mine := as[stored](t, data)
	if text, _ := os.ReadFile(path); code != 200 || string(text) != open.Text+"# mine\n" || mine.Revision != revision(text) {
		t.Fatalf("%d, %+v", code, mine)
	}
	put(t, path, open.Text+"# theirs\n")
	code, data = ask(t, b, "PUT", "/api/designs/wall.yaml", saveRequest{mine.Revision, open.Text + "# mine again\n"})
	theirs := as[stored](t, data)
	if text, _ := os.ReadFile(path); code != http.StatusConflict || string(text) != open.Text+"# theirs\n" || theirs.Text != string(text) {
		t.Fatalf("%d, %+v", code, theirs)
	}
	// With what stands there known, it can be.
	if code, _ = ask(t, b, "PUT", "/api/designs/wall.yaml", saveRequest{theirs.Revision, open.Text}); code != 200 {
		t.Error(code)
	}
	// A new file does not take the place of another.
	if code, _ = ask(t, b, "PUT", "/api/designs/wall.yaml", saveRequest{"", "x"}); code != http.StatusConflict {
		t.Error(code)
	}
	if code, _ = ask(t, b, "PUT", "/api/designs/new%20wall.yaml", saveRequest{"", "x"}); code != 200 {
		t.Error(code)
	}
	// Nothing is left lying about.
	list, _ := filepath.Glob(filepath.Join(folder, ".*.part"))
	if len(list) > 0 {
		t.Error(list)
	}
}

// What was typed outlives page and program, and is dropped once it is saved.
func TestDraft(t *testing.T) {
	b, folder := bench(t)
	if code, _ := ask(t, b, "PUT", "/api/drafts/wall.yaml", draftRequest{"half a line", string(examples.CorridorCabinet)}); code != http.StatusNoContent {
		t.Fatal(code)
	}
	again, err := New(Options{Folder: folder})
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = again.Close() }()
	_, data := ask(t, again, "GET", "/api/designs/wall.yaml", nil)
	d := as[stored](t, data)
	if d.Draft != "half a line" || d.DraftBase == nil || *d.DraftBase != d.Text || d.Text != string(examples.CorridorCabinet) {
		t.Fatalf("%+v", d)
	}
	if code, _ := ask(t, again, "PUT", "/api/designs/wall.yaml", saveRequest{d.Revision, "whole\n"}); code != 200 {
		t.Fatal(code)
	}
	_, data = ask(t, again, "GET", "/api/designs/wall.yaml", nil)
	if d = as[stored](t, data); d.Draft != "" || d.Text != "whole\n" {
		t.Errorf("%+v", d)
	}
	_, _ = ask(t, again, "PUT", "/api/drafts/wall.yaml", draftRequest{"x", "y"})
	_, _ = ask(t, again, "DELETE", "/api/drafts/wall.yaml", nil)
	_, data = ask(t, again, "GET", "/api/designs/wall.yaml", nil)
	if d = as[stored](t, data); d.Draft != "" {
		t.Errorf("%+v", d)
	}
}

// An edit changes what it names and leaves the rest, comments and all, alone.
func TestSet(t *testing.T) {
	b, _ := bench(t)
	text := string(examples.CorridorCabinet)
	_, data := ask(t, b, "POST", "/api/set", setRequest{text, []design.Edit{{Path: "dam.height", To: "210 mm"}, {Path: "pumps[main pump].label.flow", To: "1300 L/h"}}})
	got := as[setReply](t, data).Text
	want := strings.Replace(strings.Replace(text, "\ndam:\n  width: 886 mm\n  height: 200 mm", "\ndam:\n  width: 886 mm\n  height: 210 mm", 1), "flow: 1200 L/h, head: 2.4 m }\n    in:", "flow: 1300 L/h, head: 2.4 m }\n    in:", 1)
	if got != want || got == text {
		t.Error("another text")
	}
	// Keys and entries may be new, and go again.
	_, data = ask(t, b, "POST", "/api/set", setRequest{text, []design.Edit{
		{Path: "pumps[main pump].float", To: "{ off: 114 mm, on: 144 mm }"},
		{Path: "assume.evaporation", To: "2 to 6 mm/day"},
		{Path: "shelf", To: "{ name: third, label: { flow: 900 L/h, head: 2 m } }", Kind: design.EditAppend},
		{Path: "sealant.fillet", Kind: design.EditCut},
	}})
	got = as[setReply](t, data).Text
	for _, c := range []struct {
		line string
		has  bool
	}{
		{"    price: 38 EUR\n    float: { off: 114 mm, on: 144 mm }\n", true},
		{"\n\nassume:\n  evaporation: 2 to 6 mm/day\n", true},
		{"price: 46 EUR }\n  - { name: third, label: { flow: 900 L/h, head: 2 m } }\n", true},
		{"fillet: 6 mm", false},
	} {
		if strings.Contains(got, c.line) != c.has {
			t.Errorf("%q: %v\n%s", c.line, !c.has, got)
		}
	}
	for _, e := range []design.Edit{{Path: "dam.hight", To: "1 mm"}, {}, {Path: "dam", To: "x"}, {Path: "dam.height", To: "1 mm", Kind: "set"}, {Path: "drains[no].lip", To: "1 mm"}} {
		if code, data := ask(t, b, "POST", "/api/set", setRequest{text, []design.Edit{e}}); code != http.StatusUnprocessableEntity || as[problem](t, data).Do == "" {
			t.Errorf("%+v: %d %s", e, code, data)
		}
	}
}

// Compute tells what the command line tells, and what is wrong in place of it.
func TestCompute(t *testing.T) {
	b, _ := bench(t)
	_, data := ask(t, b, "POST", "/api/compute", computeRequest{Name: "wall.yaml", Text: string(examples.CorridorCabinet), Fixes: true, Curves: true})
	o := as[map[string]json.RawMessage](t, data)
	for _, key := range []string{"report", "water", "pump", "form", "revision"} {
		if len(o[key]) < 3 {
			t.Errorf("no %s: %.300s", key, data)
		}
	}
	wrong := strings.Replace(string(examples.CorridorCabinet), "height: 200 mm", "height: 200", 1)
	_, data = ask(t, b, "POST", "/api/compute", computeRequest{Name: "wall.yaml", Text: wrong})
	o = as[map[string]json.RawMessage](t, data)
	if o["report"] != nil || !bytes.Contains(o["findings"], []byte("no unit")) {
		t.Errorf("%.300s", data)
	}
	for _, text := range []string{"", "\x00", "[", "rillwright: 1\n", strings.Repeat("a: ", 1000)} {
		if code, data := ask(t, b, "POST", "/api/compute", computeRequest{Name: "x", Text: text}); code != 200 || !bytes.Contains(data, []byte(`"findings":[{`)) {
			t.Errorf("%.20q: %d %.200s", text, code, data)
		}
	}
}

func TestCourse(t *testing.T) {
	b, _ := bench(t)
	text := string(examples.CorridorCabinet)
	_, data := ask(t, b, "POST", "/api/faults", courseRequest{Name: "demo", Text: text})
	list := as[faultsReply](t, data).Faults
	if len(list) < 5 {
		t.Fatalf("%s", data)
	}
	for _, f := range list {
		code, data := ask(t, b, "POST", "/api/course", courseRequest{Name: "demo", Text: text, ID: f.ID})
		c := as[courseReply](t, data)
		n := len(c.Course.Time)
		if code != 200 || n < 2 || n > most || len(c.Levels) < 2 || len(c.Levels[0].Level) != n || c.Course.Time[n-1] < c.Course.Time[0] {
			t.Errorf("%s: %d, %d points", f.ID, code, n)
		}
	}
	if code, _ := ask(t, b, "POST", "/api/course", courseRequest{Name: "demo", Text: text, ID: "none"}); code != http.StatusNotFound {
		t.Error(code)
	}
	if code, _ := ask(t, b, "POST", "/api/course", courseRequest{Name: "demo", Text: "x"}); code != http.StatusUnprocessableEntity {
		t.Error(code)
	}
}

// The page shows the sheets that the command draws.
func TestDrawings(t *testing.T) {
	b, _ := bench(t)
	for text, letter := range map[string]bool{string(examples.CorridorCabinet): false, string(examples.CounterWall): true} {
		code, data := ask(t, b, "POST", "/api/drawings", drawingsRequest{Name: "demo", Text: text})
		d := as[drawingsReply](t, data)
		if code != 200 || len(d.Sheets) < 10 || d.Letter != letter || !strings.Contains(d.Sheets[0].SVG, "<svg") {
			t.Errorf("%d, %d sheets, letter %v", code, len(d.Sheets), d.Letter)
		}
		code, data = ask(t, b, "POST", "/api/drawings", drawingsRequest{Name: "demo", Text: text, PDF: true})
		if code != 200 || !bytes.HasPrefix(data, []byte("%PDF-")) {
			t.Errorf("%d: %.40q", code, data)
		}
	}
	if code, _ := ask(t, b, "POST", "/api/drawings", drawingsRequest{Text: "x"}); code != http.StatusUnprocessableEntity {
		t.Error(code)
	}
}

// All faults and pairs come with progress, and end with the caller.
func TestEverything(t *testing.T) {
	b, _ := bench(t)
	q := courseRequest{Name: "demo", Text: string(examples.CorridorCabinet)}
	code, data := ask(t, b, "POST", "/api/everything", q)
	lines := strings.Split(strings.TrimSpace(string(data)), "\n")
	var last struct {
		Faults *struct {
			Answers []struct{ ID string }
			Pairs   []struct{ Spilled float64 }
		}
	}
	if err := json.Unmarshal([]byte(lines[len(lines)-1]), &last); err != nil || code != 200 || len(lines) < 2 || last.Faults == nil || len(last.Faults.Answers) < 6 || len(last.Faults.Pairs) < 10 {
		t.Fatalf("%d, %v, %d lines: %.300s", code, err, len(lines), lines[len(lines)-1])
	}
	ctx, stop := context.WithCancel(t.Context())
	stop()
	if _, data := ask(t, b, "POST", "/api/everything", q, within(ctx)); bytes.Contains(data, []byte(`"faults"`)) {
		t.Error("went on without its caller")
	}
	if _, data := ask(t, b, "POST", "/api/everything", courseRequest{Text: "x"}); !bytes.Contains(data, []byte(`"fault":"`)) {
		t.Errorf("%s", data)
	}
}

// The pump of the design is also that of the aisle; a stronger one gives more.
func TestAisle(t *testing.T) {
	b, _ := bench(t)
	q := aisleRequest{Name: "demo", Text: string(examples.CorridorCabinet), Pumps: []pumpSeen{
		{"as designed", "1200 L/h", "2.4 m"}, {"strong", "3000 L/h", "4 m"}, {"weak", "300 L/h", "1 m"}, {"no unit", "1200", "2.4 m"},
	}}
	_, data := ask(t, b, "POST", "/api/aisle", q)
	rows := as[struct {
		Rows []struct {
			Problem *problem
			Verdict string
			Answers []struct {
				ID, Verdict string
				Figures     []struct{ Likely float64 }
			}
		}
	}](t, data).Rows
	if len(rows) != 4 || rows[3].Problem == nil || rows[2].Verdict != "fails" {
		t.Fatalf("%s", data)
	}
	if rows[1].Answers[0].Figures[0].Likely <= rows[0].Answers[0].Figures[0].Likely {
		t.Errorf("%+v", rows)
	}
	q.Pumps, q.Piece, q.Parts = nil, "runs[riser].pieces[4]", []string{"elbow 90 barbed 16 mm", "elbow 45 barbed 16 mm", "no such part"}
	_, data = ask(t, b, "POST", "/api/aisle", q)
	parts := as[struct {
		Rows []struct {
			Problem *problem
			Answers []struct{ ID string }
		}
	}](t, data).Rows
	if len(parts) != 3 || parts[0].Problem != nil || len(parts[0].Answers) != 4 || parts[2].Problem == nil {
		t.Errorf("%s", data)
	}
	q.Pumps, q.Parts = nil, nil
	if code, _ := ask(t, b, "POST", "/api/aisle", q); code != http.StatusBadRequest {
		t.Error(code)
	}
}

// within ends a request with a context.
func within(ctx context.Context) func(*http.Request) {
	return func(r *http.Request) { *r = *r.WithContext(ctx) }
}
