package quantity

import (
	"fmt"
	"math"
	"strings"
	"sync"
)

// Error says why a text is not the quantity that is wanted.
type Error struct {
	Text    string // as typed
	Problem string // what is wrong with it
	Ask     string // what to write instead
}

func (e *Error) Error() string {
	if e.Ask == "" {
		return fmt.Sprintf("%q: %s", e.Text, e.Problem)
	}
	return fmt.Sprintf("%q: %s; %s", e.Text, e.Problem, e.Ask)
}

// byName finds a unit by any of its names in lower case.
//
//nolint:gochecknoglobals // made once from a constant table
var byName = sync.OnceValue(func() map[string]*unit {
	m := make(map[string]*unit, 4*len(unitTable))
	for i := range unitTable {
		for n := range strings.SplitSeq(unitTable[i].names, "|") {
			m[strings.ToLower(n)] = &unitTable[i]
		}
	}
	return m
})

// plain folds the ways in which people and phones write the same unit.
//
//nolint:gochecknoglobals // immutable
var plain = strings.NewReplacer(
	"″", "\"", "”", "\"", "“", "\"", "′", "'", "’", "'", "²", "2", "³", "3", "^", "",
	"\u00a0", " ", "\u202f", " ", "\u2009", " ", "º", "°", "\t", " ",
)

func fold(s string) string {
	for i := range len(s) {
		if s[i] >= 0x80 || s[i] == '^' || s[i] == '\t' {
			s = plain.Replace(s)
			break
		}
	}
	return strings.TrimSpace(s)
}

// unitKey puts a unit word into the form that byName knows.
func unitKey(s string) string {
	s = strings.ToLower(strings.Trim(s, " ."))
	if strings.Contains(s, "  ") {
		s = strings.Join(strings.Fields(s), " ")
	}
	s = strings.ReplaceAll(s, "u.s. ", "us ")
	s = strings.ReplaceAll(s, " / ", "/")
	return s
}

// term is a number with its unit as read from a text.
type term struct {
	value float64
	unit  *unit
	word  string // the unit as typed, "" for none
}

// parser reads one text.
type parser struct {
	text string
	dim  dimension
}

func (p *parser) fail(problem, ask string) error {
	if ask == "" && p.dim != noDimension {
		ask = "write " + p.dim.example()
	}
	return &Error{Text: p.text, Problem: problem, Ask: ask}
}

// terms splits a text into numbers with units: "4 ft 10 1/2 in" is two.
func (p *parser) terms(s string) ([]term, error) {
	var out []term
	for s != "" {
		v, rest, problem, ask := readNumber(s)
		if problem != "" {
			return nil, p.fail(problem, ask)
		}
		// The unit runs to the next number that stands apart, so that "m2",
		// "mH2O" and "L/h per m" stay whole.
		rest = strings.TrimLeft(rest, " ")
		end := len(rest)
		for i := 1; i < len(rest); i++ {
			c := rest[i]
			starts := c >= '0' && c <= '9' || c == '+' || c == '-'
			if starts && (rest[i-1] == ' ' || rest[i-1] == '\'' || rest[i-1] == '"') {
				end = i
				break
			}
		}
		t := term{value: v, word: strings.TrimSpace(rest[:end])}
		t.unit = byName()[unitKey(t.word)]
		out = append(out, t)
		if len(out) > 4 {
			return nil, p.fail("too many numbers", "")
		}
		s = strings.TrimLeft(rest[end:], " ")
	}
	if len(out) == 0 {
		return nil, p.fail("nothing is written here", "")
	}
	return out, nil
}

// check says what is wrong with a term's unit, if anything.
func (p *parser) check(t term) error {
	key := unitKey(t.word)
	if problem, answer := ambiguous(key); problem != "" {
		return p.fail(problem, answer)
	}
	switch {
	case t.unit == nil && t.word == "":
		if p.dim == dimRatio {
			return nil
		}
		return p.fail("no unit", "")
	case t.unit == nil:
		return p.fail(fmt.Sprintf("unit %q is not known", t.word), "")
	case t.unit.dim != p.dim && p.dim == dimVolume && key == "oz":
		return p.fail("an ounce of weight, not of volume", "write US fl oz or imp fl oz")
	case t.unit.dim != p.dim:
		return p.fail(fmt.Sprintf("this is %v, not %v", t.unit.dim, p.dim), "")
	}
	return nil
}

func (t term) si() float64 {
	if t.unit == nil {
		return t.value
	}
	return t.value*t.unit.scale + t.unit.zero
}

// parse reads one quantity of the given dimension.
func parse(text string, dim dimension) (float64, error) {
	p := &parser{text, dim}
	s := fold(text)
	if s == "" {
		return 0, p.fail("nothing is written here", "")
	}
	terms, err := p.terms(s)
	if err != nil {
		return 0, err
	}
	return p.sum(terms)
}

// sum adds up terms such as feet and inches, or hours and minutes.
func (p *parser) sum(terms []term) (float64, error) {
	total := 0.0
	for i, t := range terms {
		if err := p.check(t); err != nil {
			return 0, err
		}
		if i > 0 {
			before := terms[i-1]
			if !stacks(p.dim, before.unit, t.unit) || t.value < 0 || math.Signbit(t.value) || t.si() >= before.unit.scale {
				return 0, p.fail("two numbers where one is wanted", "")
			}
		}
		if i > 0 && terms[0].value < 0 {
			total -= t.si()
		} else {
			total += t.si()
		}
	}
	if math.IsInf(total, 0) || math.IsNaN(total) || math.Abs(total) > 1e12 {
		return 0, p.fail("the number is too large", "")
	}
	return total, nil
}

// stacks reports whether b may follow a in one quantity.
func stacks(dim dimension, a, b *unit) bool {
	if a == nil || b == nil || a.scale <= b.scale {
		return false
	}
	switch dim {
	case dimLength:
		return a.scale == foot && b.scale == inch || a.scale == 3*foot
	case dimDuration:
		return true
	case dimMass:
		return a.scale == pound && b.scale == pound/16
	}
	return false
}
