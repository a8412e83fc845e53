package leads

import (
	"fmt"
	"slices"
	"strings"

	"loomwright/internal/units"
)

// Found is the end of a wizard.
type Found struct {
	Says  string              `json:"says"`            // in a sentence or two
	Ends  map[string][]string `json:"ends"`            // coil ends by lead; none: unknown
	Ohms  map[string]string   `json:"ohms,omitempty"`  // by coil, as the loom file takes it
	Pole  map[string]string   `json:"pole,omitempty"`  // by coil, where a compass told
	Part  string              `json:"part"`            // the part file that the code is for
	Notes []string            `json:"notes,omitempty"` // what is amiss, or not known
	Right *bool               `json:"right,omitempty"` // a believed code: it holds
	Sound bool                `json:"sound"`           // nothing is amiss
	wiz   *wizard
	guess *guess
}

// contradicted is the end where no pickup of this make fits the answers.
func (w *wizard) contradicted() *Found {
	return &Found{Ends: map[string][]string{}, Part: w.d.part, wiz: w,
		Says: fmt.Sprintf("No %s fits these answers, not even one with an open coil or a tied shield: one was misread, or the pickup is of another make. "+
			"Zero the leads, keep fingers off the probes, and take the readings again.", w.s.Pickup.Make)}
}

// found is the end where nothing more can be told apart.
func (w *wizard) found(guesses []guess) *Found {
	g := &guesses[0]
	f := &Found{Ends: map[string][]string{}, Ohms: map[string]string{}, Pole: map[string]string{}, Part: w.d.part, wiz: w, guess: g, Sound: !w.any}
	for i, lead := range w.s.Pickup.Leads {
		ends := w.codeEnds(g, i)
		for k := range guesses {
			if !slices.Equal(ends, w.codeEnds(&guesses[k], i)) {
				ends = nil // not told
			}
		}
		f.Ends[lead] = ends
	}
	w.measured(f, g)
	w.compasses(f)
	f.notes(w, guesses)
	f.Says = f.sentence(w)
	return f
}

// codeEnds are the coil ends that a lead is, with the shield where it is tied.
func (w *wizard) codeEnds(g *guess, probe int) []string {
	node := g.node[probe]
	if node == w.d.shield() {
		return []string{"shield"}
	}
	if node >= len(w.d.nodes) {
		return nil
	}
	var out []string
	for i := range w.d.coils {
		if end := w.endOf(i, node); end != "" && !slices.Contains(out, end) {
			out = append(out, end)
		}
	}
	if w.s.Pickup.Bare == "" && hasShield(w.s.Pickup.Make) && w.metalOn(g, node) {
		out = append(out, "shield")
	}
	return out
}

// metalOn reports whether the baseplate is on a node.
func (w *wizard) metalOn(g *guess, node int) bool {
	at := slices.Index(w.s.Pickup.probes(), plate)
	return at >= 0 && g.node[at] == node
}

// endOf is the name of the end of a coil on a node: a compass decides its pole,
// else the part's customary one.
func (w *wizard) endOf(coil, node int) string {
	c := w.d.coils[coil]
	start := c.down
	if w.pole(coil) < 0 {
		start = c.up
	}
	switch node {
	case start:
		return c.start
	case c.up + c.down - start:
		return c.finish
	}
	return ""
}

// pole is what a compass told of a coil, else the part's customary pole.
func (w *wizard) pole(coil int) int {
	if w.d.stacked {
		coil = 0
	}
	for _, a := range w.answers {
		if a.kind == compass && a.coil == coil {
			if a.is == north {
				return 1
			}
			return -1
		}
	}
	return w.d.coils[coil].pole
}

// measured takes each coil's own reading.
func (w *wizard) measured(f *Found, g *guess) {
	for _, a := range w.answers {
		if a.kind != ohms || a.is != coilful {
			continue
		}
		if coils, _ := w.d.between(g, g.node[a.a], g.node[a.b]); len(coils) == 1 {
			f.Ohms[w.d.coils[coils[0]].name] = strings.ReplaceAll(units.FormatOhms(a.ohms), " ", "")
		}
	}
}

func (w *wizard) compasses(f *Found) {
	for _, a := range w.answers {
		if a.kind == compass {
			f.Pole[w.d.coils[a.coil].name] = string(a.is)
		}
	}
}

