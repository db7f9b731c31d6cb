package document

import (
	"strings"
	"unicode/utf8"

	"github.com/goccy/go-yaml/ast"
)

// Append returns the file with one more entry at the end of the list at path,
// which is made if the file does not have it. The entry is YAML: keys on lines of
// their own as they would stand behind "- ", a section in braces, or a single
// value. It is written as the list is: on lines of its own, else on the list's
// own line. Every other byte stays. Data is not changed. The error is a *Problem.
//
// The result has been read back: it says the new and all of the old.
func Append(data []byte, path, entry string) ([]byte, error) {
	e, n, err := newEntry(data, entry)
	if err != nil {
		return nil, err
	}
	p, err := e.follow(path)
	if err != nil {
		return nil, err
	}
	var tries []splice
	if len(p.rest) > 0 {
		keys, err := p.missing()
		if err != nil {
			return nil, err
		}
		p.expect(keys, &content{form: listed, parts: []*content{n.says}})
		tries = e.firstOf(p, keys, n)
	} else {
		seq, ok := p.node.(*ast.SequenceNode)
		if !ok {
			return nil, &Problem{path + " is not a list", "name a list of the file, or one that it may have"}
		}
		p.value.parts = append(p.value.parts, n.says)
		tries = e.oneMore(seq, n)
	}
	for _, s := range tries {
		if out, ok := e.change(s); ok {
			return out, nil
		}
	}
	return nil, &Problem{"an entry cannot be added to " + path, "write it by hand"}
}

// Insert is Append for a place within a list: the new entry comes in front of the
// one that path names, "runs[riser].pieces[1]", which must be there.
func Insert(data []byte, path, entry string) ([]byte, error) {
	e, n, err := newEntry(data, entry)
	if err != nil {
		return nil, err
	}
	p, err := e.follow(path)
	if err != nil {
		return nil, err
	}
	if len(p.rest) > 0 || p.list == nil {
		return nil, &Problem{path + " is not an entry of a list", "name the entry that the new one comes in front of"}
	}
	list := p.says.parts[p.index]
	list.parts = append(list.parts[:p.entry:p.entry], append([]*content{n.says}, list.parts[p.entry:]...)...)
	for _, s := range e.inFront(p, n) {
		if out, ok := e.change(s); ok {
			return out, nil
		}
	}
	return nil, &Problem{"an entry cannot be put in front of " + path, "write it by hand"}
}

// entryText is an entry that is to be added.
type entryText struct {
	says  *content
	flow  string   // on one line
	lines []string // as it was given; one for a single value
}

func newEntry(data []byte, text string) (*editor, entryText, error) {
	text = strings.Trim(strings.ReplaceAll(text, "\r\n", "\n"), "\n")
	if strings.TrimSpace(text) == "" || !utf8.ValidString(text) {
		return nil, entryText{}, &Problem{"an empty entry cannot be added", "give its keys, or its value"}
	}
	e, err := newEditor(data)
	if err != nil {
		return nil, entryText{}, err
	}
	c, ok := contentOfText(text)
	if !ok || c.form != keyed {
		c = &content{form: single, text: text}
	}
	if !c.whole() {
		return nil, entryText{}, &Problem{"a key of the new entry has no value", "write it, or leave the key out"}
	}
	n := entryText{says: c, flow: c.flow(), lines: []string{c.flow()}}
	if c.form == keyed {
		n.lines = strings.Split(text, "\n")
	}
	return e, n, nil
}

// block writes the entry on lines of its own, its dash behind the indent.
func (n *entryText) block(indent string) string {
	var b strings.Builder
	for i, line := range n.lines {
		switch {
		case i == 0:
			b.WriteString(indent + "- ")
		case strings.TrimSpace(line) != "":
			b.WriteString(indent + "  ")
		}
		b.WriteString(line + "\n")
	}
	return b.String()
}

// firstOf returns the ways to write a list of one entry where there is none.
func (e *editor) firstOf(p *place, keys []string, n entryText) []splice {
	inline := e.additions(p, keys, "[ "+n.flow+" ]")
	indent, ok := e.indent(p)
	if p.braces != nil || len(keys) > 1 || !ok {
		return inline
	}
	entry := n.block(indent + "  ")
	if key := p.key(); key != nil {
		if at, ok := e.behindColon(key); ok {
			return append([]splice{e.below(at.line, entry)}, inline...)
		}
		return inline
	}
	return append(e.last(p, indent+flowText(keys[0])+":\n"+entry), inline...)
}

// oneMore returns what adds an entry at the end of a list.
func (e *editor) oneMore(seq *ast.SequenceNode, n entryText) []splice {
	if seq.IsFlowStyle {
		if len(seq.Values) == 0 {
			at, ok := e.mark(seq.Start, '[')
			if !ok {
				return nil
			}
			return e.inEmpty(at, n.flow)
		}
		at, ok := e.behindNode(seq.Values[len(seq.Values)-1])
		if !ok {
			return nil
		}
		return insertion(e.offset(at.line, at.column), ", "+n.flow)
	}
	end, ok := e.behindNode(seq)
	dash, found := e.mark(seq.Entries[0].Start, '-')
	if !ok || !found {
		return nil
	}
	return []splice{e.below(end.line, n.block(strings.Repeat(" ", dash.column-1)))}
}

// inFront returns what adds an entry in front of another.
func (e *editor) inFront(p *place, n entryText) []splice {
	if p.list.IsFlowStyle {
		if at, ok := e.begin(p.node); ok {
			return insertion(e.offset(at.line, at.column), n.flow+", ")
		}
		return nil
	}
	dash, ok := e.mark(p.list.Entries[p.entry].Start, '-')
	if !ok {
		return nil
	}
	if blanks := e.line(dash.line)[:dash.column-1]; strings.Trim(blanks, " ") == "" {
		return insertion(e.starts[dash.line-1]+len(e.markOf(dash.line)), n.block(blanks))
	}
	return nil
}
