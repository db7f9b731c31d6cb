package workbench

import (
	"bytes"
	"compress/gzip"
	"crypto/rand"
	"embed"
	"io/fs"
	"mime"
	"net/http"
	"os"
	"path"
	"regexp"
	"strings"

	"rillwright/catalogue"
)

// The page's files as built; web/README.md tells how.
//
//go:embed all:web/dist
var dist embed.FS

// assets is where the page's files are read from.
func (b *Bench) assets() fs.FS {
	if b.options.Assets != "" {
		return os.DirFS(b.options.Assets)
	}
	sub, err := fs.Sub(dist, "web/dist")
	if err != nil {
		panic(err) // the name is a constant
	}
	return sub
}

// nonceMark stands in the page where the one-time word goes that lets its own
// style sheets in; the text editor makes some as it runs.
const nonceMark = "NONCE"

func (b *Bench) page(w http.ResponseWriter, _ *http.Request) {
	text, err := fs.ReadFile(b.assets(), "index.html")
	if err != nil {
		refuse(w, http.StatusInternalServerError, "the page is missing from this program", "install it again")
		return
	}
	nonce := rand.Text()
	h := w.Header()
	h.Set("Content-Type", "text/html; charset=utf-8")
	h.Set("Content-Security-Policy", strings.Join([]string{
		"default-src 'none'", "script-src 'self'", "style-src 'self' 'nonce-" + nonce + "'", "img-src 'self' data:", "connect-src 'self'",
		"manifest-src 'self'", "frame-ancestors 'none'", "base-uri 'none'", "form-action 'none'",
	}, "; "))
	_, _ = w.Write(bytes.ReplaceAll(text, []byte(nonceMark), []byte(nonce))) // the caller is gone if this fails
}

// A file with a hash of its own content in its name never changes.
var hashed = regexp.MustCompile(`-[A-Z0-9]{8}\.\w+$`)

func (b *Bench) asset(w http.ResponseWriter, r *http.Request) {
	name := r.PathValue("file")
	if !fs.ValidPath(name) || name == "index.html" || strings.ContainsAny(name, `/\`) {
		http.NotFound(w, r)
		return
	}
	data, err := fs.ReadFile(b.assets(), name)
	if err != nil {
		http.NotFound(w, r)
		return
	}
	kind := mime.TypeByExtension(path.Ext(name))
	if strings.HasSuffix(name, ".js") {
		kind = "text/javascript; charset=utf-8" // whatever the machine's own table says
	}
	h := w.Header()
	h.Set("Content-Type", kind)
	if hashed.MatchString(name) && b.options.Assets == "" {
		h.Set("Cache-Control", "private, max-age=31536000, immutable")
	}
	h.Set("Vary", "Accept-Encoding")
	if packed := b.packed(name, data); packed != nil && strings.Contains(r.Header.Get("Accept-Encoding"), "gzip") {
		h.Set("Content-Encoding", "gzip")
		data = packed
	}
	_, _ = w.Write(data) // the caller is gone if this fails
}

// packed is a file made smaller for the way to a phone, nil if it would not be. The
// files that are built in are packed once.
func (b *Bench) packed(name string, data []byte) []byte {
	if v, ok := b.small.Load(name); ok && b.options.Assets == "" {
		p, _ := v.([]byte)
		return p
	}
	var out bytes.Buffer
	z := gzip.NewWriter(&out)
	if _, err := z.Write(data); err != nil || z.Close() != nil || out.Len() >= len(data) {
		return nil
	}
	b.small.Store(name, out.Bytes())
	return out.Bytes()
}

// partRow is a part of the catalogue for lists and completion.
type partRow struct {
	Name string `json:"name"`
	Kind string `json:"kind"`
	Mark string `json:"mark"`
	Note string `json:"note,omitempty"`
}

// partsReply is what matches.
type partsReply struct {
	Parts []partRow `json:"parts"`
}

// mostParts bounds a list that a person reads.
const mostParts = 60

func (b *Bench) parts(w http.ResponseWriter, r *http.Request) {
	cat, err := catalogue.Builtin()
	if err != nil {
		fail(w, err)
		return
	}
	out := partsReply{Parts: []partRow{}}
	for _, p := range cat.Search(strings.Fields(r.URL.Query().Get("q"))...) {
		if len(out.Parts) == mostParts {
			break
		}
		out.Parts = append(out.Parts, partRow{p.Name, string(p.Kind), string(p.Mark), p.Note})
	}
	reply(w, out)
}
