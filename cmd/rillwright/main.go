// Command rillwright answers a builder's questions about a planted
// flowing-water enclosure from its design file, before glass is cut.
package main

import (
	"os"

	"rillwright/internal/cli"
)

func main() {
	os.Exit(cli.Run(os.Args[1:], cli.Streams{In: os.Stdin, Out: os.Stdout, Err: os.Stderr}))
}
