package quantity

import (
	"cmp"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// ParseMoney reads an amount of money: 650 EUR, EUR 650, 12.50 USD, € 20. A
// bare dollar sign is refused, as several countries have one. The error is an
// *Error. Any three letters that are no unit of measure pass for a currency.
func ParseMoney(text string) (Money, error) {
	fail := func(problem, ask string) (Money, error) { return Money{}, &Error{text, problem, ask} }
	s := fold(text)
	if s == "" {
		return fail("nothing is written here", "write 650 EUR or 450 USD")
	}
	if strings.ContainsAny(s, "$€£¥") {
		s = strings.ReplaceAll(s, "US$", "USD ")
		s = strings.ReplaceAll(s, "€", " EUR ")
		s = strings.ReplaceAll(s, "£", " GBP ")
	}
	switch {
	case strings.Contains(s, "$"):
		return fail("which dollar?", "write USD, CAD, AUD or another code, such as 45 USD")
	case strings.Contains(s, "¥"):
		return fail("yen or yuan?", "write JPY or CNY, such as 4500 JPY")
	}
	s = strings.TrimSpace(s)
	code := ""
	if len(s) > 3 && isCode(s[:3]) {
		code, s = strings.ToUpper(s[:3]), strings.TrimSpace(s[3:])
	}
	v, rest, problem, answer := readNumber(s)
	if problem != "" {
		return fail(problem, cmp.Or(answer, "write 650 EUR or 450 USD"))
	}
	rest = strings.TrimSpace(rest)
	switch {
	case rest == "" && code == "":
		return fail("no currency", "write 650 EUR or 450 USD")
	case rest != "" && code != "" && isCode(rest):
		return fail("two currencies", "write 650 EUR or 450 USD")
	case rest != "" && code != "":
		return fail(fmt.Sprintf("%q behind the amount", rest), "write 650 EUR or 450 USD")
	case rest != "" && !isCode(rest):
		return fail(fmt.Sprintf("currency %q is not a three-letter code", rest), "write 650 EUR or 450 USD")
	case rest != "":
		code = strings.ToUpper(rest)
	}
	if u, _ := findUnit(code); u != nil {
		return fail(fmt.Sprintf("this is %v, not an amount of money", u.dim), "write 650 EUR or 450 USD")
	}
	if v == 0 {
		v = 0 // not -0
	}
	if math.Abs(v) > largest {
		return fail("the number is too large", "write 650 EUR or 450 USD")
	}
	return Money{v, code}, nil
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

// ShowExact returns the amount with every digit, such that ParseMoney gives the
// same again.
func (m Money) ShowExact() string {
	return strconv.FormatFloat(m.Amount, 'g', -1, 64) + " " + m.Currency
}
