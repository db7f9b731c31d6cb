// Package rillwright runs the whole chain once: a design file in, the answers
// out. What it does is told by the packages it joins; see ARCHITECTURE.md.
package rillwright

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"
	"sync"

	"rillwright/answers"
	"rillwright/catalogue"
	"rillwright/design"
	"rillwright/document"
	"rillwright/enclosure"
	"rillwright/finding"
	"rillwright/fixes"
	"rillwright/schedule"
	"rillwright/shopping"
	"rillwright/works"
)

// Options steer Build. The zero value reads no other files and looks for fixes.
type Options struct {
	// Beside is the folder that the design's own parts file and pump curves
	// are read from; nil if there is none.
	Beside fs.FS
	// NoFixes leaves out the search for what would help.
	NoFixes bool
	// AsBuilt, if given, returns the enclosure as readings tell it, for every
	// answer to work from. It is called once; an error of it ends all.
	AsBuilt func(*enclosure.Enclosure) (*enclosure.Enclosure, error)
	// Structure answers what glass, holes and floor bear.
	Structure bool
	// Living answers whether what is planted can live in it; Lived, if given, is what
	// another text came to, whose answers are taken over, fixes and all, where nothing
	// that they depend on differs.
	Living bool
	Lived  *answers.LivingReport
	// Today is what day it is, for a plan of which steps are done or that gives no
	// first day; 0 if that is not known.
	Today schedule.Day
	// Faults says how far faults are followed through time.
	Faults FaultDepth
	// Only, if given, tells which answers about faults are wanted: fill lines,
	// what creeps and fixes are left out where they are not.
	Only func(id string) bool
	// Like, if given, is a report of nearly the same design, such as that of the
	// text before an edit. What is not touched by the difference is taken from it,
	// and answers about faults are rougher: see answers.FaultOptions.Like.
	Like *Report
	// Stop, if given, is asked between the steps of the work, while faults are
	// followed and before each change that might help is tried, from several
	// goroutines at once; an error of it ends all that, and Build returns it.
	Stop func() error
	// Progress, if given, is told how far that is; calls do not overlap.
	Progress func(done, of int)
}

// stopped tells why the work is to end, nil if it is not.
func (o *Options) stopped() error {
	if o.Stop == nil {
		return nil
	}
	return o.Stop()
}

// FaultDepth says how far faults are followed.
type FaultDepth int

// The depths.
const (
	NoFaults   FaultDepth = iota
	MainFaults            // a power cut, blocked drains, nobody at home
	EveryFault            // all that builders ask about, fill lines, what creeps
	FaultPairs            // those, and every two at once
)

// Report is what a design comes to.
type Report struct {
	Name      string
	File      string
	Design    *design.Design
	Enclosure *enclosure.Enclosure
	Curves    map[string][]catalogue.Point // of pumps, read from files beside the design
	Survey    *answers.Survey
	// Answers are all answers, worst first: those about the water and, if they
	// were asked for, about faults.
	Answers []answers.Answer
	// Shopping is what to buy; nil if the structure was not asked for.
	Shopping *shopping.List
	// Faults is nil if faults were not followed.
	Faults *answers.FaultReport
	// Living is nil if it was not asked for, or its days cannot be followed.
	Living *answers.LivingReport
	// Findings are the problems of the file. If any is an error, everything
	// from Enclosure on is nil.
	Findings finding.List
}

