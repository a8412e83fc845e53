package synthesis

import (
	"fmt"
	"slices"

	"loomwright/internal/diag"
	"loomwright/internal/sat"
)

// Why says why the wishes cannot be met, and what would help.
type Why struct {
	Conflict   []Wish   `json:"conflict"`             // cannot be met together
	Least      bool     `json:"least"`                // no smaller set of wishes conflicts
	Rule       string   `json:"rule,omitempty"`       // a demand beside the wishes that takes part
	GiveUp     []Wish   `json:"giveUp,omitempty"`     // any one of them given up, the others can be met
	GiveUpAll  []Wish   `json:"giveUpAll,omitempty"`  // where no single one will do: all of these given up, the others can be met
	Hint       string   `json:"hint,omitempty"`       // what is wrong with a single wish
	OrderOf    string   `json:"orderOf,omitempty"`    // the switch that Order is of
	Order      []Placed `json:"order,omitempty"`      // the same switch with its sounds in another order
	Switch     *Another `json:"switch,omitempty"`     // the cheapest switch that will do
	Loosened   []string `json:"loosened,omitempty"`   // demands without which it can be done
	Unexplored bool     `json:"unexplored,omitempty"` // the budget ran out before all of this was looked for
}

// Wish is a wanted sound, by its place in the loom's list.
type Wish struct {
	Sound int    `json:"sound"`
	With  string `json:"with"`
	Hear  string `json:"hear"`
}

// Another is a switch from the library in place of one of the loom's.
type Another struct {
	Part   string   `json:"part"` // id
	Name   string   `json:"name"`
	For    string   `json:"for"`              // the part that it stands for
	Order  []Placed `json:"order,omitempty"`  // where the sounds have to move; none: they stay
	Joins  int      `json:"joins,omitempty"`  // of a first wiring with it, controls and grounds aside
	Proved bool     `json:"proved,omitempty"` // that wiring is the smallest
}

// Placed is one position of a switch and the position whose sounds it gets.
type Placed struct {
	Position string `json:"position"`
	Gets     string `json:"gets"`
}

// explainEffort bounds each part of an explanation.
const explainEffort = 20_000

// impossible explains a refuted puzzle.
func (t *task) impossible(s *solved, f *effort) Result {
	f.state.Stage = "looking for what conflicts"
	few := &effort{left: explainEffort, stop: f.stop, progress: f.progress, state: f.state}
	x := explainer{t: t, s: s, f: few}
	why := x.explain()
	f.add(few)
	if !t.opt.Brief {
		t.suggest(why, f)
	}
	d := diag.Diagnostic{Code: "wire-impossible", Severity: diag.Error, Message: why.words()}
	if len(why.Conflict) > 0 {
		d.Span = t.g.Loom.Sounds[why.Conflict[0].Sound].HearSpan
		for _, w := range why.Conflict[1:] {
			d.Related = append(d.Related, diag.Related{Span: t.g.Loom.Sounds[w.Sound].HearSpan, Message: "conflicts with this"})
		}
	}
	t.list.Add(d)
	r := Result{Status: Impossible, Why: why}
	if t.opt.Refute {
		r.note(s.refutation("the switching", -1, f))
	}
	return r
}

// explainer looks for the smallest conflict with the clauses that were refuted.
type explainer struct {
	t *task
	s *solved
	f *effort
}

func (x *explainer) explain() *Why {
	e := x.s.e
	core, least := x.smallest()
	why := &Why{Least: least, Unexplored: x.f.out()}
	for _, l := range core {
		if l == e.upon {
			why.Rule = "hot may not be shorted where no sound is wanted"
			continue
		}
		why.Conflict = append(why.Conflict, x.wishOf(l))
	}
	for _, l := range core {
		rest := slices.DeleteFunc(e.everything(), func(k sat.Lit) bool { return k == l })
		if l != e.upon && x.sat(rest) {
			why.GiveUp = append(why.GiveUp, x.wishOf(l))
		}
	}
	if len(why.GiveUp) == 0 && !x.f.out() {
		for _, l := range x.sacrifice(e.everything(), nil) {
			if l != e.upon {
				why.GiveUpAll = append(why.GiveUpAll, x.wishOf(l))
			}
		}
	}
	if len(core) == 1 && len(why.Conflict) == 1 {
		why.Hint = x.hopeless(slices.Index(e.wanted, core[0]))
	}
	return why
}

