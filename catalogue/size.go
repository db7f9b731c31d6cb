package catalogue

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"rillwright/quantity"
)

const (
	inch = 0.0254 // m
	mm   = 0.001  // m
)

// Size is a nominal size: a name in the aisle, not a measurement.
type Size struct {
	Text   string          // "1/2 in", "1 1/4 in", "16 mm"
	Length quantity.Length // what the name says, m
	Inch   bool            // whether it is named in inches
}

// Given reports whether there is a size.
func (s Size) Given() bool { return s.Length > 0 }

// bare returns the size's text without its unit.
func (s Size) bare() string {
	t := strings.TrimSuffix(s.Text, " in")
	return strings.TrimSuffix(t, " mm")
}

// mm returns the size in millimetres with one decimal, for messages.
func (s Size) mm() string { return millimetres(s.Length) }

func millimetres(l quantity.Length) string {
	return strconv.FormatFloat(math.Round(float64(l)/mm*10)/10, 'f', -1, 64) + " mm"
}

// inchSize returns the size of v inches, v in sixty-fourths where it is one.
func inchSize(v float64) Size {
	return Size{Text: inchText(v) + " in", Length: quantity.Length(v * inch), Inch: true}
}

// inchText writes 1.25 as "1 1/4"; what is no sixty-fourth stays a decimal.
func inchText(v float64) string {
	n := v * 64
	if n != math.Trunc(n) {
		return strconv.FormatFloat(v, 'f', -1, 64)
	}
	whole, top, bottom := int(n)/64, int(n)%64, 64
	for top > 0 && top%2 == 0 {
		top, bottom = top/2, bottom/2
	}
	switch {
	case top == 0:
		return strconv.Itoa(whole)
	case whole == 0:
		return strconv.Itoa(top) + "/" + strconv.Itoa(bottom)
	}
	return strconv.Itoa(whole) + " " + strconv.Itoa(top) + "/" + strconv.Itoa(bottom)
}

// ParseSize reads a nominal size, "1/2 in", "1-1/4 in", "16 mm". It refuses a
// size without a unit, one that is not positive and one over 1 m.
func ParseSize(text string) (Size, error) {
	words := sizeWords(text)
	s, rest, err := takeSize(words, "")
	if err != nil {
		return Size{}, fmt.Errorf("size %q: %w", text, err)
	}
	if len(rest) > 0 {
		return Size{}, fmt.Errorf("size %q: %q is not part of a size", text, strings.Join(rest, " "))
	}
	return s, nil
}

// sizeWords lower-cases text and splits it into words, with numbers apart from
// their units: `1-1/4"` becomes 1, 1/4, in.
func sizeWords(text string) []string {
	text = strings.ToLower(text)
	var b strings.Builder
	b.Grow(len(text) + 8)
	var last rune // last rune written
	for _, r := range text {
		switch {
		case r == '"' || r == '″' || r == '”':
			b.WriteString(" in")
			last = 'n'
			continue
		case r == ',' || r == '×' || r == '\t' || r == '\n' || r == '\r' || r == '\u00a0' || r == '\u202f':
			r = ' '
		case r == '-' && isDigit(last):
			r = ' '
		}
		if f := fraction(r); f != "" {
			b.WriteString(" " + f)
			last = '0'
			continue
		}
		if isLetter(r) && isDigit(last) || isDigit(r) && isLetter(last) {
			b.WriteByte(' ')
		}
		b.WriteRune(r)
		last = r
	}
	return strings.Fields(b.String())
}

func isDigit(r rune) bool  { return '0' <= r && r <= '9' }
func isLetter(r rune) bool { return 'a' <= r && r <= 'z' }

// fraction returns a typeset fraction as text, "" for any other rune.
func fraction(r rune) string {
	switch r {
	case '½':
		return "1/2"
	case '¼':
		return "1/4"
	case '¾':
		return "3/4"
	case '⅛':
		return "1/8"
	case '⅜':
		return "3/8"
	case '⅝':
		return "5/8"
	case '⅞':
		return "7/8"
	}
	return ""
}

// takeSize takes a size off words, wherever it starts, and returns the words
// around it. fallback is the unit of a size without one; "" refuses it.
func takeSize(words []string, fallback string) (Size, []string, error) {
	first := -1
	for i, w := range words {
		if isDigit(rune(w[0])) || w[0] == '.' {
			first = i
			break
		}
	}
	if first < 0 {
		return Size{}, words, fmt.Errorf("the size is missing: add 1/2 in or 16 mm")
	}
	v, ok := number(words[first])
	if !ok || strings.Contains(words[first], "/") && v >= 1 {
		return Size{}, words, fmt.Errorf("%q is not a size: write 1/2 in or 16 mm", words[first])
	}
	last := first + 1
	if v == math.Trunc(v) && last < len(words) && strings.Contains(words[last], "/") {
		f, ok := number(words[last])
		if !ok || f >= 1 {
			return Size{}, words, fmt.Errorf("%q is not a size: write 1 1/4 in or 32 mm", words[first]+" "+words[last])
		}
		v += f
		last++
	}
	unit := fallback
	if last < len(words) {
		switch words[last] {
		case "in", "inch", "inches":
			unit = "in"
			last++
		case "mm":
			unit = "mm"
			last++
		case "cm":
			unit = "mm"
			v *= 10
			last++
		}
	}
	number := strings.Join(words[first:min(last, len(words))], " ")
	rest := append(append([]string(nil), words[:first]...), words[last:]...)
	var s Size
	switch unit {
	case "in":
		s = inchSize(v)
	case "mm":
		s = Size{Text: strconv.FormatFloat(v, 'f', -1, 64) + " mm", Length: quantity.Length(v * mm)}
	default:
		return Size{}, words, fmt.Errorf("%q has no unit: write in or mm behind it", number)
	}
	if s.Length <= 0 || s.Length > 1 {
		return Size{}, words, fmt.Errorf("%q is not a size for plumbing: it must be above 0 and at most 1 m", number)
	}
	return s, rest, nil
}

// number reads "16", "12.7" or "3/8".
func number(w string) (float64, bool) {
	top, bottom, isFraction := strings.Cut(w, "/")
	if !plain(top) || isFraction && !plain(bottom) {
		return 0, false
	}
	v, err := strconv.ParseFloat(top, 64)
	if err != nil {
		return 0, false
	}
	if !isFraction {
		return v, true
	}
	d, err := strconv.ParseFloat(bottom, 64)
	if err != nil || d == 0 {
		return 0, false
	}
	return v / d, true
}

// plain reports whether w is digits with at most a point: strconv alone would
// also take 1e3, 0x1p4, inf and 1_000.
func plain(w string) bool {
	for _, r := range w {
		if !isDigit(r) && r != '.' {
			return false
		}
	}
	return w != ""
}
