package proof

import (
	"fmt"
	"strings"

	"loomwright/internal/diag"
	"loomwright/internal/loom"
	"loomwright/internal/setting"
	"loomwright/internal/sound"
)

// want holds every row against the sound that the loom file asks of it.
func (p *prover) want() {
	for i := range p.rows {
		p.wantedOf(i)
	}
	p.polarity()
	p.missed()
}

// wantedOf finds the sound asked of a row; two that differ are a finding.
func (p *prover) wantedOf(row int) {
	r := &p.rows[row]
	for i := range p.g.Loom.Sounds {
		s := &p.g.Loom.Sounds[i]
		if !p.covers(s.With, r.Setting) {
			continue
		}
		if r.Wanted == nil {
			r.Wanted = p.compare(i, r)
			continue
		}
		if first := &p.g.Loom.Sounds[r.Wanted.sound]; !sound.Equal(first.Hear, s.Hear) {
			p.list.Add(diag.Diagnostic{Code: "sound-twice", Severity: diag.Error, Span: s.Span, Settings: []string{r.Name},
				Message: fmt.Sprintf("with %s, %q is wanted here and %q above", r.Name, s.Text, first.Text),
				Related: []diag.Related{{Span: first.Span, Message: "the other wanted sound"}}})
		}
	}
}

// covers reports whether positions named in a sound hold in a setting.
func (p *prover) covers(with []loom.At, s setting.Setting) bool {
	for _, at := range with {
		if s.At[p.g.SwitchOf(at)] != at.Position {
			return false
		}
	}
	return true
}

// compare holds one heard sound against one wanted sound, signs aside.
func (p *prover) compare(index int, r *Row) *Wanted {
	s := &p.g.Loom.Sounds[index]
	w := &Wanted{Sound: s.Hear.String(), expr: s.Hear, sound: index, Met: Yes}
	switch {
	case s.Hear.Op == sound.Any:
		return w
	case r.Unsure:
		w.Met, w.Why = Unsure, "it depends on which lead is which"
		return w
	case s.Hear.Op == sound.Silent:
		w.silent = true
		if r.Output == Sounding {
			w.Met, w.Why = No, "it should be silent"
		}
		return w
	case s.Hear.Unsigned().String() != r.Sound.Unsigned().String(): // both in canonical order
		w.Met, w.Why = No, differs(s.Hear, r)
		return w
	}
	w.flip, w.Met, w.Why = relation(s.Hear, r.Sound)
	if s.FreePhase {
		w.flip, w.Met, w.Why = 0, Yes, ""
	}
	if s.HumFree && w.Met == Yes {
		w.hum(r.Hum)
	}
	return w
}

// differs says in what the heard sound is another than the wanted one.
func differs(wanted sound.Expr, r *Row) string {
	if why, silent := silences[r.Output]; silent {
		return why
	}
	missing, extra := without(wanted, r.Sound), without(r.Sound, wanted)
	switch {
	case len(missing) > 0 && len(extra) > 0:
		return fmt.Sprintf("%s missing, %s heard instead", are(missing), are(extra))
	case len(missing) > 0:
		return are(missing) + " missing"
	case len(extra) > 0:
		return are(extra) + " heard too"
	}
	return "the same coils, joined otherwise"
}

var silences = map[Output]string{Shorted: "hot is joined to ground", Open: "nothing is joined to hot", Held: "no coil reaches the output"}

// without names the coils of one sound that another does not have.
func without(a, b sound.Expr) []string {
	var out []string
	for _, leaf := range a.Leaves() {
		if !hasLeaf(b, leaf.Name) {
			out = append(out, leaf.Name)
		}
	}
	return out
}

func are(names []string) string {
	if len(names) == 1 {
		return names[0] + " is"
	}
	return strings.Join(names, " and ") + " are"
}

func (w *Wanted) hum(heard Verdict) {
	switch heard {
	case Cancels:
	case CannotTell:
		w.Met, w.Why = Unsure, "whether hum cancels depends on windings that nobody has told"
	default:
		w.Met, w.hums, w.Why = No, true, fmt.Sprintf("hum is to cancel, and it %s", humWords[heard])
	}
}

var humWords = map[Verdict]string{Partly: "cancels only partly", Adds: "does not"}

// relation compares the signs of two sounds of the same structure: +1 alike, −1
// one upside down; a mix is a miss, an unknown sign among several cannot be
// told.
func relation(wanted, heard sound.Expr) (flip int, met Answer, why string) {
	want := map[string]bool{}
	for _, leaf := range wanted.Leaves() {
		want[leaf.Name] = leaf.Reversed
	}
	unsure := 0
	for _, leaf := range heard.Leaves() {
		if leaf.Unsure {
			unsure++
			continue
		}
		rel := 1
		if leaf.Reversed != want[leaf.Name] {
			rel = -1
		}
		if flip == -rel {
			return 0, No, "the coils are in the other phase to each other"
		}
		flip = rel
	}
	if unsure > 0 && len(want) > 1 {
		return 0, Unsure, "phase depends on a winding or a magnet that nobody has told"
	}
	return flip, Yes, ""
}

