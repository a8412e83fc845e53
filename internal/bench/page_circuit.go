//go:build !js || paper

package bench

import (
	"errors"

	"loomwright/internal/diag"
	"loomwright/internal/schematic"
	"loomwright/internal/setting"
)

// Circuitry is a circuit diagram for the page, and what is said below it.
type Circuitry struct {
	SVG   string   `json:"svg"`
	Notes []string `json:"notes"`
}

// Circuit draws the circuit diagram of a loom with a.With: of the whole loom
// with its contacts in that setting, or, with a.Only, only what that setting
// leaves of it. The error is a usage error.
func (b *Bench) Circuit(a Ask) (Circuitry, error) {
	out := Circuitry{Notes: []string{}}
	g, _, _ := b.graph(diag.NewText(a.Name, a.Text))
	if g == nil {
		return out, nil
	}
	match, err := setting.Match(g, a.With)
	switch {
	case err != nil:
		return out, err
	case len(match) == 0:
		return out, errors.New("this loom has no such setting")
	}
	draw := schematic.Whole
	if a.Only {
		draw = schematic.Setting
	}
	c := draw(g, match[0])
	picture, err := paint(c.Scene, DrawOptions{Format: a.Kind})
	out.SVG, out.Notes = string(picture), append(out.Notes, c.Notes...)
	return out, err
}
