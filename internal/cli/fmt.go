package cli

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"loomwright/internal/bench"
	"loomwright/internal/diag"
)

func (a *app) fmtCommand() *cobra.Command {
	var write, list bool
	cmd := &cobra.Command{
		Use:   "fmt FILE...",
		Short: "Lay loom files out in the one canonical way",
		Long: `Fmt prints each file in the canonical layout; comments stay where they are.
With -w the files are rewritten in place, each by way of a temporary file.
With -l only the names of files whose layout differs are printed (exit status 1).`,
		Args: cobra.MinimumNArgs(1),
		RunE: func(_ *cobra.Command, files []string) error {
			b, err := a.bench()
			if err != nil {
				return err
			}
			return a.fmtAll(b, files, write, list)
		},
	}
	cmd.Flags().BoolVarP(&write, "write", "w", false, "rewrite the files")
	cmd.Flags().BoolVarP(&list, "list", "l", false, "only list the files whose layout differs")
	return cmd
}

func (a *app) fmtAll(b *bench.Bench, files []string, write, list bool) error {
	var result error
	for _, name := range files {
		data, err := a.read(name)
		if err != nil {
			return err
		}
		out, findings := b.Format(name, data)
		if findings.HasErrors() {
			for _, d := range findings {
				printSnippet(a.streams.Err, diag.NewText(name, data), d)
			}
			result = errFindings
			continue
		}
		switch {
		case list:
			if out != data {
				fmt.Fprintln(a.streams.Out, name)
				result = errFindings
			}
		case write && name != "-":
			if out != data {
				if err := replaceFile(name, out); err != nil {
					return err
				}
			}
		default:
			fmt.Fprint(a.streams.Out, out)
		}
	}
	return result
}

// replaceFile writes a file by way of a temporary one beside it, so that no
// crash leaves half a file; the mode is kept.
func replaceFile(name, data string) error {
	mode := os.FileMode(0o644)
	if info, err := os.Stat(name); err == nil {
		mode = info.Mode().Perm()
	}
	f, err := os.CreateTemp(filepath.Dir(name), ".loomwright-*")
	if err != nil {
		return fmt.Errorf("%s cannot be written: %w", name, errors.Unwrap(err))
	}
	defer func() { _ = os.Remove(f.Name()) }() // already renamed when all went well
	_, err = f.WriteString(data)
	if err == nil {
		err = f.Sync()
	}
	if err = errors.Join(err, f.Close()); err != nil {
		return err
	}
	if err := os.Chmod(f.Name(), mode); err != nil {
		return err
	}
	return os.Rename(f.Name(), name)
}
