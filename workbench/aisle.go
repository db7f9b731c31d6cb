package workbench

import (
	"fmt"
	"net/http"
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
	if len(q.Pumps) == 0 || len(q.Pumps) > mostPumps {
		refuse(w, http.StatusBadRequest, fmt.Sprintf("%d pumps", len(q.Pumps)), fmt.Sprintf("compare one to %d", mostPumps))
		return
	}
	base, err := b.build(r.Context(), q.Name, q.Text, rillwright.Options{NoFixes: true})
	switch {
	case err != nil:
		refuse(w, http.StatusUnprocessableEntity, err.Error(), "mend the design first")
		return
	case base.Findings.HasErrors():
		refuse(w, http.StatusUnprocessableEntity, errFile.Error(), "mend the design first")
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
		row.Name, row.Answers = p.Name, []answers.Answer{}
		row.Edits = []design.Edit{{Path: path + "flow", To: strings.TrimSpace(p.Flow)}, {Path: path + "head", To: strings.TrimSpace(p.Head)}}
		if row.Problem = b.tryPump(r, &q, row); row.Problem != nil {
			row.Verdict = answers.Unknown
		}
	}
	reply(w, out)
}

// tryPump fills in what one pump would do, or says why not.
func (b *Bench) tryPump(r *http.Request, q *aisleRequest, row *aisleRow) *problem {
	text, err := design.Apply([]byte(q.Text), row.Edits)
	if err != nil {
		return &problem{err.Error(), "type it as it stands on the box, with its unit"}
	}
	rep, err := b.build(r.Context(), q.Name, string(text), rillwright.Options{NoFixes: true})
	if err != nil {
		return &problem{err.Error(), "look at the two figures again"}
	}
	for i := range rep.Findings {
		if f := &rep.Findings[i]; f.Severity == finding.Error {
			return &problem{f.What, f.Do}
		}
	}
	for i := range rep.Answers {
		if a := &rep.Answers[i]; a.ID == "lift" || a.ID == "too-strong" {
			row.Answers = append(row.Answers, wire.Answer(*a))
		}
	}
	row.Verdict = answers.Worst(row.Answers)
	return nil
}
