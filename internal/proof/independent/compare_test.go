package independent_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"sort"
	"strings"

	"loomwright/internal/diag"
	"loomwright/internal/loom"
	"loomwright/internal/part"
	"loomwright/internal/proof"
	"loomwright/internal/wiring"
)

// tally counts what the two opinions were compared on.
type tally struct {
	looms, refused, settings, sounding, structures, meshes, unsure, knobs, sure, sameWord, otherWord, wrongWord, ways, runs int
}

func (t *tally) add(o tally) {
	t.looms += o.looms
	t.refused += o.refused
	t.settings += o.settings
	t.sounding += o.sounding
	t.structures += o.structures
	t.meshes += o.meshes
	t.unsure += o.unsure
	t.knobs += o.knobs
	t.sure += o.sure
	t.ways += o.ways
	t.runs += o.runs
	t.sameWord += o.sameWord
	t.otherWord += o.otherWord
	t.wrongWord += o.wrongWord
}

// opinions compares the two opinions on one loom and lists disagreements.
type opinions struct {
	w     *world
	rng   *rand.Rand
	draws [2]draw
	rs    []reading
	memo  map[string]string
	many  bool // too many readings: nothing can be told
	vague bool // whether leads that nobody has told matter in this setting
	tally
	bad []string
}

func (o *opinions) disagree(setting, what string, mine, theirs any) {
	o.bad = append(o.bad, fmt.Sprintf("[%s] %s: independent %v, proof %v", setting, what, mine, theirs))
}

func same[T comparable](o *opinions, setting, what string, mine, theirs T) {
	if mine != theirs {
		o.disagree(setting, what, mine, theirs)
	}
}

// proved is proof's own answer.
func proved(text string, lib *part.Library) (proof.Report, diag.List) {
	l, list := loom.Read(diag.NewText("loom", text), lib)
	if l == nil {
		return proof.Report{}, list
	}
	g, list := wiring.Build(l)
	if list.HasErrors() {
		return proof.Report{}, list
	}
	return proof.Prove(g), nil
}

// compare holds proof's answer on a loom against the world's.
func compare(text string, shelf shelf, lib *part.Library, seed uint64) *opinions {
	o := &opinions{rng: rand.New(rand.NewPCG(seed, 2)), memo: map[string]string{}}
	c, list := proved(text, lib)
	if len(c.Rows) == 0 {
		o.refused++
		for _, d := range list {
			o.bad = append(o.bad, fmt.Sprintf("refused: %s %s", d.Code, d.Message))
		}
		return o
	}
	o.looms++
	o.w = readLoom(text, shelf)
	o.draws = [2]draw{o.w.random(o.rng), o.w.random(o.rng)}
	if o.rs = o.w.readings(); len(o.rs) > manyReadings {
		o.rs, o.many = o.rs[:1], true
	}
	settings := o.w.settings()
	same(o, "", "number of settings", len(settings), len(c.Rows))
	if len(o.bad) > 0 {
		return o
	}
	var views []view
	for i, at := range settings {
		views = append(views, o.row(at, &c.Rows[i]))
	}
	o.findings(views, &c)
	return o
}

func (o *opinions) row(at []int, r *proof.Row) view {
	o.settings++
	name := o.w.settingName(at)
	same(o, "", "name", name, r.Name)
	groups := o.w.contacts(at)
	c := o.w.circuit(groups, o.w.fullUp(), o.rs[0])
	heard := c.heard(o.draws[0])
	if again := c.heard(o.draws[1]); !slices.Equal(heard, again) {
		panic("two draws hear different coils")
	}
	v := view{name: name, c: c, output: c.output(), coils: c.coilStates(heard)}
	if slices.Contains(heard, true) != (v.output == "sounding") {
		panic("paths and voltages disagree on what is heard")
	}
	if v.output == "sounding" {
		o.sounding++
	}
	same(o, name, "output", v.output, string(r.Output))
	o.vague = false
	v.unsure = o.unsureOf(groups)
	if o.vague {
		v.unsure = r.Unsure
	}
	same(o, name, "unsure", v.unsure, r.Unsure)
	if v.unsure {
		o.unsure++
	} else {
		o.sound(v, groups, heard, r)
	}
	o.coils(name, v, r)
	v.knobs = o.knobs(name, groups, v.unsure, r)
	o.travel(name, at, r)
	return v
}

// manyReadings is where proof stops trying and says nothing.
const manyReadings = 24

// unsureOf reports whether the readings of unknown leads sound differently.
func (o *opinions) unsureOf(groups [][]int) bool {
	if o.many {
		return true
	}
	first := ""
	for i, reading := range o.rs {
		c := o.w.circuit(groups, o.w.fullUp(), reading)
		heard := c.heard(o.draws[0])
		way, ok := c.inTheWay(o.draws[0], heard)
		if !ok {
			way = nil
		}
		bare := c.with(func(e element) bool { return way[e] })
		if bare.hot != bare.gnd && bare.bridged() {
			o.vague = true // the printed text of a mesh does not tell all
		}
		r, _ := bare.measure(o.draws[0])
		text := fmt.Sprintf("%.6f", r.z)
		if !slices.Contains(heard, true) {
			text = "silent"
		}
		for k, s := range r.share {
			if o.w.coils[k].winding*o.w.coils[k].pole == 0 && real(s) < 0 {
				s = -s
			}
			text += fmt.Sprintf(" %.6f", s)
		}
		text = strings.ReplaceAll(text, "-0.000000", "0.000000")
		text = strings.ReplaceAll(text, "+0.000000", "0.000000")
		if i == 0 {
			first = text
		}
		if text != first && !(strings.HasPrefix(text, "silent") && strings.HasPrefix(first, "silent")) {
			return true
		}
	}
	return false
}

