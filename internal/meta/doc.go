// Package meta holds the rules of this repository as tests: who may import
// whom, what physics must not touch, and what every file must keep to. It has
// nothing to call; run its tests with
//
//	go test ./internal/meta
//
// A rule that fails says what it is for. Where a rule is wrong, change it here,
// with its reason, in the commit that needs the change.
package meta
