package cli

import (
	"os"
	"strings"
	"testing"
)

// Every line of the README's sample is one that the demo prints.
func TestReadmeSample(t *testing.T) {
	data, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, sample, ok := strings.Cut(string(data), "```text\n")
	sample, _, _ = strings.Cut(sample, "```")
	_, out, _ := run("check", "demo")
	if !ok || len(sample) < 200 {
		t.Fatal("the README has no sample")
	}
	for line := range strings.Lines(sample) {
		if strings.TrimSpace(line) != "..." && !strings.Contains(out, line) {
			t.Errorf("the demo does not print %q", line)
		}
	}
}
