package cli

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"loomwright/internal/bench"
	"loomwright/internal/diag"
	"loomwright/internal/part"
)

func (a *app) partsCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "parts [PART...]",
		Short: "List the parts and lead codes, or explain some",
		Long: `Parts lists every part in the library and on your shelf. With names it explains
those: terminals and how to find them, what a switch joins in each position, what
is inside. A part of your own is a file like those: put it on your shelf as
<class>/<name>.yaml. Lead codes lie in codes/.`,
		Example: "  loomwright parts\n  loomwright parts switch/lever-5way codes/dunlin",
		RunE: func(_ *cobra.Command, ids []string) error {
			b, err := a.bench()
			if err != nil {
				return err
			}
			if len(ids) == 0 {
				return a.listParts(b)
			}
			return a.explainParts(b, ids)
		},
	}
}

func (a *app) listParts(b *bench.Bench) error {
	lines, list := b.Parts()
	for _, d := range list {
		printSnippet(a.streams.Err, b.TextOf(d.Span.File), d)
	}
	if a.json {
		if err := writeJSON(a.streams.Out, lines); err != nil {
			return err
		}
	} else {
		rows := [][]string{{"part", "what it is"}}
		for _, l := range lines {
			rows = append(rows, []string{l.ID, l.Name})
		}
		printTable(a.streams.Out, rows)
	}
	if list.HasErrors() {
		return errFindings
	}
	return nil
}

func (a *app) explainParts(b *bench.Bench, ids []string) error {
	var all diag.List
	for i, id := range ids {
		if i > 0 {
			fmt.Fprintln(a.streams.Out)
		}
		all = append(all, a.explainOne(b, id)...)
	}
	for _, d := range all {
		printSnippet(a.streams.Err, b.TextOf(d.Span.File), d)
	}
	if all.HasErrors() {
		return errFindings
	}
	return nil
}

func (a *app) explainOne(b *bench.Bench, id string) diag.List {
	if code, ok := strings.CutPrefix(id, "codes/"); ok {
		c, list := b.Code(code)
		if c != nil {
			a.printCode(c)
		}
		return list
	}
	p, list := b.Part(id)
	switch {
	case p == nil:
	case a.json:
		_ = writeJSON(a.streams.Out, p)
	default:
		a.printPart(p)
	}
	return list
}

func (a *app) printCode(c *part.Code) {
	if a.json {
		_ = writeJSON(a.streams.Out, c)
		return
	}
	fmt.Fprintf(a.streams.Out, "codes/%s\n%s\n\n", c.Name, c.About)
	rows := [][]string{{"lead", "coil end"}}
	for _, l := range c.Leads {
		end := strings.Join(l.Ends, ", ")
		if l.Unknown {
			end = "unknown"
		}
		rows = append(rows, []string{l.Name, end})
	}
	printTable(a.streams.Out, rows)
	for _, in := range c.Inside {
		fmt.Fprintf(a.streams.Out, "\n  joined inside, without a lead: %s\n", strings.Join(in, ", "))
	}
}

func (a *app) printPart(p *part.Part) {
	w := a.streams.Out
	fmt.Fprintf(w, "%s: %s\n", p.ID, p.Name)
	for _, s := range []struct{ head, text string }{{"", p.About}, {"facts: ", p.Source}, {"confirm: ", p.Confirm}} {
		if s.text != "" {
			fmt.Fprintf(w, "%s%s\n", s.head, s.text)
		}
	}
	fmt.Fprintln(w)
	rows := [][]string{{"terminal", "kind", "how to find it", "seen from"}}
	for _, t := range p.Terminals {
		rows = append(rows, []string{t.Name, t.Kind, t.Words, t.View})
	}
	printTable(w, rows)
	for i := range p.Switches {
		fmt.Fprintln(w)
		printTable(w, ContactTable(p, &p.Switches[i]))
		fmt.Fprintf(w, "\n  travel: %s\n", travelWords(&p.Switches[i]))
	}
	for _, line := range inside(p) {
		fmt.Fprintf(w, "  %s\n", line)
	}
}

// ContactTable shows what a switch joins: a row per position, a column per pole.
func ContactTable(p *part.Part, s *part.Switch) [][]string {
	head := []string{"position", "what you see"}
	for _, pole := range s.Poles {
		head = append(head, "pole "+pole.Name)
	}
	rows := [][]string{head}
	for i, pos := range s.Positions {
		row := []string{pos.Name, pos.Words}
		for _, pole := range s.Poles {
			row = append(row, groups(p, pole.Contacts[i]))
		}
		rows = append(rows, row)
	}
	return rows
}

func groups(p *part.Part, gs [][]int) string {
	var out []string
	for _, g := range gs {
		var names []string
		for _, t := range g {
			names = append(names, p.Terminals[t].Name)
		}
		out = append(out, strings.Join(names, " + "))
	}
	if len(out) == 0 {
		return "nothing"
	}
	return strings.Join(out, "; ")
}

func travelWords(s *part.Switch) string {
	words := map[part.Travel]string{part.BreakFirst: "breaks before it makes", part.MakeFirst: "makes before it breaks",
		part.UnknownTravel: "not known, proved both ways"}[s.Travel]
	if s.Skew && len(s.Poles) > 1 {
		words += "; poles may move one after the other"
	}
	return words
}

// inside tells in a line each what is between terminals.
func inside(p *part.Part) []string {
	name := func(t int) string { return p.Terminals[t].Name }
	var out []string
	for _, c := range p.Coils {
		out = append(out, fmt.Sprintf("coil %s: start %s, finish %s", c.Name, name(c.Start), name(c.Finish)))
	}
	if len(p.Coils) > 1 {
		out = append(out, "customary full sound: "+p.Full.String())
	}
	for _, t := range p.Tracks {
		out = append(out, fmt.Sprintf("track: cw %s, wiper %s, ccw %s", name(t.CW), name(t.Wiper), name(t.CCW)))
	}
	for _, c := range p.Capacitors {
		out = append(out, fmt.Sprintf("capacitor %s: between %s and %s", c.Name, name(c.A), name(c.B)))
	}
	for _, c := range p.Resistors {
		out = append(out, fmt.Sprintf("resistor %s: between %s and %s", c.Name, name(c.A), name(c.B)))
	}
	for _, tie := range p.Ties {
		var names []string
		for _, t := range tie {
			names = append(names, name(t))
		}
		out = append(out, "one piece of metal: "+strings.Join(names, ", "))
	}
	return out
}
