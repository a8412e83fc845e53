package bench

import (
	"fmt"
	"slices"
	"strings"

	"loomwright/internal/part"
)

// Exchange puts another part in the place of a switch, or the same one again,
// and moves what is wanted along: order says which position gets what was asked
// of which, by its old name; what it leaves out goes by place. The error is in a
// user's words.
func (b *Bench) Exchange(name, data, use, id string, order map[string]string) (string, error) {
	g, err := b.readable(name, data)
	if err != nil {
		return "", err
	}
	u, ok := g.Loom.Use(use)
	if !ok {
		return "", fmt.Errorf("this loom has no part %q", use)
	}
	old, fresh := g.Loom.Uses[u].Part, g.Loom.Uses[u].Part
	if id != old.ID {
		if fresh, _ = b.Library.Part(id); fresh == nil {
			return "", fmt.Errorf("no part is called %q", id)
		}
	}
	to, err := carried(old, fresh, order)
	if err != nil {
		return "", fmt.Errorf("%s cannot take the place of %s: %w", fresh.Name, use, err)
	}
	lines := strings.Split(data, "\n")
	for i := range g.Loom.Sounds {
		s := &g.Loom.Sounds[i]
		with := withText(lines, s)
		if with == "" {
			continue
		}
		clauses := strings.Split(with, ", ")
		for k, c := range clauses {
			if position, ok := to[strings.TrimPrefix(c, use+" ")]; ok && strings.HasPrefix(c, use+" ") {
				clauses[k] = use + " " + position
			}
		}
		line := []rune(lines[s.WithSpan.Start.Line-1])
		lines[s.WithSpan.Start.Line-1] = string(line[:s.WithSpan.Start.Col-1]) + yamlWord(strings.Join(clauses, ", ")) + string(line[s.WithSpan.End.Col-1:])
	}
	return b.setFields(name, strings.Join(lines, "\n"), use, []Field{{"is", id}})
}

// carried are the positions of a new switch by those of an old one.
func carried(old, fresh *part.Part, order map[string]string) (map[string]string, error) {
	if len(old.Switches) != 1 || len(fresh.Switches) != 1 {
		return nil, fmt.Errorf("it has not one switch")
	}
	to := map[string]string{}
	for i, p := range old.Switches[0].Positions {
		if i < len(fresh.Switches[0].Positions) {
			to[p.Name] = fresh.Switches[0].Positions[i].Name
		}
	}
	for position, from := range order {
		if !slices.ContainsFunc(fresh.Switches[0].Positions, func(p part.Position) bool { return p.Name == position }) {
			return nil, fmt.Errorf("it has no position %q", position)
		}
		to[from] = position
	}
	return to, nil
}
