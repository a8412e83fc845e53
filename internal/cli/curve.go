package cli

import (
	"fmt"

	"github.com/spf13/cobra"

	"loomwright/internal/bench"
	"loomwright/internal/electrics"
	"loomwright/internal/units"
)

func (a *app) curveCommand() *cobra.Command {
	var f standFlags
	var o bench.DrawOptions
	var out string
	cmd := &cobra.Command{
		Use:   "curve FILE",
		Short: "The response at the jack of up to six settings, as a picture or in numbers",
		Long: `Curve works out what reaches the jack at each frequency, with cable and amplifier,
for every setting, or those that --with names (at most six; the first with the band in which
it can lie for all that is not known exactly). With -o it draws them; otherwise
it prints each resonance.

A tone capacitor's corner with its pot is not what is heard: what counts is where
the whole falls, with the coil's inductance, the pots, the cable.`,
		Args: cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			b, data, s, err := a.figures(args[0], &f)
			if err != nil {
				return err
			}
			c, err := b.Curve(args[0], data, s, electrics.Options{})
			if err != nil {
				return err
			}
			return a.printCurves(b, data, c, out, o)
		},
	}
	f.add(cmd)
	cmd.Flags().StringVarP(&out, "output", "o", "", "picture to write: .svg, .pdf or .png")
	cmd.Flags().BoolVar(&o.Grey, "grey", false, "for black-and-white print")
	cmd.Flags().Float64Var(&o.DPI, "dpi", 150, "dots per inch of a PNG")
	return cmd
}

func (a *app) printCurves(b *bench.Bench, data string, c bench.Curves, out string, o bench.DrawOptions) error {
	a.printFindings(b, c.File, data, c.Findings)
	switch {
	case out != "" && len(c.Rows) > 0:
		var err error
		if o.Format, err = pictureFormat(out); err != nil {
			return err
		}
		picture, err := c.Picture(o)
		if err != nil {
			return err
		}
		if err := replaceFile(out, string(picture)); err != nil {
			return err
		}
	case a.json:
		if err := writeJSON(a.streams.Out, c); err != nil {
			return err
		}
	case len(c.Rows) > 0:
		printTable(a.streams.Out, curveTable(c))
	}
	return statusOf(c.Findings)
}

func curveTable(c bench.Curves) [][]string {
	rows := [][]string{{"setting", "output", "resonance", "peak", "treble falls to -3 dB"}}
	for _, r := range c.Rows {
		row := []string{r.Setting, string(r.Curve.Output), "none", "", ""}
		if p := r.Curve.Peak; p != nil {
			row[2], row[3] = units.FormatHertz(units.Round(p.Hz, 3)), fmt.Sprintf("%+.1f dB", p.DB)
			if p.Fall > 0 {
				row[4] = units.FormatHertz(units.Round(p.Fall, 3))
			}
		}
		rows = append(rows, row)
	}
	return rows
}
