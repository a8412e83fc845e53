package bench

import (
	"fmt"
	"slices"
	"strings"

	"loomwright/internal/part"
	"loomwright/internal/units"
	"loomwright/internal/wiring"
)

// Assumed says in a sentence what the figures of a loom rest on beside what its
// file states.
func Assumed(g *wiring.Graph) string {
	if g == nil || len(g.Coils) == 0 {
		return ""
	}
	var parts []string
	for _, v := range []struct {
		what string
		of   func(*wiring.Coil) part.Range
	}{
		{"ohms", func(c *wiring.Coil) part.Range { return c.Ohms }},
		{"inductance", func(c *wiring.Coil) part.Range { return c.Henries }},
	} {
		if names := unstated(g, v.of); len(names) > 0 {
			parts = append(parts, fmt.Sprintf("%s of %s", v.what, strings.Join(names, " and ")))
		}
	}
	loud := ""
	if len(g.Coils) > 1 && slices.ContainsFunc(g.Coils, func(c wiring.Coil) bool { return c.Sensitivity == 0 }) {
		loud = " Where no sensitivity is stated, a coil is as loud as its turns let expect, by its inductance (a judgement)."
	}
	into := fmt.Sprintf("into %s of cable and %s of input%s", units.FormatFarads(g.Loom.Cable.X), units.FormatOhms(g.Loom.Input.X), usualWord(g))
	if len(parts) == 0 {
		return "Figures are " + into + "." + loud
	}
	return fmt.Sprintf("Figures take typical values, from memory, for the %s; they are %s.%s", strings.Join(parts, " and the "), into, loud)
}

// usualWord marks cable and input that the file does not state.
func usualWord(g *wiring.Graph) string {
	if g.Loom.Cable.Text == "" || g.Loom.Input.Text == "" {
		return " (usual, where not stated)"
	}
	return ""
}

// unstated names the pickups of which some coil's value is not stated.
func unstated(g *wiring.Graph, of func(*wiring.Coil) part.Range) []string {
	var out []string
	for i := range g.Coils {
		c := &g.Coils[i]
		if name := g.Loom.Uses[c.Use].Name; !of(c).Known && !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	return out
}
