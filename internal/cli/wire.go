package cli

import (
	"context"
	"fmt"
	"io"
	"os"
	"os/signal"
	"strings"

	"github.com/spf13/cobra"

	"loomwright/internal/bench"
	"loomwright/internal/diag"
	"loomwright/internal/synthesis"
)

func (a *app) wireCommand() *cobra.Command {
	var o bench.WireOptions
	var out string
	var take int
	cmd := &cobra.Command{
		Use:   "wire FILE",
		Short: "Find the joins for the parts in the drawer and the sounds wanted",
		Long: `Wire reads a loom file with parts and wanted sounds, and any joins already
decided, and finds the others: fewest joins first, then fewest long wires, the
quietest travel, the least crowded lugs. It prints the loom file with the joins
added; every answer is proved again by other code. When it cannot be done it
says which wishes conflict, what to give up, and which switch would do.
Interrupted, it ends with the best wiring so far and says so.`,
		Example: "  loomwright new two-twin-coils > mine.yaml\n  loomwright wire mine.yaml -o wired.yaml",
		Args:    cobra.ExactArgs(1),
		RunE: func(cmd *cobra.Command, args []string) error {
			b, data, err := a.loomAndBench(args[0])
			if err != nil {
				return err
			}
			if take < 1 {
				return fmt.Errorf("--take counts from 1")
			}
			o.Best = max(o.Best, take)
			stop, done := interrupted(cmd.Context())
			defer done()
			o.Stop = stop
			return a.printWired(b, data, b.Wire(args[0], data, o), out, take)
		},
	}
	cmd.Flags().StringVarP(&out, "output", "o", "", "loom file to write (default: standard output)")
	cmd.Flags().StringVar(&o.Scheme, "scheme", "", "control scheme (default: the loom's own, else the first that fits)")
	cmd.Flags().IntVar(&o.Best, "best", 1, "how many wirings to look for; what tells them apart is said")
	cmd.Flags().IntVar(&take, "take", 1, "which of them to write")
	cmd.Flags().BoolVar(&o.HumCancels, "hum-cancels", false, "hum is to cancel wherever two coils sound")
	cmd.Flags().BoolVar(&o.Hanging, "hanging", false, "a silent coil may stay joined to the sound with one end, where it can pick up hum")
	cmd.Flags().IntVar(&o.WiresPerLug, "wires-per-lug", 0, "most wires that a lug may take (default: more than three only where it must be)")
	cmd.Flags().Int64Var(&o.Conflicts, "conflicts", 0, "what the search may spend, in conflicts of the solver (default: the usual)")
	return cmd
}

// interrupted returns a function that reports whether the user has asked to end,
// and one that ends the watch. A second interrupt ends the program.
func interrupted(ctx context.Context) (asked func() bool, done func()) {
	if ctx == nil {
		ctx = context.Background()
	}
	ctx, release := signal.NotifyContext(ctx, os.Interrupt)
	context.AfterFunc(ctx, release)
	return func() bool { return ctx.Err() != nil }, release
}

func (a *app) printWired(b *bench.Bench, data string, w bench.Wired, out string, take int) error {
	if a.json {
		if err := writeJSON(a.streams.Out, w); err != nil {
			return err
		}
		return statusOf(w.Findings)
	}
	a.printFindings(b, w.File, data, w.Findings)
	r := w.Result
	if r.Why != nil {
		printWhy(a.streams.Err, r.Why)
	}
	if take > len(w.Texts) {
		if len(w.Texts) > 0 {
			return fmt.Errorf("there are %s", plural(len(w.Texts), "wiring", "wirings"))
		}
		return errFindings
	}
	printWireWords(a.streams.Err, w, take-1)
	if out == "" || out == "-" {
		fmt.Fprint(a.streams.Out, w.Texts[take-1])
	} else if err := replaceFile(out, w.Texts[take-1]); err != nil {
		return err
	}
	if w.Looms[take-1].Findings.Worst() == diag.Error {
		return errFindings // the proof does not agree with the search: said below the joins
	}
	return nil
}

