package quantity

import (
	"errors"
	"strings"
	"testing"
)

func TestMoney(t *testing.T) {
	for text, want := range map[string]Money{
		"650 EUR":   {650, "EUR"},
		"EUR 650":   {650, "EUR"},
		"eur650":    {650, "EUR"},
		"650 Eur":   {650, "EUR"},
		"€650":      {650, "EUR"},
		"650 €":     {650, "EUR"},
		"12.50€":    {12.5, "EUR"},
		"£ 20":      {20, "GBP"},
		"US$ 45":    {45, "USD"},
		"45 USD":    {45, "USD"},
		"-5 EUR":    {-5, "EUR"},
		"4500 JPY":  {4500, "JPY"},
		" 0.99 CAD": {0.99, "CAD"},
	} {
		if got, err := ParseMoney(text); err != nil || got != want {
			t.Errorf("%q: %v %v, want %v", text, got, err, want)
		}
	}
	for text, part := range map[string]string{
		"$45":         "which dollar",
		"45 $":        "which dollar",
		"A$ 45":       "which dollar",
		"¥ 45":        "yen or yuan",
		"45":          "no currency",
		"":            "nothing",
		"EUR":         "no number",
		"650 euro":    "three-letter",
		"EUR 650 EUR": "two currencies",
		"CHF 1000.-":  `"-" behind the amount`,
		"650,- EUR":   "three-letter",
		"EUR\xff650":  "no number",
		"NaN EUR":     "no number",
		"1/0 EUR":     "fraction of 0",
		"€ 650 £":     "two currencies",
		"1,200 EUR":   "comma",
		"12,50 EUR":   "comma",
		"1 200 EUR":   "side by side",
		"20 min":      "this is a time",
		"20 lbs":      "this is a weight",
		"2 bar":       "this is a pressure",
		"1e15 EUR":    "too large",
	} {
		v, err := ParseMoney(text)
		e, ok := errors.AsType[*Error](err)
		if !ok || !strings.Contains(e.Problem, part) || e.Ask == "" || e.Text != text {
			t.Errorf("%q: %v %v, want %q", text, v, err, part)
		}
	}
}
