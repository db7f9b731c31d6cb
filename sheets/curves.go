package sheets

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"rillwright/answers"
	"rillwright/drawing"
	"rillwright/enclosure"
)

// ReserveOf draws how full the sump may be, with the marks that were found and how
// full the design has it; ok is false where there is no curve: the fill lines were
// not looked for, or with a top-up from the mains the water never ends.
func ReserveOf(e *enclosure.Enclosure, f *answers.FaultReport) (s drawing.Sheet, ok bool, err error) {
	l := f.Line
	if l == nil || len(l.Points) < 2 {
		return s, false, nil
	}
	for _, p := range l.Points {
		if math.IsInf(p.Days, 0) {
			return s, false, nil
		}
	}
	bottom := e.Sump.Bottom
	marks := []ReserveMark{{Name: "as planned", Level: f.Survey.Likely().Start.StopLevel - bottom}}
	if l.Highest >= l.Lowest {
		marks = append(marks, ReserveMark{Name: "highest mark", Level: l.Highest - bottom}, ReserveMark{Name: "lowest mark", Level: l.Lowest - bottom})
	}
	s, err = Reserve(e.Units, e.Name+": how full the sump may be", l.Points, marks...)
	return s, err == nil, err
}

const curveGroup = "Curves"

// Curves draws the plots of a design on framed paper: pump, outlets and, where
// faults were followed, how full the sump may be. A design with several pumps has no
// plot of a pump.
func Curves(s *answers.Survey, f *answers.FaultReport, p Print) ([]drawing.Sheet, error) {
	d := newDraft(s.E, p)
	var list []drawing.Sheet
	if len(s.E.Pumps) == 1 {
		plot, err := PumpPlot(s)
		if err != nil {
			return nil, err
		}
		list = append(list, plot)
	}
	for i := range s.E.Manifolds {
		if len(s.E.Manifolds[i].Outlets) == 0 {
			continue
		}
		plot, err := OutletPlot(s, i)
		if err != nil {
			return nil, err
		}
		list = append(list, plot)
	}
	if f != nil {
		plot, ok, err := ReserveOf(s.E, f)
		if err != nil {
			return nil, err
		}
		if ok {
			list = append(list, plot)
		}
	}
	for i := range list {
		title := strings.TrimPrefix(list[i].Title, s.E.Name+": ")
		first, n := utf8.DecodeRuneInString(title)
		list[i].Title = string(unicode.ToUpper(first)) + title[n:]
	}
	return d.p.Paper.Bind(d.block("", ""), curveGroup, list), nil
}

const cardGroup = "Emergency card"

// Card draws the emergency card on the paper of the set, without a frame, to be
// hung up. Its date and mark stand at its foot.
func Card(s *answers.Survey, f *answers.FaultReport, p Print) []drawing.Sheet {
	d := newDraft(s.E, p)
	list := EmergencyCard(s.E, f.Emergency())
	for i := range list {
		list[i] = d.p.Paper.Fit(list[i])
		list[i].Group, list[i].Title = cardGroup, strings.TrimPrefix(list[i].Title, s.E.Name+": ")
		if n := len(list); n > 1 {
			list[i].Title += fmt.Sprintf(", %d of %d", i+1, n)
		}
		words := d.p.Mark
		if words != "" {
			words = "design " + words
		}
		if d.p.Date != "" {
			words += "   " + d.p.Date
		}
		if words != "" {
			drawing.Stamp(&list[i], words)
		}
	}
	return list
}

// Entry is one line of a list of contents.
type Entry struct {
	Group, Title string
	Page         int
}

// onward is what tells the sheets of one title apart.
var onward = regexp.MustCompile(`, (?:tile )?(\d+) of \d+$`)

// span is an Entry with the pages up to which its title goes on.
type span struct {
	Entry

	last int
}

// spans puts the sheets of one title together: nobody looks for the third of four.
func spans(list []Entry) []span {
	var out []span
	for _, n := range list {
		part := onward.FindStringSubmatch(n.Title)
		if part != nil {
			n.Title = strings.TrimSuffix(n.Title, part[0])
		}
		if k := len(out) - 1; part != nil && part[1] != "1" && k >= 0 && out[k].Title == n.Title && out[k].Group == n.Group {
			out[k].last = n.Page
			continue
		}
		out = append(out, span{n, n.Page})
	}
	return out
}

// Contents draws what is in the papers and on which pages.
func Contents(e *enclosure.Enclosure, list []Entry, p Print) []drawing.Sheet {
	g := newDraft(e, p).ledger(frontGroup, "Contents")
	g.text(ledgerTitle, "Contents")
	group := ""
	for _, n := range spans(list) {
		if n.Group != group {
			group = n.Group
			g.y += 2
			g.need(lineOf*ledgerText + lineOf*small)
			g.text(ledgerText, group)
		}
		g.entry(n)
	}
	return g.done()
}

// entry writes a title and its pages, a line between.
func (g *ledger) entry(n span) {
	g.need(lineOf * small)
	const indent = 5.0
	pages := strconv.Itoa(n.Page)
	if n.last > n.Page {
		pages += " to " + strconv.Itoa(n.last)
	}
	page := &drawing.Text{Text: pages, Height: small, Anchor: drawing.Right, At: drawing.Point{X: g.room.Right, Y: g.y + small}}
	title := &drawing.Text{Text: drawing.Fit(n.Title, small, g.wide()-indent-20), Height: small, At: drawing.Point{X: g.room.Left + indent, Y: g.y + small}}
	g.sheet().Add(title, page)
	if from, to := title.Bounds().Right+2, page.Bounds().Left-2; to > from+2 {
		g.sheet().Add(&drawing.Path{Points: []drawing.Point{{X: from, Y: g.y + small}, {X: to, Y: g.y + small}}, Pen: drawing.Fade})
	}
	g.y += lineOf * small
}
