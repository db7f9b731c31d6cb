package document

import (
	"fmt"

	"github.com/goccy/go-yaml/token"

	"rillwright/finding"
)

// checkTokens refuses what a design file has no use for, and what would cost
// the parser too much time; fatal is true for the latter.
func checkTokens(s *source, tokens token.Tokens) (list finding.List, fatal bool) {
	if len(tokens) > maxTokens {
		return finding.List{s.whole("the file has too many values", "is it the right file? split a very long list")}, true
	}
	c := tokenChecker{source: s}
	for _, tk := range tokens {
		c.check(tk)
		if c.fatal || len(c.list) >= maxFindings {
			return c.list, c.fatal
		}
	}
	if !c.invalid && !c.crossed && len(c.open) > 0 {
		tk := c.open[len(c.open)-1]
		c.refuse(tk, fmt.Sprintf("this %s is never closed", tk.Value), fmt.Sprintf("write %s at the end of the entry", closing(tk.Type)))
	}
	return c.list, false
}

type tokenChecker struct {
	*source
	list     finding.List
	fatal    bool
	invalid  bool           // the lexer gave up
	open     []*token.Token // brackets not closed yet
	crossed  bool           // a bracket was closed by the wrong one
	dashes   int            // list marks in a row
	content  bool           // something stood in the first document
	ended    bool           // the first document was closed
	reported bool           // the second document was reported
}

func (c *tokenChecker) refuse(tk *token.Token, what, do string) {
	p := c.place(tk)
	p.Width = max(p.Width, 1)
	c.list = append(c.list, c.at(p, "", what, do))
}

func (c *tokenChecker) check(tk *token.Token) {
	switch tk.Type {
	case token.SequenceEntryType, token.MappingKeyType:
		c.dashes++
	default:
		c.dashes = 0
	}
	if len(c.open) > maxDepth || c.dashes > maxDepth {
		c.fatal = true
		c.list = finding.List{}
		c.refuse(tk, "brackets or lists stand inside one another too deeply", "look for a bracket that is not closed")
		return
	}
	c.documents(tk)
	switch tk.Type {
	case token.InvalidType:
		c.invalid = true
	case token.AnchorType:
		c.refuse(tk, `a value cannot begin with "&" (a YAML anchor)`, "write the value out, or put it in quotes if it is a text")
	case token.AliasType:
		c.refuse(tk, `a value cannot begin with "*" (a YAML alias)`, "write the value out again, or put it in quotes if it is a text")
	case token.MergeKeyType:
		c.refuse(tk, `"<<" (a YAML merge) cannot be used`, "write the keys out")
	case token.TagType:
		c.refuse(tk, `a value cannot begin with "!" (a YAML tag)`, "leave the tag out, or put the value in quotes if it is a text")
	case token.DirectiveType:
		c.refuse(tk, `a line cannot begin with "%" (a YAML directive)`, "leave the line out")
	case token.MappingKeyType:
		c.refuse(tk, `"?" cannot be used in front of a key`, `write the key, a colon, a blank and the value`)
	case token.SequenceStartType, token.MappingStartType:
		c.open = append(c.open, tk)
	case token.SequenceEndType, token.MappingEndType:
		c.close(tk)
	}
}

func (c *tokenChecker) close(tk *token.Token) {
	n := len(c.open)
	if c.crossed {
		return
	}
	if n == 0 {
		what, do := closesNothing(tk.Value)
		c.refuse(tk, what, do)
		return
	}
	opener := c.open[n-1]
	if closing(opener.Type) != tk.Value {
		c.refuse(tk, fmt.Sprintf("this %s stands where %s should close the %s of line %d", tk.Value, closing(opener.Type), opener.Value, opener.Position.Line),
			fmt.Sprintf("write %s in its place", closing(opener.Type)))
		c.crossed = true // whatever closes behind it would be reported wrongly
	}
	c.open = c.open[:n-1]
}

func closing(t token.Type) string {
	if t == token.MappingStartType {
		return "}"
	}
	return "]"
}

// documents reports a second YAML document in the file.
func (c *tokenChecker) documents(tk *token.Token) {
	switch tk.Type {
	case token.CommentType, token.DirectiveType:
		return
	case token.DocumentHeaderType:
		if !c.content && !c.ended {
			c.content = true
			return
		}
	case token.DocumentEndType:
		c.ended = true
		return
	default:
		if !c.ended {
			c.content = true
			return
		}
	}
	if !c.reported {
		c.refuse(tk, "a second document begins here, and only the first would be read", "keep one design in a file; take the line of dashes away")
		c.reported = true
	}
}
