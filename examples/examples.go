// Package examples carries whole designs, invented but complete, that the
// program can show without any file at hand. Each is also an end-to-end test.
package examples

import _ "embed"

// CorridorCabinet is a cabinet built from panes, in metric units.
//
//go:embed corridor-cabinet.yaml
var CorridorCabinet []byte

// CounterWall is a shop tank stood on end, in US customary units.
//
//go:embed counter-wall.yaml
var CounterWall []byte
