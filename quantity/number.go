package quantity

import (
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// vulgar returns the value of a single-character fraction, 0 for any other.
func vulgar(r rune) float64 {
	switch r {
	case '½':
		return 1.0 / 2
	case '¼':
		return 1.0 / 4
	case '¾':
		return 3.0 / 4
	case '⅛':
		return 1.0 / 8
	case '⅜':
		return 3.0 / 8
	case '⅝':
		return 5.0 / 8
	case '⅞':
		return 7.0 / 8
	case '⅓':
		return 1.0 / 3
	case '⅔':
		return 2.0 / 3
	}
	return 0
}

const onePoint = "write one number with one decimal point"

// digits returns how many digits s begins with.
func digits(s string) int {
	n := 0
	for n < len(s) && s[n] >= '0' && s[n] <= '9' {
		n++
	}
	return n
}

// readNumber reads a number from the start of s: a decimal, a fraction (3/32,
// ½) or a whole number and a fraction (1 1/2, 1-1/2, 1½), with a sign before it.
// problem and ask are set if what stands there cannot be taken as a number.
func readNumber(s string) (v float64, rest, problem, ask string) {
	sign := 1.0
	switch {
	case strings.HasPrefix(s, "-"):
		sign, s = -1, strings.TrimLeft(s[1:], " ")
	case strings.HasPrefix(s, "+"):
		s = strings.TrimLeft(s[1:], " ")
	}
	v, rest, problem, ask = readUnsigned(s)
	return sign * v, rest, problem, ask
}

func readUnsigned(s string) (v float64, rest, problem, ask string) {
	if r, size := utf8.DecodeRuneInString(s); vulgar(r) > 0 {
		return vulgar(r), s[size:], "", ""
	}
	n := digits(s)
	whole := s[:n]
	rest = s[n:]
	if strings.HasPrefix(rest, ",") && digits(rest[1:]) > 0 {
		tail, after := rest[1:1+digits(rest[1:])], rest[1+digits(rest[1:]):]
		ask = "write " + whole + tail + " or " + whole + "." + tail + ", without a comma"
		if strings.Trim(whole, "0") == "" { // 0,5 and ,5 cannot be thousands
			ask = "write 0." + tail + ", without a comma"
		}
		if strings.HasPrefix(after, ".") || strings.HasPrefix(after, ",") {
			ask = onePoint
		}
		return 0, rest, "a comma can mark thousands or decimals", ask
	}
	if strings.HasPrefix(rest, ".") {
		f := digits(rest[1:])
		if n == 0 && f == 0 {
			return 0, rest, "no number at the start", ""
		}
		n += 1 + f
		if strings.HasPrefix(s[n:], ".") || strings.HasPrefix(s[n:], ",") {
			return 0, rest, "more than one point or comma", onePoint
		}
		return decimal(s, n)
	}
	if n == 0 {
		return 0, rest, "no number at the start", ""
	}
	if len(rest) > 1 && (rest[0] == 'e' || rest[0] == 'E') {
		return decimal(s, n)
	}
	// A fraction: 3/32.
	if strings.HasPrefix(rest, "/") && digits(rest[1:]) > 0 {
		return fraction(0, s)
	}
	v, err := strconv.ParseFloat(whole, 64)
	if err != nil {
		return 0, rest, "the number is too large", ""
	}
	// A whole number and a fraction: 1 1/2, 1-1/2, 1½.
	if r, size := utf8.DecodeRuneInString(rest); vulgar(r) > 0 {
		return v + vulgar(r), rest[size:], "", ""
	}
	gap := strings.TrimLeft(rest, " ")
	if strings.HasPrefix(rest, "-") {
		gap = rest[1:]
	}
	if len(gap) < len(rest) {
		if r, size := utf8.DecodeRuneInString(gap); vulgar(r) > 0 {
			return v + vulgar(r), gap[size:], "", ""
		}
		if d := digits(gap); d > 0 && strings.HasPrefix(gap[d:], "/") && digits(gap[d+1:]) > 0 {
			return fraction(v, gap)
		}
	}
	problem, ask = joined(rest)
	return v, rest, problem, ask
}

// joined says what is wrong if another number follows the one just read without
// a unit between them.
func joined(rest string) (problem, ask string) {
	next := strings.TrimLeft(rest, " ")
	if len(next) < len(rest) && digits(next) > 0 {
		return "two numbers side by side", "if they are one number, write it without a gap"
	}
	if strings.HasPrefix(next, "-") && digits(strings.TrimLeft(next[1:], " ")) > 0 {
		return "a dash between two numbers", "write 12 to 13 for a range, 1 1/2 for a whole and a fraction"
	}
	return "", ""
}

// decimal reads s, of which the first n bytes are digits and a point, with an
// exponent if one follows.
func decimal(s string, n int) (v float64, rest, problem, ask string) {
	if e := n; e+1 < len(s) && (s[e] == 'e' || s[e] == 'E') {
		e++
		if s[e] == '-' || s[e] == '+' {
			e++
		}
		if d := digits(s[e:]); d > 0 {
			n = e + d
		}
	}
	v, err := strconv.ParseFloat(s[:n], 64)
	if err != nil || math.IsInf(v, 0) {
		return 0, s[n:], "the number is too large", ""
	}
	problem, ask = joined(s[n:])
	return v, s[n:], problem, ask
}

// fraction reads "a/b" from the start of s and adds it to whole.
func fraction(whole float64, s string) (v float64, rest, problem, ask string) {
	n := digits(s)
	d := digits(s[n+1:])
	rest = s[n+1+d:]
	a, err1 := strconv.ParseFloat(s[:n], 64)
	b, err2 := strconv.ParseFloat(s[n+1:n+1+d], 64)
	switch {
	case err1 != nil || err2 != nil:
		return 0, rest, "the number is too large", ""
	case b == 0:
		return 0, rest, "a fraction of 0", "write a fraction such as 1/2"
	case whole != 0 && a >= b:
		return 0, rest, "a whole number with a fraction that is not below 1", "write it as one fraction, or check it"
	case strings.HasPrefix(rest, "/") || strings.HasPrefix(rest, "."):
		return 0, rest, "not a plain fraction", "write a fraction such as 1/2"
	}
	problem, ask = joined(rest)
	return whole + a/b, rest, problem, ask
}
