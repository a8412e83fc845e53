// Command stages calls each stage by hand, as the bench does for every face: a
// map of the data flow that compiles.
//
//	go run ./examples/stages examples/twin-coil-split.yaml > split.svg
package main

import (
	"fmt"
	"os"

	"loomwright/internal/build"
	"loomwright/internal/diag"
	"loomwright/internal/drawing"
	"loomwright/internal/electrics"
	"loomwright/internal/loom"
	"loomwright/internal/part"
	"loomwright/internal/place"
	"loomwright/internal/proof"
	"loomwright/internal/setting"
	"loomwright/internal/svg"
	"loomwright/internal/wiring"
	"loomwright/library"
)

func main() {
	if len(os.Args) != 2 {
		fmt.Fprintln(os.Stderr, "usage: stages LOOM.yaml > DRAWING.svg")
		os.Exit(2)
	}
	if err := run(os.Args[1]); err != nil {
		fmt.Fprintln(os.Stderr, "stages:", err)
		os.Exit(1)
	}
}

func run(name string) error {
	data, err := os.ReadFile(name)
	if err != nil {
		return err
	}
	// Text to a loom: every name in it exists in the library.
	parts := part.NewLibrary(part.Shelf{Name: "library", FS: library.Files})
	l, list := loom.Read(diag.NewText(name, string(data)), parts)
	if l == nil {
		return fmt.Errorf("the loom cannot be read: %v", list)
	}
	// A loom to a graph of terminals.
	g, list := wiring.Build(l)
	if list.HasErrors() {
		return fmt.Errorf("the loom has no graph: %v", list)
	}
	// The graph to what is heard in every setting.
	report := proof.Prove(g)
	for _, row := range report.Rows {
		fmt.Fprintf(os.Stderr, "%s: %s\n", row.Name, row.Short)
	}
	// The graph to numbers.
	m, list := electrics.New(g, electrics.Options{})
	if m == nil {
		return fmt.Errorf("the loom has no figures: %v", list)
	}
	var settings []setting.Setting
	for s := range setting.All(g) {
		settings = append(settings, s)
	}
	for _, row := range m.Table(settings, setting.FullUp(g), 0) {
		fmt.Fprintf(os.Stderr, "%s: %+.1f dB\n", row.Setting, row.Level)
	}
	// The graph to an order of work, to places, to a drawing, to a picture.
	steps := build.Order(g).StepOfRun(len(g.Runs))
	plans, _ := place.Lay(g, place.Options{})
	d, _ := drawing.Draw(g, plans, drawing.Options{Steps: steps})
	picture, err := svg.Paint(d.Scene(), svg.Options{})
	if err != nil {
		return err
	}
	_, err = os.Stdout.Write(picture)
	return err
}