// notes say what is amiss and what is not known.
func (f *Found) notes(w *wizard, guesses []guess) {
	if len(f.Pole) == 0 {
		f.Notes = append(f.Notes, "Phase known, true start unknown: no compass was used. The coils are named as if their poles were as usual; in phase "+
			"and out of phase come out right, hum against another pickup is not known.")
	} else {
		f.Notes = append(f.Notes, "Starts are named so that every coil is wound clockwise: what counts for phase and hum is right, whichever end is the inner one.")
	}
	for i, c := range w.d.coils {
		if p, told := f.Pole[c.name]; told && (p == "south") != (c.pole < 0) {
			f.Notes = append(f.Notes, fmt.Sprintf("%s shows a %s pole, not the usual one: write pole: {%s: %s} in the loom file.", upper(w.s.Pickup.coilWords(i)), p, c.name, p))
		}
	}
	if !w.any {
		return
	}
	g := guesses[0]
	if g.open >= 0 && !slices.ContainsFunc(guesses, func(o guess) bool { return o.open != g.open }) {
		f.Notes = append(f.Notes, fmt.Sprintf("%s is open: its two leads are what is left over, and which is which cannot be told.", upper(w.s.Pickup.coilWords(g.open))))
	} else if g.open >= 0 {
		f.Notes = append(f.Notes, "A coil is open: which of its leads is which cannot be told.")
	}
	if g.tied {
		f.Notes = append(f.Notes, "The shield is tied to a coil end: that end is ground for good, and no wiring may lift it (no phase switch, no series on that side).")
	}
	f.loosePlate(w, g)
}

func (f *Found) loosePlate(w *wizard, g guess) {
	probes := w.s.Pickup.probes()
	if at := slices.Index(probes, plate); at >= 0 && g.node[at] == w.d.plateNode() && len(probes) > len(w.s.Pickup.Leads) {
		f.Notes = append(f.Notes, "The baseplate or cover is not joined to the shield: ground it by itself, or it will buzz.")
	}
}

func upper(s string) string { return strings.ToUpper(s[:1]) + s[1:] }

func (f *Found) sentence(w *wizard) string {
	unknown := 0
	for _, e := range f.Ends {
		if len(e) == 0 {
			unknown++
		}
	}
	text := "Every lead is known."
	switch {
	case unknown == len(f.Ends):
		text = "No lead can be told from another."
	case unknown > 0:
		text = fmt.Sprintf("%d of %d leads are known.", len(f.Ends)-unknown, len(f.Ends))
	}
	if len(w.s.Believed) > 0 {
		right := unknown == 0 && w.agrees(f.guess) && !w.any
		f.Right = &right
		if right {
			return text + " The code that was believed holds."
		}
		return text + " The code that was believed does not hold."
	}
	return text
}

// Code is the lead code file for the shelf. Lead names are quoted where YAML
// needs it.
func (f *Found) Code(name string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "loomwright-code: 1\nname: %s\nabout: %s\nleads:\n", quote(name), quote("Found by meter, for "+f.Part+". "+strings.Join(f.Notes, " ")))
	p := &f.wiz.s.Pickup
	for _, lead := range p.Leads {
		fmt.Fprintf(&b, "  %s: %s\n", quote(lead), ends(f.Ends[lead]))
	}
	if p.Bare != "" && hasShield(p.Make) {
		fmt.Fprintf(&b, "  %s: %s\n", quote(p.Bare), ends(f.bareEnds()))
	}
	if p.Make == TwoLead {
		fmt.Fprintf(&b, "inside: [[%s, %s]]\n", f.wiz.d.coils[0].finish, f.wiz.d.coils[1].finish)
	}
	return b.String()
}

// bareEnds are the shield, and the coil end that it is tied to.
func (f *Found) bareEnds() []string {
	w := f.wiz
	out := []string{"shield"}
	if f.guess != nil {
		at := slices.Index(w.s.Pickup.probes(), w.s.Pickup.Bare)
		if f.guess.node[at] != w.d.shield() {
			out = append(out, w.codeEnds(f.guess, at)...)
		}
	}
	return out
}

// hasShield reports whether the part file of a make has a shield to name.
func hasShield(m Make) bool { return m == Twin || m == TwoLead || m == Three }

func ends(list []string) string {
	switch len(list) {
	case 0:
		return "unknown"
	case 1:
		return list[0]
	}
	return "[" + strings.Join(list, ", ") + "]"
}

// quote is a text as YAML takes it in any place.
func quote(s string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`, "\n", " ").Replace(s) + `"`
}
