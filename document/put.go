package document

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// Put returns the file with text as the value at path, like Set, and adds the
// key, and the sections on the way to it, where the file does not have them. A
// new key comes last in its section: between braces behind a comma, else on a
// line of its own, indented like the others; a new section at the top comes at
// the end of the file. Where there is no value yet, text may be a section, or a
// list of sections, written on one line, "{ off: 114 mm, on: 144 mm }". Every
// other byte stays. Data is not changed. The error is a *Problem.
//
// The result has been read back: it says the new and all of the old.
func Put(data []byte, path, text string) ([]byte, error) {
	if strings.TrimSpace(text) == "" || !utf8.ValidString(text) {
		return nil, &Problem{"an empty value cannot be written", "give a text"}
	}
	e, err := newEditor(data)
	if err != nil {
		return nil, err
	}
	p, err := e.follow(path)
	if err != nil {
		return nil, err
	}
	if len(p.rest) == 0 {
		if _, _, ok := scalar(p.node); ok {
			return Set(data, path, text)
		}
		return nil, &Problem{path + " is not a single value", "write one of its keys, or cut it first"}
	}
	keys, err := p.missing()
	if err != nil {
		return nil, err
	}
	ways := quotings(text)
	value := &content{form: single, text: text}
	if section, ok := flowSection(text); ok {
		ways, value = []string{strings.TrimSpace(text)}, section
	}
	p.expect(keys, value)
	for _, way := range ways {
		for _, s := range e.additions(p, keys, way) {
			if out, ok := e.change(s); ok {
				return out, nil
			}
		}
	}
	return nil, &Problem{path + " cannot be added", "write it by hand"}
}

// expect notes that a value comes under the missing keys.
func (p *place) expect(keys []string, value *content) {
	inner := value.under(keys[1:])
	if p.index >= 0 {
		p.says.parts[p.index] = inner
		return
	}
	p.says.add(keys[0], inner)
}

// additions returns the ways to write a value under keys that are missing at a
// place, best first.
func (e *editor) additions(p *place, keys []string, value string) []splice {
	text := value
	for i := len(keys) - 1; i > 0; i-- {
		text = "{ " + keyAnd(keys[i], text) + " }"
	}
	if key := p.key(); key != nil { // it stands there without a value
		at, ok := e.behind(key)
		if from, bare := e.behindColon(key); ok && bare {
			return []splice{{e.offset(from.line, from.column), e.offset(at.line, at.column), " " + text}}
		}
		return nil
	}
	if p.braces != nil {
		return e.between(p, keyAnd(keys[0], text))
	}
	indent, ok := e.indent(p)
	if !ok {
		return nil
	}
	lines := indent + keyAnd(keys[0], text) + "\n"
	if p.up == nil && len(keys) > 1 {
		rest := value
		for i := len(keys) - 1; i > 1; i-- {
			rest = "{ " + keyAnd(keys[i], rest) + " }"
		}
		lines = fmt.Sprintf("%s%s:\n%s  %s\n", indent, flowText(keys[0]), indent, keyAnd(keys[1], rest))
	}
	return e.last(p, lines)
}

// between returns what adds a key and its value to a section in braces.
func (e *editor) between(p *place, text string) []splice {
	if n := len(p.section); n > 0 {
		if at, ok := e.behind(p.section[n-1]); ok {
			return insertion(e.offset(at.line, at.column), ", "+text)
		}
		return nil
	}
	at, ok := e.mark(p.braces.Start, '{')
	if !ok {
		return nil
	}
	return e.inEmpty(at, text)
}

// inEmpty returns what puts the first thing between two brackets.
func (e *editor) inEmpty(open caret, text string) []splice {
	at := e.offset(open.line, open.column) + 1
	if rest := e.data[at:]; len(rest) > 0 && (rest[0] == '}' || rest[0] == ']') {
		text += " "
	}
	return insertion(at, " "+text)
}

func insertion(at int, text string) []splice { return []splice{{at, at, text}} }

// indent returns the blanks in front of the keys of a section on lines of its
// own.
func (e *editor) indent(p *place) (string, bool) {
	if len(p.section) == 0 {
		return "", false
	}
	tk := keyToken(p.section[0])
	if tk == nil || tk.Position == nil {
		return "", false
	}
	_, column := e.snap(tk.Position.Line, tk.Position.Column)
	return strings.Repeat(" ", column-1), true
}

// last returns what puts lines behind the last key of a section: at the end of
// the file for the top, since what stands behind its last value, if anything, is
// comment on that.
func (e *editor) last(p *place, lines string) []splice {
	at, ok := e.behind(p.section[len(p.section)-1])
	if !ok {
		return nil
	}
	if p.up != nil {
		return []splice{e.below(at.line, lines)}
	}
	gap := ""
	if n := len(p.says.parts); p.says.parts[n-1].form != single && e.spaced() {
		gap = "\n"
	}
	end := len(e.lines)
	if end > 1 && e.line(end) == "" {
		end--
	}
	if strings.TrimSpace(e.line(end)) == "" {
		gap = ""
	}
	return []splice{e.below(end, gap+lines), e.below(at.line, gap+lines)}
}

// spaced reports whether a blank line stands in front of any key at the top.
func (e *editor) spaced() bool {
	for _, entry := range e.t.entries[1:] {
		if at := e.place(keyToken(entry)); at.Line > 1 && strings.TrimSpace(e.line(at.Line-1)) == "" {
			return true
		}
	}
	return false
}
