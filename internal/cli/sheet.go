package cli

import (
	"errors"
	"path/filepath"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"loomwright/internal/bench"
	"loomwright/internal/swap"
)

func (a *app) sheetCommand() *cobra.Command {
	var o bench.SheetOptions
	var out, table, folder, date string
	cmd := &cobra.Command{
		Use:   "sheet FILE",
		Short: "The build sheet that a customer can solder from (PDF or HTML)",
		Long: `Sheet prints what is needed to solder a loom: cautions, the table of settings,
the drawing, parts, the cut list, every step with a close-up and what a good joint
looks like, the reading to take after each stage, a template of the control holes
and a card for the player.

With --table, each row of a table of customers (as for swap) becomes a sheet and
a loom file in --folder, on all cores; rows that fail are listed and stop
nothing. With --link the code on each sheet carries its own loom, or its file's
name where the loom is too long for one.`,
		Example: "  loomwright sheet guitar.yaml -o guitar.pdf --for 'the Turnstone'",
		Args:    cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			b, data, err := a.loomAndBench(args[0])
			if err != nil {
				return err
			}
			if date != "" {
				if o.Date, err = time.Parse(time.DateOnly, date); err != nil {
					return err
				}
			}
			if table != "" {
				return a.sheetTable(b, args[0], data, table, folder, o)
			}
			return a.sheet(b, args[0], data, out, o)
		},
	}
	cmd.Flags().StringVarP(&out, "output", "o", "", "file to write, .pdf or .html (default: the loom's name with .pdf)")
	cmd.Flags().Var(choice(&o.Page, "a4", "a4", "letter"), "page", "a4 or letter")
	cmd.Flags().Var(choice((*string)(&o.Habit), "", "uk", "us"), "habit", "words and units of the UK or the US")
	cmd.Flags().BoolVar(&o.Grey, "grey", false, "for black-and-white print")
	cmd.Flags().StringVar(&o.For, "for", "", "whom the sheet is for")
	cmd.Flags().StringVar(&o.Base, "link", "", "address of a bench page, for the QR code")
	cmd.Flags().StringVar(&date, "date", "", "date that the sheet bears: 2026-05-01")
	cmd.Flags().BoolVar(&o.Empty, "no-readings", false, "leave the readings to be written in")
	cmd.Flags().StringVar(&table, "table", "", "table of customers' parts, CSV")
	cmd.Flags().StringVar(&folder, "folder", "sheets", "folder for the sheets of a table")
	return cmd
}

func (a *app) sheet(b *bench.Bench, name, data, out string, o bench.SheetOptions) error {
	if out == "" {
		out = strings.TrimSuffix(filepath.Base(name), filepath.Ext(name)) + ".pdf"
	}
	o.HTML = strings.EqualFold(filepath.Ext(out), ".html")
	s, err := b.Sheet(name, data, o)
	if err != nil {
		return err
	}
	a.printFindings(b, name, data, s.Findings)
	if s.Data == nil {
		return errFindings
	}
	if out == "-" {
		_, err := a.streams.Out.Write(s.Data)
		return err
	}
	return replaceFile(out, string(s.Data))
}

// sheetTable makes loom and sheet for each customer of a table.
func (a *app) sheetTable(b *bench.Bench, name, data, table, folder string, o bench.SheetOptions) error {
	return a.eachRow(b, table, folder, "sheet", func(row swap.Row) ([]string, error) {
		m := b.SheetRow(name, data, row, o)
		if m.PDF == nil {
			return m.Why, errFindings
		}
		base := filepath.Join(folder, row.Name)
		return m.Why, errors.Join(replaceFile(base+".yaml", m.Loom), replaceFile(base+".pdf", string(m.PDF)))
	})
}
