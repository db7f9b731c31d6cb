package cli

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"rillwright"
	"rillwright/answers"
)

const (
	width = 92 // characters of a line
	hang  = "           "
)

const certificate = "This is arithmetic, not a certificate: glass, weight, mains near water and animals need your own judgement, local codes and licensed trades."

// printReport prints answers for people: a line for each verdict, then each
// answer with its figures, then what was assumed. One answer asked for alone
// comes without the list of assumptions: what matters to it stands in it.
func printReport(w io.Writer, r *rillwright.Report, shown []answers.Answer, c *checkCommand) error {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n", r.Name)
	for i := range shown {
		a := &shown[i]
		fmt.Fprintf(&b, "  %-13s %s [%s]\n", strings.ToUpper(a.Verdict.String()), a.Question, a.ID)
	}
	if !c.Brief {
		said := map[string]bool{}
		for i := range shown {
			b.WriteByte('\n')
			printAnswer(&b, &shown[i], said)
		}
		if c.Only == "" {
			b.WriteByte('\n')
			printAssumed(&b, r)
		}
		b.WriteByte('\n')
		wrap(&b, "", "", certificate)
	}
	_, err := io.WriteString(w, b.String())
	return err
}

// printAnswer prints one answer. A caution that has been said is not said again.
func printAnswer(b *strings.Builder, a *answers.Answer, said map[string]bool) {
	fmt.Fprintf(b, "%s  %s\n", a.Question, strings.ToUpper(a.Verdict.String()))
	wrap(b, "  ", "  ", a.Say)
	rows := make([][2]string, len(a.Figures))
	for i, f := range a.Figures {
		rows[i] = [2]string{f.Name, f.Text}
	}
	printRows(b, "    ", rows)
	if a.Limit.Text != "" {
		wrap(b, "  limit:   ", hang, a.Limit.Text+" ("+a.Limit.Mark+")")
	}
	if a.Margin != "" {
		wrap(b, "  margin:  ", hang, a.Margin)
	}
	if a.Limiting != "" {
		wrap(b, "  limited: ", hang, a.Limiting+onLine(a.LimitingLine))
	}
	for i, m := range a.Matters {
		text := fmt.Sprintf("%s, %s: %s%s", m.What, m.Range, m.Effect, onLine(m.Line))
		if i == 0 && m.Settle != "" {
			text += "; settle it by: " + m.Settle
		}
		wrap(b, head(i, "  depends: "), hang+"  ", text)
	}
	for i := range a.Fixes {
		printFix(b, head(i, "  do:      "), a, &a.Fixes[i])
	}
	for _, c := range a.Cautions {
		if !said[c] {
			wrap(b, "  note:    ", hang, c)
			said[c] = true
		}
	}
}

// head is what stands before the entry i of a list: its title once.
func head(i int, title string) string {
	if i == 0 {
		return title
	}
	return hang
}

func onLine(line int) string {
	if line == 0 {
		return ""
	}
	return fmt.Sprintf(" (line %d)", line)
}

func printFix(b *strings.Builder, head string, a *answers.Answer, f *answers.Fix) {
	wrap(b, head, hang+"  ", f.Do+" (cost: "+f.Cost+")")
	text := "then " + f.After
	if a.Key >= len(a.Figures) || f.Before != a.Figures[a.Key].Text {
		text = "now " + f.Before + "; then " + f.After // a figure that does not stand above
	}
	wrap(b, hang+"  ", hang+"  ", text+": "+then(f.Verdict))
	if len(f.Breaks) > 0 {
		text := "but then "
		for i, x := range f.Breaks {
			if i > 0 {
				text += ", "
			}
			text += fmt.Sprintf("[%s] %s", x.ID, is(x.Verdict))
		}
		wrap(b, hang+"  ", hang+"  ", text)
	}
}

func then(v answers.Verdict) string {
	switch v {
	case answers.Holds:
		return "it holds"
	case answers.Tight:
		return "it is tight"
	case answers.Fails:
		return "better, but it still fails"
	}
	return "it is " + v.String()
}

// printRows prints names and values in two columns. A name too long for the
// width takes a line of its own.
func printRows(b *strings.Builder, indent string, rows [][2]string) {
	name, value := 0, 0
	for _, r := range rows {
		value = max(value, utf8.RuneCountInString(r[1]))
	}
	most := max(width-len(indent)-2-value, 30)
	for _, r := range rows {
		if n := utf8.RuneCountInString(r[0]); n <= most {
			name = max(name, n)
		}
	}
	under := indent + strings.Repeat(" ", name+2)
	for _, r := range rows {
		n := utf8.RuneCountInString(r[0])
		if n > name {
			wrap(b, indent, indent+"  ", r[0])
			wrap(b, under, under, r[1])
			continue
		}
		wrap(b, indent+r[0]+strings.Repeat(" ", name-n+2), under, r[1])
	}
}

// wrap prints a paragraph within the width, its first line after head and the
// others after indent.
func wrap(b *strings.Builder, head, indent, text string) {
	b.WriteString(head)
	at := utf8.RuneCountInString(head)
	for i, word := range strings.Fields(text) {
		n := utf8.RuneCountInString(word)
		switch {
		case i == 0:
		case at+1+n > width:
			b.WriteString("\n" + indent)
			at = utf8.RuneCountInString(indent)
		default:
			b.WriteByte(' ')
			at++
		}
		b.WriteString(word)
		at += n
	}
	b.WriteByte('\n')
}

// is says how an answer stands with a verdict.
func is(v answers.Verdict) string {
	switch v {
	case answers.Holds, answers.Fails:
		return v.String()
	}
	return "is " + v.String()
}
