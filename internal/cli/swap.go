package cli

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"

	"github.com/spf13/cobra"

	"loomwright/internal/bench"
	"loomwright/internal/swap"
)

func (a *app) swapCommand() *cobra.Command {
	var codes, bodies, tracks, ohms, values []string
	var hand, title, out, table, folder string
	cmd := &cobra.Command{
		Use:   "swap FILE",
		Short: "The same loom for other parts: another lead code, switch, pot or hand",
		Long: `Swap carries the joins over to other parts terminal by terminal, proves the loom
again and prints it. What cannot be carried over is said: then search the wiring
anew, or find the lead with the meter first.

With --table, each line of a table of customers (CSV: name, for, title, hand, and
columns such as bridge.code, lever.is, volume.track) becomes a loom file in
--folder, on all cores; lines that fail are listed and stop nothing.`,
		Example: "  loomwright swap guitar.yaml --code bridge=curlew --is lever=switch/lever-5way-inline -o other.yaml",
		Args:    cobra.ExactArgs(1),
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
			return a.printSwap(b, args[0], data, b.Swap(args[0], data, r), out)
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

func (a *app) printSwap(b *bench.Bench, name, data string, r swap.Result, out string) error {
	a.printFindings(b, name, data, r.Findings)
	printSwapWords(a.streams.Err, r)
	switch {
	case r.Text == "":
		return errFindings
	case out == "" || out == "-":
		fmt.Fprint(a.streams.Out, r.Text)
	default:
		if err := replaceFile(out, r.Text); err != nil {
			return err
		}
	}
	if r.Verdict != swap.Same {
		return errFindings
	}
	return nil
}

var swapWords = map[swap.Verdict]string{
	swap.Same:    "every setting is heard as before",
	swap.Differs: "carried over, but not all is as before",
	swap.Search:  "the new part cannot do what the old one did: search the wiring anew",
	swap.Measure: "a lead must be told by the meter first",
	swap.Refused: "nothing was changed",
}

func printSwapWords(w io.Writer, r swap.Result) {
	fmt.Fprintf(w, "%s\n", swapWords[r.Verdict])
	for _, why := range r.Why {
		fmt.Fprintf(w, "  %s\n", why)
	}
	for _, m := range r.Renamed {
		fmt.Fprintf(w, "  %s is now %s\n", m.From, m.To)
	}
	for _, d := range r.Differences {
		fmt.Fprintf(w, "  %s: was %s, is %s\n", d.Setting, d.Before, d.After)
	}
}

// swapTable makes a loom for each customer of a table.
func (a *app) swapTable(b *bench.Bench, name, data, table, folder string) error {
	return a.eachRow(b, table, folder, "loom", func(row swap.Row) string { return a.swapOne(b, name, data, row, folder) })
}

// eachRow does one thing for each customer of a table, on all cores, with a
// line of progress; make returns why a row failed, or "".
func (a *app) eachRow(b *bench.Bench, table, folder, thing string, make func(swap.Row) string) error {
	text, err := a.read(table)
	if err != nil {
		return err
	}
	rows, list := bench.SwapTable(table, text)
	a.printFindings(b, table, text, list)
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return err
	}
	failed := parallel(len(rows), func(i int) string { return make(rows[i]) }, func(done int) {
		fmt.Fprintf(a.streams.Err, "\r%d of %d", done, len(rows))
	})
	fmt.Fprintln(a.streams.Err)
	return a.listFailed(rows, failed, thing, list.HasErrors())
}

// parallel runs n pieces of work on all cores and returns what each said;
// progress hears how many are done.
func parallel(n int, work func(i int) string, progress func(done int)) []string {
	out := make([]string, n)
	var group sync.WaitGroup
	var mu sync.Mutex
	finished := 0
	next := make(chan int)
	for range min(runtime.NumCPU(), max(1, n)) {
		group.Go(func() {
			for i := range next {
				out[i] = work(i)
				mu.Lock()
				finished++
				progress(finished)
				mu.Unlock()
			}
		})
	}
	for i := range n {
		next <- i
	}
	close(next)
	group.Wait()
	return out
}

// swapOne makes one customer's loom; it returns why it failed, or "".
func (a *app) swapOne(b *bench.Bench, name, data string, row swap.Row, folder string) string {
	r := b.SwapRow(name, data, row)
	if r.Text == "" {
		return strings.Join(append([]string{swapWords[r.Verdict]}, r.Why...), "; ")
	}
	if err := replaceFile(filepath.Join(folder, filepath.Base(row.Name)+".yaml"), r.Text); err != nil {
		return err.Error()
	}
	return ""
}

func (a *app) listFailed(rows []swap.Row, failed []string, thing string, errors bool) error {
	made := 0
	for i, why := range failed {
		if why == "" {
			made++
			continue
		}
		fmt.Fprintf(a.streams.Out, "%s (line %d): %s\n", rows[i].Name, rows[i].Line, why)
	}
	fmt.Fprintf(a.streams.Out, "%s made, %d failed\n", plural(made, thing, thing+"s"), len(rows)-made)
	if made < len(rows) || errors {
		return errFindings
	}
	return nil
}
