package packet

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"math"
	"strconv"

	"rillwright/answers"
	"rillwright/commission"
)

// Table is a table to be opened by other programs. Its first row names the columns.
type Table struct {
	Name string // of its file, without an ending
	Rows [][]string
}

// CSV returns the table with commas, its lines ended as RFC 4180 wants.
func (t *Table) CSV() ([]byte, error) {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	w.UseCRLF = true
	if err := w.WriteAll(t.Rows); err != nil {
		return nil, fmt.Errorf("packet: table %s: %w", t.Name, err)
	}
	return b.Bytes(), nil
}

// figure is a number of six digits, "" for one that is none or has no end.
func figure(v float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return ""
	}
	return strconv.FormatFloat(v, 'g', 6, 64)
}

func answersTable(list []answers.Answer) Table {
	t := Table{Name: "answers", Rows: [][]string{{"id", "question", "verdict", "answer", "figure", "low", "likely", "high", "unit", "limit", "margin"}}}
	for i := range list {
		a := &list[i]
		row := []string{a.ID, a.Question, a.Verdict.String(), a.Say, "", "", "", "", "", a.Limit.Text, a.Margin}
		if a.Key < len(a.Figures) {
			f := &a.Figures[a.Key]
			row[4] = f.Name
			if !f.Words {
				row[5], row[6], row[7], row[8] = figure(f.Low), figure(f.Likely), figure(f.High), f.Unit
			}
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// testsTable holds the tests in SI, as the columns say: other programs convert.
func testsTable(p commission.Plan) Table {
	units := map[commission.Unit]string{
		commission.Flow: "m3/s", commission.Head: "m", commission.Height: "m", commission.Share: "1", commission.Time: "s",
	}
	t := Table{Name: "tests", Rows: [][]string{{"stage", "id", "test", "unit", "passes from", "passes to", "passes if", "computed low", "computed likely", "computed high", "not known", "read first"}}}
	for _, s := range p.Stages {
		for _, c := range s.Checks {
			row := []string{s.ID, c.ID, c.Name, units[c.Unit], "", "", c.PassSeen, "", "", "", c.Lacks, c.Hold}
			if c.Unit != commission.Seen && c.Lacks == "" {
				row[4], row[5] = figure(c.Pass.Low), figure(c.Pass.High)
			}
			if c.Computed {
				row[7], row[8], row[9] = figure(c.Expect[0]), figure(c.Expect[1]), figure(c.Expect[2])
			}
			t.Rows = append(t.Rows, row)
		}
	}
	return t
}
