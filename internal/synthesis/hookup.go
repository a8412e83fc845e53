package synthesis

import (
	"slices"
	"strings"

	"loomwright/internal/diag"
)

// byHand is the scheme of a loom whose file has the controls' joins already.
const byHand = "by hand"

// hookUp chooses a scheme, joins its controls, and finds where the switches
// deliver the sound.
func (t *task) hookUp() bool {
	text := t.opt.Scheme
	at := t.g.Loom.Doc.Text.Span(1, 1, 1)
	if text == "" {
		text, at = t.g.Loom.Scheme.Value, t.g.Loom.Scheme.Span
	}
	name, asked, ok := t.askedOf(text, at)
	switch {
	case !ok:
		return false
	case sameName(name, byHand), name == "" && t.outputJoined():
		return t.joinedByHand()
	case name == "":
		return t.fitting()
	}
	return t.named(name, asked, at)
}

// askedOf reads "a scheme with master as volume, dark as tone".
func (t *task) askedOf(text string, at diag.Span) (name string, asked map[string]string, ok bool) {
	name, rest, with := strings.Cut(text, " with ")
	asked = map[string]string{}
	if !with {
		return strings.TrimSpace(name), asked, true
	}
	for _, clause := range strings.Split(rest, ",") {
		part, role, ok := strings.Cut(clause, " as ")
		if !ok {
			t.fail("scheme-unfit", at, "one volume, one tone with master as volume, dark as tone", "%q does not say which part is which control", strings.TrimSpace(clause))
			return "", nil, false
		}
		asked[strings.TrimSpace(role)] = strings.TrimSpace(part)
	}
	return strings.TrimSpace(name), asked, true
}

// outputJoined reports whether the file has joined the output to anything.
func (t *task) outputJoined() bool { return t.wires[t.g.Hot] > 0 }

// named takes the scheme of that name.
func (t *task) named(name string, asked map[string]string, at diag.Span) bool {
	for i := range t.opt.Schemes {
		s := &t.opt.Schemes[i]
		if !sameName(s.Name, name) && !sameName(s.ID, name) {
			continue
		}
		c, problem := bind(t.g, s, asked, t.isThrough)
		if problem != "" {
			t.fail("scheme-unfit", at, "", "%s does not fit: %s", s.Name, problem)
			return false
		}
		t.take(c)
		return true
	}
	hint := diag.Nearest(name, t.schemeNames())
	if hint == "" {
		hint = "one of: " + strings.Join(t.schemeNames(), "; ")
	}
	t.fail("scheme-unknown", at, hint, "no control scheme is called %q", name)
	return false
}

// fitting takes the scheme that has a place for every pot and leaves the fewest
// capacitors without one; the first of several.
func (t *task) fitting() bool {
	var best *controls
	for i := range t.opt.Schemes {
		c, problem := bind(t.g, &t.opt.Schemes[i], nil, t.isThrough)
		if problem == "" && !c.leftPot && (best == nil || len(c.left) < len(best.left)) {
			best = &c
		}
	}
	if best != nil {
		t.take(*best)
		return true
	}
	t.fail("scheme-unfit", t.g.Loom.Doc.Text.Span(1, 1, 1), "scheme: by hand",
		"no control scheme has a place for exactly these pots and capacitors: name one of %s, or join the controls by hand", strings.Join(t.schemeNames(), "; "))
	return false
}

func (t *task) schemeNames() []string {
	var out []string
	for _, s := range t.opt.Schemes {
		out = append(out, s.Name)
	}
	return append(out, byHand)
}

// take joins a scheme's controls.
func (t *task) take(c controls) {
	t.controls, t.scheme, t.hot = c, c.scheme.Name, t.g.Hot
	for _, name := range c.left {
		t.list.Add(diag.Diagnostic{Code: "scheme-left", Severity: diag.Info, Message: name + " has no place in the scheme and is left unjoined"})
	}
	if c.whole != nil {
		t.hookStretch(c.whole)
		out, _ := c.whole.term(t.g, c.whole.section.Out)
		t.hot, _ = c.whole.term(t.g, c.whole.section.In)
		t.join(out, t.g.Hot, "twisted")
	}
	for i := range c.each {
		st := &c.each[i]
		t.hookStretch(st)
		in, _ := st.term(t.g, st.section.In)
		out, _ := st.term(t.g, st.section.Out)
		if st.section.Hung {
			t.hung = append(t.hung, module{st.pickup, in, out})
		} else {
			t.modules = append(t.modules, module{st.pickup, in, out})
		}
	}
}

func (t *task) hookStretch(st *stretch) {
	for _, j := range st.section.Joins {
		a, okA := st.term(t.g, j.A)
		b, okB := st.term(t.g, j.B)
		switch {
		case !okA || !okB:
		case t.isLug(a) || t.wires[a] == 0:
			t.join(a, b, j.Options)
		default: // a component's lead reaches one place: the next one is wired to that
			if at := t.placeOf(a); t.g.Terms[at].Kind != "case" {
				t.join(at, b, "")
			}
		}
	}
}

// placeOf is where a lead has been soldered.
func (t *task) placeOf(lead int) int {
	for _, r := range t.runs {
		if r.a == lead {
			return r.b
		}
	}
	return lead
}

// joinedByHand follows the file's joins from the output through volumes at 10 to
// the far end. A volume is a pot whose off end is on ground.
func (t *task) joinedByHand() bool {
	t.scheme, t.hot = byHand, t.g.Hot
	reached := []int{t.g.Hot}
	for i := 0; i < len(reached); i++ {
		further := t.throughVolumes(reached[i], reached)
		if len(further) > 1 {
			t.fail("scheme-unfit", t.g.Loom.Doc.Text.Span(1, 1, 1), "scheme: volume and tone for each pickup",
				"the controls that are joined by hand fork: name a scheme instead")
			return false
		}
		reached = append(reached, further...)
	}
	t.hot = reached[len(reached)-1]
	return true
}

// throughVolumes lists the terminals behind the volumes at a terminal.
func (t *task) throughVolumes(x int, known []int) []int {
	var out []int
	for i := range t.g.Tracks {
		tr := &t.g.Tracks[i]
		full, off := ends(tr)
		if t.piece(off) != t.piece(t.g.Ground) {
			continue
		}
		for _, way := range [][2]int{{full, tr.Wiper}, {tr.Wiper, full}} {
			seen := slices.ContainsFunc(known, func(k int) bool { return t.piece(k) == t.piece(way[1]) })
			if t.piece(way[0]) == t.piece(x) && !seen {
				out = append(out, way[1])
			}
		}
	}
	return out
}
