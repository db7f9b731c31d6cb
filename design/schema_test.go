package design

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/goccy/go-yaml"
	"github.com/santhosh-tekuri/jsonschema/v6"
)

// The schema is judged by a library that had no part in making it.
func TestSchema(t *testing.T) {
	schema, err := Schema()
	if err != nil {
		t.Fatal(err)
	}
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(schema))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("design.json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("design.json")
	if err != nil {
		t.Fatal(err)
	}
	validate := func(text string) error {
		var v any
		if err := yaml.Unmarshal([]byte(text), &v); err != nil {
			t.Fatal(err)
		}
		asJSON, err := json.Marshal(v)
		if err != nil {
			t.Fatal(err)
		}
		if v, err = jsonschema.UnmarshalJSON(bytes.NewReader(asJSON)); err != nil {
			t.Fatal(err)
		}
		return s.Validate(v)
	}
	if err := validate(string(starter)); err != nil {
		t.Errorf("starter: %v", err)
	}
	if err := validate(sound); err != nil {
		t.Errorf("sound: %v", err)
	}
	paths, err := filepath.Glob("../examples/*.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for _, path := range paths {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if err := validate(string(data)); err != nil {
			t.Errorf("%s: %v", path, err)
		}
	}
	for _, c := range []struct{ name, old, put, where string }{
		{"unknown key", "level-error:", "level-eror:", "/manifolds/0"},
		{"missing key", "    lip: 150 mm\n", "", "/drains/0"},
		{"missing section", "wall:", "walls:", "walls"},
		{"word", "units: metric", "units: imperial", "/units"},
		{"number without unit", "bottom: 800 mm", "bottom: 800", "/enclosure/bottom"},
		{"word in a list", "glass: annealed}", "glass: strong}", "/enclosure/panes/0/glass"},
		{"value for a section", "pool: {", "pool: 900 mm #", "/pool"},
		{"section for a list", "{name: split, branch: side run}\n  - {name: join}", "", "/tees"},
		{"fraction of an outlet", "count: 10", "count: 10.5", "/manifolds/0/outlets/0/count"},
	} {
		text := strings.Replace(sound, c.old, c.put, 1)
		if text == sound {
			t.Errorf("%s: nothing replaced", c.name)
		}
		if err := validate(text); err == nil || !strings.Contains(err.Error(), c.where) {
			t.Errorf("%s: %v, want something about %s", c.name, err, c.where)
		}
	}
}
