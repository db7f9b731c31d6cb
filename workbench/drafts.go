package workbench

import (
	"bytes"
	"encoding/json"

	"rillwright/document"
)

// draft is what was typed and not saved, with the text that the file then had: a
// file that somebody changed since can be brought together with it line by line.
type draft struct {
	Text string  `json:"text"`
	Base *string `json:"base,omitempty"` // nil if it is not known
}

// draftBytes is how long a draft's file may be: two texts, each byte of which is
// written as six at most.
const draftBytes = 13 * document.MaxBytes

// draftOf names the file that keeps a draft. A dot before it keeps it out of lists.
// Text and base are in one file, so that no cut ever leaves one with another's.
func draftOf(name string) string { return "." + name + ".draft" }

// draft reads that of a design. One that is no JSON is the bare text, as drafts were
// kept before they knew their base.
func (s *shelf) draft(name string) (draft, bool) {
	data, err := s.short(draftOf(name), draftBytes)
	if err != nil {
		return draft{}, false
	}
	var d draft
	in := json.NewDecoder(bytes.NewReader(data))
	in.DisallowUnknownFields()
	if in.Decode(&d) != nil || in.More() {
		d = draft{Text: string(data)}
	}
	return d, len(d.Text) <= document.MaxBytes
}

func (s *shelf) keepDraft(name string, d draft) error {
	switch {
	case builtIn(name) != nil || s.root == nil:
		return errFolder // the page keeps those itself
	case !valid(name):
		return errName
	case len(d.Text) > document.MaxBytes, d.Base != nil && len(*d.Base) > document.MaxBytes:
		return errLong
	}
	var out bytes.Buffer
	w := json.NewEncoder(&out)
	w.SetEscapeHTML(false)
	if err := w.Encode(d); err != nil {
		return err
	}
	return s.write(draftOf(name), out.Bytes())
}

func (s *shelf) dropDraft(name string) error {
	if !valid(name) {
		return errName
	}
	if s.root != nil {
		s.forget(name)
	}
	return nil
}

// forget drops a draft; one that is not there is as good as dropped.
func (s *shelf) forget(name string) { _ = s.root.Remove(draftOf(name)) }
