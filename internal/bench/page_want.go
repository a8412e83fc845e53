package bench

import (
	"fmt"
	"slices"
	"strings"

	"loomwright/internal/diag"
	"loomwright/internal/loom"
	"loomwright/internal/part"
	"loomwright/internal/setting"
	"loomwright/internal/wiring"
)

// Want writes what is to be heard in one setting into the text of a loom; ""
// asks nothing of it. A line that asks it of several settings is written out
// for the others. The error is in a user's words.
func (b *Bench) Want(name, data, with, hear string) (string, error) {
	g, err := b.readable(name, data)
	if err != nil {
		return "", err
	}
	at, err := setting.Match(g, with)
	if err != nil || len(at) != 1 {
		return "", fmt.Errorf("%q is not one setting of this loom", with)
	}
	if strings.ContainsAny(hear, "{}[]\"'\n#,:") {
		return "", fmt.Errorf("%q is not a sound", hear)
	}
	lines := strings.Split(data, "\n")
	wish := ""
	if hear != "" {
		wish = fmt.Sprintf("  - {with: %q, hear: %s}", at[0].Name, hear)
	}
	written := false
	for i := len(g.Loom.Sounds) - 1; i >= 0; i-- {
		s := &g.Loom.Sounds[i]
		covered, err := setting.Match(g, withText(lines, s))
		if err != nil {
			return "", err
		}
		if !slices.ContainsFunc(covered, func(c setting.Setting) bool { return c.Index == at[0].Index }) {
			continue
		}
		lines = slices.Replace(lines, s.Span.Start.Line-1, s.Span.End.Line, apart(s, covered, at[0], wish)...)
		wish, written = "", true
	}
	if !written && wish != "" {
		lines = withSound(g, lines, wish)
	}
	return b.soundWritten(name, lines)
}

// apart writes a sound out for the settings that it goes on to be asked of.
func apart(s *loom.Sound, covered []setting.Setting, but setting.Setting, wish string) []string {
	var out []string
	for _, c := range covered {
		switch {
		case c.Index != but.Index:
			out = append(out, fmt.Sprintf("  - {with: %q, hear: %s%s}", c.Name, s.Text, conditions(s)))
		case wish != "":
			out = append(out, wish)
		}
	}
	return out
}

func conditions(s *loom.Sound) string {
	out := ""
	switch {
	case s.FreePhase:
		out = ", phase: free"
	case s.Fixed:
		out = ", phase: fixed"
	}
	if s.HumFree {
		out += ", hum: cancels"
	}
	return out
}

// withText is the positions of a sound as they stand in the text.
func withText(lines []string, s *loom.Sound) string {
	at := s.WithSpan
	if at.IsZero() || at.Start.Line != at.End.Line {
		return ""
	}
	runes := []rune(lines[at.Start.Line-1])
	return strings.Trim(string(runes[at.Start.Col-1:at.End.Col-1]), `"'`)
}

// withSound adds a line behind the last sound.
func withSound(g *wiring.Graph, lines []string, wish string) []string {
	if n := len(g.Loom.Sounds); n > 0 {
		return slices.Insert(lines, g.Loom.Sounds[n-1].Span.End.Line, wish)
	}
	for i, line := range lines {
		if strings.HasPrefix(line, "sounds:") {
			lines[i] = "sounds:"
			return slices.Insert(lines, i+1, wish)
		}
	}
	return append(lines, "sounds:", wish)
}

// soundWritten lays the text out; a sound that cannot be read is the error.
func (b *Bench) soundWritten(name string, lines []string) (string, error) {
	if i := slices.IndexFunc(lines, func(l string) bool { return strings.TrimSpace(l) == "sounds:" }); i >= 0 &&
		(i+1 == len(lines) || !strings.HasPrefix(strings.TrimSpace(lines[i+1]), "-")) {
		lines[i] = "sounds: []"
	}
	out, list := b.Format(name, strings.Join(lines, "\n"))
	if !list.HasErrors() {
		_, _, list = b.graph(diag.NewText(name, out))
	}
	for _, d := range list {
		if d.Severity == diag.Error {
			return "", fmt.Errorf("%s", d.Message)
		}
	}
	return out, nil
}

// Wishes are sounds that these pickups can make, in groups for tapping.
type Wishes struct {
	Words  []string    `json:"words"` // coils, pickups, and the words between them
	Groups []WishGroup `json:"groups"`
}

// WishGroup is sounds of one kind.
type WishGroup struct {
	Name   string   `json:"name"`
	Sounds []string `json:"sounds"`
}

// Wishes lists sounds that can be asked of a loom.
func (d *Desk) Wishes(name, data string) Wishes {
	out := Wishes{Words: []string{}, Groups: []WishGroup{}}
	p := d.Open(name, data)
	if p.Graph == nil {
		return out
	}
	pickups := pickupsOf(p.Graph.Loom)
	var one, split, together []string
	for i, a := range pickups {
		one = append(one, a.name)
		if len(a.coils) > 1 {
			split = append(append(split, a.coils...), strings.Join(a.coils, " parallel "))
		}
		for _, b := range pickups[i+1:] {
			together = append(together, a.name+" parallel "+b.name, a.name+" series "+b.name, a.name+" parallel reversed "+b.name)
			for _, c := range a.coils {
				for _, e := range b.coils {
					if len(a.coils)+len(b.coils) > 2 {
						together = append(together, c+" parallel "+e)
					}
				}
			}
		}
		out.Words = append(append(out.Words, a.name), only(a.coils)...)
	}
	if len(one) > 2 {
		together = append(together, strings.Join(one, " parallel "))
	}
	for _, group := range []WishGroup{{"one pickup", one}, {"one pickup, split or parallel", split}, {"together", together}, {"nothing", []string{"silent"}}} {
		if len(group.Sounds) > 0 {
			out.Groups = append(out.Groups, group)
		}
	}
	out.Words = append(out.Words, "series", "parallel", "reversed", "(", ")")
	return out
}

func only(coils []string) []string {
	if len(coils) < 2 {
		return nil
	}
	return coils
}

// pickup is a pickup by name, with its coils as sounds name them.
type pickup struct {
	name  string
	coils []string
}

func pickupsOf(l *loom.Loom) []pickup {
	var out []pickup
	for i := range l.Uses {
		p := pickup{name: l.Uses[i].Name}
		for k := range l.Uses[i].Part.Coils {
			p.coils = append(p.coils, coilName(l.Uses[i].Name, l.Uses[i].Part, k))
		}
		if joinedInside(&l.Uses[i]) {
			p.coils = []string{p.name}
		}
		if len(p.coils) > 0 {
			out = append(out, p)
		}
	}
	return out
}

// joinedInside reports whether coils of a pickup are joined where no lead comes
// out: none of them can be heard alone.
func joinedInside(u *loom.Use) bool {
	for _, ends := range u.Inside {
		out := slices.ContainsFunc(u.Leads, func(l loom.Lead) bool {
			return slices.ContainsFunc(append(slices.Clone(l.Ends), l.May...), func(e int) bool { return slices.Contains(ends, e) })
		})
		if !out && len(u.Part.Coils) == 2 {
			return true
		}
	}
	return false
}

func coilName(use string, p *part.Part, coil int) string {
	return loom.CoilName(use, p, p.Coils[coil].Name)
}
