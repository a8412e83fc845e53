package cli

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"loomwright/internal/bench"
	"loomwright/internal/diag"
)

func (a *app) drawCommand() *cobra.Command {
	var o bench.DrawOptions
	var out, grounds, keep string
	var circuit, only bool
	cmd := &cobra.Command{
		Use:   "draw FILE",
		Short: "Draw a loom to scale from the solder side, or its circuit diagram (SVG, PDF or PNG)",
		Long: `Draw places the parts to scale, as seen from the solder side, and routes every
wire in a lane of its own, with its colour and solder step at both ends. The
ending of the -o file picks the format: .svg, .pdf or .png.

Drawn again after a change, a loom is laid out anew, and may look quite different.
--keep FILE keeps the places and lanes of this drawing in FILE, and leaves those
that FILE has where they were: one more join then moves no other wire unless it
must. The first time, FILE need not be there. To lay out anew, remove it; to move a
part, write place: in the loom file.

--circuit draws the circuit diagram instead: what is joined to what, in symbols,
with the contacts in the setting of --with (the first when none is named). With
--only it is what that setting leaves of it, closed contacts as wire.`,
		Example: "  loomwright draw guitar.yaml -o guitar.pdf --page a4\n  loomwright draw guitar.yaml --with \"lever neck\" -o neck.svg\n" +
			"  loomwright draw guitar.yaml -o guitar.svg --keep guitar.drawing.json\n" +
			"  loomwright draw guitar.yaml --circuit --with \"lever neck\" -o circuit.pdf",
		Args: cobra.ExactArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			b, err := a.bench()
			if err != nil {
				return err
			}
			if o.Format, err = pictureFormat(out); err != nil {
				return err
			}
			if circuit {
				return a.drawCircuit(b, args[0], out, only, o)
			}
			if only {
				return errors.New("--only goes with --circuit")
			}
			o.Marks = grounds == "marks"
			return a.draw(b, args[0], out, keep, o)
		},
	}
	cmd.Flags().StringVarP(&out, "output", "o", "", "file to write (default: SVG on standard output)")
	cmd.Flags().StringVar(&keep, "keep", "", "file that keeps places and lanes from drawing to drawing")
	cmd.Flags().StringVar(&o.With, "with", "", `light the live path of a setting: "lever neck"; with --circuit, its contacts`)
	cmd.Flags().BoolVar(&circuit, "circuit", false, "the circuit diagram")
	cmd.Flags().BoolVar(&only, "only", false, "with --circuit: only what one setting leaves of it")
	cmd.Flags().BoolVar(&o.Front, "front", false, "mirrored, as seen through the guitar from the front")
	cmd.Flags().Var(choice(&grounds, "wires", "wires", "marks"), "grounds", "grounds between cases as wires or as marks")
	cmd.Flags().Var(choice(&o.Page, "", "", "a4", "letter"), "page", "page: a4 or letter (default: as large as the loom)")
	cmd.Flags().BoolVar(&o.Grey, "grey", false, "for black-and-white print")
	cmd.Flags().Float64Var(&o.DPI, "dpi", 150, "dots per inch of a PNG")
	for _, other := range []string{"keep", "front", "grounds", "page"} {
		cmd.MarkFlagsMutuallyExclusive("circuit", other)
	}
	return cmd
}

func pictureFormat(file string) (bench.PictureFormat, error) {
	switch strings.ToLower(filepath.Ext(file)) {
	case ".svg", "":
		return bench.SVG, nil
	case ".pdf":
		return bench.PDF, nil
	case ".png":
		return bench.PNG, nil
	}
	return "", fmt.Errorf("%s: pictures end in .svg, .pdf or .png", file)
}

func (a *app) draw(b *bench.Bench, name, out, keep string, o bench.DrawOptions) error {
	data, err := a.read(name)
	if err != nil {
		return err
	}
	if o.Earlier, err = a.earlier(keep); err != nil {
		return err
	}
	d, err := b.Draw(name, data, o)
	if err != nil {
		return err
	}
	a.printDrawn(b, name, data, o.Earlier, d.Findings)
	if err := a.writePicture(out, d); err != nil || keep == "" {
		return err
	}
	return replaceFile(keep, string(d.Kept))
}

func (a *app) drawCircuit(b *bench.Bench, name, out string, only bool, o bench.DrawOptions) error {
	data, err := a.read(name)
	if err != nil {
		return err
	}
	d, err := b.DrawCircuit(name, data, only, o)
	if err != nil {
		return err
	}
	a.printFindings(b, name, data, d.Findings)
	return a.writePicture(out, d)
}

// writePicture writes what could be drawn to a file or to standard output.
func (a *app) writePicture(out string, d bench.Drawn) error {
	switch {
	case d.Picture == nil:
		return errFindings
	case out == "" || out == "-":
		_, err := a.streams.Out.Write(d.Picture)
		return err
	}
	return replaceFile(out, string(d.Picture))
}

// earlier reads what an earlier drawing left in a file; nil when there is none.
func (a *app) earlier(name string) (*bench.Earlier, error) {
	if name == "" {
		return nil, nil
	}
	if name == "-" {
		return nil, errors.New("--keep needs a file: it is read and written")
	}
	if _, err := os.Stat(name); errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	data, err := a.read(name)
	return &bench.Earlier{Name: name, Data: data}, err
}

// printDrawn prints findings about the loom, and about the earlier drawing.
func (a *app) printDrawn(b *bench.Bench, name, data string, e *bench.Earlier, l diag.List) {
	var loom diag.List
	for _, d := range l {
		if e != nil && d.Span.File == e.Name {
			printSnippet(a.streams.Err, diag.NewText(e.Name, e.Data), d)
			continue
		}
		loom = append(loom, d)
	}
	a.printFindings(b, name, data, loom)
}

// choiceValue is a flag that takes one of a few words.
type choiceValue struct {
	at    *string
	words []string
}

func choice(at *string, first string, words ...string) *choiceValue {
	*at = first
	return &choiceValue{at, words}
}

func (c *choiceValue) String() string {
	if c.at == nil {
		return ""
	}
	return *c.at
}

func (c *choiceValue) Type() string { return strings.Trim(strings.Join(c.words, "|"), "|") }

// Set takes one of the words.
func (c *choiceValue) Set(word string) error {
	for _, w := range c.words {
		if w == word {
			*c.at = word
			return nil
		}
	}
	return fmt.Errorf("it is one of %s", strings.Join(slices.DeleteFunc(slices.Clone(c.words), func(w string) bool { return w == "" }), ", "))
}
