package workbench

import (
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"os"
	"strings"
	"testing"
)

// No request whatever makes the server stumble or reach out of its folder.
func FuzzRoutes(f *testing.F) {
	for _, s := range [][3]string{
		{"GET", "/", ""},
		{"GET", "/app/a.js", ""},
		{"GET", "/api/designs/wall.yaml", ""},
		{"PUT", "/api/designs/x.yaml", `{"base":"","text":"a"}`},
		{"PUT", "/api/drafts/wall.yaml", `{"text":"a"}`},
		{"DELETE", "/api/drafts/wall.yaml", ""},
		{"POST", "/api/compute", `{"name":"wall.yaml","text":"rillwright: 1"}`},
		{"POST", "/api/set", `{"text":"a: 1","edits":[{"path":"a","to":"2"}]}`},
		{"POST", "/api/faults", `{"name":"a","text":"b"}`},
		{"POST", "/api/course", `{"name":"a","text":"b","id":"c"}`},
		{"POST", "/api/plan", `{"name":"a","text":"b","today":"2026-11-26"}`},
		{"POST", "/api/climate", `{"name":"a","text":"b"}`},
		{"POST", "/api/weigh", `{"name":"a","text":"b"}`},
		{"POST", "/api/seek", `{"name":"a","text":"b","open":["pump"],"for":"cheapest"}`},
		{"POST", "/api/aisle", `{"pumps":[{}]}`},
		{"POST", "/api/cutting", `{"name":"a","text":"b","as":"list"}`},
		{"GET", "/api/parts?q=hose", ""},
		{"GET", "/api/schema", ""},
	} {
		f.Add(s[0], s[1], s[2])
	}
	f.Fuzz(func(t *testing.T, method, path, body string) {
		b, folder := bench(t)
		r, err := http.NewRequest(method, "http://localhost"+path, strings.NewReader(body))
		if err != nil || strings.HasPrefix(r.URL.Path, "/api/events") {
			t.Skip()
		}
		w := httptest.NewRecorder()
		b.Handler().ServeHTTP(w, r)
		if w.Code >= 500 {
			t.Errorf("%s %s %q: %d %s", method, path, body, w.Code, w.Body)
		}
		if strings.HasPrefix(w.Header().Get("Content-Type"), "application/json") && w.Body.Len() > 0 && !json.Valid(w.Body.Bytes()) {
			t.Errorf("%s %s: no JSON: %.200s", method, path, w.Body)
		}
		if list, _ := os.ReadDir(folder); len(list) > 3 {
			t.Errorf("left behind: %v", list)
		}
	})
}
