// Package cli is the command line: it reads files and flags, calls the bench,
// and prints. Standard output is the product, standard error the talk. Exit
// status 0: fine; 1: findings; 2: it could not run.
package cli

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"loomwright/internal/bench"
	"loomwright/internal/part"
)

// Streams are where a command reads and writes.
type Streams struct {
	In       io.Reader
	Out, Err io.Writer
}

// findingsError ends a command with status 1: what is wrong has been printed.
var errFindings = errors.New("findings")

// app holds what all commands share.
type app struct {
	streams Streams
	json    bool
	shelf   string
}

// Run runs one command line and returns its exit status.
func Run(args []string, s Streams) int {
	a := &app{streams: s}
	root := a.root()
	root.SetArgs(args)
	root.SetIn(s.In)
	root.SetOut(s.Out)
	root.SetErr(s.Err)
	switch err := root.Execute(); {
	case err == nil:
		return 0
	case errors.Is(err, errFindings):
		return 1
	default:
		fmt.Fprintf(s.Err, "loomwright: %v\n", err)
		return 2
	}
}

// Root returns the command tree, for the generator of man pages.
func Root() *cobra.Command {
	return (&app{}).root()
}

func (a *app) root() *cobra.Command {
	root := &cobra.Command{
		Use:           "loomwright",
		Short:         "Wiring looms for electric guitars: written down, proved, drawn",
		Long:          rootLong,
		SilenceErrors: true,
		SilenceUsage:  true,
	}
	root.PersistentFlags().StringVar(&a.shelf, "shelf", "", "folder with part files and lead codes of your own (default: loomwright/shelf in your configuration folder)")
	root.PersistentFlags().BoolVar(&a.json, "json", false, "print the result as JSON (layout: docs/json.md)")
	defer ownUsage(root)
	root.AddCommand(a.checkCommand(), a.fmtCommand(), a.newCommand(), a.partsCommand(), a.schemaCommand(), a.codesCommand(),
		a.ohmsCommand(), a.levelCommand(), a.curveCommand(), a.drawCommand(), a.serveCommand(),
		a.meterCommand(), a.faultCommand(), a.swapCommand(), a.sheetCommand(), a.wireCommand(), a.leadsCommand())
	return root
}

// ownUsage says in our words what a command line lacks.
func ownUsage(root *cobra.Command) {
	for _, c := range root.Commands() {
		if check := c.Args; check != nil {
			c.Args = func(cmd *cobra.Command, args []string) error {
				if err := check(cmd, args); err != nil {
					return fmt.Errorf("write it as: loomwright %s (loomwright %s --help says more)", cmd.Use, cmd.Name())
				}
				return nil
			}
		}
	}
}

const rootLong = `Loomwright reads a guitar's wiring as you would write it on paper (parts, joins,
the sounds you want) and proves, for every position of every switch, what is
heard, in which phase, with what hum, and what is wrong.

Exit status: 0 all is well, 1 there are findings, 2 it could not run.
A file named - is standard input.`

// bench lays out the library, with the user's shelf before it.
func (a *app) bench() (*bench.Bench, error) {
	dir, err := a.shelfFolder()
	if dir == "" || err != nil {
		return bench.New(), err
	}
	return bench.New(part.Shelf{Name: dir, FS: os.DirFS(dir)}), nil
}

// shelfFolder is the folder with part files of the user's own; "": there is none.
func (a *app) shelfFolder() (string, error) {
	dir := a.shelf
	if dir == "" {
		config, err := os.UserConfigDir()
		if err != nil {
			return "", nil // no configuration folder, no shelf in it
		}
		dir = filepath.Join(config, "loomwright", "shelf")
		if _, err := os.Stat(dir); errors.Is(err, fs.ErrNotExist) {
			return "", nil
		}
	}
	if info, err := os.Stat(dir); err != nil || !info.IsDir() {
		return "", fmt.Errorf("the shelf %s is not a folder that can be read", dir)
	}
	return dir, nil
}

// maxLoom bounds a loom file in bytes.
const maxLoom = 4 << 20

// read takes a file, or standard input for "-".
func (a *app) read(name string) (string, error) {
	r := a.streams.In
	if name != "-" {
		f, err := os.Open(name)
		if err != nil {
			return "", err
		}
		if info, err := f.Stat(); err == nil && info.IsDir() {
			return "", errors.Join(fmt.Errorf("%s is a folder, not a loom file", name), f.Close())
		}
		defer func() { _ = f.Close() }() // only read
		r = f
	}
	data, err := io.ReadAll(io.LimitReader(r, maxLoom+1))
	if err != nil {
		return "", fmt.Errorf("%s: %w", name, err)
	}
	if len(data) > maxLoom {
		return "", fmt.Errorf("%s is larger than the %d MB that a loom file may have", name, maxLoom>>20)
	}
	return string(data), nil
}
