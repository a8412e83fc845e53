package electrics

import (
	"fmt"
	"slices"
	"strings"

	"loomwright/internal/units"
)

// lump is a two-terminal network: one part, or networks in series or parallel.
type lump struct {
	name  string
	ohms  float64
	track int // of a half track: its index; −1: none
	kids  []lump
	row   bool // kids are in series
}

// words puts a reading into one sentence.
func (d *DC) words(r *Reading, a, b int) string {
	switch r.Verdict {
	case Joined:
		return "joined: a meter shows no more than its leads"
	case Apart:
		return "open: nothing joins them"
	case Blocked:
		return fmt.Sprintf("open to a meter: only %s lies between them, and a capacitor passes no direct current", listed(r.Through))
	}
	n, ok := d.reduce(a, b)
	if !ok {
		return d.sharedWords(r, a, b)
	}
	if len(n.kids) == 0 {
		return fmt.Sprintf("%s: %s", n.words(), n.sized())
	}
	return fmt.Sprintf("%s: %s", n.words(), ohmsText(r.Ohms))
}

func ohmsText(x float64) string { return units.FormatOhms(units.Round(x, 3)) }

func (n *lump) sized() string { return ohmsText(n.ohms) }

// words names the parts: "8 kΩ bridge, 500 kΩ volume track across it".
func (n *lump) words() string {
	switch {
	case len(n.kids) == 0:
		return ohmsText(n.ohms) + " " + n.name
	case n.row:
		texts := make([]string, len(n.kids))
		for i := range n.kids {
			if texts[i] = n.kids[i].words(); len(n.kids[i].kids) > 0 {
				texts[i] = "(" + texts[i] + ")"
			}
		}
		return strings.Join(texts, " + ")
	}
	kids := slices.Clone(n.kids)
	slices.SortStableFunc(kids, func(a, b lump) int { return compare(a.ohms, b.ohms) })
	first := kids[0].words()
	var others []string
	for _, k := range kids[1:] {
		text := k.words()
		if len(k.kids) > 0 {
			text = "(" + text + ")"
		}
		others = append(others, text)
	}
	if kids[1].ohms < 3*kids[0].ohms { // no one of them leads
		return first + " beside " + listed(others)
	}
	return first + ", " + listed(others) + " across it"
}

func compare(a, b float64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// listed is "a", "a and b", "a, b and c".
func listed(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}

// sharedWords names what most of the reading comes from, where the parts are
// neither in series nor in parallel.
func (d *DC) sharedWords(r *Reading, a, b int) string {
	type part struct {
		text  string
		share float64
	}
	var all []part
	for i := range d.parts {
		p := &d.parts[i]
		if d.node[a] >= 0 && d.node[b] >= 0 {
			all = append(all, part{fmt.Sprintf("%s %s", ohmsText(p.ohms.Typical), p.label()), d.share(p, a, b)})
		}
	}
	slices.SortStableFunc(all, func(x, y part) int { return compare(y.share, x.share) })
	var texts []string
	for _, p := range all[:min(3, len(all))] {
		if p.share > 0.05 {
			texts = append(texts, fmt.Sprintf("%s (%.0f %%)", p.text, 100*p.share))
		}
	}
	return fmt.Sprintf("a mesh, most of it %s: %s", listed(texts), ohmsText(r.Ohms))
}

// label names a resistor: a coil or part by its name, half a track as what it is.
func (r *resistor) label() string {
	switch {
	case r.track >= 0 && r.upper:
		return r.name + " track from wiper to cw"
	case r.track >= 0:
		return r.name + " track from wiper to ccw"
	}
	return r.name
}
