package cli

import (
	"encoding/json"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"loomwright/internal/bench"
	"loomwright/internal/diag"
	"loomwright/internal/source"
)

func (a *app) checkCommand() *cobra.Command {
	var all, quiet bool
	cmd := &cobra.Command{
		Use:   "check FILE...",
		Short: "Prove every setting of a loom and list what is wrong",
		Long: `Check reads loom files and prints, for each, the table of settings: what is
heard, phase, hum, which knobs act, what the output does while the switch
travels, and whether it is the sound that was wanted. Findings follow.

A row's travel is the worst moment on the way to its neighbours: smooth; gap (no
coil, but a pot holds the output quiet); mute (hot shorted); pop (hot open).`,
		Args: cobra.MinimumNArgs(1),
		RunE: func(_ *cobra.Command, files []string) error {
			b, err := a.bench()
			if err != nil {
				return err
			}
			return a.checkAll(b, files, all, quiet)
		},
	}
	cmd.Flags().BoolVar(&all, "all", false, "show also what is normal in a guitar: ground loops, unused throws")
	cmd.Flags().BoolVarP(&quiet, "quiet", "q", false, "print findings only, no tables")
	return cmd
}

func (a *app) checkAll(b *bench.Bench, files []string, all, quiet bool) error {
	worst := diag.Info
	var results []bench.Checked
	for i, name := range files {
		data, err := a.read(name)
		if err != nil {
			return err
		}
		c := b.Check(name, data)
		if !all {
			c.Findings = withoutQuiet(c.Findings)
		}
		worst = max(worst, c.Findings.Worst())
		if a.json {
			results = append(results, c)
			continue
		}
		if i > 0 && !quiet {
			fmt.Fprintln(a.streams.Out)
		}
		printChecked(a.streams.Out, b, c, quiet)
	}
	if a.json {
		if err := a.printJSON(results); err != nil {
			return err
		}
	}
	if worst > diag.Info {
		return errFindings
	}
	return nil
}

// printJSON writes one result as an object, several as a list.
func (a *app) printJSON(results []bench.Checked) error {
	var v any = results
	if len(results) == 1 {
		v = results[0]
	}
	return writeJSON(a.streams.Out, v)
}

func writeJSON(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetIndent("", "  ")
	e.SetEscapeHTML(false)
	return e.Encode(v)
}

func withoutQuiet(l diag.List) diag.List {
	out := diag.List{}
	for _, d := range l {
		if !bench.Quiet(d.Code) {
			out = append(out, d)
		}
	}
	return out
}

func printChecked(w io.Writer, b *bench.Bench, c bench.Checked, quiet bool) {
	if !quiet {
		if c.Title != "" {
			fmt.Fprintf(w, "%s\n", c.Title)
		}
		fmt.Fprintf(w, "%s\n", c.File)
		if len(c.Rows) > 0 {
			fmt.Fprintln(w)
			printTable(w, settingsTable(c))
			if c.Over != "" { // else nothing sounds
				printNote(w, fmt.Sprintf("Levels are over %s. %s", c.Over, bench.Assumed(c.Graph)))
			}
		}
	}
	for i, d := range c.Findings {
		if i == 0 && !quiet {
			fmt.Fprintln(w)
		}
		printSnippet(w, textOf(b, c, d), d)
	}
	if !quiet {
		fmt.Fprintf(w, "\n%s\n", summary(c))
	}
}

func printSnippet(w io.Writer, text *diag.Text, d diag.Diagnostic) {
	fmt.Fprint(w, source.Snippet(text, d))
}

// textOf finds the text that a finding points into: the loom, or a part file.
func textOf(b *bench.Bench, c bench.Checked, d diag.Diagnostic) *diag.Text {
	if d.Span.File == "" || d.Span.File == c.File {
		return c.Text
	}
	return b.TextOf(d.Span.File)
}

func summary(c bench.Checked) string {
	counts := map[diag.Severity]int{}
	for _, d := range c.Findings {
		counts[d.Severity]++
	}
	wanted, met := 0, 0
	for _, r := range c.Rows {
		if r.Wanted != nil {
			wanted++
			if r.Wanted.Met == "yes" {
				met++
			}
		}
	}
	s := plural(len(c.Rows), "setting", "settings") + " proved"
	if wanted > 0 {
		s += fmt.Sprintf(", %d of %d wanted sounds heard", met, wanted)
	}
	if len(c.Rows) == 0 {
		s = "not proved"
	}
	return fmt.Sprintf("%s; %s, %s, %s", s, plural(counts[diag.Error], "error", "errors"),
		plural(counts[diag.Warning], "warning", "warnings"), plural(counts[diag.Info], "note", "notes"))
}

func plural(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
