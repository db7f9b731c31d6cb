package document

import (
	"errors"
	"fmt"
	"strings"

	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/lexer"
	"github.com/goccy/go-yaml/parser"
	"github.com/goccy/go-yaml/token"

	"rillwright/finding"
)

// tree is what could be parsed of a file: the entries at the top, and the keys
// of top sections that could not be parsed.
type tree struct {
	entries []*ast.MappingValueNode
	broken  []string
	first   Pos // place of the first entry
}

// parse turns the source into a tree. A file with a mistake in its YAML is
// parsed again section by section, so that the other sections are still read.
func parse(s *source) (*tree, finding.List) {
	tokens, err := lex(s.text)
	if err != nil {
		return nil, finding.List{s.whole("the file cannot be read as YAML", "look for odd characters, or begin again from the starter file")}
	}
	list, fatal := checkTokens(s, tokens)
	if fatal {
		return nil, list
	}
	body, fault := build(tokens)
	if fault == nil {
		return newTree(s, body, list)
	}
	parts := sections(s.lines)
	if len(parts) < 2 {
		if len(list) == 0 {
			list = append(list, s.fault(fault, ""))
		}
		return nil, list
	}
	t := &tree{}
	before := len(list)
	for _, part := range parts {
		if !t.addSection(s, part, &list) {
			t.broken = append(t.broken, part.key)
		}
	}
	if len(list) == before && before == 0 {
		// Each section alone is sound, so the mistake is between them.
		list = append(list, s.fault(fault, ""))
		return nil, list
	}
	return t, list
}

// newTree takes the top of a file, which must be keys with values.
func newTree(s *source, body ast.Node, list finding.List) (*tree, finding.List) {
	entries, ok := mapping(body)
	switch {
	case ok && len(entries) > 0:
		return &tree{entries: entries, first: s.place(keyToken(entries[0]))}, list
	case ok || body == nil || body.Type() == ast.NullType:
		if len(list) == 0 {
			list = append(list, s.whole("the file is empty", "begin from the starter file"))
		}
		return nil, list
	}
	f := s.at(s.nodePlace(body), "", "the file does not begin with a key", `begin each line with a key and a colon, as "name: my wall"`)
	return nil, append(list, f)
}

// section is a run of lines that begins with a key in the first column.
type section struct {
	key        string
	start, end int // lines, counted from 0; end is behind the last
}

// sections cuts the lines in front of every key in the first column.
func sections(lines []string) []section {
	var parts []section
	for i, line := range lines {
		colon := strings.IndexByte(line, ':')
		if colon < 1 || !letter(line[0]) || line[0] == ' ' {
			if len(parts) == 0 && !blankOrComment(line) && !strings.HasPrefix(line, "---") {
				parts = append(parts, section{start: i})
			}
			continue
		}
		if n := len(parts); n > 0 {
			parts[n-1].end = i
		}
		parts = append(parts, section{key: strings.TrimSpace(line[:colon]), start: i})
	}
	if n := len(parts); n > 0 {
		parts[n-1].end = len(lines)
	}
	return parts
}

func letter(c byte) bool { return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' }

// addSection parses one section and adds what it holds.
func (t *tree) addSection(s *source, part section, list *finding.List) bool {
	tokens, err := lex(strings.Join(s.lines[part.start:part.end], "\n"))
	if err != nil {
		tokens = nil
	}
	for _, tk := range tokens {
		if tk.Position != nil {
			tk.Position.Line += part.start
		}
	}
	body, fault := build(tokens)
	if fault != nil {
		f := s.fault(fault, part.key)
		for _, known := range *list {
			if known.Place.Line > part.start && known.Place.Line <= part.end {
				return false // told already, in better words
			}
		}
		*list = append(*list, f)
		return false
	}
	entries, ok := mapping(body)
	if !ok {
		if body != nil {
			p := s.nodePlace(body)
			*list = append(*list, s.at(p, part.key, "this line is not a key with a value", keyShape+hintBlank))
		}
		return false
	}
	if t.first.Line == 0 && len(entries) > 0 {
		t.first = s.place(keyToken(entries[0]))
	}
	t.entries = append(t.entries, entries...)
	return true
}

// yamlFault is a mistake in the YAML itself.
type yamlFault struct {
	message string
	token   *token.Token
}

// lex cuts a text into tokens. The lexer is not ours, so that a panic in it
// must not take the program down.
func lex(text string) (tokens token.Tokens, err error) {
	defer func() {
		if r := recover(); r != nil {
			tokens, err = nil, fmt.Errorf("lexer: %v", r)
		}
	}()
	return lexer.Tokenize(text), nil
}

// build makes the first document's tree from tokens; see lex for the recover.
func build(tokens token.Tokens) (body ast.Node, fault *yamlFault) {
	defer func() {
		if r := recover(); r != nil {
			body, fault = nil, &yamlFault{message: "panic"}
		}
	}()
	file, err := parser.Parse(tokens, 0, parser.AllowDuplicateMapKey())
	if err != nil {
		var located interface {
			GetMessage() string
			GetToken() *token.Token
		}
		if errors.As(err, &located) {
			return nil, &yamlFault{located.GetMessage(), located.GetToken()}
		}
		return nil, &yamlFault{message: err.Error()}
	}
	for _, doc := range file.Docs {
		if doc != nil && doc.Body != nil {
			return doc.Body, nil
		}
	}
	return nil, nil
}

// mapping returns the entries of a node that holds keys with values.
func mapping(n ast.Node) ([]*ast.MappingValueNode, bool) {
	switch n := n.(type) {
	case *ast.MappingNode:
		return n.Values, true
	case *ast.MappingValueNode:
		return []*ast.MappingValueNode{n}, true
	}
	return nil, false
}

// unwrap takes away tags and anchors, which have been reported already.
func unwrap(n ast.Node) ast.Node {
	for range maxDepth {
		switch w := n.(type) {
		case *ast.TagNode:
			n = w.Value
		case *ast.AnchorNode:
			n = w.Value
		default:
			return n
		}
	}
	return n
}

func keyToken(e *ast.MappingValueNode) *token.Token {
	if e.Key == nil {
		return nil
	}
	return e.Key.GetToken()
}

// nodePlace returns where a node begins.
func (s *source) nodePlace(n ast.Node) Pos {
	if entries, ok := mapping(n); ok && len(entries) > 0 {
		if m, isMap := n.(*ast.MappingNode); !isMap || !m.IsFlowStyle {
			return s.place(keyToken(entries[0]))
		}
	}
	tk := n.GetToken()
	p := s.place(tk)
	switch n.(type) {
	case *ast.MappingNode, *ast.SequenceNode:
		p.Width = 1
	}
	return p
}
