package cli

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"loomwright/internal/bench"
	"loomwright/internal/diag"
)

func (a *app) newCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "new [START]",
		Short: "Print a loom file to begin from",
		Long: `New prints a loom file with parts and wanted sounds for a usual guitar, to be
saved and changed; "part" prints a part file. Without a name it lists what there is.`,
		Example:   "  loomwright new two-twin-coils > my-guitar.yaml",
		Args:      cobra.MaximumNArgs(1),
		ValidArgs: startNames(),
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
				return a.listStarts()
			}
			if args[0] == "part" {
				return a.newPart()
			}
			for _, s := range bench.Starts() {
				if s.Name == args[0] {
					fmt.Fprint(a.streams.Out, s.Text)
					return nil
				}
			}
			return fmt.Errorf("there is no start %q%s", args[0], didYouMean(args[0], startNames()))
		},
	}
}

func startNames() []string {
	var out []string
	for _, s := range bench.Starts() {
		out = append(out, s.Name)
	}
	return out
}

// newPart prints a part file to begin from.
func (a *app) newPart() error {
	b, err := a.bench()
	if err != nil {
		return err
	}
	const sample = "switch/dpdt-on-on"
	fmt.Fprintf(a.streams.Out, "# a part of your own: change this copy of %s, save it on your shelf as switch/NAME.yaml,\n# then use it as  is: switch/NAME  with  --shelf FOLDER\n%s", sample, b.Library.Text(sample).Data)
	return nil
}

func (a *app) listStarts() error {
	if a.json {
		return writeJSON(a.streams.Out, bench.Starts())
	}
	rows := [][]string{{"start", "for"}}
	for _, s := range bench.Starts() {
		rows = append(rows, []string{s.Name, s.Says})
	}
	rows = append(rows, []string{"part", "a part file of your own, to change"})
	printTable(a.streams.Out, rows)
	return nil
}

func didYouMean(word string, names []string) string {
	if near := diag.Nearest(word, names); near != "" {
		return fmt.Sprintf(": did you mean %s?", near)
	}
	return "; there are: " + strings.Join(names, ", ")
}