func (o *opinions) coils(name string, v view, r *proof.Row) {
	theirs := map[string]string{}
	for state, names := range map[string][]string{"shorted": r.Shorted, "hanging": r.Hanging, "off": r.Off} {
		for _, n := range names {
			theirs[n] = state
		}
	}
	for n, state := range v.coils {
		if state == "heard" {
			state = ""
		}
		same(o, name, "state of "+n, state, theirs[n])
	}
}

// wordFits says how far what proof calls a knob fits what is measured of it: +1
// fits, -1 is the opposite, the rest is a matter of taste. Proof goes by where
// capacitors lie; where a knob does several things at once that may be the
// opposite of what is measured, which must be very rare.
var wordFits = map[string]map[string]int{
	"darker":   {"tone": +1, "tone backwards": -1},
	"brighter": {"tone backwards": +1, "bass cut": +1, "tone": -1},
	"even":     {"load": +1},
}

func (o *opinions) knobs(name string, groups [][]int, unsure bool, r *proof.Row) []knobAnswer {
	mine := o.w.knobAnswers(groups, o.rs[0], o.draws[0])
	if unsure {
		o.surely(name, groups, r)
		return mine
	}
	var theirs []knobAnswer
	for i, k := range r.Knobs {
		a := knobAnswer{k.Knob, k.Does, strings.Join(k.Mutes, " ")}
		if i < len(mine) && tasteful(a.does) {
			switch wordFits[mine[i].does][a.does] {
			case 1:
				o.sameWord++
			case 0:
				o.otherWord++
			case -1:
				o.wrongWord++
			}
			a.does = mine[i].does
		}
		theirs = append(theirs, a)
	}
	o.tally.knobs += len(mine)
	if !slices.Equal(mine, theirs) {
		o.disagree(name, "knobs", mine, theirs)
	}
	return mine
}

// surely compares what knobs do whichever lead is which; what a colour is called
// is a matter of taste here too, so that only knobs and mutes are compared.
func (o *opinions) surely(name string, groups [][]int, r *proof.Row) {
	count := map[knobAnswer]int{}
	for _, reading := range o.rs {
		for _, a := range o.w.knobAnswers(groups, reading, o.draws[0]) {
			count[a]++
		}
	}
	for _, k := range r.Knobs {
		a := knobAnswer{k.Knob, k.Does, strings.Join(k.Mutes, " ")}
		if tasteful(a.does) {
			continue
		}
		if o.many || count[a] < len(o.rs) {
			o.disagree(name, "knobs whichever lead is which", count, a)
		}
		delete(count, a)
	}
	for a, n := range count {
		if n == len(o.rs) && !o.many && !slices.Contains([]string{"darker", "brighter", "even", "?"}, a.does) {
			o.disagree(name, "knobs whichever lead is which", a, r.Knobs)
		}
	}
	o.sure += len(r.Knobs)
}

func tasteful(does string) bool {
	return slices.Contains([]string{"tone", "tone backwards", "bass cut", "load"}, does)
}

func (o *opinions) travel(name string, at []int, r *proof.Row) {
	mine := o.w.passages(at, o.rs, o.memo)
	var theirs []string
	for _, t := range r.Travel {
		theirs = append(theirs, fmt.Sprintf("%s to %s: %s", t.Switch, t.To, t.Quiet))
	}
	sort.Strings(theirs)
	o.ways += len(mine)
	if !slices.Equal(mine, theirs) {
		o.disagree(name, "travel", mine, theirs)
	}
}

// findings compares the findings that this package has an opinion on, as "code:
// settings".
func (o *opinions) findings(views []view, c *proof.Report) {
	var all []string
	for _, v := range views {
		all = append(all, v.name)
	}
	theirs := map[string][]string{}
	for _, d := range c.Findings {
		settings := d.Settings
		if len(settings) == 0 {
			settings = all
		}
		theirs[d.Code] = append(theirs[d.Code], strings.Join(settings, "; "))
	}
	mine := o.w.findings(views)
	if theirs["jack-swapped"] != nil { // then ground-hot says nothing new
		delete(mine, "ground-hot")
	}
	for _, code := range []string{"hot-open", "coil-hanging", "coil-unused", "knob-dead", "lead-loose",
		"ground-missing", "ground-lost", "ground-hot", "cover-lifted"} {
		sort.Strings(theirs[code])
		sort.Strings(mine[code])
		if !slices.Equal(mine[code], theirs[code]) {
			o.disagree("", code, mine[code], theirs[code])
		}
	}
}
