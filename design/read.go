// Package design reads the file in which a builder writes down one enclosure:
// what it is made of, how the water goes round, and what has been measured. It
// says everything that is wrong with the file at once, each with what to write
// instead, and never mends a file silently. What the figures mean for the
// build is for other packages.
package design

import (
	_ "embed"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"rillwright/document"
	"rillwright/finding"
)

//go:embed starter.yaml
var starter []byte

// Starter returns a commented design file to begin from.
func Starter() []byte { return slices.Clone(starter) }

// Schema returns the JSON Schema of a design file; see document.Schema.
func Schema() ([]byte, error) { return document.Schema(&Design{}) }

// Read reads a design file and checks all that can be checked with the file
// alone. The list holds everything found, in the order of the file; a Design is
// returned in any case and holds what could be read, with measured facts put in
// place of planned ones. File is the name that findings show.
func Read(file string, data []byte) (*Design, finding.List) {
	d := &Design{}
	now, list, ok := current(file, data, migrations())
	if !ok {
		return d, list
	}
	list = append(list, document.Decode(file, now, d)...)
	c := newChecker(file, d, list)
	c.asBuilt()
	c.values()
	c.names()
	c.vessel()
	c.pool()
	c.sump()
	c.pumps()
	c.manifolds()
	c.tees()
	c.drainTees()
	c.runs()
	c.drains()
	c.connected()
	c.zones()
	c.hidden()
	c.soaks()
	c.topUp()
	c.bridges()
	c.scenarios()
	c.grid()
	c.glass()
	c.air()
	c.budget()
	c.buying()
	document.Excerpts(data, c.list)
	c.list.Sort()
	return d, c.list
}

// checker gathers what is wrong with a decoded design.
type checker struct {
	d      *Design
	file   string
	list   finding.List
	bad    map[[2]int]bool // places of values that could not be read
	broken []string        // paths that decoding complained of
	things map[string]thing
	lost   []string // names that were referred to and do not exist
	// partial is true if a list of things that can be named could not be read
	// in full, so that an unknown name proves nothing.
	partial, panesPartial bool
}

func newChecker(file string, d *Design, list finding.List) *checker {
	c := &checker{d: d, file: file, list: list, bad: map[[2]int]bool{}}
	whole := map[string]bool{} // entries that were read, whatever is wrong in them
	panes := c.panes()
	for _, n := range append(c.lists(), panes) {
		for i, name := range n.names {
			if n.at[i].Line > 0 {
				whole[entry(n.list, name, i)] = true
			}
		}
	}
	for _, f := range list {
		c.bad[[2]int{f.Place.Line, f.Place.Column}] = true
		c.broken = append(c.broken, f.Field)
		c.partial = c.partial || f.Field == "sump" || hidesNames(f.Field, whole, "pumps", "tees", "manifolds", "runs", "drains", "sump.chambers")
		c.panesPartial = c.panesPartial || f.Field == "enclosure" || hidesNames(f.Field, whole, panes.list)
	}
	return c
}

// hidesNames reports whether a decoding problem at a path may have hidden an
// entry of one of the lists.
func hidesNames(path string, whole map[string]bool, lists ...string) bool {
	if path == "" {
		return true
	}
	for _, list := range lists {
		rest, ok := strings.CutPrefix(path, list)
		switch {
		case !ok:
		case rest == "":
			return true
		case rest[0] == '[':
			bare := strings.TrimSuffix(path, ".name")
			inner := strings.Contains(rest, "].") && bare == path
			return !inner && (bare != path || !whole[path])
		}
	}
	return false
}

// report adds a finding at a place.
func (c *checker) report(at Pos, path, what, do string) {
	c.list = append(c.list, finding.Finding{
		Place:    finding.Place{File: c.file, Line: at.Line, Column: at.Column, Width: at.Width},
		Severity: finding.Error, Field: path, What: what, Do: do,
	})
}

// warn reports something that does not stop the file from being used.
func (c *checker) warn(at Pos, path, what, do string) {
	c.report(at, path, what, do)
	c.list[len(c.list)-1].Severity = finding.Warning
}

// reads reports whether a field is given and could be read.
func reads[T any](c *checker, f Field[T]) bool {
	return f.Given() && !c.bad[[2]int{f.Pos.Line, f.Pos.Column}]
}

// lacks reports whether the file leaves out a field, and says so nowhere yet:
// a key that could not be read, or was misspelt, is not counted as left out.
func lacks[T any](c *checker, f Field[T], path string) bool {
	return !f.Given() && !slices.Contains(c.broken, path)
}

// entry names a list entry in a path, as document does.
func entry(list string, name Field[string], index int) string {
	if strings.TrimSpace(name.Text) != "" {
		return list + "[" + name.Text + "]"
	}
	return list + "[" + strconv.Itoa(index+1) + "]"
}

// below compares two lengths of the file and reports when the first is not
// below the second. Both must have been read.
func (c *checker) below(low Field[length], lowPath string, high Field[length], highPath, do string) {
	if reads(c, low) && reads(c, high) && low.Value >= high.Value {
		c.report(low.Pos, lowPath, fmt.Sprintf("%s is %s, not below %s of %s", lowPath, low.Text, highPath, high.Text), do)
	}
}

// within is like below, but the two may be equal.
func (c *checker) within(low Field[length], lowPath string, high Field[length], highPath, do string) {
	if reads(c, low) && reads(c, high) && low.Value > high.Value {
		c.report(low.Pos, lowPath, fmt.Sprintf("%s is %s, more than %s of %s", lowPath, low.Text, highPath, high.Text), do)
	}
}
