package main

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"log"
	"path/filepath"
	"slices"
	"strings"

	"github.com/evanw/esbuild/pkg/api"
)

// What scripts may weigh, packed: all that the page loads for its first view, and what
// each other view loads besides when it is opened.
const (
	mostFirst = 350 << 10
	mostView  = 150 << 10
)

// firstView are the sources that the page loads by itself: its frame, its answers, and
// the picture beside them, which come in turn.
var firstView = []string{"src/main.tsx", "src/look.tsx", "src/space.ts"}

// sizes tells what each view weighs, and refuses a page grown too heavy.
func sizes(files []api.OutputFile, m metafile) error {
	weight := map[string]int{}
	for _, f := range files {
		if !strings.HasSuffix(f.Path, ".js") {
			continue
		}
		n, err := packed(f.Contents)
		if err != nil {
			return err
		}
		weight[filepath.Base(f.Path)] = n
	}
	first := map[string]bool{}
	for _, source := range firstView {
		name := m.output(source)
		if name == "" {
			return fmt.Errorf("%s is no file of its own any more: say in sizes.go what the first view loads", source)
		}
		m.needs(name, first)
	}
	total := 0
	for name := range first {
		total += weight[filepath.Base(name)]
	}
	log.Printf("%7d of %d bytes of script packed for the first view", total, mostFirst)
	if total > mostFirst {
		return fmt.Errorf("the first view loads %d bytes of script, more than %d", total, mostFirst)
	}
	names := make([]string, 0, len(m.Outputs))
	for name := range m.Outputs {
		names = append(names, name)
	}
	slices.Sort(names)
	for _, name := range names {
		if m.Outputs[name].EntryPoint == "" || first[name] {
			continue
		}
		all, own := map[string]bool{}, 0
		m.needs(name, all)
		for n := range all {
			if !first[n] {
				own += weight[filepath.Base(n)]
			}
		}
		log.Printf("%7d of %d more for %s", own, mostView, m.Outputs[name].EntryPoint)
		if own > mostView {
			return fmt.Errorf("%s loads %d bytes of script, more than %d", m.Outputs[name].EntryPoint, own, mostView)
		}
	}
	return nil
}

// output is the file that a source became, if it is the first of its own.
func (m metafile) output(source string) string {
	for name, o := range m.Outputs {
		if o.EntryPoint == source && strings.HasSuffix(name, ".js") {
			return name
		}
	}
	return ""
}

// needs adds a file and all that it cannot run without.
func (m metafile) needs(name string, to map[string]bool) {
	if to[name] {
		return
	}
	to[name] = true
	for _, i := range m.Outputs[name].Imports {
		if i.Kind == "import-statement" {
			m.needs(i.Path, to)
		}
	}
}

// packed is how long something is, packed as well as can be.
func packed(data []byte) (int, error) {
	var b bytes.Buffer
	z, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
	if err != nil {
		return 0, err
	}
	if _, err := z.Write(data); err != nil {
		return 0, err
	}
	if err := z.Close(); err != nil {
		return 0, err
	}
	return b.Len(), nil
}
