// Command loomwright turns a guitar's wiring, written down, into a proven table
// of settings, and more. See README.md.
package main

import (
	"os"

	"loomwright/internal/cli"
)

func main() {
	os.Exit(cli.Run(os.Args[1:], cli.Streams{In: os.Stdin, Out: os.Stdout, Err: os.Stderr}))
}
