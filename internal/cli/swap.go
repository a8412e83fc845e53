package cli

import (
	"cmp"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"loomwright/internal/bench"
	"loomwright/internal/swap"
)

func (a *app) swapCommand() *cobra.Command {
	var codes, bodies, tracks, ohms, values []string
	var hand, title, out, picture, table, folder string
	cmd := &cobra.Command{
		Use:   "swap FILE",
		Short: "The same loom for other parts: another lead code, switch, pot or hand",
		Long: `Swap carries the joins over to other parts terminal by terminal, proves the loom
again and prints it; --draw draws it. Joins that cannot be carried over (a switch
with other contacts) are searched anew for the same sounds, and that is said.
Where a lead must be told by the meter first, the command for it is printed.

With --table, each row of a table of customers (CSV with commas, semicolons or
tabs; heads name, for, title, hand, and such as bridge.code, lever.is,
volume.track) becomes a loom file in --folder, on all cores; rows that fail are
listed and stop nothing.`,
		Example: "  loomwright swap guitar.yaml --code bridge=curlew --is lever=switch/lever-5way-inline -o other.yaml\n" +
			"  loomwright swap guitar.yaml --hand left --draw left.pdf -o left.yaml",
		Args: cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			b, data, err := a.loomAndBench(args[0])
			if err != nil {
				return err
			}
			if table != "" {
				return a.swapTable(b, args[0], data, table, folder)
			}
			r := swap.Request{Hand: hand, Title: title}
			for _, l := range []struct {
				given []string
				put   func(*swap.Change, string)
			}{
				{codes, func(c *swap.Change, v string) { c.Code = v }}, {bodies, func(c *swap.Change, v string) { c.Is = v }},
				{tracks, func(c *swap.Change, v string) { c.Track = v }}, {ohms, func(c *swap.Change, v string) { c.Ohms = v }},
				{values, func(c *swap.Change, v string) { c.Value = v }},
			} {
				if r.Changes, err = changes(r.Changes, l.given, l.put); err != nil {
					return err
				}
			}
			return a.printSwap(b, args[0], data, b.Swap(args[0], data, r), out, picture)
		},
	}
	flags := cmd.Flags()
	flags.StringArrayVar(&codes, "code", nil, "another lead code: bridge=curlew (may be given again, as all of these)")
	flags.StringArrayVar(&bodies, "is", nil, "another part: lever=switch/lever-5way-inline")
	flags.StringArrayVar(&tracks, "track", nil, "another track: volume='250k audio'")
	flags.StringArrayVar(&ohms, "ohms", nil, "a pickup's measured ohms: bridge=8.1k")
	flags.StringArrayVar(&values, "value", nil, "another capacitor or resistor: tone-cap=47n")
	flags.StringVar(&hand, "hand", "", "right, left, or 'left with pot ends swapped'")
	flags.StringVar(&title, "title", "", "another title")
	flags.StringVarP(&out, "output", "o", "", "loom file to write (default: standard output)")
	flags.StringVar(&picture, "draw", "", "draw the new loom: file to write, .svg, .pdf or .png")
	flags.StringVar(&table, "table", "", "table of customers' parts, CSV")
	flags.StringVar(&folder, "folder", "looms", "folder for the looms of a table")
	return cmd
}

// changes reads part=value pairs into the list of changes, one for each part.
func changes(list []swap.Change, given []string, put func(*swap.Change, string)) ([]swap.Change, error) {
	for _, g := range given {
		use, value, ok := strings.Cut(g, "=")
		if !ok || use == "" || value == "" {
			return nil, fmt.Errorf("%q: write it as part=value", g)
		}
		at := -1
		for i := range list {
			if list[i].Use == use {
				at = i
			}
		}
		if at < 0 {
			at = len(list)
			list = append(list, swap.Change{Use: use})
		}
		put(&list[at], value)
	}
	return list, nil
}

func (a *app) printSwap(b *bench.Bench, name, data string, r swap.Result, out, picture string) error {
	text := data
	if r.Text != "" {
		text = r.Text
	}
	if a.json {
		if err := writeJSON(a.streams.Out, r); err != nil {
			return err
		}
	} else {
		a.printFindings(b, name, text, r.Findings)
		a.printSwapWords(name, &r)
	}
	if r.Text == "" {
		return errFindings
	}
	if err := a.writeSwapped(b, name, r.Text, out, picture); err != nil {
		return err
	}
	if r.Verdict != swap.Same {
		return errFindings
	}
	return nil
}

// writeSwapped writes the new loom and draws it.
func (a *app) writeSwapped(b *bench.Bench, name, text, out, picture string) error {
	if out != "" && out != "-" {
		if err := replaceFile(out, text); err != nil {
			return err
		}
	} else if !a.json {
		fmt.Fprint(a.streams.Out, text)
	}
	if picture == "" {
		return nil
	}
	format, err := pictureFormat(picture)
	if err != nil {
		return err
	}
	d, err := b.Draw(name, text, bench.DrawOptions{Format: format})
	if err != nil {
		return err
	}
	fmt.Fprintf(a.streams.Err, "drawn again: %s\n", picture)
	return replaceFile(picture, string(d.Picture))
}

var swapWords = map[swap.Verdict]string{
	swap.Same:     "carried over and proved again: every setting is heard as before",
	swap.Differs:  "carried over and proved again: not all is as before",
	swap.Searched: "the joins could not all be carried over: the wiring was searched anew and proved again",
	swap.Search:   "the new part cannot do what the old one did, and no other wiring was found for the same sounds",
	swap.Measure:  "a lead must be told by the meter first",
	swap.Refused:  "nothing was changed",
}

func (a *app) printSwapWords(name string, r *swap.Result) {
	w := a.streams.Err
	fmt.Fprintf(w, "%s\n", swapWords[r.Verdict])
	for _, why := range slices.Concat(r.Why, r.Said) {
		fmt.Fprintf(w, "  %s\n", why)
	}
	for _, m := range r.Renamed {
		fmt.Fprintf(w, "  %s is now %s\n", m.From, m.To)
	}
	shelf := cmp.Or(a.shelf, "shelf")
	for _, u := range r.Unknown {
		command, code := bench.LeadsCommand(u, shelf)
		fmt.Fprintf(w, "tell the leads of %s by the meter, then swap to the code that it writes:\n  mkdir -p %s/codes\n  %s\n  loomwright swap %s --shelf %s --code %s=%s\n",
			u.Use, shelf, command, name, shelf, u.Use, code)
	}
}

// swapTable makes a loom for each customer of a table.
func (a *app) swapTable(b *bench.Bench, name, data, table, folder string) error {
	return a.eachRow(b, table, folder, "loom", func(row swap.Row) ([]string, error) {
		r := b.SwapRow(name, data, row)
		if r.Text == "" {
			return append([]string{swapWords[r.Verdict]}, bench.Reasons(&r)...), errFindings
		}
		return bench.Reasons(&r), replaceFile(filepath.Join(folder, row.Name+".yaml"), r.Text)
	})
}
