package workbench

import (
	"bytes"
	"net/http"

	"rillwright/drawing"
	"rillwright/drawing/pdf"
	"rillwright/drawing/svg"
	"rillwright/quantity"
	"rillwright/sheets"
)

// drawingsRequest asks for the drawings of a text, on A4 or, with Letter, on Letter.
type drawingsRequest struct {
	Name   string `json:"name"`
	Text   string `json:"text"`
	Letter bool   `json:"letter"`
	PDF    bool   `json:"pdf"` // as one file to print, in place of the list
}

// drawingsReply is every sheet as it is printed.
type drawingsReply struct {
	Sheets []sheetShown `json:"sheets"`
	Letter bool         `json:"letter"`
}

type sheetShown struct {
	Title string `json:"title"`
	SVG   string `json:"svg"`
}

// drawings sends what the command draw writes.
func (b *Bench) drawings(w http.ResponseWriter, r *http.Request) {
	q, ok := take[drawingsRequest](w, r)
	if !ok {
		return
	}
	rep, ok := b.sound(w, r, q.Name, q.Text)
	if !ok {
		return
	}
	p := sheets.Print{Paper: drawing.A4(), Mark: revision([]byte(q.Text))[:8]}
	letter := q.Letter || rep.Enclosure.Units == quantity.US
	if letter {
		p.Paper = drawing.Letter()
	}
	list := sheets.Drawings(rep.Survey, p)
	drawing.Number(list)
	if q.PDF {
		var out bytes.Buffer
		if err := pdf.Write(&out, rep.Name, list); err != nil {
			fail(w, err)
			return
		}
		w.Header().Set("Content-Type", "application/pdf")
		_, _ = w.Write(out.Bytes()) // the caller is gone if this fails
		return
	}
	out := drawingsReply{Sheets: []sheetShown{}, Letter: letter}
	for i := range list {
		var s bytes.Buffer
		if err := svg.Write(&s, &list[i]); err != nil {
			fail(w, err)
			return
		}
		out.Sheets = append(out.Sheets, sheetShown{list[i].Title, s.String()})
	}
	reply(w, out)
}