// Build reads a design and answers every question about it. The error is of a
// circuit that cannot be solved; what is wrong with the file is in
// Report.Findings.
func Build(file string, data []byte, o Options) (*Report, error) {
	// Reading the built-in parts takes as long as reading a design.
	var cat *catalogue.Catalogue
	var catErr error
	var reading sync.WaitGroup
	reading.Go(func() { cat, catErr = catalogue.Builtin() })
	d, list := design.Read(file, data)
	reading.Wait()
	r := &Report{Name: d.Name.Value, File: file, Design: d, Findings: list}
	if list.HasErrors() {
		return r, nil
	}
	if catErr != nil {
		return nil, fmt.Errorf("built-in parts: %w", catErr)
	}
	l := &loader{r: r, beside: o.Beside, data: data}
	cat = l.parts(cat)
	curves := l.curves()
	prices, steps := l.prices(), l.steps()
	if r.Findings.HasErrors() {
		return r, nil
	}
	r.Curves = curves
	e, found := enclosure.Resolve(d, cat, curves)
	if e != nil {
		e.Steps = steps
	}
	for i := range found {
		found[i].Place.File = file
	}
	document.Excerpts(data, found)
	found.Sort()
	r.Findings = append(r.Findings, found...)
	if found.HasErrors() {
		return r, nil
	}
	if o.AsBuilt != nil {
		built, err := o.AsBuilt(e)
		if err != nil {
			return r, fmt.Errorf("%s: %w", file, err)
		}
		e = built
	}
	r.Enclosure = e
	if err := o.stopped(); err != nil {
		return r, fmt.Errorf("%s: %w", file, err)
	}
	s, err := answers.NewSurvey(e)
	if err != nil {
		return r, fmt.Errorf("%s: %w", file, err)
	}
	r.Survey = s
	if o.Like != nil && o.Like.Survey != nil {
		s.Recall(o.Like.Survey)
	}
	r.Answers = s.All(cat)
	if err := s.Err(); err != nil {
		r.Answers = nil
		return r, fmt.Errorf("%s: %w", file, err)
	}
	if err := o.stopped(); err != nil {
		return r, fmt.Errorf("%s: %w", file, err)
	}
	if !o.NoFixes {
		if err := fixes.Find(s, cat, r.Answers, o.Stop); err != nil {
			return r, fmt.Errorf("%s: fixes: %w", file, err)
		}
	}
	// What carries and what goes wrong have nothing to do with one another.
	var carries, planned, spent, lives []answers.Answer
	var carriesErr, livesErr error
	var both sync.WaitGroup
	beside := s.Beside()
	if o.Structure {
		both.Go(func() {
			if carries, carriesErr = beside.Structure(); carriesErr == nil && !o.NoFixes {
				carriesErr = fixes.Structure(beside, carries, o.Stop)
			}
			if carriesErr == nil {
				ready, plan := beside.Ready(o.Today)
				access := beside.Access(plan)
				if !o.NoFixes {
					fixes.Ready(beside, &ready, plan)
					beside.Opened(&access, plan)
				}
				carries, planned = append(carries, access), append(planned, ready)
			}
			if carriesErr == nil {
				r.Shopping, spent, carriesErr = beside.Purchases(prices, !o.NoFixes)
			}
			if carriesErr == nil && !o.NoFixes {
				carriesErr = fixes.Spend(beside, slices.Concat(r.Answers, carries), &spent[len(spent)-1], prices, o.Stop)
			}
		})
	}
	if o.Living {
		both.Go(func() { lives, livesErr = r.live(&o) })
	}
	water := r.Answers
	err = r.follow(cat, o)
	both.Wait()
	if err := cmp.Or(carriesErr, livesErr); err != nil {
		return r, fmt.Errorf("%s: %w", file, err)
	}
	s.Recall(beside)
	r.Answers = slices.Concat(water, carries)
	if r.Faults != nil {
		r.Answers = append(r.Answers, r.Faults.Answers...)
	}
	r.Answers = slices.Concat(r.Answers, lives, planned, spent) // time and money last among equals
	answers.Sort(r.Answers)
	return r, err
}

// live answers whether what is planted can live in it.
func (r *Report) live(o *Options) ([]answers.Answer, error) {
	more := answers.LivingOptions{NoFixes: o.NoFixes, Like: o.Lived, Stop: o.Stop}
	if o.Lived == nil && o.Like != nil {
		more.Like = o.Like.Living
	}
	rep, err := answers.Living(r.Enclosure, more)
	switch {
	case err == nil:
		r.Living = rep
		return rep.Answers, nil
	case o.stopped() != nil:
		return nil, o.stopped()
	}
	return answers.NoDays(err), nil
}

// follow follows the faults.
func (r *Report) follow(cat *catalogue.Catalogue, o Options) error {
	if o.Faults == NoFaults {
		return nil
	}
	wants := o.Only
	if wants == nil {
		wants = func(string) bool { return true }
	}
	var like *answers.FaultSurvey
	if o.Like != nil && o.Like.Faults != nil {
		like = o.Like.Faults.Survey
	}
	rep, err := r.Survey.Floods(answers.FaultOptions{
		Like: like, Stop: o.Stop, Brief: o.Faults == MainFaults, NoLines: !wants("fill-line") && !wants("creeps"), Pairs: o.Faults == FaultPairs, Progress: o.Progress,
	})
	if err == nil && !o.NoFixes {
		err = fixes.Floods(r.Survey, cat, rep, wants, o.Stop)
	}
	if err != nil {
		return fmt.Errorf("%s: faults: %w", r.File, err)
	}
	r.Faults = rep
	return nil
}

