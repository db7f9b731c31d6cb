package cli

import (
	"bufio"
	"context"
	"io"
	"net/http"
	"strings"
	"testing"
)

// serving begins to serve and returns the address that is printed, and what ends it.
func serving(t *testing.T, c *serveCommand) (url string, end func()) {
	t.Helper()
	ctx, cancel := context.WithCancel(t.Context())
	out, in := io.Pipe()
	done := make(chan error, 1)
	go func() {
		done <- c.serve(ctx, &Streams{In: strings.NewReader(""), Out: in, Err: io.Discard})
		_ = in.Close()
	}()
	lines := bufio.NewScanner(out)
	if !lines.Scan() {
		t.Fatal(<-done)
	}
	go func() { _, _ = io.Copy(io.Discard, out) }()
	return lines.Text(), func() {
		cancel()
		if err := <-done; err != nil {
			t.Error(err)
		}
	}
}

// A page that is open finds the program again where it was; a second one, meanwhile,
// takes another port.
func TestServeAgain(t *testing.T) {
	first, end := serving(t, &serveCommand{})
	second, endSecond := serving(t, &serveCommand{})
	if first == second {
		t.Error("two at one address: ", first)
	}
	endSecond()
	res, err := http.Get(first)
	if err != nil {
		t.Fatal(err)
	}
	_ = res.Body.Close()
	if res.StatusCode != http.StatusOK {
		t.Error(res.Status)
	}
	http.DefaultClient.CloseIdleConnections()
	end()
	if !strings.HasSuffix(first, ":8417/") {
		t.Skip("something else uses the usual port")
	}
	again, end := serving(t, &serveCommand{})
	end()
	if again != first {
		t.Errorf("first at %s, then at %s", first, again)
	}
}

// With --lan nothing is shown without the key that is printed.
func TestServeKey(t *testing.T) {
	url, end := serving(t, &serveCommand{Lan: true})
	defer end()
	bare, key, ok := strings.Cut(url, "?key=")
	if !ok || len(key) < 20 {
		t.Fatal(url)
	}
	c := &http.Client{CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
	for at, want := range map[string]int{bare: http.StatusUnauthorized, url: http.StatusSeeOther, url + "x": http.StatusUnauthorized} {
		res, err := c.Get(at)
		if err != nil {
			t.Fatal(err)
		}
		_ = res.Body.Close()
		if res.StatusCode != want {
			t.Errorf("%s: %s", at, res.Status)
		}
	}
	c.CloseIdleConnections()
}
