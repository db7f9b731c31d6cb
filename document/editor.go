package document

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/token"
)

// editor changes a file that was read. What the file should say afterwards is
// kept beside it as content.
type editor struct {
	*source
	data   []byte
	starts []int // where each line begins in data; one more for the end
	t      *tree
	says   *content
}

// place is where a path leads, as far as the file goes along.
type place struct {
	path    string // of the section
	section []*ast.MappingValueNode
	braces  *ast.MappingNode // nil for a section on lines of its own
	says    *content
	up      *place // the section this one stands in
	index   int    // of the next key in the section, -1 if it is not there
	list    *ast.SequenceNode
	entry   int // of the list, if the path goes to an entry
	node    ast.Node
	value   *content
	rest    []step // what of the path has no value in the file
}

// key is what the section holds under the next key of the path.
func (p *place) key() *ast.MappingValueNode {
	if p.index < 0 {
		return nil
	}
	return p.section[p.index]
}

func newEditor(data []byte) (*editor, error) {
	s, t, err := readable(data)
	if err != nil {
		return nil, err
	}
	e := &editor{source: s, data: data, t: t, says: contentOfEntries(t.entries)}
	for n := 0; ; {
		e.starts = append(e.starts, n)
		i := bytes.IndexByte(data[n:], '\n')
		if i < 0 {
			break
		}
		n += i + 1
	}
	e.starts = append(e.starts, len(data))
	return e, nil
}

// readable reads a file that is to be changed.
func readable(data []byte) (*source, *tree, error) {
	s, list := newSource("", data)
	var t *tree
	if len(list) == 0 {
		t, list = parse(s)
	}
	if len(list) > 0 {
		return nil, nil, &Problem{"the file cannot be changed while it has mistakes", list[0].What}
	}
	if t == nil {
		return nil, nil, &Problem{"the file is empty", ""}
	}
	return s, t, nil
}

// follow goes along a path as far as the file has values.
func (e *editor) follow(path string) (*place, error) {
	steps, err := parsePath(path)
	if err != nil {
		return nil, err
	}
	p := &place{section: e.t.entries, says: e.says}
	for n, st := range steps {
		here := join(p.path, st.key)
		p.index = slices.IndexFunc(p.section, func(e *ast.MappingValueNode) bool {
			key, ok := keyText(e)
			return ok && key == st.key
		})
		if p.index < 0 || isNull(p.key().Value) {
			p.rest = steps[n:]
			return p, nil
		}
		p.node, p.value = p.key().Value, p.says.parts[p.index]
		if st.list {
			here = join(p.path, st.String())
			if err := p.pick(st, here); err != nil {
				return nil, err
			}
		}
		if n == len(steps)-1 {
			break
		}
		entries, ok := mapping(p.node)
		if !ok {
			return nil, &Problem{here + " has no keys", "end the path there"}
		}
		next := &place{path: here, section: entries, says: p.value, up: p}
		if m, ok := p.node.(*ast.MappingNode); ok && m.IsFlowStyle {
			next.braces = m
		}
		p = next
	}
	return p, nil
}

// pick takes an entry of a list as what the path leads to.
func (p *place) pick(st step, here string) error {
	seq, ok := p.node.(*ast.SequenceNode)
	if !ok {
		return &Problem{join(p.path, st.key) + " is not a list", "leave the brackets out"}
	}
	node, ok := pickNode(seq, st.entry)
	if !ok || isNull(node) {
		return &Problem{here + " is not there", fmt.Sprintf("the list has %d entries: name one, or add it first", len(seq.Values))}
	}
	p.list, p.entry = seq, slices.Index(seq.Values, node)
	p.node, p.value = node, p.value.parts[p.entry]
	return nil
}

func isNull(n ast.Node) bool { return n == nil || n.Type() == ast.NullType }

// missing returns the keys of the rest of a path, none of which may name an
// entry of a list: what a new one should hold cannot be known.
func (p *place) missing() ([]string, error) {
	var keys []string
	at := p.path
	for _, st := range p.rest {
		at = join(at, st.key)
		if st.list {
			return nil, &Problem{fmt.Sprintf("%s[%s] is not there", at, st.entry), "add the whole entry to the list first"}
		}
		keys = append(keys, st.key)
	}
	return keys, nil
}

// splice is one piece of the file, by its bytes, and what comes in its place.
type splice struct {
	from, to int
	text     string // with LF line ends
}

