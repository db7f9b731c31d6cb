package workbench

import (
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"strings"
	"testing"
)

// A change on the disk reaches an open page.
func TestEvents(t *testing.T) {
	b, folder := bench(t)
	s := httptest.NewServer(b.Handler())
	defer s.Close()
	r, err := http.NewRequestWithContext(t.Context(), http.MethodGet, s.URL+"/api/events", nil)
	if err != nil {
		t.Fatal(err)
	}
	res, err := http.DefaultClient.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = res.Body.Close() }()
	buf := make([]byte, 4096)
	if _, err := res.Body.Read(buf); err != nil {
		t.Fatal(err)
	}
	put(t, filepath.Join(folder, "wall.yaml"), "changed\n")
	got := ""
	for !strings.Contains(got, revision([]byte("changed\n"))) {
		n, err := res.Body.Read(buf)
		if err != nil {
			t.Fatalf("%v after %q", err, got)
		}
		got += string(buf[:n])
	}
	if !strings.Contains(got, "event: change\ndata: {\"name\":\"wall.yaml\"") {
		t.Errorf("%q", got)
	}
}
