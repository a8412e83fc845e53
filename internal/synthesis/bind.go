package synthesis

import (
	"slices"
	"strings"

	"loomwright/internal/part"
	"loomwright/internal/wiring"
)

// bound is a role filled: by a track of the graph, or by a part's use.
type bound struct {
	role  string
	track int // −1: a capacitor or bleed
	use   int
}

// stretch is a section with its roles filled: once for a pickup, or behind the
// switches (pickup −1).
type stretch struct {
	section *Section
	pickup  int
	filled  []bound
}

// controls are the filled sections of a scheme.
type controls struct {
	scheme *Scheme
	each   []stretch
	whole  *stretch
	left   []string // pots, capacitors and bleeds that have no place

	leftPot bool // a pot among them
}

// candidate is a track or a part that may fill a role.
type candidate struct {
	bound
	kind   string // volume, tone, blend, capacitor, bleed; "pot" may be volume or tone
	pickup int    // the pickup that its name speaks of, or −1
	name   string
	taken  bool
}

// binder fills the roles of one scheme.
type binder struct {
	g       *wiring.Graph
	pickups []int
	pool    []candidate
	asked   map[string]string // "volume" or "neck volume" → name of a part, as the loom asks
	problem string
}

// pickupsOf lists the parts with coils.
func pickupsOf(g *wiring.Graph) []int {
	var out []int
	for i := range g.Loom.Uses {
		if len(g.Loom.Uses[i].Part.Coils) > 0 {
			out = append(out, i)
		}
	}
	return out
}

// bind fills the roles of a scheme with the parts of a loom. The problem is why
// it does not fit, "" when it does.
func bind(g *wiring.Graph, s *Scheme, asked map[string]string, through func(use int) bool) (controls, string) {
	b := &binder{g: g, pickups: pickupsOf(g), asked: asked}
	b.pool = b.candidates(through)
	c := controls{scheme: s}
	if s.Each != nil {
		for _, p := range b.pickups {
			if st, ok := b.fill(s.Each, p); ok {
				c.each = append(c.each, st)
			} else if !s.Each.Some {
				return c, b.problem
			}
		}
		if len(c.each) == 0 {
			return c, "no pickup has a control of its own"
		}
	}
	if s.Whole != nil {
		st, ok := b.fill(s.Whole, -1)
		if !ok {
			return c, b.problem
		}
		c.whole = &st
	}
	for _, k := range b.pool {
		if !k.taken {
			c.left = append(c.left, k.name)
			c.leftPot = c.leftPot || k.track >= 0
		}
	}
	return c, ""
}

// candidates lists all tracks, capacitors and bleeds. A capacitor that a wanted
// sound goes through is no control.
func (b *binder) candidates(through func(use int) bool) []candidate {
	var out []candidate
	for i := range b.g.Tracks {
		t := &b.g.Tracks[i]
		name := b.g.Knobs[t.Knob].Name
		if t.Name != "track" && t.Knob >= 0 && t.Track.Knob == "" {
			name += "." + t.Name
		}
		out = append(out, candidate{bound: bound{track: i, use: t.Use}, kind: trackKind(&t.Track, name), name: name, pickup: b.pickupIn(t.Use)})
	}
	slices.SortStableFunc(out, func(x, y candidate) int { // of a blend, the gang that is off at full clockwise comes first
		if x.kind == "blend" && y.kind == "blend" && x.use == y.use {
			return int(b.g.Tracks[y.track].Law - b.g.Tracks[x.track].Law)
		}
		return 0
	})
	for i := range b.g.Loom.Uses {
		u := &b.g.Loom.Uses[i]
		if class := u.Part.Class; (class == "capacitor" || class == "bleed") && !through(i) {
			out = append(out, candidate{bound: bound{track: -1, use: i}, kind: class, name: u.Name, pickup: b.pickupIn(i)})
		}
	}
	return out
}

// trackKind guesses by law and by words in names (common practice, no source:
// of a concentric pot the upper knob is the volume).
func trackKind(t *part.Track, name string) string {
	name = strings.ToLower(name)
	switch {
	case t.Law != part.WholeTurn:
		return "blend"
	case strings.Contains(name, "tone"):
		return "tone"
	case strings.Contains(name, "vol"):
		return "volume"
	case t.Knob == "upper":
		return "volume"
	case t.Knob == "lower":
		return "tone"
	}
	return "pot"
}

// pickupIn returns the pickup whose name is a word of a part's name.
func (b *binder) pickupIn(use int) int {
	words := strings.FieldsFunc(b.g.Loom.Uses[use].Name, func(r rune) bool { return r == '-' || r == '_' || r == ' ' })
	for _, p := range b.pickups {
		if p != use && slices.Contains(words, b.g.Loom.Uses[p].Name) {
			return p
		}
	}
	return -1
}

// term resolves "role.terminal" to a terminal of the graph; false when the role
// is not filled.
func (st *stretch) term(g *wiring.Graph, end string) (int, bool) {
	name, terminal, _ := strings.Cut(end, ".")
	i := slices.IndexFunc(st.filled, func(f bound) bool { return f.role == name })
	if i < 0 {
		return -1, false
	}
	f := st.filled[i]
	if f.track < 0 {
		at, ok := g.Loom.Uses[f.use].Part.Terminal(terminal)
		return g.Term(f.use, at), ok
	}
	t := &g.Tracks[f.track]
	full, off := ends(t)
	switch terminal {
	case "full":
		return full, true
	case "off":
		return off, true
	case "wiper":
		return t.Wiper, true
	}
	return caseOf(g, f.use), true
}

// ends returns the end that a wiper meets at 10 (of a blend: in the middle) and
// the other.
func ends(t *wiring.Track) (full, off int) {
	if t.Law == part.SecondHalf {
		return t.CCW, t.CW
	}
	return t.CW, t.CCW
}

// caseOf is the terminal of a part's metal body, or the output's ground where
// it has none.
func caseOf(g *wiring.Graph, use int) int {
	p := g.Loom.Uses[use].Part
	for _, kind := range []string{"case", "tag", "plate"} {
		for _, t := range p.Grounds {
			if p.Terminals[t].Kind == kind {
				return g.Term(use, t)
			}
		}
	}
	return g.Ground
}
