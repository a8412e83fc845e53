package cli

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"loomwright/internal/bench"
	"loomwright/internal/meter"
)

// meterFlags say how readings are taken.
type meterFlags struct {
	access string
	meter  string
}

func (f *meterFlags) add(cmd *cobra.Command) {
	cmd.Flags().Var(choice(&f.access, "open", "open", "outside"), "access", "open: probes anywhere in the cavity; outside: the jack only")
	cmd.Flags().StringVar(&f.meter, "meter", "", fmt.Sprintf("your meter: %s, or meters/NAME.yaml on your shelf", strings.Join(bench.Meters(), ", ")))
}

func (f *meterFlags) options(b *bench.Bench) (meter.Options, error) {
	o := meter.Options{Access: meter.Open}
	if f.access == "outside" {
		o.Access = meter.Outside
	}
	if f.meter == "" {
		return o, nil
	}
	m, list := b.Meter(f.meter)
	if list.HasErrors() {
		return o, fmt.Errorf("%s%s", list[0].Message, didYouMean(f.meter, bench.Meters()))
	}
	o.Meter = &m
	return o, nil
}

func (a *app) meterCommand() *cobra.Command {
	var f meterFlags
	var when string
	var limits bool
	cmd := &cobra.Command{
		Use:   "meter FILE",
		Short: "The fewest readings that prove a loom right, and what each should show",
		Long: `Meter lists readings in the order to take them: where the switches and knobs
stand, where the probes go, the range, what the meter shows on a right loom with
its tolerances, and what each reading rules out. It says what no reading can show.

--when finished   the whole loom (the usual)
--when stages     the half-built loom, after each stage of soldering
--when sending    a loom without pickups, before it is sent`,
		Args: cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			b, err := a.bench()
			if err != nil {
				return err
			}
			data, err := a.read(args[0])
			if err != nil {
				return err
			}
			o, err := f.options(b)
			if err != nil {
				return err
			}
			return a.printReadings(b, data, b.Readings(args[0], data, bench.When(when), o), limits)
		},
	}
	f.add(cmd)
	cmd.Flags().BoolVar(&limits, "limits", false, "list what no reading shows or tells apart, and why")
	cmd.Flags().Var(choice(&when, "finished", "finished", "stages", "sending"), "when", "finished, stages or sending")
	return cmd
}

func (a *app) printReadings(b *bench.Bench, data string, r bench.Readings, limits bool) error {
	if a.json {
		if err := writeJSON(a.streams.Out, r); err != nil {
			return err
		}
		return statusOf(r.Findings)
	}
	w := a.streams.Out
	if r.Title != "" {
		fmt.Fprintf(w, "%s\n", r.Title)
	}
	for i := range r.Lists {
		printProof(w, &r.Lists[i], limits)
	}
	for _, g := range r.Alike {
		if !limits {
			break
		}
		printNote(w, fmt.Sprintf("No reading here surely tells apart: %s. %s", strings.Join(g.Faults, "; "), g.Why))
	}
	for _, add := range r.Add {
		fmt.Fprintf(w, "\n  with %s: %d of %d faults show\n", add.Added, add.Shown, add.Of)
	}
	a.printFindings(b, r.File, data, r.Findings)
	return statusOf(r.Findings)
}

// printProof prints one list of readings with its preparations and limits.
func printProof(w io.Writer, p *meter.Proof, limits bool) {
	if p.Name != "" {
		fmt.Fprintf(w, "\nAfter: %s\n", p.Name)
	}
	for _, line := range p.Before {
		fmt.Fprintf(w, "  - %s\n", line)
	}
	rows := [][]string{{"", "do", "a right loom shows", "rules out"}}
	for i := range p.Lines {
		l := &p.Lines[i]
		rows = append(rows, []string{fmt.Sprint(i + 1), l.Do, showsCell(l), strings.Join(short(l.RulesOut, 3), "; ")})
	}
	fmt.Fprintln(w)
	if len(p.Lines) > 0 {
		printTable(w, rows)
	}
	words := "a short list"
	if p.Shortest {
		words = "no shorter list shows as much"
	}
	fmt.Fprintf(w, "\n  these %s show %d of %d faults that can be (%s)\n", plural(len(p.Lines), "reading", "readings"), p.Shown, p.Faults, words)
	if !limits && len(p.Missed) > 0 {
		fmt.Fprintf(w, "  %s show in no reading (--limits lists them, and why)\n", plural(len(p.Missed), "fault", "faults"))
		return
	}
	for _, m := range p.Missed {
		fmt.Fprintf(w, "  not shown: %s: %s\n", m.Fault, m.Why)
	}
}

func showsCell(l *meter.Line) string {
	if l.Lo == "" {
		return l.Shows
	}
	return fmt.Sprintf("%s (%s to %s, %s range)", l.Shows, l.Lo, l.Hi, l.Range)
}

// short keeps the first few of a list and says how many more there are.
func short(list []string, n int) []string {
	if len(list) <= n {
		return list
	}
	return append(append([]string(nil), list[:n]...), fmt.Sprintf("and %d more", len(list)-n))
}