// loader reads the files that stand beside a design.
type loader struct {
	r      *Report
	beside fs.FS
	data   []byte
}

// read returns a file named by a field; a problem becomes a finding there.
func (l *loader) read(f document.Field[string], field string) ([]byte, bool) {
	fault := func(what, do string) ([]byte, bool) {
		list := finding.List{{
			Place:    finding.Place{File: l.r.File, Line: f.Pos.Line, Column: f.Pos.Column, Width: f.Pos.Width},
			Severity: finding.Error, Field: field, What: what, Do: do,
		}}
		document.Excerpts(l.data, list)
		l.r.Findings = append(l.r.Findings, list...)
		return nil, false
	}
	name := f.Value
	if !fs.ValidPath(path.Clean(name)) {
		return fault(fmt.Sprintf("%q leads out of the design's folder", name), "put the file beside the design and give its name alone")
	}
	if l.beside == nil {
		return fault(fmt.Sprintf("%q cannot be read: this design has no folder", name), "save the design as a file, with that file beside it")
	}
	data, err := fs.ReadFile(l.beside, path.Clean(name))
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return fault(fmt.Sprintf("there is no file %q beside the design", name), "check its name, or leave the key out")
	case err != nil:
		return fault(fmt.Sprintf("%q cannot be read: %v", name, err), "check the file")
	}
	return data, true
}

// shown is how messages name a file beside the design: from where the design
// was named, so that an editor can jump to it.
func (l *loader) shown(name string) string {
	return path.Join(path.Dir(l.r.File), name)
}

// parts adds the builder's own parts to the catalogue.
func (l *loader) parts(cat *catalogue.Catalogue) *catalogue.Catalogue {
	f := l.r.Design.Parts
	if !f.Given() {
		return cat
	}
	data, ok := l.read(f, "parts")
	if !ok {
		return cat
	}
	own, list := catalogue.ReadParts(l.shown(f.Value), data)
	l.r.Findings = append(l.r.Findings, list...)
	for i := range own {
		if own[i].CurveFile == "" {
			continue
		}
		name := document.Field[string]{Value: own[i].CurveFile, Text: own[i].CurveFile, Pos: f.Pos}
		if data, ok := l.read(name, "parts"); ok {
			points, list := catalogue.ReadCurve(l.shown(own[i].CurveFile), data)
			own[i].Curve = points
			l.r.Findings = append(l.r.Findings, list...)
		}
	}
	return cat.With(own)
}

// prices reads the builder's price file.
func (l *loader) prices() []shopping.Price {
	f := l.r.Design.Budget.File
	if !f.Given() {
		return nil
	}
	data, ok := l.read(f, "budget.price-file")
	if !ok {
		return nil
	}
	out, list := shopping.ReadPrices(l.shown(f.Value), data, shopping.Currency(l.r.Design), l.r.Design.Units.Value == "us")
	l.r.Findings = append(l.r.Findings, list...)
	return out
}

// steps reads the builder's own table of steps.
func (l *loader) steps() string {
	f := l.r.Design.Budget.Steps
	if !f.Given() {
		return ""
	}
	data, ok := l.read(f, "budget.steps-file")
	if !ok {
		return ""
	}
	text := strings.ReplaceAll(string(data), "\r\n", "\n")
	if _, err := works.Read(text); err != nil {
		l.r.Findings = append(l.r.Findings, finding.Finding{
			Place:    finding.Place{File: l.r.File, Line: f.Pos.Line, Column: f.Pos.Column, Width: f.Pos.Width},
			Severity: finding.Error, Field: "budget.steps-file", What: l.shown(f.Value) + ": " + err.Error(),
			Do: "put that line right; rillwright plan --table prints the usual table, whose remarks tell what stands where",
		})
		document.Excerpts(l.data, l.r.Findings)
	}
	return text
}

// curves reads the pump curves that stand in files of their own.
func (l *loader) curves() map[string][]catalogue.Point {
	out := map[string][]catalogue.Point{}
	d := l.r.Design
	for k, pumps := range [][]design.Pump{d.Pumps, d.Shelf} {
		list := [...]string{"pumps", "shelf"}[k]
		for i := range pumps {
			f := pumps[i].CurveFile
			if !f.Given() {
				continue
			}
			if data, ok := l.read(f, list+"["+pumps[i].Name.Value+"].curve-file"); ok {
				points, found := catalogue.ReadCurve(l.shown(f.Value), data)
				out[f.Value] = points
				l.r.Findings = append(l.r.Findings, found...)
			}
		}
	}
	return out
}
