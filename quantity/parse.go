package quantity

import (
	"fmt"
	"math"
	"strings"
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

// largest is the largest amount that is read, in SI units, so that a product of
// a few of them stays a number.
const largest = 1e12

// plain folds the ways in which people and phones write the same sign. It never
// changes.
var plain = strings.NewReplacer(
	"″", "\"", "”", "\"", "“", "\"", "′", "'", "’", "'", "²", "2", "³", "3", "^", "", "⁄", "/", "−", "-", "–", "-",
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

// term is a number with its unit as read from a text.
type term struct {
	value float64
	unit  *unit
	word  string // the unit as typed, "" for none
	form  string // the same in canonical form, if it had to be made
}

// with returns a term of another value with the unit of t.
func (t term) with(value float64) term {
	t.value = value
	return t
}

// maxTerms is how many numbers with units may be added up: weeks, days, hours
// and minutes.
const maxTerms = 4

// parser reads one text.
type parser struct {
	text string
	dim  dimension
}

func (p *parser) fail(problem, ask string) error {
	if ask == "" {
		ask = "write " + p.dim.example()
	}
	return &Error{Text: p.text, Problem: problem, Ask: ask}
}

func (p *parser) tooLarge() error { return p.fail("the number is too large", "") }

// terms splits a text into numbers with units, "4 ft 10 1/2 in" into two, and
// appends them to dst.
func (p *parser) terms(dst []term, s string) ([]term, error) {
	first := len(dst)
	for s != "" {
		v, rest, problem, ask := readNumber(s)
		if problem != "" {
			return nil, p.fail(problem, ask)
		}
		rest = strings.TrimLeft(rest, " ")
		end := unitEnd(rest)
		t := term{value: v, word: strings.TrimSpace(rest[:end])}
		t.unit, t.form = findUnit(t.word)
		if t.unit == nil {
			// "4ft10in", "1h30min": a unit with a number hard behind it.
			if n := strings.IndexAny(t.word, "0123456789"); n > 0 {
				if u, form := findUnit(t.word[:n]); u != nil && u.dim == p.dim && follows(u) {
					t, end = term{v, u, t.word[:n], form}, n
				}
			}
		}
		if t.unit != nil && t.unit.dim == dimLength && t.unit.den > 1 && t.unit.num == 1 && strings.Contains(s[:len(s)-len(rest)], "/") {
			// Metric hose is sold as "12/16 mm", inside and outside.
			return nil, p.fail("inside and outside of a hose, or a fraction?", "write one size, such as 12 mm")
		}
		if len(dst)-first == maxTerms {
			return nil, p.fail("too many numbers", "")
		}
		dst = append(dst, t)
		s = strings.TrimLeft(rest[end:], " ")
		if t.word == "'" && strings.HasPrefix(rest[end:], "-") && digits(s[1:]) > 0 {
			s = s[1:] // 4'-10", as drawings have it, is no minus
		}
	}
	if len(dst) == first {
		return nil, p.fail("nothing is written here", "")
	}
	return dst, nil
}

// unitEnd returns where the unit at the start of s ends: before the next number
// that stands apart, so that "m2", "mH2O" and "L/h per m" stay whole.
func unitEnd(s string) int {
	for i := 1; i < len(s); i++ {
		c := s[i]
		if c >= '0' && c <= '9' || c == '+' || c == '-' || c >= 0x80 {
			if before := s[i-1]; before == '\'' || before == '"' || before == ' ' && (c < 0x80 || startsVulgar(s[i:])) {
				return i
			}
		}
	}
	return len(s)
}

func startsVulgar(s string) bool {
	for _, r := range s {
		return vulgar(r) > 0
	}
	return false
}

// check says what is wrong with a term's unit, if anything.
func (p *parser) check(t term) error {
	if t.unit == nil && t.word == "" {
		if p.dim == dimRatio {
			return nil
		}
		return p.fail("no unit", "")
	}
	if t.unit == nil || t.unit.dim != p.dim {
		form := t.form
		if t.unit != nil {
			form = strings.ToLower(t.form)
		}
		if problem, ask := ambiguous(form, p.dim); problem != "" {
			return p.fail(problem, ask)
		}
	}
	switch {
	case t.unit == nil:
		return p.unknown(t.word)
	case t.unit.dim != p.dim:
		return p.fail(fmt.Sprintf("this is %v, not %v", t.unit.dim, p.dim), "")
	}
	return nil
}

// unknown says what is wrong with a word that is no unit.
func (p *parser) unknown(word string) error {
	if lower := strings.ToLower(word); lower == "to" || strings.HasSuffix(lower, " to") || strings.HasSuffix(lower, "±") {
		return p.fail("a figure is missing", "")
	}
	if first, more, _ := strings.Cut(word, " "); more != "" {
		if u, _ := findUnit(first); u != nil && u.dim == p.dim {
			return p.fail(fmt.Sprintf("%q behind the unit", more), "write the figure and its unit alone, such as "+p.dim.example())
		}
	}
	return p.fail(fmt.Sprintf("unit %q is not known", word), "")
}

func (t term) si() float64 {
	if t.unit == nil {
		return t.value
	}
	return t.unit.si(t.value)
}

// parse reads one quantity of the given dimension.
func parse(text string, dim dimension) (float64, error) {
	p := parser{text, dim}
	s := fold(text)
	if s == "" {
		return 0, p.fail("nothing is written here", "")
	}
	var space [maxTerms]term
	terms, err := p.terms(space[:0], s)
	var v float64
	if err == nil {
		v, err = p.sum(terms)
	}
	if err != nil {
		if isRange(s) {
			err = p.fail("a range where one figure is wanted", "")
		}
		return 0, err
	}
	return v, p.bounds(v)
}

// sum adds up terms such as feet and inches, or hours and minutes.
func (p *parser) sum(terms []term) (float64, error) {
	total := 0.0
	for i, t := range terms {
		if err := p.check(t); err != nil {
			return 0, err
		}
		if i > 0 {
			before := terms[i-1].unit
			if !stacks(before, t.unit) || math.Signbit(t.value) {
				return 0, p.fail("two numbers where one is wanted", "")
			}
			if t.si() >= before.scale() {
				one := strings.TrimSuffix(before.name(), "s") // 1 day, not 1 days
				return 0, p.fail(fmt.Sprintf("%g %s is not less than 1 %s", t.value, t.unit.name(), one), "check it, and write "+p.dim.example())
			}
			if math.Signbit(terms[0].value) {
				total -= t.si()
				continue
			}
		}
		total += t.si()
	}
	if !(math.Abs(total) <= largest) {
		return 0, p.tooLarge()
	}
	if total == 0 {
		total = 0 // not -0
	}
	return total, nil
}

// bounds refuses amounts that cannot be.
func (p *parser) bounds(v float64) error {
	if least, problem, bounded := p.dim.lowest(); bounded && v < least {
		return p.fail(problem, "")
	}
	return nil
}

// stacks reports whether b may follow a in one quantity.
func stacks(a, b *unit) bool {
	if a == nil || b == nil || !follows(a) || a.scale() <= b.scale() {
		return false
	}
	switch a.dim {
	case dimLength:
		return b.num == inch || b.num == foot
	case dimMass:
		return b.num == pound
	}
	return true
}

// follows reports whether a smaller unit may follow u: inches a foot, minutes an
// hour, ounces a pound.
func follows(u *unit) bool {
	switch u.dim {
	case dimLength:
		return u.num == foot || u.num == 3*foot
	case dimMass:
		return u.num == pound
	}
	return u.dim == dimDuration
}
