// Command loomdocs writes the man pages of every command into a folder.
package main

import (
	"fmt"
	"os"
	"time"

	"github.com/spf13/cobra/doc"

	"loomwright/internal/cli"
)

func main() {
	if err := run(os.Args[1:]); err != nil {
		fmt.Fprintln(os.Stderr, "loomdocs:", err)
		os.Exit(2)
	}
}

func run(args []string) error {
	if len(args) != 1 {
		return fmt.Errorf("usage: loomdocs FOLDER")
	}
	if err := os.MkdirAll(args[0], 0o755); err != nil {
		return err
	}
	fixed := time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC) // same input, same bytes
	root := cli.Root()
	root.DisableAutoGenTag = true
	return doc.GenManTree(root, &doc.GenManHeader{Title: "LOOMWRIGHT", Section: "1", Date: &fixed, Source: "Loomwright"}, args[0])
}
