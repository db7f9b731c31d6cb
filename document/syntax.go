package document

import (
	"fmt"
	"strings"

	"rillwright/finding"
)

// saying is what to tell a builder for one message of the YAML parser.
type saying struct {
	part     string // of the parser's message
	what, do string
}

const (
	keyShape  = `write a key, a colon, a blank and the value, as "width: 300 mm"`
	hintBlank = " (is the blank behind the colon missing?)"
)

func sayings() []saying {
	return []saying{
		{"quoted text", "a quote is opened here and never closed", "write the same quote at the end of the text"},
		{"escape", `a backslash in double quotes means something special`, "use single quotes, or leave the backslash out"},
		{"UTF-16", `a backslash in double quotes means something special`, "use single quotes, or leave the backslash out"},
		{"UTF-32", `a backslash in double quotes means something special`, "use single quotes, or leave the backslash out"},
		{"surrogate", `a backslash in double quotes means something special`, "use single quotes, or leave the backslash out"},
		{"tab character", "a tab stands where blanks are wanted", "use blanks, two for each step"},
		{`'\t'`, "a tab stands where blanks are wanted", "use blanks, two for each step"},
		{"a tab", "a tab stands where blanks are wanted", "use blanks, two for each step"},
		{"reserved character", "a value cannot begin with this character", "put the value in quotes"},
		{
			"mapping value is not allowed", "a colon and a blank stand inside a value, or the next line is indented too far",
			"put the value in quotes, or line the next key up with this one",
		},
		{"block sequence entries are not allowed", "a list cannot begin on the line of its key", `begin the entry on the next line, indented, with "- "`},
		{"sequence end token", "this [ is never closed", "write ] at the end of the list"},
		{"',' or ']'", "a comma or ] is wanted here", "separate the entries by commas and close the list with ]"},
		{"',' or '}'", "a comma or } is wanted here", "separate the keys by commas and close the entry with }"},
		{"flow mapping end", "this { is never closed", "write } at the end of the entry"},
		{"flow map", "a comma stands here with nothing in front of it", "take the comma away"},
		{"sequence element", "a comma stands here with nothing in front of it", "take the comma away"},
		{"map value", "a key has no value here", keyShape},
		{"unexpected key name", "this line is not a key with a value", keyShape + hintBlank},
		{"non-map value", "this line is not a key with a value", keyShape + hintBlank},
		{"map key-value is pre-defined", "something stands behind the value", "put the whole value in quotes, or begin a new line"},
		{"implicit line break", "a key goes over two lines", keyShape},
		{"invalid key", "this cannot be a key", keyShape},
		{"unexpected map key", "this cannot be a key", keyShape},
		{"undefined map key", "a colon stands here with no key in front of it", keyShape},
		{"map key", "this cannot be a key", keyShape},
		{"invalid header option", "a text over several lines begins wrongly", "write | alone behind the colon, and the text on the next lines, indented"},
		{"multi-line content", "a text over several lines begins here, and no text follows", "write the text on the next lines, indented"},
		{"number of indent", "the lines of this text are indented unevenly", "indent every line of the text alike"},
		{"document separator", "a line of dashes stands inside a text", "indent the line, or take it away"},
		{"value is not allowed in this context", "this line is not indented like its neighbours", "line it up with the keys it belongs to"},
		{"could not find '", "a bracket closes here that was never opened", "take it away, or put the whole value in quotes"},
	}
}

// fault puts a mistake in the YAML into plain words.
func (s *source) fault(y *yamlFault, field string) finding.Finding {
	what, do := "this cannot be read", "look at the indentation, colons, quotes and brackets here and on the line above"
	for _, say := range sayings() {
		if strings.Contains(y.message, say.part) {
			what, do = say.what, say.do
			break
		}
	}
	if tk := y.token; tk != nil && (tk.Value == "}" || tk.Value == "]") {
		what, do = closesNothing(tk.Value)
	}
	var p Pos
	if y.token != nil && y.token.Position != nil {
		p = s.place(y.token)
		// The lexer puts an unfinished text at its end in some cases.
		p.Line = min(max(p.Line, 1), len(s.lines))
	}
	return s.at(p, field, what, do)
}

func closesNothing(bracket string) (what, do string) {
	return fmt.Sprintf("this %s closes nothing", bracket), "take it away, or put the whole value in quotes"
}
