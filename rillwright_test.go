package rillwright

import (
	"testing"
)

func build(t *testing.T, data []byte) *Report {
	t.Helper()
	r, err := Build("demo.yaml", data, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if r.Findings.HasErrors() {
		t.Fatal(r.Findings)
	}
	return r
}
