package workbench

import (
	"net/http"

	"rillwright/design"
	"rillwright/document"
)

// designList is what there is to open.
type designList struct {
	Names  []string `json:"names"`
	Folder bool     `json:"folder"` // false if only the built-in ones are served
}

func (b *Bench) list(w http.ResponseWriter, _ *http.Request) {
	names, err := b.shelf.names()
	if err != nil {
		fail(w, err)
		return
	}
	reply(w, designList{Names: append(names, "demo", "demo-us"), Folder: b.shelf.root != nil})
}

func (b *Bench) read(w http.ResponseWriter, r *http.Request) {
	d, err := b.shelf.read(r.PathValue("name"))
	if err != nil {
		fail(w, err)
		return
	}
	reply(w, d)
}

// saveRequest asks that a text be kept in the place of a revision, "" for a new
// file.
type saveRequest struct {
	Base string `json:"base"`
	Text string `json:"text"`
}

// save answers with what then stands in the file; with status 409 if that is what
// somebody else wrote.
func (b *Bench) save(w http.ResponseWriter, r *http.Request) {
	q, ok := take[saveRequest](w, r)
	if !ok {
		return
	}
	d, saved, err := b.shelf.save(r.PathValue("name"), q.Base, q.Text)
	if err != nil {
		fail(w, err)
		return
	}
	if !saved {
		w.Header().Set("Content-Type", "application/json; charset=utf-8")
		w.WriteHeader(http.StatusConflict)
	}
	reply(w, d)
}

// draftRequest is what was typed so far, on which text of the file.
type draftRequest struct {
	Text string `json:"text"`
	Base string `json:"base"`
}

func (b *Bench) keepDraft(w http.ResponseWriter, r *http.Request) {
	q, ok := take[draftRequest](w, r)
	if !ok {
		return
	}
	if err := b.shelf.keepDraft(r.PathValue("name"), draft{q.Text, &q.Base}); err != nil {
		fail(w, err)
		return
	}
	w.WriteHeader(http.StatusNoContent)
}

func (b *Bench) dropDraft(w http.ResponseWriter, r *http.Request) {
	if err := b.shelf.dropDraft(r.PathValue("name")); err != nil {
		fail(w, err)
		return
	}
	w.WriteHeader(http.StatusNoContent)
}

// setRequest asks for edits of a text, one after the other, and for nothing else of
// it to change.
type setRequest struct {
	Text  string        `json:"text"`
	Edits []design.Edit `json:"edits"`
}

// setReply is the text with the edits made.
type setReply struct {
	Text string `json:"text"`
}

func (b *Bench) set(w http.ResponseWriter, r *http.Request) {
	q, ok := take[setRequest](w, r)
	if !ok {
		return
	}
	text, err := design.Apply([]byte(q.Text), q.Edits)
	if err != nil {
		fail(w, err)
		return
	}
	reply(w, setReply{string(text)})
}

// formField is one value of a design that a form can show.
type formField struct {
	Path  string `json:"path"`
	Key   string `json:"key"`
	Text  string `json:"text"`
	Line  int    `json:"line"`
	What  string `json:"what"`            // what may be written
	About string `json:"about"`           // what it is
	Words string `json:"words,omitempty"` // the words allowed, separated by |
}

// form lists every value that the file gives, in its order.
func form(d *design.Design) []formField {
	out := []formField{}
	document.Walk(d, func(sp document.Spot) {
		if !sp.Leaf.Given() {
			return
		}
		text, at := sp.Leaf.Source()
		what, _ := sp.Leaf.Describe()
		out = append(out, formField{
			Path: sp.Path, Key: sp.Key, Text: text, Line: at.Line, What: what,
			About: sp.Tag.Get("doc"), Words: sp.Tag.Get("words"),
		})
	})
	return out
}

func (b *Bench) schema(w http.ResponseWriter, _ *http.Request) {
	data, err := design.Schema()
	if err != nil {
		fail(w, err)
		return
	}
	w.Header().Set("Content-Type", "application/schema+json")
	_, _ = w.Write(data) // the caller is gone if this fails
}
