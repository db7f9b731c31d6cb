package quantity

import (
	"fmt"
	"math"
	"strings"
)

// ParseMoney reads an amount of money: 650 EUR, EUR 650, 12.50 USD, € 20. A
// bare dollar sign is refused, as several countries have one.
func ParseMoney(text string) (Money, error) {
	fail := func(problem, ask string) (Money, error) { return Money{}, &Error{text, problem, ask} }
	s := fold(text)
	if s == "" {
		return fail("nothing is written here", "write 650 EUR or 450 USD")
	}
	s = strings.ReplaceAll(s, "US$", "USD ")
	for sign, code := range map[string]string{"€": "EUR ", "£": "GBP "} {
		s = strings.ReplaceAll(s, sign, code)
	}
	if strings.Contains(s, "$") {
		return fail("which dollar?", "write USD, CAD, AUD or another code, such as 45 USD")
	}
	s = strings.TrimSpace(s)
	code := ""
	if len(s) > 3 && isCode(s[:3]) {
		code, s = strings.ToUpper(s[:3]), strings.TrimSpace(s[3:])
	}
	v, rest, problem, answer := readNumber(s)
	if problem != "" {
		return fail(problem, cmpOr(answer, "write 650 EUR or 450 USD"))
	}
	rest = strings.TrimSpace(rest)
	switch {
	case rest == "" && code == "":
		return fail("no currency", "write 650 EUR or 450 USD")
	case rest != "" && code != "", rest != "" && !isCode(rest):
		return fail(fmt.Sprintf("currency %q is not a three-letter code", rest), "write 650 EUR or 450 USD")
	case rest != "":
		code = strings.ToUpper(rest)
	}
	if math.Abs(v) > 1e12 {
		return fail("the number is too large", "")
	}
	return Money{v, code}, nil
}

func cmpOr(a, b string) string {
	if a != "" {
		return a
	}
	return b
}

func isCode(s string) bool {
	if len(s) != 3 {
		return false
	}
	for _, c := range []byte(s) {
		if (c|0x20) < 'a' || (c|0x20) > 'z' {
			return false
		}
	}
	return true
}

// UnmarshalText implements encoding.TextUnmarshaler, as ParseMoney.
func (m *Money) UnmarshalText(text []byte) error {
	v, err := ParseMoney(string(text))
	if err == nil {
		*m = v
	}
	return err
}

// Show returns the amount with its currency, in whole units from 100 up.
func (m Money) Show(System) string {
	if math.Abs(m.Amount) >= 100 || m.Amount == math.Trunc(m.Amount) {
		return fmt.Sprintf("%.0f %s", m.Amount, m.Currency)
	}
	return fmt.Sprintf("%.2f %s", m.Amount, m.Currency)
}
