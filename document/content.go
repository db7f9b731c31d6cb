package document

import (
	"slices"
	"strings"

	"github.com/goccy/go-yaml/ast"
)

// content is what a file says at one place, without its layout: what an edit
// should make of a file is worked out on it and held against what the changed
// file says when it is read.
type content struct {
	form  form
	text  string     // of a single value
	keys  []string   // of a section
	parts []*content // values of a section, entries of a list
}

type form int

const (
	nothing form = iota // a key without a value
	single
	keyed
	listed
)

func contentOf(n ast.Node) *content {
	if m, ok := mapping(n); ok {
		return contentOfEntries(m)
	}
	if seq, ok := n.(*ast.SequenceNode); ok {
		c := &content{form: listed}
		for _, e := range seq.Values {
			c.parts = append(c.parts, contentOf(e))
		}
		return c
	}
	if text, _, ok := scalar(n); ok {
		return &content{form: single, text: text}
	}
	return &content{}
}

func contentOfEntries(m []*ast.MappingValueNode) *content {
	c := &content{form: keyed}
	for _, e := range m {
		key, _ := keyText(e)
		c.add(key, contentOf(e.Value))
	}
	return c
}

func (c *content) add(key string, part *content) {
	c.keys, c.parts = append(c.keys, key), append(c.parts, part)
}

func (c *content) drop(i int) {
	if c.form == keyed {
		c.keys = slices.Delete(c.keys, i, i+1)
	}
	c.parts = slices.Delete(c.parts, i, i+1)
}

func (c *content) equal(o *content) bool {
	return c.form == o.form && c.text == o.text && slices.Equal(c.keys, o.keys) && slices.EqualFunc(c.parts, o.parts, (*content).equal)
}

// under returns the content inside sections of keys, the outermost first.
func (c *content) under(keys []string) *content {
	for _, k := range slices.Backward(keys) {
		c = &content{form: keyed, keys: []string{k}, parts: []*content{c}}
	}
	return c
}

// flow writes the content on one line, between brackets where it is not a single
// value.
func (c *content) flow() string {
	var parts []string
	for i, p := range c.parts {
		text := p.flow()
		if c.form == keyed {
			text = keyAnd(c.keys[i], text)
		}
		parts = append(parts, text)
	}
	all := strings.Join(parts, ", ")
	switch {
	case c.form == keyed && all != "":
		return "{ " + all + " }"
	case c.form == keyed:
		return "{}"
	case c.form == listed && all != "":
		return "[ " + all + " ]"
	case c.form == listed:
		return "[]"
	}
	return flowText(c.text)
}

// keyAnd writes a key and its value, which may be empty.
func keyAnd(key, value string) string {
	return strings.TrimSuffix(flowText(key)+": "+value, " ")
}

// flowText writes a single value so that it can stand between brackets too.
func flowText(text string) string {
	if text == "" {
		return ""
	}
	ways := quotings(text)
	if len(ways) > 1 && ways[0] == text && strings.ContainsAny(text, ",[]{}") {
		ways = ways[1:]
	}
	return ways[0]
}

// whole reports whether nothing in the content lacks its value.
func (c *content) whole() bool {
	return c.form != nothing && !slices.ContainsFunc(c.parts, func(p *content) bool { return !p.whole() })
}

// contentOfText reads a piece of YAML by itself.
func contentOfText(text string) (*content, bool) {
	s, list := newSource("", []byte(text))
	if len(list) > 0 {
		return nil, false
	}
	tokens, err := lex(s.text)
	if err != nil {
		return nil, false
	}
	if list, _ := checkTokens(s, tokens); len(list) > 0 {
		return nil, false
	}
	body, fault := build(tokens)
	if fault != nil || body == nil {
		return nil, false
	}
	return contentOf(body), true
}

// flowSection reads a text that gives a section or a list of sections on one
// line: "{ off: 114 mm, on: 144 mm }". A text that only has brackets, "[later]",
// is none.
func flowSection(text string) (*content, bool) {
	text = strings.TrimSpace(text)
	if text == "" || !strings.ContainsAny(text[:1], "{[") || strings.ContainsAny(text, "\r\n") {
		return nil, false
	}
	c, ok := contentOfText(text)
	switch {
	case !ok || !c.whole() || len(c.parts) == 0:
		return nil, false
	case c.form == listed:
		return c, !slices.ContainsFunc(c.parts, func(p *content) bool { return p.form != keyed || len(p.parts) == 0 })
	}
	return c, c.form == keyed
}
