package main

import (
	"errors"
	"os"
	"path/filepath"
	"regexp"
	"strings"

	"github.com/evanw/esbuild/pkg/api"
)

// The library that draws in space is taken from its sources, module by module, since
// its built file holds much that the picture never uses and that no tool can tell to
// be unused: the renderer names it, and asks at run time whether it is wanted.

// threeAlias leads from what is imported to the sources.
var threeAlias = map[string]string{
	"three": "./node_modules/three/src/Three.js",
	"three/examples/jsm/controls/OrbitControls.js": "./node_modules/three/examples/jsm/controls/OrbitControls.js",
}

// unused stands in for modules of which the renderer asks only whether there is
// anything to do: no headset, no reflected surroundings, no shadows.
var unused = map[string]string{
	"renderers/webxr/WebXRManager.js": `export class WebXRManager {
		enabled = false
		isPresenting = false
		getEnvironmentBlendMode() {}
		addEventListener() {}
		removeEventListener() {}
		setAnimationLoop() {}
		dispose() {}
	}`,
	"renderers/webgl/WebGLEnvironments.js": `export function WebGLEnvironments() {
		return { get: (t) => t ?? null, dispose() {} }
	}`,
	"renderers/webgl/WebGLShadowMap.js": `export function WebGLShadowMap() {
		return { enabled: false, autoUpdate: false, needsUpdate: false, render() {} }
	}`,
}

// shaders are the materials of the picture, and byName what the renderer puts
// before every one; other materials are left empty, and so are chunks that no kept one
// includes, or that belong to one of notWanted.
var (
	shaders   = []string{"meshbasic", "meshlambert"}
	byName    = []string{"colorspace_pars_fragment"}
	notWanted = regexp.MustCompile(`^(envmap|shadowm|lightprobes|alphahash|bumpmap|displacementmap|normalmap|iridescence|transmission|skin|morph|batching|logdepthbuf|dithering|lightmap|aomap|alphamap|fog)`)
	include   = regexp.MustCompile(`#include +<(\w+)>`)
	shaderAt  = regexp.MustCompile(`renderers/shaders/(ShaderLib|ShaderChunk)/(\w+)\.glsl\.js$`)
	literal   = regexp.MustCompile("(?s)`[^`]*`")
	block     = regexp.MustCompile(`(?s)/\*.*?\*/`)
	remark    = regexp.MustCompile(`//[^\n]*`)
	blank     = regexp.MustCompile(`\s*\n\s*`)
)

// trim leaves out of the library what the picture does not use.
func trim(web string) (api.Plugin, error) {
	src := filepath.Join(web, "node_modules", "three", "src")
	for name := range unused { // moved by a new version of the library: look again
		if _, err := os.Stat(filepath.Join(src, name)); err != nil {
			return api.Plugin{}, err
		}
	}
	kept, err := chunks(filepath.Join(src, "renderers", "shaders"))
	if err != nil {
		return api.Plugin{}, err
	}
	load := func(a api.OnLoadArgs) (api.OnLoadResult, error) {
		rel, err := filepath.Rel(src, a.Path)
		if err != nil {
			return api.OnLoadResult{}, err
		}
		rel = filepath.ToSlash(rel)
		if text, ok := unused[rel]; ok {
			return api.OnLoadResult{Contents: &text, Loader: api.LoaderJS}, nil
		}
		m := shaderAt.FindStringSubmatch(rel)
		if m == nil {
			return api.OnLoadResult{}, nil
		}
		data, err := os.ReadFile(a.Path)
		if err != nil {
			return api.OnLoadResult{}, err
		}
		text := literal.ReplaceAllStringFunc(string(data), func(s string) string {
			if !kept[m[2]] {
				return "``"
			}
			return squeeze(s)
		})
		return api.OnLoadResult{Contents: &text, Loader: api.LoaderJS}, nil
	}
	return api.Plugin{Name: "trim", Setup: func(b api.PluginBuild) {
		b.OnLoad(api.OnLoadOptions{Filter: `three/src/renderers/.*\.js$`}, load)
	}}, nil
}

// chunks tells which pieces of shaders are wanted: the materials, and what they
// include.
func chunks(folder string) (map[string]bool, error) {
	kept := map[string]bool{}
	var follow func(path, name string) error
	follow = func(path, name string) error {
		if kept[name] || notWanted.MatchString(name) {
			return nil
		}
		kept[name] = true
		text, err := os.ReadFile(filepath.Join(folder, path, name+".glsl.js"))
		if err != nil {
			return err
		}
		for _, m := range include.FindAllStringSubmatch(string(text), -1) {
			if err := follow("ShaderChunk", m[1]); err != nil {
				return err
			}
		}
		return nil
	}
	for _, s := range shaders {
		if err := follow("ShaderLib", s); err != nil {
			return nil, err
		}
	}
	for _, s := range byName {
		if err := follow("ShaderChunk", s); err != nil {
			return nil, err
		}
	}
	if len(kept) < len(shaders)+10 {
		return nil, errors.New("shaders are not made as they were: trim does not know them")
	}
	return kept, nil
}

// squeeze takes remarks and indents out of a shader.
func squeeze(s string) string {
	s = remark.ReplaceAllString(block.ReplaceAllString(s, ""), "")
	return strings.TrimSpace(blank.ReplaceAllString(s, "\n"))
}
