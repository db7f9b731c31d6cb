package document

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/token"
)

// Set returns the file with the value at path replaced by text, put in quotes
// if it needs them. Every other byte stays as it was: comments, blanks, line
// ends. The path is that of findings, "drains[main drain].lip", and the file
// must give a value there already. Data is not changed. The error is a *Problem.
//
// The result has been read back: it holds the new text at that place and the
// old text everywhere else.
func Set(data []byte, path, text string) ([]byte, error) {
	if strings.TrimSpace(text) == "" || !utf8.ValidString(text) {
		return nil, &Problem{"an empty value cannot be written", "give a text"}
	}
	s, t, err := readable(data)
	if err != nil {
		return nil, err
	}
	steps, err := parsePath(path)
	if err != nil {
		return nil, err
	}
	tk, err := locate(t.entries, steps)
	if err != nil {
		return nil, err
	}
	r, ok := s.region(tk)
	if !ok {
		return nil, &Problem{fmt.Sprintf("the end of the value at %s cannot be found", path), "write it on one line"}
	}
	old := flatten(t)
	index := slices.IndexFunc(old, func(c cell) bool { return c.token == tk })
	for _, quoted := range quotings(text) {
		changed := r.replace(data, quoted)
		if sameBut(old, changed, index, text) {
			return changed, nil
		}
	}
	return nil, &Problem{fmt.Sprintf("the value at %s cannot be replaced", path), "change it by hand"}
}

// locate follows a path through the tree to a single value.
func locate(entries []*ast.MappingValueNode, steps []step) (*token.Token, error) {
	done := ""
	for n, st := range steps {
		var node ast.Node
		var keys []string
		for _, e := range entries {
			key, _ := keyText(e)
			keys = append(keys, key)
			if key == st.key && node == nil {
				node = e.Value
			}
		}
		if node == nil {
			return nil, noKey(keys, st.key, done)
		}
		here := join(done, st.key)
		if st.list {
			var ok bool
			if node, ok = pickNode(node, st.entry); !ok {
				return nil, &Problem{fmt.Sprintf("%s has no entry %q", here, st.entry), ""}
			}
			here = join(done, st.String())
		}
		if n == len(steps)-1 {
			_, tk, ok := scalar(node)
			if !ok {
				return nil, &Problem{here + " is not a single value", ""}
			}
			return tk, nil
		}
		var ok bool
		if entries, ok = mapping(node); !ok {
			return nil, &Problem{here + " has no keys", ""}
		}
		done = here
	}
	return nil, &Problem{"the path is empty", ""}
}

func pickNode(list ast.Node, entry string) (ast.Node, bool) {
	seq, ok := list.(*ast.SequenceNode)
	if !ok {
		return nil, false
	}
	for i, e := range seq.Values {
		if m, ok := mapping(e); ok && entryPath("", m, i+1) == "["+entry+"]" {
			return e, true
		}
	}
	if n, err := strconv.Atoi(entry); err == nil && n >= 1 && n <= len(seq.Values) {
		return seq.Values[n-1], true
	}
	return nil, false
}

// region is the part of a file that a value takes: from a line and column to
// just in front of another, lines counted from 1 and columns in characters.
// Lines from dropFrom to dropTo belong to a block text and go with it.
type region struct {
	line, column, endLine, endColumn int
	dropFrom, dropTo                 int
}

func (s *source) region(tk *token.Token) (region, bool) {
	if tk == nil || tk.Position == nil {
		return region{}, false
	}
	line, column := s.snap(tk.Position.Line, tk.Position.Column)
	endLine, endColumn, ok := s.extent(line, column, tk)
	r := region{line: line, column: column, endLine: endLine, endColumn: endColumn}
	if tk.Type == token.LiteralType || tk.Type == token.FoldedType {
		r.dropFrom, r.dropTo = line+1, line
		indent := -1
		for n := line + 1; n <= len(s.lines); n++ {
			text := s.line(n)
			if strings.TrimSpace(text) == "" {
				continue
			}
			own := len(text) - len(strings.TrimLeft(text, " "))
			if indent < 0 {
				indent = own
			}
			if own < indent || own == 0 {
				break
			}
			r.dropTo = n
		}
	}
	return r, ok
}

// replace puts text in place of the region.
func (r region) replace(data []byte, text string) []byte {
	lines := strings.SplitAfter(string(data), "\n")
	mark := ""
	if strings.HasPrefix(lines[0], byteOrderMark) {
		mark, lines[0] = byteOrderMark, strings.TrimPrefix(lines[0], byteOrderMark)
	}
	var b strings.Builder
	b.Grow(len(data) + len(text))
	b.WriteString(mark)
	for i, line := range lines {
		n := i + 1
		switch {
		case n == r.line:
			b.WriteString(line[:byteColumn(line, r.column)])
			b.WriteString(text)
			if n == r.endLine {
				b.WriteString(line[byteColumn(line, r.endColumn):])
			}
		case n > r.line && n < r.endLine:
		case n == r.endLine && n > r.line:
			b.WriteString(line[byteColumn(line, r.endColumn):])
		case r.dropFrom > 0 && n >= r.dropFrom && n <= r.dropTo:
		default:
			b.WriteString(line)
		}
	}
	return []byte(b.String())
}

// cell is one key or value of a tree.
type cell struct {
	text  string
	token *token.Token
}

// flatten lists all keys and values in the order of the file.
func flatten(t *tree) []cell {
	var cells []cell
	var walk func(n ast.Node)
	entry := func(e *ast.MappingValueNode) {
		key, _ := keyText(e)
		cells = append(cells, cell{key + ":", nil})
		if e.Value != nil {
			walk(e.Value)
		}
	}
	walk = func(n ast.Node) {
		if m, ok := mapping(n); ok {
			for _, e := range m {
				entry(e)
			}
			cells = append(cells, cell{"}", nil})
			return
		}
		if seq, ok := n.(*ast.SequenceNode); ok {
			for _, e := range seq.Values {
				walk(e)
			}
			cells = append(cells, cell{"]", nil})
			return
		}
		text, tk, _ := scalar(n)
		cells = append(cells, cell{text, tk})
	}
	for _, e := range t.entries {
		entry(e)
	}
	return cells
}

// sameBut reports whether data holds the old cells with only one changed.
func sameBut(old []cell, data []byte, index int, text string) bool {
	s, list := newSource("", data)
	if len(list) > 0 {
		return false
	}
	t, list := parse(s)
	if len(list) > 0 || t == nil {
		return false
	}
	now := flatten(t)
	if len(now) != len(old) || index < 0 {
		return false
	}
	for i := range now {
		want := old[i].text
		if i == index {
			want = text
		}
		if now[i].text != want {
			return false
		}
	}
	return true
}
