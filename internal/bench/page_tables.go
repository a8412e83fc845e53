//go:build !js || paper

package bench

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"loomwright/internal/diag"
	"loomwright/internal/loom"
)

// Table is a ready table of sounds for a selector, and for a second switch.
type Table struct {
	Says   string      `json:"says"`
	Sounds []PlanSound `json:"sounds"`
}

// control is a switch of a plan with its positions.
type control struct {
	name      string
	positions []string
}

// tables are customary tables of sounds for a plan's pickups and switches
// (common practice, no source): one for the number of pickups and positions, and
// those of the starts that fit.
func (b *Bench) tables(p *Plan) []Table {
	out := []Table{}
	l, _ := loom.Read(diag.NewText("new.yaml", p.write(nil)), b.Library)
	if l == nil {
		return out
	}
	pickups, controls := pickupsOf(l), controlsOf(l)
	add := func(says string, sounds []PlanSound) {
		same := func(t Table) bool { return reflect.DeepEqual(t.Sounds, sounds) }
		if fits, err := b.fitting(p, sounds); err == nil && len(sounds) > 0 && !slices.Contains(fits, false) && !slices.ContainsFunc(out, same) {
			out = append(out, Table{says, sounds})
		}
	}
	for _, plain := range customary(pickups, controls) {
		add("the usual sounds", plain)
		for _, way := range []struct{ says, word string }{{"each pickup split to one coil", ""}, {"the coils of each pickup in parallel", " parallel "}} {
			if sounds := doubled(plain, pickups, controls, way.word); len(sounds) > 0 {
				_, moved, _ := strings.Cut(sounds[len(sounds)-1].With, ", ")
				add(fmt.Sprintf("the usual sounds; with %s, %s", moved, way.says), sounds)
			}
		}
	}
	for _, s := range Starts() {
		start, _ := loom.Read(diag.NewText(s.Name, s.Text), b.Library)
		if start != nil && names(start) == names(l) {
			add("as in "+s.Says, soundsOf(start, s.Text))
		}
	}
	return out
}

// names are the pickups and switches of a loom, in a line.
func names(l *loom.Loom) string {
	var out []string
	for _, p := range pickupsOf(l) {
		out = append(out, fmt.Sprint(p.name, len(p.coils)))
	}
	for _, c := range controlsOf(l) {
		out = append(out, c.name, strings.Join(c.positions, " "))
	}
	slices.Sort(out)
	return strings.Join(out, ",")
}

func controlsOf(l *loom.Loom) []control {
	var out []control
	for i := range l.Uses {
		u := &l.Uses[i]
		for _, s := range u.Part.Switches {
			if s.Proved >= 0 {
				continue
			}
			c := control{name: u.Name}
			for _, at := range s.Positions {
				c.positions = append(c.positions, at.Name)
			}
			out = append(out, c)
		}
	}
	return out
}

func soundsOf(l *loom.Loom, text string) []PlanSound {
	var out []PlanSound
	lines := strings.Split(text, "\n")
	for i := range l.Sounds {
		out = append(out, PlanSound{withText(lines, &l.Sounds[i]), l.Sounds[i].Text})
	}
	return out
}

// customary are sounds for each position of the first switch, bridge first.
func customary(pickups []pickup, controls []control) [][]PlanSound {
	if len(controls) == 0 {
		if len(pickups) == 1 {
			return [][]PlanSound{{{Hear: pickups[0].name}}}
		}
		return nil
	}
	first := controls[0]
	for _, c := range controls {
		if len(c.positions) > len(first.positions) {
			first = c
		}
	}
	var out [][]PlanSound
	for _, sounds := range ready(pickups, len(first.positions)) {
		var table []PlanSound
		for i, hear := range sounds {
			table = append(table, PlanSound{first.name + " " + first.positions[i], hear})
		}
		out = append(out, table)
	}
	return out
}

// ready are the sounds for a number of positions.
func ready(pickups []pickup, positions int) [][]string {
	n := make([]string, len(pickups))
	for i, p := range pickups {
		n[i] = p.name
	}
	switch key := fmt.Sprint(len(pickups), positions); {
	case len(pickups) == 1 && len(pickups[0].coils) == 2:
		c := pickups[0].coils
		ways := []string{n[0], c[0], strings.Join(c, " parallel ")}
		if positions == 2 {
			return [][]string{{ways[0], ways[1]}, {ways[0], ways[2]}}
		}
		return [][]string{ways[:min(positions, 3)]}
	case key == "2 2":
		return [][]string{{n[1], n[0]}}
	case key == "3 3":
		return [][]string{{n[2], n[1], n[0]}}
	case key == "3 5":
		return [][]string{{n[2], n[2] + " parallel " + n[1], n[1], n[1] + " parallel " + n[0], n[0]}}
	case len(pickups) == 2 && positions >= 3 && positions <= 6:
		both := n[0] + " parallel " + n[1]
		all := []string{n[1], both, n[0] + " series " + n[1], n[0] + " parallel reversed " + n[1], n[0] + " series reversed " + n[1]}
		return [][]string{append(append([]string{}, all[:positions-1]...), n[0])}
	}
	return nil
}

// doubled asks each sound with the second control at rest, and another one of
// it with that control moved: coils alone, or in parallel.
func doubled(plain []PlanSound, pickups []pickup, controls []control, word string) []PlanSound {
	second := slices.IndexFunc(controls, func(c control) bool { return len(c.positions) == 2 && !strings.HasPrefix(plain[0].With, c.name+" ") })
	if second < 0 || len(controls) != 2 {
		return nil
	}
	var out []PlanSound
	for at, position := range controls[second].positions {
		for _, s := range plain {
			hear := s.Hear
			if at == 1 {
				hear = split(hear, pickups, word)
			}
			out = append(out, PlanSound{s.With + ", " + controls[second].name + " " + position, hear})
		}
	}
	return out
}

// split puts one coil of each pickup, or its coils in parallel, in its place:
// the outer coils of two pickups, so that hum cancels.
func split(hear string, pickups []pickup, word string) string {
	words := strings.Fields(hear)
	for i, w := range words {
		at := slices.IndexFunc(pickups, func(p pickup) bool { return p.name == w && len(p.coils) == 2 })
		switch {
		case at < 0:
		case word == "":
			words[i] = pickups[at].coils[(at+1)%2]
		case len(words) == 1:
			words[i] = strings.Join(pickups[at].coils, word)
		default:
			words[i] = "(" + strings.Join(pickups[at].coils, word) + ")"
		}
	}
	return strings.Join(words, " ")
}
