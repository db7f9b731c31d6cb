package document

import (
	"bytes"
	"strings"

	"github.com/goccy/go-yaml/ast"
)

// Cut returns the file without the key at path and its value, or without the
// entry of a list if the path ends in one. What the file does not give stays away.
// A section or list that would be left empty goes with the last of what it held.
// On lines of its own a key goes with its lines and the comments on them; between
// brackets with its comma. Every other byte stays. Data is not changed. The error
// is a *Problem.
//
// The result has been read back: it says all the rest of the old.
func Cut(data []byte, path string) ([]byte, error) {
	e, err := newEditor(data)
	if err != nil {
		return nil, err
	}
	p, err := e.follow(path)
	if err != nil {
		return nil, err
	}
	if len(p.rest) > 1 || len(p.rest) == 1 && (p.rest[0].list || p.index < 0) {
		return bytes.Clone(data), nil
	}
	hard := &Problem{path + " cannot be taken out", "do it by hand"}
	if p.list != nil && len(p.list.Values) > 1 {
		p.says.parts[p.index].drop(p.entry)
		return e.without(e.items(p.list), p.entry, hard)
	}
	for len(p.section) == 1 {
		switch {
		case p.up == nil:
			return nil, &Problem{path + " is all that the file holds", "begin from the starter file"}
		case p.up.list != nil:
			return nil, &Problem{path + " is all that " + p.path + " holds", "take the whole entry out"}
		}
		p = p.up
	}
	p.says.drop(p.index)
	return e.without(e.keys(p), p.index, hard)
}

// item is a key with its value, or an entry: from its first character to behind
// its last.
type item struct {
	from, to caret
	ok       bool
}

// items are what a section or list holds.
type items struct {
	list  []item
	inRow bool // between brackets
}

func (e *editor) keys(p *place) items {
	out := items{inRow: p.braces != nil}
	for _, entry := range p.section {
		var it item
		if tk := keyToken(entry); tk != nil && tk.Position != nil {
			it.from.line, it.from.column = e.snap(tk.Position.Line, tk.Position.Column)
			it.to, it.ok = e.behind(entry)
		}
		out.list = append(out.list, it)
	}
	return out
}

func (e *editor) items(seq *ast.SequenceNode) items {
	out := items{inRow: seq.IsFlowStyle}
	for i, n := range seq.Values {
		var it item
		it.from, it.ok = e.begin(n)
		if !seq.IsFlowStyle {
			it.from, it.ok = e.mark(seq.Entries[i].Start, '-')
		}
		to, ok := e.behindNode(n)
		it.to, it.ok = to, it.ok && ok
		out.list = append(out.list, it)
	}
	return out
}

// without returns the file without one item.
func (e *editor) without(all items, i int, hard *Problem) ([]byte, error) {
	it := all.list[i]
	if !it.ok {
		return nil, hard
	}
	var tries [][]splice
	if all.inRow {
		tries = e.fromRow(all.list, i)
	} else {
		tries = e.fromLines(all.list, i)
	}
	for _, s := range tries {
		if out, ok := e.change(s...); ok {
			return out, nil
		}
	}
	return nil, hard
}

// fromLines takes an item out that stands on lines of its own.
func (e *editor) fromLines(list []item, i int) [][]splice {
	it := list[i]
	before := e.line(it.from.line)[:byteColumn(e.line(it.from.line), it.from.column)]
	if strings.TrimSpace(before) == "" {
		from, to := e.starts[it.from.line-1]+len(e.markOf(it.from.line)), e.starts[it.to.line]
		if it.to.line == len(e.lines) { // no line end behind it: take the one in front
			from = e.lineEnd(it.from.line - 1)
		}
		return [][]splice{{{from: from, to: to}}}
	}
	// The first key of an entry stands behind the entry's dash.
	from, to := e.offset(it.from.line, it.from.column), e.lineEnd(it.to.line)
	var tries [][]splice
	if i+1 < len(list) && list[i+1].from.line == it.to.line+1 {
		next := list[i+1].from
		tries = append(tries, []splice{{from: from, to: e.offset(next.line, next.column)}})
	}
	return append(tries, []splice{{from: from - (len(before) - len(strings.TrimRight(before, " "))), to: to}})
}

// fromRow takes an item out that stands between brackets, and a comma with it.
func (e *editor) fromRow(list []item, i int) [][]splice {
	it := list[i]
	from, to := e.offset(it.from.line, it.from.column), e.offset(it.to.line, it.to.column)
	gapFrom, gapTo := to, to
	whole := splice{from: from, to: to}
	switch {
	case i > 0:
		prev := list[i-1].to
		gapFrom, gapTo = e.offset(prev.line, prev.column), from
		whole.from = gapFrom
	case len(list) > 1:
		next := list[1].from
		gapTo = e.offset(next.line, next.column)
		whole.to = gapTo
	}
	if gapFrom > gapTo {
		return nil
	}
	if !bytes.ContainsRune(e.data[gapFrom:gapTo], '#') {
		return [][]splice{{whole}}
	}
	comma := e.comma(gapFrom, gapTo)
	if comma < 0 {
		return nil
	}
	alone := splice{from: from, to: to}
	if line := e.line(it.from.line); it.from.line == it.to.line && it.from.line > 1 &&
		strings.TrimSpace(line[:byteColumn(line, it.from.column)]+strings.TrimPrefix(strings.TrimSpace(line[byteColumn(line, it.to.column):]), ",")) == "" {
		alone = splice{from: e.starts[it.from.line-1], to: e.starts[it.from.line]}
	}
	mark := splice{from: comma, to: comma + 1}
	switch {
	case comma < alone.from:
		return [][]splice{{mark, alone}}
	case comma < alone.to:
		return [][]splice{{alone}}
	}
	return [][]splice{{alone, mark}}
}

// comma finds the comma between two items, which comments may hold as well.
func (e *editor) comma(from, to int) int {
	for at := from; at < to; at++ {
		switch e.data[at] {
		case ',':
			return at
		case '#':
			end := bytes.IndexByte(e.data[at:], '\n')
			if end < 0 {
				return -1
			}
			at += end
		}
	}
	return -1
}

// lineEnd is where the line end of a line begins.
func (e *editor) lineEnd(line int) int {
	if line < 1 {
		return len(e.markOf(1))
	}
	return e.starts[line-1] + len(e.markOf(line)) + len(e.line(line))
}