// change returns the file with pieces replaced, which must be in order and apart,
// if it then says what e.says has been made to say.
func (e *editor) change(pieces ...splice) ([]byte, bool) {
	eol := "\n"
	if i := bytes.IndexByte(e.data, '\n'); i > 0 && e.data[i-1] == '\r' {
		eol = "\r\n"
	}
	out := make([]byte, 0, len(e.data)+100)
	at := 0
	for _, s := range pieces {
		if s.from < at || s.to < s.from || s.to > len(e.data) {
			return nil, false
		}
		out = append(out, e.data[at:s.from]...)
		out = append(out, strings.ReplaceAll(s.text, "\n", eol)...)
		at = s.to
	}
	out = append(out, e.data[at:]...)
	_, t, err := readable(out)
	if err != nil || len(t.broken) > 0 || !contentOfEntries(t.entries).equal(e.says) {
		return nil, false
	}
	return out, true
}

// offset turns a line and a column in characters into a place in the bytes.
func (e *editor) offset(line, column int) int {
	return e.starts[line-1] + len(e.markOf(line)) + byteColumn(e.line(line), column)
}

// markOf returns the byte order mark if it stands in front of a line.
func (e *editor) markOf(line int) string {
	if line == 1 && bytes.HasPrefix(e.data, []byte(byteOrderMark)) {
		return byteOrderMark
	}
	return ""
}

// below returns what puts lines under a line of the file.
func (e *editor) below(line int, text string) splice {
	if line >= len(e.lines) {
		return splice{len(e.data), len(e.data), "\n" + strings.TrimSuffix(text, "\n")}
	}
	at := e.starts[line]
	return splice{at, at, text}
}

// caret is a line and column of the file, counted from 1; a zero caret was not
// found.
type caret struct{ line, column int }

// mark finds a token of one character.
func (e *editor) mark(tk *token.Token, char byte) (caret, bool) {
	if tk == nil || tk.Position == nil {
		return caret{}, false
	}
	line, column := e.snap(tk.Position.Line, tk.Position.Column)
	text := e.line(line)
	at := byteColumn(text, column)
	return caret{line, column}, at < len(text) && text[at] == char
}

// behindColon is just behind the colon of a key.
func (e *editor) behindColon(entry *ast.MappingValueNode) (caret, bool) {
	at, ok := e.mark(entry.Start, ':')
	return caret{at.line, at.column + 1}, ok
}

// begin is where a value, key or entry begins.
func (e *editor) begin(n ast.Node) (caret, bool) {
	if n == nil {
		return caret{}, false
	}
	tk := n.GetToken()
	if m, ok := mapping(n); ok && len(m) > 0 {
		if braces, ok := n.(*ast.MappingNode); ok && braces.IsFlowStyle {
			return e.mark(braces.Start, '{')
		}
		tk = keyToken(m[0])
	}
	if tk == nil || tk.Position == nil {
		return caret{}, false
	}
	line, column := e.snap(tk.Position.Line, tk.Position.Column)
	return caret{line, column}, true
}

// behind is just behind the last character of the value of a key. For a text in
// lines of its own it is the end of the last of them.
func (e *editor) behind(entry *ast.MappingValueNode) (caret, bool) {
	if isNull(entry.Value) {
		if entry.Value != nil && entry.Value.GetToken().Type == token.NullType {
			return e.behindNode(entry.Value)
		}
		return e.behindColon(entry)
	}
	return e.behindNode(entry.Value)
}

func (e *editor) behindNode(n ast.Node) (caret, bool) {
	next := func(tk *token.Token, char byte) (caret, bool) {
		at, ok := e.mark(tk, char)
		return caret{at.line, at.column + 1}, ok
	}
	switch n := n.(type) {
	case *ast.MappingNode:
		if n.IsFlowStyle {
			return next(n.End, '}')
		}
	case *ast.SequenceNode:
		if n.IsFlowStyle {
			return next(n.End, ']')
		}
		last := len(n.Values) - 1
		switch {
		case last < 0:
			return caret{}, false
		case isNull(n.Values[last]):
			return next(n.Entries[last].Start, '-')
		}
		return e.behindNode(n.Values[last])
	}
	if m, ok := mapping(n); ok {
		if len(m) == 0 {
			return caret{}, false
		}
		return e.behind(m[len(m)-1])
	}
	tk := n.GetToken()
	if _, own, ok := scalar(n); ok {
		tk = own
	}
	r, ok := e.region(tk)
	if r.dropTo >= r.dropFrom && r.dropFrom > 0 {
		return caret{r.dropTo, len([]rune(e.line(r.dropTo))) + 1}, ok
	}
	return caret{r.endLine, r.endColumn}, ok
}
