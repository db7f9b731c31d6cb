package shopping

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"rillwright/design"
	"rillwright/finding"
	"rillwright/quantity"
)

// Price is one price the builder knows.
type Price struct {
	What       string
	Pack       design.Pack
	PackText   string // as written, "" for one as usually sold
	Money      quantity.Money
	Shop, Note string
	From       string // where it is written, in words
	Line       int
}

// columns of a price file, in the order in which they may be told to add them.
var columns = []string{"what", "pack", "price", "shop", "note"}

// ReadPrices reads a builder's price file: CSV with the columns what, pack, price,
// shop and note in any order, of which what and price must be there. Rows that do not
// read are reported and left out. Currency is that of the design, "" for any; us says
// that a bare fl oz is a US one.
func ReadPrices(file string, data []byte, currency string, us bool) ([]Price, finding.List) {
	r := &priceReader{file: file, currency: currency, us: us, lines: strings.Split(string(data), "\n")}
	if !utf8.Valid(data) {
		r.report(1, "", "the file is not text as UTF-8", "save it as CSV with UTF-8")
		return nil, r.list
	}
	rows := csv.NewReader(bytes.NewReader(bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))))
	rows.FieldsPerRecord, rows.Comment, rows.TrimLeadingSpace = -1, '#', true
	if head, _, _ := strings.Cut(string(data), "\n"); strings.Count(head, ";") > strings.Count(head, ",") {
		rows.Comma = ';' // as spreadsheets write it where a comma is the decimal sign
	}
	var out []Price
	var at map[string]int
	for {
		row, err := rows.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			line := 1
			var p *csv.ParseError
			if errors.As(err, &p) {
				line = p.Line
				err = p.Err
			}
			r.report(line, "", "the row cannot be read: "+err.Error(), `put a text that holds a comma or a quote mark between quote marks, a quote mark in it twice: "3/4"" hose"`)
			return out, r.list
		}
		line, _ := rows.FieldPos(0)
		if at == nil {
			if at = r.heads(row, line); at == nil {
				return nil, r.list
			}
			continue
		}
		if p, ok := r.price(row, at, line); ok {
			out = append(out, p)
		}
	}
	if at == nil {
		r.report(1, "", "the file is empty", "begin with the line what,pack,price,shop,note")
	}
	return out, r.list
}

type priceReader struct {
	file, currency string
	us             bool
	lines          []string
	list           finding.List
}

func (r *priceReader) report(line int, field, what, do string) {
	f := finding.Finding{Place: finding.Place{File: r.file, Line: line, Column: 1}, Severity: finding.Error, Field: field, What: what, Do: do}
	if line >= 1 && line <= len(r.lines) {
		f.Excerpt = strings.TrimSuffix(r.lines[line-1], "\r")
		f.Place.Width = max(utf8.RuneCountInString(f.Excerpt), 1)
	}
	r.list = append(r.list, f)
}

func (r *priceReader) heads(row []string, line int) map[string]int {
	at := map[string]int{}
	for i, h := range row {
		h = strings.ToLower(strings.TrimSpace(h))
		if h == "" {
			continue
		}
		if !slices.Contains(columns, h) {
			do := "name the columns what, pack, price, shop and note"
			if near, ok := finding.Nearest(h, columns); ok {
				do = fmt.Sprintf("did you mean %q? The columns are what, pack, price, shop and note", near)
			}
			r.report(line, h, fmt.Sprintf("there is no column %q", h), do)
			continue
		}
		if _, twice := at[h]; twice {
			r.report(line, h, fmt.Sprintf("the column %q is there twice", h), "leave one of them out")
		}
		at[h] = i
	}
	for _, need := range []string{"what", "price"} {
		if _, ok := at[need]; !ok {
			r.report(line, need, fmt.Sprintf("the column %q is missing", need), "begin with the line what,pack,price,shop,note")
			return nil
		}
	}
	return at
}

func (r *priceReader) price(row []string, at map[string]int, line int) (Price, bool) {
	cell := func(name string) string {
		if i, ok := at[name]; ok && i < len(row) {
			return strings.TrimSpace(row[i])
		}
		return ""
	}
	p := Price{What: cell("what"), PackText: cell("pack"), Shop: cell("shop"), Note: cell("note"), Line: line, From: fmt.Sprintf("%s, line %d", r.file, line)}
	ok := true
	if p.What == "" {
		r.report(line, "what", "it is not said what costs that", "write in the column what as it stands on the list: sealant, foam, glass")
		ok = false
	}
	var err error
	if p.Pack, err = design.ReadPack(p.PackText, r.us); err != nil {
		r.report(line, "pack", err.Error(), design.PackHelp)
		ok = false
	}
	p.Money, err = quantity.ParseMoney(cell("price"))
	var bad *quantity.Error
	switch {
	case errors.As(err, &bad):
		r.report(line, "price", fmt.Sprintf("price %q: %s", bad.Text, bad.Problem), bad.Ask)
		return p, false
	case err != nil:
		r.report(line, "price", err.Error(), "write 8.50 EUR")
		return p, false
	case p.Money.Amount < 0:
		r.report(line, "price", fmt.Sprintf("price %q is below 0", cell("price")), "write what you pay, 0 or more")
		return p, false
	case r.currency != "" && p.Money.Currency != r.currency:
		r.report(line, "price", fmt.Sprintf("price %q is in another currency than the design's, %s", cell("price"), r.currency), "write all money in one currency, at the rate you were given")
		return p, false
	case r.currency == "":
		r.currency = p.Money.Currency
	}
	return p, ok
}

// typed returns the prices of the design file.
func typed(d *design.Design) []Price {
	var out []Price
	for i := range d.Budget.Prices {
		p := &d.Budget.Prices[i]
		pack, err := design.ReadPack(p.Pack.Value, d.Units.Value == "us")
		if err != nil {
			continue // reported where the file was read
		}
		out = append(out, Price{
			What: p.What.Value, Pack: pack, PackText: p.Pack.Value, Money: p.Price.Value, Shop: p.Shop.Value, Note: p.Note.Value,
			From: fmt.Sprintf("line %d", p.Pos.Line), Line: p.Pos.Line,
		})
	}
	return out
}