// printWireWords says what was found and what is proved of it.
func printWireWords(w io.Writer, found bench.Wired, at int) {
	r := found.Result
	wiring := r.Wirings[at]
	fmt.Fprintf(w, "%s, %d of them between parts; controls as in %q\n", plural(wiring.Count, "join", "joins"), wiring.Long, r.Scheme)
	switch {
	case r.CutShort && !r.Smallest:
		fmt.Fprintf(w, "cut short: these are the fewest joins so far; fewer than %d cannot do, whether anything between would is not known\n", r.Bound)
	case r.Smallest && r.ByPart:
		fmt.Fprintln(w, "proved part by part: none of the parts below does with fewer joins on its own")
	case r.Smallest:
		fmt.Fprintln(w, "proved: no wiring has fewer joins")
	default:
		fmt.Fprintf(w, "not proved smallest within the budget: fewer than %d joins cannot do, %d were found\n", r.Bound, wiring.Count)
	}
	for _, c := range r.Covers {
		fmt.Fprintf(w, "  %s\n", c)
	}
	printNoise(w, wiring.Noise)
	for _, c := range wiring.Crowded {
		fmt.Fprintf(w, "  more than three wires at %s\n", c)
	}
	for _, rest := range r.Rests {
		fmt.Fprintf(w, "  taken for granted: %s\n    to settle it: %s\n    %s\n", rest.Takes, rest.Reading, rest.Swap)
	}
	for i, other := range r.Wirings {
		if i != at && len(other.Differs) > 0 {
			fmt.Fprintf(w, "  wiring %d: %s\n", i+1, strings.Join(other.Differs, "; "))
		}
	}
	fmt.Fprintln(w, proofWords(found.Looms[at]))
}

// mostNoise bounds the passages that are listed one by one.
const mostNoise = 8

func printNoise(w io.Writer, noise []synthesis.Noise) {
	for _, n := range noise[:min(mostNoise, len(noise))] {
		fmt.Fprintf(w, "  from %s to %s: %s\n", n.From, n.To, n.Moment)
	}
	if len(noise) > mostNoise {
		fmt.Fprintf(w, "  and %d more passages with a gap, a mute or a pop\n", len(noise)-mostNoise)
	}
}

func proofWords(c bench.Checked) string { return "proved again: " + summary(c) }

// printWhy says why wishes cannot be met, and each way out.
func printWhy(w io.Writer, why *synthesis.Why) {
	fmt.Fprintln(w, "these wishes cannot be met together:")
	for _, c := range why.Conflict {
		fmt.Fprintf(w, "  with %s: %s\n", c.With, c.Hear)
	}
	if why.Rule != "" {
		fmt.Fprintf(w, "  %s takes part\n", why.Rule)
	}
	if why.Hint != "" {
		fmt.Fprintf(w, "  %s\n", why.Hint)
	}
	for _, g := range why.GiveUp {
		fmt.Fprintf(w, "- give up  with %s: %s\n", g.With, g.Hear)
	}
	if len(why.GiveUp) == 0 && len(why.GiveUpAll) > 0 {
		fmt.Fprintln(w, "- giving up any one of them is not enough; all of these given up, the others can be had:")
		for _, g := range why.GiveUpAll {
			fmt.Fprintf(w, "    with %s: %s\n", g.With, g.Hear)
		}
	}
	if len(why.Order) > 0 {
		fmt.Fprintf(w, "- or keep %s and move its sounds: %s\n", why.OrderOf, placedWords(why.Order))
	}
	if s := why.Switch; s != nil {
		fmt.Fprintf(w, "- or take %s (%s) for %s%s\n", s.Part, s.Name, s.For, joinsWords(s))
		if len(s.Order) > 0 {
			fmt.Fprintf(w, "  with the sounds moved: %s\n", placedWords(s.Order))
		}
	}
	for _, l := range why.Loosened {
		fmt.Fprintf(w, "- or allow: %s\n", l)
	}
	if why.Unexplored {
		fmt.Fprintln(w, "the budget ran out before every way out was looked at")
	}
}

// placedWords says which positions get the sounds of which; those that keep
// their own are left out.
func placedWords(ps []synthesis.Placed) string {
	var words []string
	for _, p := range ps {
		if p.Position != p.Gets {
			words = append(words, fmt.Sprintf("at %q what is wanted at %q", p.Position, p.Gets))
		}
	}
	return strings.Join(words, ", ")
}

// joinsWords says how many joins the switching takes with another switch.
func joinsWords(s *synthesis.Another) string {
	if s.Joins == 0 {
		return ""
	}
	return fmt.Sprintf(": %s beside controls and grounds", plural(s.Joins, "join", "joins"))
}
