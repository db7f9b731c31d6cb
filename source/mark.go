package source

import (
	"fmt"
	"strings"
)

// Mark tells how a figure or formula was had, and so how far to trust it.
type Mark int

// The marks. The zero Mark is none of them, so that a forgotten one shows.
const (
	// Published was read in a document, or taken from a general-purpose library
	// that names the document.
	Published Mark = iota + 1
	// CommonPractice is what the trade does; it has no source.
	CommonPractice
	// FromMemory was written down without the cited work at hand: the citation
	// is a pointer to check, not a proof.
	FromMemory
	// Derived follows from first principles.
	Derived
	// Measured was measured by the builder on the thing itself.
	Measured
	// Assumed is a choice with no source, to be overwritten.
	Assumed
)

// words are the marks in plain words, in the order of the constants.
func words() [6]string {
	return [...]string{"published", "common practice", "from memory", "derived", "measured", "assumed"}
}

// String returns the mark in plain words: "published", "common practice", "from
// memory", "derived", "measured" or "assumed"; "not marked" for the zero Mark.
func (m Mark) String() string {
	if m < Published || m > Assumed {
		return "not marked"
	}
	return words()[m-Published]
}

// ParseMark reads a mark in the words that String returns, in any case. What
// follows a comma is ignored, so that "common practice, no source" is read too.
func ParseMark(text string) (Mark, error) {
	word, _, _ := strings.Cut(text, ",")
	word = strings.TrimSpace(word)
	all := words()
	for i, w := range all {
		if strings.EqualFold(w, word) {
			return Published + Mark(i), nil
		}
	}
	return 0, fmt.Errorf("mark %q is not known; write %s or %s", text, strings.Join(all[:len(all)-1], ", "), all[len(all)-1])
}

// MarshalText returns the mark's words; it fails on what is not a mark.
func (m Mark) MarshalText() ([]byte, error) {
	if m < Published || m > Assumed {
		return nil, fmt.Errorf("mark %d is not known", int(m))
	}
	return []byte(m.String()), nil
}

// UnmarshalText reads a mark as ParseMark does.
func (m *Mark) UnmarshalText(text []byte) error {
	v, err := ParseMark(string(text))
	if err == nil {
		*m = v
	}
	return err
}
