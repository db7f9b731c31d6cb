package workbench

import (
	"context"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"rillwright/document"
	"rillwright/examples"
)

// A file that the page could not write back as it was is neither shown nor
// written over: half of it saved would be the other half lost.
func TestUnreadable(t *testing.T) {
	b, folder := bench(t)
	for name, text := range map[string]string{
		"long.yaml":  "rillwright: 1\n" + strings.Repeat("# long\n", document.MaxBytes/7),
		"bytes.yaml": "rillwright: 1\nname: K\xfcche\n",
	} {
		put(t, filepath.Join(folder, name), text)
		if code, data := ask(t, b, "GET", "/api/designs/"+name, nil); code != http.StatusUnprocessableEntity || as[problem](t, data).Do == "" {
			t.Errorf("%s: %d %.200s", name, code, data)
		}
		for _, base := range []string{"", revision([]byte(text)), revision([]byte(text)[:min(len(text), document.MaxBytes+1)])} {
			if code, _ := ask(t, b, "PUT", "/api/designs/"+name, saveRequest{base, "x"}); code != http.StatusUnprocessableEntity {
				t.Errorf("%s: saved with %d", name, code)
			}
		}
		if now, _ := os.ReadFile(filepath.Join(folder, name)); string(now) != text {
			t.Errorf("%s was changed", name)
		}
	}
	long := strings.Repeat("x", document.MaxBytes+1)
	if code, _ := ask(t, b, "PUT", "/api/designs/wall.yaml", saveRequest{revision(examples.CorridorCabinet), long}); code != http.StatusUnprocessableEntity {
		t.Errorf("a text too long to be read again: %d", code)
	}
}

// Names as people and browsers give them.
func TestNames(t *testing.T) {
	for name, want := range map[string]bool{
		"wall (2).yaml": true, "Küche.yaml": true, "Ku\u0308che, oben.yml": true, "Anna's wall + sump.yaml": true, "1.yaml": true,
		".yaml": false, "-x.yaml": false, "a/b.yaml": false, `a\b.yaml`: false, "a:b.yaml": false, "wall.yaml.txt": false, "Aux.yaml": false, "a\n.yaml": false,
	} {
		if valid(name) != want {
			t.Errorf("%q: %v", name, !want)
		}
	}
}

// Someone who has no key cannot keep out those who have it.
func TestPaceAndKey(t *testing.T) {
	b, _ := bench(t, func(o *Options) { o.Key = "sesame" })
	for range 3 * burst {
		ask(t, b, "GET", "/api/designs", nil)
	}
	if code, _ := ask(t, b, "GET", "/api/designs", nil, func(r *http.Request) { r.AddCookie(&http.Cookie{Name: cookie, Value: "sesame"}) }); code != http.StatusOK {
		t.Error(code)
	}
}

// Looking for fixes of a large design takes seconds; meanwhile answers still come.
func TestFixesHoldNothingUp(t *testing.T) {
	b, _ := bench(t)
	b.slow <- struct{}{} // one is under way
	if code, _ := ask(t, b, "POST", "/api/compute", computeRequest{Name: "wall.yaml", Text: string(examples.CorridorCabinet)}); code != http.StatusOK {
		t.Error(code)
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel() // nobody waits any more
	if _, data := ask(t, b, "POST", "/api/compute", computeRequest{Name: "wall.yaml", Text: "x", Fixes: true}, func(r *http.Request) { *r = *r.WithContext(ctx) }); len(data) > 0 {
		t.Errorf("%.100s", data)
	}
}
