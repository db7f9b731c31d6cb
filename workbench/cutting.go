package workbench

import (
	"bytes"
	"cmp"
	"encoding/base64"
	"net/http"
	"strings"
	"time"

	"rillwright"
	"rillwright/drawing"
	"rillwright/drawing/svg"
	"rillwright/internal/wire"
	"rillwright/layout"
	"rillwright/packet"
	"rillwright/pieces"
	"rillwright/quantity"
	"rillwright/record"
	"rillwright/sheets"
	"rillwright/shopping"
	"rillwright/works"
)

// cuttingRequest asks for what is cut and bought of a text. As is "" for the view,
// "list" for what to buy as CSV, "packet" for all papers as one PDF: that takes
// seconds, and comes as a stream that tells how far it is, the file in its last line.
type cuttingRequest struct {
	Name string `json:"name"`
	Text string `json:"text"`
	As   string `json:"as"`
}

// cuttingReply is what is cut, with the cut layouts as they are printed, and what is
// bought.
type cuttingReply struct {
	Pieces   wire.Pieces  `json:"pieces"`
	Sheets   []sheetShown `json:"sheets"`
	Currency string       `json:"currency"` // "" if the file holds no money
	Shops    []shopShown  `json:"shops"`
	OnHand   []string     `json:"onHand"`
	Sums     []string     `json:"sums"`
}

type shopShown struct {
	Shop  string      `json:"shop"`
	Items []itemShown `json:"items"`
}

// itemShown is one line of the list, in words.
type itemShown struct {
	Name string   `json:"name"`
	Pack string   `json:"pack"` // what one holds, for a price of it; "" for a piece
	Buy  string   `json:"buy"`
	Cost string   `json:"cost"`
	Says []string `json:"says"`
}

// paperShare is what of a packet's work following the faults takes; the rest is
// drawing. Measured on two cores: 1.2 to 1.5 s and 0.2 s for the metric demo, 0.6 and
// 0.2 s for the other.
const paperShare = 0.85

// cutting sends what the commands pieces, buy and packet print.
func (b *Bench) cutting(w http.ResponseWriter, r *http.Request) {
	q, ok := take[cuttingRequest](w, r)
	if !ok {
		return
	}
	switch q.As {
	case "", "list":
	case "packet":
		stream(w, r, func(far func(done, of int)) (progress, error) { return b.packet(r, q, far) })
		return
	default:
		refuse(w, http.StatusBadRequest, "papers of that kind are not made here", `ask for "packet" or "list"`)
		return
	}
	rep, err := b.cut(r, q, rillwright.Options{NoFixes: true, Structure: true})
	if err != nil {
		refuse(w, http.StatusUnprocessableEntity, err.Error(), "mend the design first")
		return
	}
	if q.As == "" {
		showCutting(w, rep, printOf(rep, q.Text))
		return
	}
	list := shoppingTable(rep)
	data, err := list.CSV()
	if err != nil {
		fail(w, err)
		return
	}
	w.Header().Set("Content-Type", "text/csv; charset=utf-8")
	_, _ = w.Write(data) // the caller is gone if this fails
}

// cut builds a design that must be one from which something can be cut.
func (b *Bench) cut(r *http.Request, q cuttingRequest, o rillwright.Options) (*rillwright.Report, error) {
	rep, err := b.build(r.Context(), q.Name, q.Text, o)
	if err == nil && (rep.Findings.HasErrors() || rep.Shopping == nil) {
		err = errFile
	}
	return rep, err
}

// printOf is how papers of a text are printed: on the paper of its units.
func printOf(rep *rillwright.Report, text string) sheets.Print {
	p := sheets.Print{Paper: drawing.A4(), Mark: revision([]byte(text))[:8]}
	if rep.Enclosure.Units == quantity.US {
		p.Paper = drawing.Letter()
	}
	return p
}

func shoppingTable(rep *rillwright.Report) packet.Table {
	return packet.Table{Name: "shopping", Rows: rep.Shopping.Rows(rep.Enclosure.Units)}
}

