// Bundle builds the page of the workbench: TypeScript and styles in, a few files
// with the hash of their content in their names out. It holds no clock and no
// path of this machine, so that the same sources give the same bytes.
//
//	go -C tools run ./bundle [-out FOLDER]
//
// It wants the packages of workbench/web: run npm ci there first.
package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"log"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/evanw/esbuild/pkg/api"
)

func main() {
	log.SetFlags(0)
	log.SetPrefix("bundle: ")
	web := flag.String("web", "../workbench/web", "the folder with src and package.json")
	out := flag.String("out", "", "where the files go; dist in that folder if left out")
	flag.Parse()
	if *out == "" {
		*out = filepath.Join(*web, "dist")
	}
	if err := build(*web, *out); err != nil {
		log.Fatal(err)
	}
}

func build(web, out string) error {
	web, err := filepath.Abs(web)
	if err != nil {
		return err
	}
	if _, err := os.Stat(filepath.Join(web, "node_modules", "preact")); err != nil {
		return errors.New("the packages are missing: run npm ci --ignore-scripts in workbench/web")
	}
	less, err := trim(web)
	if err != nil {
		return err
	}
	result := api.Build(api.BuildOptions{
		Plugins:           []api.Plugin{less},
		Alias:             threeAlias,
		AbsWorkingDir:     web,
		EntryPoints:       []string{"src/main.tsx"},
		Bundle:            true,
		Splitting:         true,
		Format:            api.FormatESModule,
		Target:            api.ES2022,
		Outdir:            "dist",
		EntryNames:        "[name]-[hash]",
		ChunkNames:        "[name]-[hash]",
		AssetNames:        "[name]-[hash]",
		MinifyWhitespace:  true,
		MinifyIdentifiers: true,
		MinifySyntax:      true,
		JSX:               api.JSXAutomatic,
		JSXImportSource:   "preact",
		LegalComments:     api.LegalCommentsNone, // licences go into LICENCES.txt whole
		Charset:           api.CharsetUTF8,
		Metafile:          true,
		LogLevel:          api.LogLevelWarning,
	})
	if len(result.Errors) > 0 {
		return errors.New("the sources do not build")
	}
	meta, err := metaOf(result.Metafile)
	if err != nil {
		return err
	}
	if err := clear(out); err != nil {
		return err
	}
	for _, f := range result.OutputFiles {
		if err := write(out, filepath.Base(f.Path), f.Contents); err != nil {
			return err
		}
	}
	licences, err := licences(web, meta)
	if err != nil {
		return err
	}
	if err := write(out, "LICENCES.txt", licences); err != nil {
		return err
	}
	page, err := page(web, meta)
	if err != nil {
		return err
	}
	if err := write(out, "index.html", page); err != nil {
		return err
	}
	return sizes(result.OutputFiles, meta)
}

// metafile is the part of esbuild's account of a build that is used here.
type metafile struct {
	Inputs  map[string]struct{} `json:"inputs"`
	Outputs map[string]struct {
		EntryPoint string `json:"entryPoint"`
		CSSBundle  string `json:"cssBundle"`
		Imports    []struct {
			Path string `json:"path"`
			Kind string `json:"kind"`
		} `json:"imports"`
	} `json:"outputs"`
}

func metaOf(text string) (metafile, error) {
	var m metafile
	err := json.Unmarshal([]byte(text), &m)
	return m, err
}

// entry is the first file that a browser asks for, its styles, and what it needs
// before it can run.
func (m metafile) entry() (script, style string, also []string) {
	for name, o := range m.Outputs {
		if o.EntryPoint == "src/main.tsx" {
			script, style = filepath.Base(name), filepath.Base(o.CSSBundle)
			for _, i := range o.Imports {
				if i.Kind == "import-statement" {
					also = append(also, filepath.Base(i.Path))
				}
			}
		}
	}
	slices.Sort(also)
	return script, style, also
}

// page puts the names of the files into src/index.html.
func page(web string, m metafile) ([]byte, error) {
	text, err := os.ReadFile(filepath.Join(web, "src", "index.html"))
	if err != nil {
		return nil, err
	}
	script, style, also := m.entry()
	links := ""
	for _, name := range also {
		links += fmt.Sprintf("\n<link rel=\"modulepreload\" href=\"/app/%s\">", name)
	}
	r := strings.NewReplacer("{{script}}", "/app/"+script, "{{style}}", "/app/"+style, "{{preload}}", links)
	return []byte(r.Replace(string(text))), nil
}

// licences gathers those of every package that is in the files.
func licences(web string, m metafile) ([]byte, error) {
	packages := map[string]bool{}
	for input := range m.Inputs {
		if _, rest, ok := strings.Cut(input, "node_modules/"); ok {
			part := strings.SplitN(rest, "/", 3)
			name := part[0]
			if strings.HasPrefix(name, "@") {
				name += "/" + part[1]
			}
			packages[name] = true
		}
	}
	names := make([]string, 0, len(packages))
	for name := range packages {
		names = append(names, name)
	}
	slices.Sort(names)
	var b bytes.Buffer
	b.WriteString("The page holds parts of these packages.\n")
	for _, name := range names {
		found := ""
		for _, file := range []string{"LICENSE", "LICENSE.md", "LICENSE.txt", "LICENCE", "license"} {
			if text, err := os.ReadFile(filepath.Join(web, "node_modules", name, file)); err == nil {
				found = strings.TrimSpace(strings.ReplaceAll(string(text), "\r\n", "\n"))
				break
			}
		}
		if found == "" {
			return nil, fmt.Errorf("package %s has no licence file", name)
		}
		fmt.Fprintf(&b, "\n== %s\n\n%s\n", name, found)
	}
	return b.Bytes(), nil
}

// clear empties a folder of what an earlier build left.
func clear(out string) error {
	if err := os.MkdirAll(out, 0o755); err != nil {
		return err
	}
	old, err := os.ReadDir(out)
	if err != nil {
		return err
	}
	for _, f := range old {
		if err := os.Remove(filepath.Join(out, f.Name())); err != nil {
			return err
		}
	}
	return nil
}

func write(out, name string, data []byte) error {
	return os.WriteFile(filepath.Join(out, name), data, 0o644)
}
