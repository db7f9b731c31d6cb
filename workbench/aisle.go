package workbench

import (
	"fmt"
	"net/http"
	"slices"
	"strings"

	"rillwright"
	"rillwright/answers"
	"rillwright/design"
	"rillwright/finding"
	"rillwright/internal/wire"
)

// aisleRequest compares pumps by the two figures on their boxes, each put into the
// design in the place of its first pump.
type aisleRequest struct {
	Name  string     `json:"name"`
	Text  string     `json:"text"`
	Pumps []pumpSeen `json:"pumps"`
	// Piece and Parts compare parts in place of pumps: each is put where the piece
	// stands, runs[riser].pieces[2].
	Piece string   `json:"piece"`
	Parts []string `json:"parts"`
}

// pumpSeen is a box on the shelf, with figures as printed: "1200 L/h", "8 ft".
type pumpSeen struct {
	Name string `json:"name"`
	Flow string `json:"flow"`
	Head string `json:"head"`
}

// mostPumps are as many as one hand and one look can compare.
const mostPumps = 4

// aisleReply has one row for each pump, in their order.
type aisleReply struct {
	Rows []aisleRow `json:"rows"`
}

// aisleRow is what a pump would do. Problem says why nothing can be said.
type aisleRow struct {
	Name    string           `json:"name"`
	Problem *problem         `json:"problem,omitempty"`
	Verdict answers.Verdict  `json:"verdict"` // the worse of the answers below
	Answers []answers.Answer `json:"answers"` // reaches the top, too strong
	Edits   []design.Edit    `json:"edits"`   // what keeping it writes
}

func (b *Bench) aisle(w http.ResponseWriter, r *http.Request) {
	q, ok := take[aisleRequest](w, r)
	if !ok {
		return
	}
	if n := len(q.Pumps) + len(q.Parts); n == 0 || n > mostPumps {
		refuse(w, http.StatusBadRequest, fmt.Sprintf("%d things to compare", n), fmt.Sprintf("compare one to %d", mostPumps))
		return
	}
	base, ok := b.sound(w, r, q.Name, q.Text)
	if !ok {
		return
	}
	if len(q.Parts) > 0 {
		out := aisleReply{Rows: make([]aisleRow, len(q.Parts))}
		for i, part := range q.Parts {
			b.tryPart(r, &q, part, &out.Rows[i])
		}
		reply(w, out)
		return
	}
	pump := &base.Design.Pumps[0]
	if !pump.Label.Given() {
		refuse(w, http.StatusUnprocessableEntity, fmt.Sprintf("pump %q is not given by its label", pump.Name.Value), `compare with a design whose pump has "label:"`)
		return
	}
	path := "pumps[" + pump.Name.Value + "].label."
	out := aisleReply{Rows: make([]aisleRow, len(q.Pumps))}
	for i, p := range q.Pumps {
		row := &out.Rows[i]
		row.Name = p.Name
		row.Edits = []design.Edit{{Path: path + "flow", To: strings.TrimSpace(p.Flow)}, {Path: path + "head", To: strings.TrimSpace(p.Head)}}
		b.try(r, &q, row, "lift", "too-strong")
	}
	reply(w, out)
}

// tryPart puts a part where a piece of the design stands.
func (b *Bench) tryPart(r *http.Request, q *aisleRequest, part string, row *aisleRow) {
	row.Name = part
	row.Edits = []design.Edit{{Path: q.Piece + ".part", To: part}}
	b.try(r, q, row, "lift", "drain", "quiet", "fits")
}

// try fills in what a change would do, told by some of the answers, or why nothing
// can be said.
func (b *Bench) try(r *http.Request, q *aisleRequest, row *aisleRow, ids ...string) {
	row.Answers = []answers.Answer{}
	if row.Problem = b.tried(r, q, row, ids); row.Problem != nil {
		row.Verdict = answers.Unknown
	}
}

func (b *Bench) tried(r *http.Request, q *aisleRequest, row *aisleRow, ids []string) *problem {
	text, err := design.Apply([]byte(q.Text), row.Edits)
	if err != nil {
		return &problem{err.Error(), "type it as it stands on the box, with its unit"}
	}
	rep, err := b.build(r.Context(), q.Name, string(text), rillwright.Options{NoFixes: true})
	if err != nil {
		return &problem{err.Error(), "look at it again"}
	}
	for i := range rep.Findings {
		if f := &rep.Findings[i]; f.Severity == finding.Error {
			return &problem{f.What, f.Do}
		}
	}
	for i := range rep.Answers {
		if a := &rep.Answers[i]; slices.Contains(ids, a.ID) {
			row.Answers = append(row.Answers, wire.Answer(*a))
		}
	}
	row.Verdict = answers.Worst(row.Answers)
	return nil
}