// polarity picks the common polarity that most rows have; the others are upside
// down against them.
func (p *prover) polarity() {
	sum := 0
	for i := range p.rows {
		w := p.rows[i].Wanted
		if w == nil || w.Met != Yes {
			continue
		}
		sum += w.flip
		if p.g.Loom.Sounds[w.sound].Fixed {
			sum += setting.Max + 1 // outvotes all rows: the polarity is given
		}
	}
	common := 1
	if sum < 0 {
		common = -1
	}
	for i := range p.rows {
		if w := p.rows[i].Wanted; w != nil && w.Met == Yes && w.flip == -common {
			w.Met, w.Why = No, "it is upside down against the other settings"
		}
	}
}

// missed turns misses into findings on the wanted sounds' lines: one for all
// settings in which the same is wanted, heard instead and to be said.
func (p *prover) missed() {
	first := map[string]int{}
	for i := range p.rows {
		r := &p.rows[i]
		if r.Wanted == nil || r.Wanted.Met == Yes {
			continue
		}
		key := fmt.Sprint(r.Wanted.sound, r.Wanted.Met, r.Short, r.Wanted.Why)
		if at, ok := first[key]; ok {
			p.list[at].Settings = append(p.list[at].Settings, r.Name)
			continue
		}
		first[key] = len(p.list)
		p.list.Add(p.miss(r))
	}
	for _, at := range first {
		d := &p.list[at]
		d.Message = strings.TrimSpace(p.withMany(d.Settings) + " " + d.Message)
	}
}

// withMany is with, and nothing where a loom has one setting only.
func (p *prover) withMany(settings []string) string {
	if len(p.rows) == 1 {
		return ""
	}
	return p.with(settings)
}

// miss is the finding of one row, its settings not yet in words.
func (p *prover) miss(r *Row) diag.Diagnostic {
	w := r.Wanted
	d := diag.Diagnostic{Code: "sound-missed", Severity: diag.Error, Span: p.g.Loom.Sounds[w.sound].HearSpan, Settings: []string{r.Name}}
	switch {
	case w.Met == Unsure:
		d.Code, d.Severity = "sound-unsure", diag.Warning
		d.Message = fmt.Sprintf("it cannot be told whether '%s' is heard: %s", p.short(w.expr), w.Why)
		d.Hint = p.settle(r)
	case w.hums:
		d.Message = fmt.Sprintf("'%s' is heard as wanted, but %s", p.short(w.expr), w.Why)
	default:
		d.Message = fmt.Sprintf("you wanted '%s' and get '%s': %s", p.short(w.expr), r.Short, w.Why)
		d.Hint = p.unsplittable(w.expr)
		d.Related = p.related(r.LiveRuns, "on the path")
	}
	return d
}

// unsplittable says of a wanted sound that asks for one coil of a pickup whose
// coils are joined inside, without a lead from there, that no wiring gives it.
func (p *prover) unsplittable(wanted sound.Expr) string {
	for i := range p.g.Loom.Uses {
		u := &p.g.Loom.Uses[i]
		n := 0
		for _, c := range u.Part.Coils {
			if hasLeaf(wanted, loom.CoilName(u.Name, u.Part, c.Name)) {
				n++
			}
		}
		if n > 0 && n < len(u.Part.Coils) && len(u.Inside) > 0 {
			return fmt.Sprintf("%s cannot be split: its coils are joined inside, and no lead comes from there", u.Name)
		}
	}
	return ""
}

// short writes a sound with whole pickups by their names.
func (p *prover) short(e sound.Expr) string { return e.Collapse(p.pickups).Canon().String() }

// settle names the reading that would settle an open question of phase.
func (p *prover) settle(r *Row) string {
	var winding, pole []string
	for i := range p.g.Coils {
		c := &p.g.Coils[i]
		if !strings.Contains(r.Heard, c.Name) && !r.Unsure {
			continue
		}
		if c.Winding == 0 {
			winding = append(winding, c.Name)
		}
		if c.Pole == 0 {
			pole = append(pole, c.Name)
		}
	}
	switch {
	case r.Unsure:
		return "measure between each two of the unknown leads: two that read some kΩ are the ends of one coil; then write them in the lead code"
	case len(pole) > 0:
		return fmt.Sprintf("hold a compass over %s for its pole, and tap it with the meter on its lowest volts range for its winding", strings.Join(pole, " and "))
	case len(winding) > 0:
		return fmt.Sprintf("tap %s with the meter on its lowest volts range: which way it moves tells the winding", strings.Join(winding, " and "))
	}
	return ""
}
