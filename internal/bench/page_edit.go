package bench

import (
	"fmt"
	"slices"
	"strings"

	"loomwright/internal/diag"
	"loomwright/internal/wiring"
)

// Join adds a run between two terminals to the text of a loom, in its canonical
// layout; comments stay. The error is in a user's words.
func (b *Bench) Join(name, data, from, to string) (string, error) {
	g, err := b.readable(name, data)
	if err != nil {
		return "", err
	}
	a, okA := g.Find(from)
	z, okZ := g.Find(to)
	switch {
	case !okA || !okZ:
		return "", fmt.Errorf("this loom has no terminal %q", map[bool]string{true: to, false: from}[okA])
	case a == z:
		return "", fmt.Errorf("%s and %s are one terminal", from, to)
	case slices.ContainsFunc(g.Runs, func(r wiring.Run) bool { return r.A == a && r.B == z || r.A == z && r.B == a }):
		return "", fmt.Errorf("%s and %s are joined already", from, to)
	}
	lines := withJoin(g, strings.Split(data, "\n"), fmt.Sprintf("%s -- %s", g.Terms[a].Name, g.Terms[z].Name))
	return b.edited(name, lines, len(g.Runs)+1)
}

// Cut takes one run out of the text of a loom.
func (b *Bench) Cut(name, data string, run int) (string, error) {
	g, err := b.readable(name, data)
	if err != nil {
		return "", err
	}
	if run < 0 || run >= len(g.Runs) {
		return "", fmt.Errorf("this loom has no run %d", run)
	}
	lines, err := withoutRun(g, strings.Split(data, "\n"), run)
	if err != nil {
		return "", err
	}
	return b.edited(name, lines, len(g.Runs)-1)
}

// readable is the graph of a loom that can be edited by its terminals.
func (b *Bench) readable(name, data string) (*wiring.Graph, error) {
	g, _, list := b.graph(diag.NewText(name, data))
	if g == nil {
		for _, d := range list {
			if d.Severity == diag.Error {
				return nil, fmt.Errorf("the text cannot be read yet: line %d: %s", d.Span.Start.Line, d.Message)
			}
		}
		return nil, fmt.Errorf("the text cannot be read yet")
	}
	return g, nil
}

// edited lays changed lines out, and holds the result against the runs that it
// should have.
func (b *Bench) edited(name string, lines []string, runs int) (string, error) {
	out, list := b.Format(name, strings.Join(lines, "\n"))
	if !list.HasErrors() {
		if g, _, _ := b.graph(diag.NewText(name, out)); g != nil && len(g.Runs) == runs {
			return out, nil
		}
	}
	return "", fmt.Errorf("this line is written in a way that only the text can change")
}

// withJoin puts a new line behind the last join.
func withJoin(g *wiring.Graph, lines []string, join string) []string {
	if n := len(g.Loom.Joins); n > 0 {
		last := g.Loom.Joins[n-1].Span
		at := last.End.Line - 1
		first := lines[last.Start.Line-1]
		indent := first[:len(first)-len(strings.TrimLeft(first, " "))]
		return slices.Insert(lines, at+1, indent+"- "+join)
	}
	for i, line := range lines {
		if rest, ok := strings.CutPrefix(line, "joins:"); ok {
			rest, _, _ = strings.Cut(rest, "#")
			if r := strings.TrimSpace(rest); r == "" || r == "[]" {
				lines[i] = "joins:"
				return slices.Insert(lines, i+1, "  - "+join)
			}
		}
	}
	for i, line := range lines {
		if strings.HasPrefix(line, "sounds:") {
			return slices.Insert(lines, i, "joins:", "  - "+join)
		}
	}
	return append(lines, "joins:", "  - "+join)
}

// withoutRun takes one run out of its line, or the line out with its only run.
func withoutRun(g *wiring.Graph, lines []string, run int) ([]string, error) {
	r := g.Runs[run]
	join := g.Loom.Joins[r.Join]
	first, last := join.Span.Start.Line-1, join.Span.End.Line-1
	if len(join.Runs) == 1 {
		lines = slices.Delete(lines, first, last+1)
		if len(g.Loom.Joins) == 1 {
			return emptyJoins(lines), nil
		}
		return lines, nil
	}
	if first != last {
		return nil, fmt.Errorf("this join is written over several lines: change it in the text")
	}
	index := run
	for k := range g.Runs[:run] {
		if g.Runs[k].Join != r.Join {
			index--
		}
	}
	gone := join.Runs[index]
	many := gone.A // of "a, b -- c", the side that lists several
	if join.Runs[0].A.Span == join.Runs[1].A.Span {
		many = gone.B
	}
	lines[first] = withoutName(lines[first], many.Span)
	return lines, nil
}

// withoutName takes a name and one comma beside it out of a list of names.
func withoutName(line string, at diag.Span) string {
	runes := []rune(line)
	before, after := string(runes[:at.Start.Col-1]), string(runes[at.End.Col-1:])
	if rest, ok := strings.CutPrefix(strings.TrimLeft(after, " "), ","); ok {
		return before + strings.TrimLeft(rest, " ")
	}
	before = strings.TrimSuffix(strings.TrimRight(before, " "), ",")
	return before + " " + strings.TrimLeft(after, " ")
}

// emptyJoins leaves the key with an empty list.
func emptyJoins(lines []string) []string {
	for i, line := range lines {
		if strings.HasPrefix(line, "joins:") {
			lines[i] = "joins: []"
		}
	}
	return lines
}
