package meter

import (
	"strings"

	"loomwright/internal/diag"
	"loomwright/internal/wiring"
)

// Addition is a kind of reading and how many faults the readings at the jack
// show once it is added.
type Addition struct {
	Added string `json:"added"`
	Shown int    `json:"shown"`
	Of    int    `json:"of"`
}

// Additions tells which further kind of reading helps most when the guitar
// stays closed: each is added by itself to plain ohms at the jack, then all of
// them, then the open cavity.
func Additions(g *wiring.Graph, o Options) ([]Addition, diag.List) {
	o.Access = Outside
	t, list := NewTable(g, o)
	if t == nil {
		return nil, list
	}
	o.Access = Open
	inside, list := NewTable(g, o)
	if inside == nil {
		return nil, list
	}
	shows := t.shows(true)
	count := func(words string, want func(a *Ask) bool) Addition {
		out := Addition{Added: words}
		for c := 1; c < len(t.Cases); c++ {
			n := len(t.Cases[c].Faults)
			out.Of += n
			for i := range t.Asks {
				if shows[i].has(c) && want(&t.Asks[i]) {
					out.Shown += n
					break
				}
			}
		}
		return out
	}
	plain := func(a *Ask) bool { return t.atJack(a) && a.Kind == Ohms && t.turned(a) == "" }
	out := []Addition{count("ohms at the jack, every setting, knobs at 10", plain)}
	for _, add := range t.additions() {
		out = append(out, count("+ "+add.words, func(a *Ask) bool { return plain(a) || add.is(a) }))
	}
	out = append(out, count("all of these", func(a *Ask) bool {
		ok := plain(a)
		for _, add := range t.additions() {
			ok = ok || add.is(a)
		}
		return ok
	}))
	p := inside.Proof()
	return append(out, Addition{"the cavity open", p.Shown, p.Faults}), nil
}

type addition struct {
	words string
	is    func(a *Ask) bool
}

// additions are what can be added from outside.
func (t *Table) additions() []addition {
	return []addition{
		{"each knob at 0", func(a *Ask) bool { return t.atJack(a) && a.Kind == Ohms && strings.HasSuffix(t.turned(a), "=0") }},
		{"each knob at 5", func(a *Ask) bool { return t.atJack(a) && a.Kind == Ohms && strings.HasSuffix(t.turned(a), "=5") }},
		{"strings and covers to the sleeve", t.onMetal},
		{"taps", func(a *Ask) bool { return t.atJack(a) && a.Kind == Tap }},
		{"a tone turned while listening", func(a *Ask) bool { return a.Kind == Darkens }},
		{"a compass over the coils", func(a *Ask) bool { return a.Kind == Compass }},
	}
}

func (t *Table) turned(a *Ask) string { return strings.Join(a.knobs(t.Graph), ", ") }

func (t *Table) atJack(a *Ask) bool {
	return a.A == t.Graph.Hot && a.B == t.Graph.Ground && (a.Kind == Ohms || a.Kind == Tap)
}

// onMetal reports whether a reading is of metal that can be touched from
// outside, against the jack's sleeve.
func (t *Table) onMetal(a *Ask) bool {
	f := &offer{g: t.Graph, wired: wired(t.Graph)}
	return a.Kind == Ohms && a.B == t.Graph.Ground && t.Graph.Terms[a.A].Use >= 0 && t.Graph.Terms[a.A].Terminal >= 0 && f.touchable(a.A)
}

// LookAlike lists groups of faults that no offered reading surely tells apart,
// the whole loom among them where it belongs; each names the reading that comes
// nearest to doing so. Groups overlap in what they look like: a member may be
// told from some of the others.
func (t *Table) LookAlike() []Alike {
	group := make([]int, len(t.Cases))
	for i := range group {
		group[i] = i
	}
	for a := range t.Cases {
		for b := range a {
			if root(group, a) != root(group, b) && !t.toldApart(a, b) {
				group[root(group, a)] = root(group, b)
			}
		}
	}
	members := map[int][]int{}
	var order []int
	for c := range t.Cases {
		r := root(group, c)
		if members[r] == nil {
			order = append(order, r)
		}
		members[r] = append(members[r], c)
	}
	var out []Alike
	for _, r := range order {
		if len(members[r]) > 1 {
			out = append(out, t.alike(members[r]))
		}
	}
	return out
}

func root(group []int, i int) int {
	for group[i] != i {
		i = group[i]
	}
	return i
}

func (t *Table) toldApart(a, b int) bool {
	for i := range t.Asks {
		if t.Asks[i].Kind == Darkens {
			continue
		}
		if c := &t.columns[i]; c.Of[a] != c.Of[b] && !c.Shown(a).Fits(c.Shown(b)) {
			return true
		}
	}
	for i := range t.Asks {
		if t.Asks[i].Kind == Darkens && !t.Shown(&t.Asks[i], a).Fits(t.Shown(&t.Asks[i], b)) {
			return true
		}
	}
	return false
}

func (t *Table) alike(cases []int) Alike {
	out := Alike{Why: "what a reading can show with the one overlaps what it can show with another, for all that is offered"}
	for _, c := range cases {
		if c == 0 {
			out.Faults = append(out.Faults, "nothing wrong")
		}
		for _, f := range t.Cases[c].Faults {
			out.Faults = append(out.Faults, f.Words)
		}
	}
	return out
}
