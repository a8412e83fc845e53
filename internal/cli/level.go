package cli

import (
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"loomwright/internal/bench"
	"loomwright/internal/diag"
	"loomwright/internal/electrics"
)

// standFlags adds the flags that say where switches and knobs stand.
type standFlags struct {
	with  string
	knobs []string
}

func (f *standFlags) add(cmd *cobra.Command) {
	cmd.Flags().StringVar(&f.with, "with", "", `positions, in words: "lever middle, volume pulled" (default: every setting)`)
	cmd.Flags().StringArrayVar(&f.knobs, "knob", nil, "a knob's mark from 0 to 10: volume=5 (default: 10; may be given again)")
}

func (f *standFlags) stand() (bench.Stand, error) {
	s := bench.Stand{With: f.with, Knobs: map[string]float64{}}
	for _, k := range f.knobs {
		name, mark, ok := strings.Cut(k, "=")
		x, err := strconv.ParseFloat(mark, 64)
		if !ok || err != nil || math.IsNaN(x) {
			return s, fmt.Errorf("--knob %s: write it as volume=5", k)
		}
		s.Knobs[name] = x
	}
	return s, nil
}

func (a *app) levelCommand() *cobra.Command {
	var f standFlags
	var over string
	var noise, bands bool
	cmd := &cobra.Command{
		Use:   "level FILE",
		Short: "Level, brightness, resonance and hum of every setting",
		Long: `Level prints a table of settings in numbers: ohms at the jack, level (A-weighted,
of plucked open strings) over a chosen setting, brightness (the level above 2 kHz
over the whole), the resonance with cable and amplifier, and the hum index (hum
over string signal; 0 dB is an ordinary single coil that is as loud).

Ohms are not output: a quarter of the ohms is half of the volts, about -6 dB.`,
		Args: cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			b, data, s, err := a.figures(args[0], &f)
			if err != nil {
				return err
			}
			out, err := b.Level(args[0], data, s, over, bands, electrics.Options{Noise: noise})
			if err != nil {
				return err
			}
			return a.printLevels(b, data, out, noise)
		},
	}
	f.add(cmd)
	cmd.Flags().StringVar(&over, "over", "", "setting that levels are over (default: the first that sounds)")
	cmd.Flags().BoolVar(&bands, "bands", false, "show where each figure can lie, for all that is not known exactly")
	cmd.Flags().BoolVar(&noise, "noise", false, "work out thermal noise too")
	return cmd
}

// figures reads what the commands with numbers start from.
func (a *app) figures(name string, f *standFlags) (*bench.Bench, string, bench.Stand, error) {
	s, err := f.stand()
	if err != nil {
		return nil, "", s, err
	}
	b, err := a.bench()
	if err != nil {
		return nil, "", s, err
	}
	data, err := a.read(name)
	return b, data, s, err
}

func (a *app) printLevels(b *bench.Bench, data string, l bench.Levels, noise bool) error {
	if a.json {
		if err := writeJSON(a.streams.Out, l); err != nil {
			return err
		}
		return statusOf(l.Findings)
	}
	if len(l.Rows) > 0 {
		if l.Title != "" {
			fmt.Fprintln(a.streams.Out, l.Title)
		}
		if l.Over != "" {
			fmt.Fprintf(a.streams.Out, "levels over %s\n", l.Over)
		}
		fmt.Fprintln(a.streams.Out)
		printTable(a.streams.Out, bench.LevelCells(l, noise))
		printNote(a.streams.Out, l.Assumed)
		for _, n := range l.Notes {
			printNote(a.streams.Out, n.Text)
		}
	}
	a.printFindings(b, l.File, data, l.Findings)
	return statusOf(l.Findings)
}

// printNote prints a sentence that corrects an easy misreading.
func printNote(w io.Writer, text string) {
	fmt.Fprintln(w)
	for _, line := range wrap(text, 90) {
		fmt.Fprintf(w, "  %s\n", line)
	}
}

// printFindings prints findings on standard error, with the lines they stand on.
func (a *app) printFindings(b *bench.Bench, name, data string, l diag.List) {
	c := bench.Checked{File: name, Text: diag.NewText(name, data)}
	for _, d := range l {
		if d.Severity > diag.Info {
			printSnippet(a.streams.Err, textOf(b, c, d), d)
		}
	}
}

// statusOf is the exit status of findings: 1 from a warning on.
func statusOf(l diag.List) error {
	if l.Worst() > diag.Info {
		return errFindings
	}
	return nil
}

func (a *app) ohmsCommand() *cobra.Command {
	var f standFlags
	var auto bool
	cmd := &cobra.Command{
		Use:   "ohms FILE TERMINAL TERMINAL",
		Short: "What a meter reads between two terminals",
		Long: `Ohms prints, for each setting, the resistance between two terminals: nominal,
the interval that it lies in if every part is within its tolerance, and what a
meter shows. Unplug the amplifier; zero the meter's leads first; fingers off the
probes.`,
		Example: "  loomwright ohms guitar.yaml jack.tip jack.sleeve --with \"lever middle\"",
		Args:    cobra.ExactArgs(3),
		RunE: func(_ *cobra.Command, args []string) error {
			b, data, s, err := a.figures(args[0], &f)
			if err != nil {
				return err
			}
			meter := electrics.Plain()
			if auto {
				meter = electrics.AutoRanging()
			}
			out, err := b.Ohms(args[0], data, s, args[1], args[2], meter, electrics.Options{})
			if err != nil {
				return err
			}
			return a.printOhms(b, data, out)
		},
	}
	f.add(cmd)
	cmd.Flags().BoolVar(&auto, "auto", false, "a meter that finds its range, of 6000 counts (default: 2000 counts with a range switch)")
	return cmd
}

func (a *app) printOhms(b *bench.Bench, data string, m bench.Measured) error {
	if a.json {
		if err := writeJSON(a.streams.Out, m); err != nil {
			return err
		}
		return statusOf(m.Findings)
	}
	rows := [][]string{{"setting", "what the meter shows, and why"}}
	for _, l := range m.Rows {
		rows = append(rows, []string{l.Setting, l.Shown.Words})
	}
	if len(m.Rows) > 0 {
		printTable(a.streams.Out, rows)
	}
	a.printFindings(b, m.File, data, m.Findings)
	return statusOf(m.Findings)
}
