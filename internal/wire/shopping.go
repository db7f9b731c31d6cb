package wire

import (
	"rillwright"
	"rillwright/finding"
	"rillwright/shopping"
	"rillwright/takeoff"
)

// Shopping is what buy prints: the list by shop, in the order of the work.
type Shopping struct {
	Name       string        `json:"name"`
	File       string        `json:"file"`
	Findings   finding.List  `json:"findings"`
	Currency   string        `json:"currency"`
	Lines      []BuyLine     `json:"lines"`
	Lots       []Lot         `json:"lots"`
	StillToPay Band          `json:"stillToPay"`
	Paid       float64       `json:"paid"`
	Total      Band          `json:"total"`
	Budget     float64       `json:"budget"` // 0 if the file has none
	Unpriced   []string      `json:"unpriced"`
	Unused     []UnusedPrice `json:"unused"`
	Generic    float64       `json:"generic"` // share of what is still to pay that no price of the builder's tells
	NotCounted string        `json:"notCounted"`
}

// Band is a figure at its low end, likely and at its high end.
type Band struct {
	Low    float64 `json:"low"`
	Likely float64 `json:"likely"`
	High   float64 `json:"high"`
}

// BuyLine is one thing to buy or to have. Need and left are in its unit: piece, m, m2,
// m3 or kg. Cost is that of all packs; no figures if it is not known or in a lot.
type BuyLine struct {
	What    string   `json:"what"`
	Shop    string   `json:"shop"`
	Group   string   `json:"group"`
	Unit    string   `json:"unit"`
	Need    Band     `json:"need"`
	From    []Share  `json:"from"`
	Pack    string   `json:"pack"` // "" for one piece
	Packs   [3]int   `json:"packs"`
	Buy     string   `json:"buy"` // the same in words
	OnHand  string   `json:"onHand"`
	Left    Band     `json:"left"`
	Cost    *Band    `json:"cost,omitempty"`
	Lot     string   `json:"lot,omitempty"`
	PriceIs string   `json:"priceFrom"`
	Spare   bool     `json:"spare"`
	Says    []string `json:"says"`
	Instead []string `json:"instead"`
	Field   string   `json:"field,omitempty"`
	Line    int      `json:"line,omitempty"` // 0 if the file has none
}

// Share is what a need is made of.
type Share struct {
	What   string `json:"what"`
	Amount Band   `json:"amount"`
}

// Lot is one price for several lines.
type Lot struct {
	What  string   `json:"what"`
	Lines []string `json:"lines"`
	Cost  Band     `json:"cost"`
}

// UnusedPrice is a price that stands for nothing on the list.
type UnusedPrice struct {
	What string `json:"what"`
	From string `json:"from"`
}

// ShoppingOf returns the list of a report that has one.
func ShoppingOf(r *rillwright.Report) Shopping {
	l := r.Shopping
	out := Shopping{
		Name: r.Name, File: r.File, Findings: r.Findings, Currency: l.Currency, Lines: []BuyLine{}, Lots: []Lot{},
		StillToPay: band(l.Cost), Paid: Round(l.Paid), Total: band(l.Total), Budget: Round(l.Budget),
		Unpriced: some(l.Unpriced), Unused: []UnusedPrice{}, Generic: Round(l.Generic), NotCounted: shopping.NotCounted,
	}
	if out.Findings == nil {
		out.Findings = finding.List{}
	}
	for i := range l.Items {
		out.Lines = append(out.Lines, lineOf(&l.Items[i], r))
	}
	for i := range l.Lots {
		out.Lots = append(out.Lots, Lot{l.Lots[i].What, l.Lots[i].Items, band(l.Lots[i].Cost)})
	}
	for i := range l.Unused {
		out.Unused = append(out.Unused, UnusedPrice{l.Unused[i].What, l.Unused[i].From})
	}
	return out
}

func lineOf(it *shopping.Item, r *rillwright.Report) BuyLine {
	out := BuyLine{
		What: it.Name, Shop: it.Shop, Group: string(it.Group), Unit: [...]string{"piece", "m", "m2", "m3", "kg"}[it.Unit],
		Need: band(it.Amount), From: []Share{}, Pack: it.Pack, Packs: it.Packs, Buy: it.Wants(), OnHand: it.Hold, Left: band(it.Left),
		Lot: it.Lot, PriceIs: it.PriceFrom, Spare: it.Spare, Says: some(it.Says(r.Enclosure.Units)), Instead: some(it.Instead), Field: it.Field, Line: it.Line,
	}
	for _, f := range it.From {
		out.From = append(out.From, Share{f.What, band(f.Amount)})
	}
	if it.Priced && it.Lot == "" {
		cost := band(it.Cost)
		out.Cost = &cost
	}
	return out
}

func band(b takeoff.Band) Band { return Band{Round(b.Low), Round(b.Likely), Round(b.High)} }

// some is a list that is there, if empty.
func some(list []string) []string {
	if list == nil {
		return []string{}
	}
	return list
}
