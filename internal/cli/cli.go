// Package cli is the command line: it parses, calls one function of the chain
// and prints its result as text or JSON. Rules of its output: what was asked for
// goes to the standard output and nothing else does; a message tells what to do;
// the exit status tells the worst verdict.
package cli

import (
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"github.com/alecthomas/kong"
)

// Streams are the files that a run reads and writes.
type Streams struct {
	In       io.Reader
	Out, Err io.Writer
}

// The exit statuses.
const (
	exitOK    = 0 // no answer fails, or what was asked for was printed
	exitFails = 1 // an answer fails
	exitInput = 2 // the command or a file is wrong
	exitOther = 3 // something else went wrong
	exitTight = 4 // with --strict: an answer is tight or not known yet
)

const exitHelp = `
Exit status: 0 no answer fails; 1 an answer fails; 2 the command or a file is wrong; 3 anything else; 4, with --strict, an answer is tight or not known yet.
`

type commands struct {
	Built    builtCommand    `cmd:"" help:"Tell what your first readings settle of a design: its pump, its hose, its outlets."`
	Buy      buyCommand      `cmd:"" help:"List what to buy, by shop, in whole packs, with prices."`
	Check    checkCommand    `cmd:"" help:"Answer every question about a design."`
	Weigh    weighCommand    `cmd:"" help:"Tell how likely each answer about the water holds, and which doubts make its spread."`
	Climate  climateCommand  `cmd:"" help:"Tell whether plants can live in it: warmth, damp, fogged glass, evaporation, minerals, light."`
	Diagnose diagnoseCommand `cmd:"" help:"Tell from your readings what has gone wrong, what to look at first and what to measure next."`
	Done     doneCommand     `cmd:"" help:"Mark a step of the plan as done: rillwright done grotto.yaml bond-grid"`
	Draw     drawCommand     `cmd:"" help:"Write drawings and drilling templates to print."`
	Faults   faultsCommand   `cmd:"" help:"Follow the water when something goes wrong: power cuts, blocked drains, leaks."`
	Keep     keepCommand     `cmd:"" help:"Tell what is due, where the flow is going, what spares to have, and what the year came to."`
	Log      logCommand      `cmd:"" help:"Print what was noted of a design, against what passes."`
	New      newCommand      `cmd:"" help:"Write a commented design file to start from."`
	Note     noteCommand     `cmd:"" help:"Note a reading in the log beside a design: rillwright note grotto.yaml rise 12 mm"`
	Packet   packetCommand   `cmd:"" help:"Write all papers of a design as one PDF and a folder: answers, drawings, tests, emergency card."`
	Parts    partsCommand    `cmd:"" help:"List and search the parts that a design may name."`
	Pieces   piecesCommand   `cmd:"" help:"List every piece with its finished size and how it is cut from stock."`
	Schema   schemaCommand   `cmd:"" help:"Print the JSON Schema of a design file, for your editor."`
	Plan     planCommand     `cmd:"" help:"Put the steps of the build in order and into your hours: when water may go in, what to do tonight."`
	Seek     seekCommand     `cmd:"" help:"Look for the best design among all that you leave open: rillwright seek grotto.yaml --open pump --open hose"`
	Suppose  supposeCommand  `cmd:"" help:"Tell what a change moves, every answer, cost and date: rillwright suppose grotto.yaml \"hose=5/8 in\""`
	Serve    serveCommand    `cmd:"" help:"Show and change your designs in the browser."`
}

// Run runs one command and returns its exit status.
func Run(args []string, std Streams) int {
	var c commands
	done := -1
	parser, err := kong.New(&c,
		kong.Name("rillwright"),
		kong.Description("Answers a builder's questions about a planted flowing-water enclosure from its design file, before glass is cut."+exitHelp),
		kong.Writers(std.Out, std.Err),
		kong.Exit(func(code int) { done = code }),
		kong.ConfigureHelp(kong.HelpOptions{Compact: true}),
		kong.UsageOnError(),
	)
	if err != nil {
		fmt.Fprintln(std.Err, "rillwright:", err)
		return exitOther
	}
	parser.Model.HelpFlag.Help = "Show this help."
	if len(args) == 0 {
		args = []string{"--help"}
	}
	ctx, err := parser.Parse(args)
	if done >= 0 {
		return done
	}
	if err != nil {
		fmt.Fprintln(std.Err, "rillwright:", misused(err, args))
		return exitInput
	}
	err = ctx.Run(&std)
	var status statusError
	switch {
	case err == nil:
		return exitOK
	case errors.As(err, &status):
		return int(status)
	}
	fmt.Fprintln(std.Err, "rillwright:", err)
	return exitOther
}

// misused says what is wrong with a command line and what to do.
func misused(err error, args []string) error {
	if name := args[0]; strings.HasSuffix(name, ".yaml") || strings.HasSuffix(name, ".yml") {
		return fmt.Errorf("%s stands where a command should\n  do: write rillwright check %s", filepath.ToSlash(name), quoted(name))
	}
	what, command := err.Error(), "rillwright"
	if flag, rest, ok := strings.Cut(what, ": expected "); ok && strings.Contains(rest, "EOL") {
		what = flag + " needs a value behind it"
	}
	if what == `expected "<design>"` {
		return fmt.Errorf("%s wants a design\n  do: name a design file, or demo to see a built-in one: rillwright %s demo", args[0], args[0])
	}
	var parse *kong.ParseError
	if errors.As(err, &parse) && parse.Context.Selected() != nil {
		command += " " + parse.Context.Selected().Name
	}
	return fmt.Errorf("%s\n  do: run %s --help to see what can be asked", what, command)
}

// refuse says why a command or file is not taken, and what to do.
func refuse(std *Streams, err error) error {
	fmt.Fprintln(std.Err, "rillwright:", err)
	return statusError(exitInput)
}

// statusError ends a command with an exit status; what there is to say has been
// said.
type statusError int

func (s statusError) Error() string { return fmt.Sprintf("exit status %d", int(s)) }