// sat reports whether some demands can be met together; when the effort is out
// they count as unmet.
func (x *explainer) sat(demands []sat.Lit) bool {
	return x.s.e.solve(x.f, x.f.left, demands...) == sat.Sat
}

func (x *explainer) wishOf(l sat.Lit) Wish {
	i := slices.Index(x.s.e.wanted, l)
	return x.t.wish(x.s.p.wishes[i].source)
}

func (t *task) wish(i int) Wish {
	s := &t.g.Loom.Sounds[i]
	var with string
	for _, w := range s.With {
		sw := &t.g.Switches[t.g.SwitchOf(w)]
		if with != "" {
			with += ", "
		}
		with += sw.Name + " " + sw.Positions[w.Position].Name
	}
	return Wish{i, with, s.Text}
}

// smallest finds a smallest set of demands that conflict, by hitting sets: what
// must be given up to make all else possible is collected, and a set that has
// something of each such sacrifice is tried (Ignatiev et al., "Smallest MUS
// Extraction with Minimal Hitting Set Dualization", 2015). When the effort runs
// out, a conflict that may not be the smallest is returned.
func (x *explainer) smallest() (core []sat.Lit, least bool) {
	all := x.s.e.everything()
	if x.sat(all) {
		return nil, false
	}
	core = x.shrink(x.s.e.s.Core())
	var sacrifices [][]sat.Lit
	for !x.f.out() {
		try := hittingSet(sacrifices)
		if len(try) >= len(core) {
			return core, true
		}
		if !x.sat(try) {
			return try, !x.f.out()
		}
		sacrifices = append(sacrifices, x.sacrifice(all, try))
	}
	return core, false
}

// shrink leaves out of a conflict what it does not need.
func (x *explainer) shrink(core []sat.Lit) []sat.Lit {
	for i := len(core) - 1; i >= 0; i-- {
		fewer := slices.Delete(slices.Clone(core), i, i+1)
		if !x.sat(fewer) && !x.f.out() {
			core = fewer
		}
	}
	return core
}

// sacrifice extends demands that can be met as far as it goes, and returns what
// is left out.
func (x *explainer) sacrifice(all, met []sat.Lit) []sat.Lit {
	met = slices.Clone(met)
	var out []sat.Lit
	for _, l := range all {
		switch {
		case slices.Contains(met, l):
		case x.sat(append(met, l)):
			met = append(met, l)
		default:
			out = append(out, l)
		}
	}
	return out
}

// hittingSet is a smallest set that has something of each of the sets.
func hittingSet(sets [][]sat.Lit) []sat.Lit {
	for size := 0; ; size++ {
		if hit, ok := hitWith(sets, nil, size); ok {
			return hit
		}
	}
}

func hitWith(sets [][]sat.Lit, chosen []sat.Lit, size int) ([]sat.Lit, bool) {
	i := slices.IndexFunc(sets, func(s []sat.Lit) bool {
		return !slices.ContainsFunc(s, func(l sat.Lit) bool { return slices.Contains(chosen, l) })
	})
	if i < 0 {
		return slices.Clone(chosen), true
	}
	if size == 0 {
		return nil, false
	}
	for _, l := range sets[i] {
		if hit, ok := hitWith(sets, append(chosen, l), size-1); ok {
			return hit, true
		}
	}
	return nil, false
}

// hopeless says what makes a wish impossible whatever the switch: no way of
// making it cancels hum, or what is joined already leaves none.
func (x *explainer) hopeless(i int) string {
	w := x.s.p.wishes[i]
	if w.tree == nil || !x.s.p.listed(&w) {
		return ""
	}
	if _, ways := x.s.p.demandOf(&w); len(ways) > 0 {
		return ""
	}
	if w.never || w.humOf {
		return "hum cannot cancel in this sound in this phase: of each two coils that are to cancel, one needs the other winding and the other pole"
	}
	return "ends of its coils that are joined already, inside a pickup or by the file, leave no way to make it"
}

// words puts a conflict in one sentence.
func (w *Why) words() string {
	switch len(w.Conflict) {
	case 0:
		return "the wanted sounds cannot be had from these parts"
	case 1:
		return fmt.Sprintf("%s cannot be had from these parts", w.Conflict[0].words())
	}
	text := "these cannot be had together: "
	for i, c := range w.Conflict {
		if i > 0 {
			text += "; "
		}
		text += c.words()
	}
	return text
}

func (w *Wish) words() string {
	if w.With == "" {
		return w.Hear
	}
	return w.Hear + " with " + w.With
}
