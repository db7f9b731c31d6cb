package workbench

import (
	"crypto/subtle"
	"io"
	"net"
	"net/http"
	"slices"
	"strings"
	"sync"
	"time"
)

// cookie is the name under which a browser keeps the key.
const cookie = "rillwright-key"

// guard lets through what comes from this page, under a name that is allowed,
// with the key if one is asked for, and not too often.
//
// Host is checked since a page from elsewhere can make its own name point here;
// to the browser that is then one origin, and no other check would tell.
func (b *Bench) guard(next http.Handler) http.Handler {
	cross := http.NewCrossOriginProtection()
	inner := cross.Handler(next)
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "no-referrer")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("X-Frame-Options", "DENY")
		h.Set("Cache-Control", "no-store")
		h.Set("Content-Security-Policy", "default-src 'none'; frame-ancestors 'none'; base-uri 'none'; form-action 'none'")
		switch {
		case !b.hostAllowed(r.Host):
			refuse(w, http.StatusMisdirectedRequest, "this page is not served under that name", "open it under the address that the command printed")
			return
		case !b.keyed(w, r): // before the pace, so that nobody without the key can use it up
			return
		case !b.pace.take():
			w.Header().Set("Retry-After", "1")
			refuse(w, http.StatusTooManyRequests, "too many requests at once", "wait a second")
			return
		}
		r.Body = http.MaxBytesReader(w, r.Body, maxBody)
		inner.ServeHTTP(w, r)
	})
}

func (b *Bench) hostAllowed(host string) bool {
	name := host
	if h, _, err := net.SplitHostPort(host); err == nil {
		name = h
	}
	name = strings.ToLower(strings.Trim(name, "[]"))
	return name == "localhost" || name == "127.0.0.1" || name == "::1" || slices.Contains(b.options.Hosts, name)
}

// keyed checks the key. One that comes in the address goes into a cookie, and the
// browser is sent on to the address without it, so that it is not left in the
// history or shown over a shoulder.
func (b *Bench) keyed(w http.ResponseWriter, r *http.Request) bool {
	key := b.options.Key
	if key == "" {
		return true
	}
	same := func(s string) bool { return subtle.ConstantTimeCompare([]byte(s), []byte(key)) == 1 }
	if c, err := r.Cookie(cookie); err == nil && same(c.Value) {
		return true
	}
	if r.Method == http.MethodGet && same(r.URL.Query().Get("key")) {
		http.SetCookie(w, &http.Cookie{Name: cookie, Value: key, Path: "/", HttpOnly: true, SameSite: http.SameSiteStrictMode})
		http.Redirect(w, r, "/", http.StatusSeeOther)
		return false
	}
	const what, do = "the key is missing or wrong", "open the whole address that the command printed, with its key, or scan its code again"
	if r.URL.Path == "/" { // somebody reads this
		w.Header().Set("Content-Type", "text/plain; charset=utf-8")
		w.WriteHeader(http.StatusUnauthorized)
		_, _ = io.WriteString(w, "rillwright: "+what+".\nDo: "+do+".\n") // the caller is gone if this fails
		return false
	}
	refuse(w, http.StatusUnauthorized, what, do)
	return false
}

// pace is a bucket of tokens, one for each request.
type pace struct {
	mu    sync.Mutex
	rate  float64
	most  float64
	have  float64
	last  time.Time
	clock func() time.Time
}

func newPace(rate, most float64, clock func() time.Time) *pace {
	return &pace{rate: rate, most: most, have: most, last: clock(), clock: clock}
}

func (p *pace) take() bool {
	p.mu.Lock()
	defer p.mu.Unlock()
	now := p.clock()
	p.have = min(p.most, p.have+p.rate*now.Sub(p.last).Seconds())
	p.last = now
	if p.have < 1 {
		return false
	}
	p.have--
	return true
}
