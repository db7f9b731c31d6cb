package document

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"github.com/goccy/go-yaml"
	"github.com/santhosh-tekuri/jsonschema/v6"
)

// check validates a YAML text against a schema with a library that had no part
// in making the schema.
func check(t *testing.T, schema []byte, text string) error {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(schema))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("shed.json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("shed.json")
	if err != nil {
		t.Fatal(err)
	}
	var v any
	if err := yaml.Unmarshal([]byte(text), &v); err != nil {
		t.Fatal(err)
	}
	asJSON, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	v, err = jsonschema.UnmarshalJSON(bytes.NewReader(asJSON))
	if err != nil {
		t.Fatal(err)
	}
	return s.Validate(v)
}

func TestSchema(t *testing.T) {
	schema, err := Schema(&shed{})
	if err != nil {
		t.Fatal(err)
	}
	if err := check(t, schema, soundShed); err != nil {
		t.Errorf("the schema refuses a sound file: %v", err)
	}
	for _, c := range []struct{ name, old, put, want string }{
		{"unknown key", "count: 3", "cuont: 3", "cuont"},
		{"missing key", "title: My shed", "", "title"},
		{"word", "roof: pitched", "roof: thatched", "/roof"},
		{"number without unit", "width: 1.50 m ", "width: 1.50", "/room/width"},
		{"list wanted", "labels: [one, 'two, three']", "labels: one", "/labels"},
		{"whole number", "count: 3", "count: 2.5", "/count"},
		{"yes or no", "dry: yes", "dry: maybe", "/dry"},
		{"missing key in a list", "{name: low, length: 30 cm}", "{name: low}", "/shelf/1"},
		{"section", "door: {made: oak, cost: 45 EUR}", "door: oak", "/room/door"},
	} {
		text := strings.Replace(soundShed, c.old, c.put, 1)
		if err := check(t, schema, text); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want something about %s", c.name, err, c.want)
		}
	}
	for _, want := range []string{`"https://json-schema.org/draft/2020-12/schema"`, "Left to right. Write a length with its unit.", `"300 mm"`, `"not known"`} {
		if !bytes.Contains(schema, []byte(want)) {
			t.Errorf("the schema lacks %s", want)
		}
	}
}
