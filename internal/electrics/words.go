package electrics

import (
	"cmp"
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
			texts[i] = bracketed(n.kids[i].words(), &n.kids[i])
		}
		return strings.Join(texts, " + ")
	}
	kids := slices.Clone(n.kids)
	slices.SortStableFunc(kids, func(a, b lump) int { return cmp.Compare(a.ohms, b.ohms) })
	var lead, leads, across []string
	for _, k := range kids {
		text := k.words()
		if k.ohms > 10*kids[0].ohms {
			across = append(across, bracketed(text, &k))
		} else {
			lead = append(lead, text)
			leads = append(leads, bracketed(text, &k))
		}
	}
	switch {
	case len(across) == 0:
		return strings.Join(leads, " beside ")
	case len(lead) == 1:
		return lead[0] + ", " + listed(across) + " across it"
	}
	return strings.Join(leads, " beside ") + ", " + listed(across) + " across them"
}

func bracketed(text string, n *lump) string {
	if len(n.kids) > 0 {
		return "(" + text + ")"
	}
	return text
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
			all = append(all, part{fmt.Sprintf("%s %s", ohmsText(p.ohms.Typical), p.label(d.m.tracks)), d.share(p, a, b)})
		}
	}
	slices.SortStableFunc(all, func(x, y part) int { return cmp.Compare(y.share, x.share) })
	var texts []string
	for _, p := range all[:min(3, len(all))] {
		if p.share > 0.05 {
			texts = append(texts, fmt.Sprintf("%s (%.0f %%)", p.text, 100*p.share))
		}
	}
	return fmt.Sprintf("a mesh, most of it %s: %s", listed(texts), ohmsText(r.Ohms))
}

// label names a resistor: a coil or part by its name, a piece of a track as
// what it is.
func (r *resistor) label(tracks []track) string {
	if r.track < 0 {
		return r.name
	}
	switch {
	case r.ohms.Typical > 0.999*tracks[r.track].ohms.Typical:
		return r.name + " track"
	case r.upper:
		return r.name + " track from wiper to cw"
	}
	return r.name + " track from wiper to ccw"
}