// packet makes all papers, and tells how far it is.
func (b *Bench) packet(r *http.Request, q cuttingRequest, far func(done, of int)) (progress, error) {
	const whole = 1000
	rep, err := b.cut(r, q, rillwright.Options{
		NoFixes: true, Structure: true, Faults: rillwright.EveryFault,
		Progress: func(done, of int) { far(int(paperShare*whole*float64(done)/float64(max(1, of))), whole) },
	})
	if err != nil {
		return progress{}, err
	}
	data, err := b.packetOf(q.Name, rep, printOf(rep, q.Text), shoppingTable(rep))
	return progress{File: base64.StdEncoding.EncodeToString(data)}, err
}

func (b *Bench) packetOf(name string, rep *rillwright.Report, p sheets.Print, list packet.Table) ([]byte, error) {
	var work *works.Work
	var lines []works.Line
	if rep.Design.Budget.Start.Given() { // without a first day there is no plan
		// What keeps it from being made is said where the plan is asked for.
		work, _, lines, _ = works.PlanLikely(rep.Enclosure, 0)
	}
	upkeep, err := b.upkeep(name, rep, p)
	if err != nil {
		return nil, err
	}
	all, err := packet.Of(packet.Input{
		Work: work, Lines: lines, Upkeep: upkeep,
		Survey: rep.Survey, Faults: rep.Faults, Answers: rep.Answers, Print: p,
		Shopping: sheets.Shopping(rep.Enclosure, rep.Shopping, p), CutLayouts: sheets.CutLayouts(rep.Enclosure, p), Tables: []packet.Table{list},
	})
	if err != nil {
		return nil, err
	}
	return all.PDF()
}

// upkeep are the sheets of what is done again and again, as of the last reading of the
// log, if the design has one.
func (b *Bench) upkeep(name string, rep *rillwright.Report, p sheets.Print) ([]drawing.Sheet, error) {
	var readings []record.Reading
	var now time.Time
	if _, err := b.openForLog(name); err == nil {
		log, _, err := b.logOf(name) // the log's own page tells what is wrong in it
		if err != nil {
			return nil, err
		}
		if readings = log.Readings; len(readings) > 0 {
			now = readings[len(readings)-1].Time
		}
	}
	chores, lacks := rillwright.Chores(rep.Enclosure, readings, now)
	return sheets.Upkeep(rep.Enclosure, chores, readings, lacks, p), nil
}

func showCutting(w http.ResponseWriter, rep *rillwright.Report, p sheets.Print) {
	l, sys := rep.Shopping, rep.Enclosure.Units
	out := cuttingReply{
		Pieces: wire.PiecesOf(sys, pieces.Build(rep.Enclosure, layout.Of(rep.Enclosure))), Sheets: []sheetShown{}, Currency: l.Currency, Shops: []shopShown{},
		OnHand: append([]string{}, l.OnHand(sys)...), Sums: l.Sums(),
	}
	drawn := sheets.CutLayouts(rep.Enclosure, p)
	drawing.Number(drawn)
	for i := range drawn {
		var s bytes.Buffer
		if err := svg.Write(&s, &drawn[i]); err != nil {
			fail(w, err)
			return
		}
		out.Sheets = append(out.Sheets, sheetShown{drawn[i].Title, s.String()})
	}
	for _, shop := range shopping.Shops() {
		at := shopShown{Shop: shop}
		for i := range l.Items {
			if it := &l.Items[i]; it.Shop == shop && it.Packs[2] > 0 {
				at.Items = append(at.Items, itemShown{Name: it.Name, Pack: strings.TrimSpace(it.Pack), Buy: it.Wants(), Cost: cmp.Or(it.Costs(l.Currency), "no price known"), Says: append([]string{}, it.Says(sys)...)})
			}
		}
		if len(at.Items) > 0 {
			out.Shops = append(out.Shops, at)
		}
	}
	reply(w, out)
}
