package cli

import (
	"fmt"

	"github.com/spf13/cobra"

	"loomwright/internal/bench"
	"loomwright/internal/loom"
	"loomwright/internal/part"
	"loomwright/internal/schema"
)

func (a *app) schemaCommand() *cobra.Command {
	return &cobra.Command{
		Use:       "schema [loom|part|code]",
		Short:     "Print the JSON Schema of a kind of file, for your editor",
		Args:      cobra.MatchAll(cobra.MaximumNArgs(1), cobra.OnlyValidArgs),
		ValidArgs: []string{"loom", "part", "code"},
		RunE: func(_ *cobra.Command, args []string) error {
			var v any = loom.File{}
			title := "loom file"
			if len(args) == 1 && args[0] == "part" {
				v, title = part.File{}, "part file"
			}
			if len(args) == 1 && args[0] == "code" {
				v, title = part.CodeFile{}, "lead code"
			}
			out, err := schema.For(v, "Loomwright "+title)
			if err != nil {
				return err
			}
			_, err = fmt.Fprintf(a.streams.Out, "%s\n", out)
			return err
		},
	}
}

func (a *app) codesCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "codes",
		Short: "List every code that a finding can have, and what it means",
		Args:  cobra.NoArgs,
		RunE: func(*cobra.Command, []string) error {
			if a.json {
				return writeJSON(a.streams.Out, bench.Codes())
			}
			rows := [][]string{{"code", "severity", "what it means", "what you would notice"}}
			for _, c := range bench.Codes() {
				rows = append(rows, []string{c.Code, c.Severity.String(), c.Says, c.Notice})
			}
			printTable(a.streams.Out, rows)
			return nil
		},
	}
}
