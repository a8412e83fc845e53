package independent_test

import (
	"fmt"
	"math/cmplx"
	"math/rand/v2"
	"runtime/debug"
	"slices"
	"sort"
	"strings"
	"sync"
	"testing"

	"loomwright/internal/bench"
	"loomwright/internal/diag"
	"loomwright/internal/loom"
	"loomwright/internal/part"
	"loomwright/internal/proof"
	"loomwright/internal/wiring"
)

// tally counts what the two opinions were compared on.
type tally struct {
	looms, refused, settings, sounding, structures, meshes, unsure, knobs, sameWord, otherWord, wrongWord, ways, runs int
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
	v.knobs = o.knobs(name, groups, r)
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

// sound holds the printed sound against measurements.
func (o *opinions) sound(v view, groups [][]int, heard []bool, r *proof.Row) {
	name, c := v.name, v.c
	e := parseSound(r.Heard)
	var mine, theirs []string
	for i, h := range heard {
		if h {
			mine = append(mine, o.w.coils[i].name)
		}
	}
	for _, leaf := range e.leaves() {
		theirs = append(theirs, leaf.name)
	}
	sort.Strings(mine)
	sort.Strings(theirs)
	if !slices.Equal(mine, theirs) {
		o.disagree(name, "coils heard", mine, r.Heard)
		return
	}
	way, known := c.inTheWay(o.draws[0], heard)
	if !known {
		return
	}
	if o.settings%8 == 0 && v.output == "sounding" {
		o.runs++
		mine := o.w.liveRuns(groups, o.rs[0].pairs, c.ends(heard, way), o.rng)
		if !slices.Equal(mine, r.LiveRuns) {
			o.disagree(name, "runs that carry the sound", mine, r.LiveRuns)
		}
	}
	bare := c.with(func(e element) bool { return way[e] })
	two := make([]bool, len(heard))
	if e.op == "mesh" {
		o.meshes++
		two = bare.twoWays(o.rng)
		o.mesh(name, bare, e, two, r)
	} else if e.op != "silent" {
		o.structures++
		o.structure(name, bare, e, way, r)
	}
	o.verdicts(name, bare, two, r)
}

func (o *opinions) verdicts(name string, c *circuit, two []bool, r *proof.Row) {
	var rs []response
	for range 3 {
		m, _ := c.measure(o.w.alike(o.rng))
		rs = append(rs, m)
	}
	same(o, name, "phase of "+r.Heard, o.w.phase(rs[0], two), string(r.Phase))
	if !slices.Contains(two, true) { // else hum depends on ohms, and proof takes coils as alike
		same(o, name, "hum of "+r.Heard, o.w.hum(rs), string(r.Hum))
	}
}

// structure holds the printed form against impedance and shares at two draws.
func (o *opinions) structure(name string, c *circuit, e expr, way map[element]bool, r *proof.Row) {
	byName := map[string]element{}
	var mine []string
	for el := range way {
		mine = append(mine, o.valueOf(el))
		byName[o.valueOf(el)] = el
	}
	theirs := e.values()
	sort.Strings(mine)
	sort.Strings(theirs)
	if !slices.Equal(mine, theirs) {
		o.disagree(name, "parts in the way", mine, r.Heard)
		return
	}
	for _, d := range o.draws {
		d = o.tied(d)
		m, _ := c.measure(d)
		z, share := e.electric(func(leaf expr) complex128 {
			if leaf.op == "through" {
				el := byName[leaf.name]
				return d[el.kind][el.of]
			}
			i := slices.IndexFunc(o.w.coils, func(k coil) bool { return k.name == leaf.name })
			return d['c'][i]
		})
		if cmplx.Abs(z-m.z) > 1e-7*(1+cmplx.Abs(z)) {
			o.disagree(name, "impedance of "+r.Heard, m.z, z)
			return
		}
		o.shares(name, e, m, share, r)
	}
}

// tied is a draw with tracks of one value alike: they cannot be told apart in
// the text.
func (o *opinions) tied(d draw) draw {
	d = d.without(func(byte, int) bool { return false })
	for i, p := range o.w.pots {
		d['t'][i] = d['t'][slices.IndexFunc(o.w.pots, func(q pot) bool { return q.ohms == p.ohms })]
	}
	return d
}

func (o *opinions) shares(name string, e expr, m response, share map[string]complex128, r *proof.Row) {
	for _, leaf := range e.leaves() {
		i := slices.IndexFunc(o.w.coils, func(k coil) bool { return k.name == leaf.name })
		k := o.w.coils[i]
		w := complex(float64(k.winding*k.pole), 0)
		same(o, name, "phase known of "+k.name+" in "+r.Heard, w != 0, leaf.sign != 0)
		got := m.share[i] * w
		if w == 0 {
			got = complex(cmplx.Abs(m.share[i]), 0)
			share[leaf.name] = complex(cmplx.Abs(share[leaf.name]), 0)
		}
		if cmplx.Abs(got-share[leaf.name]) > 1e-7 {
			o.disagree(name, "share of "+k.name+" in "+r.Heard, got, share[leaf.name])
		}
	}
}

// valueOf writes the value of a part in the way as proof prints it.
func (o *opinions) valueOf(e element) string {
	switch e.kind {
	case 'f':
		return fmt.Sprintf("%.6gn", o.w.caps[e.of].value*1e9)
	case 'r':
		return fmt.Sprintf("%.6gk", o.w.ress[e.of].value/1e3)
	}
	return fmt.Sprintf("%.6gk", o.w.pots[e.of].ohms/1e3)
}

// mesh checks that a mesh is one, and the signs in it.
func (o *opinions) mesh(name string, c *circuit, e expr, two []bool, r *proof.Row) {
	if !c.bridged() {
		o.disagree(name, "structure", "series-parallel", r.Heard)
		return
	}
	m, _ := c.measure(o.w.alike(o.rng))
	for _, leaf := range e.leaves() {
		i := slices.IndexFunc(o.w.coils, func(k coil) bool { return k.name == leaf.name })
		g := o.w.coils[i].winding * o.w.coils[i].pole
		switch {
		case two[i]:
			g = 0
		case real(m.share[i]) < 0:
			g = -g
		}
		same(o, name, "sign of "+leaf.name+" in "+r.Heard, g, leaf.sign)
	}
}

// bridged reports whether some element is passed in both directions on the
// ways from hot to ground: just then the network is not series-parallel
// (Duffin, J. Math. Anal. Appl. 10, 1965).
func (c *circuit) bridged() bool {
	forward, back := map[element]bool{}, map[element]bool{}
	var walk func(net int, seen uint64, way []element, from []int) bool
	walk = func(net int, seen uint64, way []element, from []int) bool {
		if net == c.gnd {
			for i, e := range way {
				if from[i] == e.a {
					forward[e] = true
				} else {
					back[e] = true
				}
				if forward[e] && back[e] {
					return true
				}
			}
			return false
		}
		for _, e := range c.els {
			to := e.a + e.b - net
			if (e.a == net || e.b == net) && seen>>to&1 == 0 &&
				walk(to, seen|1<<to, append(way[:len(way):len(way)], e), append(from[:len(from):len(from)], net)) {
				return true
			}
		}
		return false
	}
	return walk(c.hot, 1<<c.hot, nil, nil)
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
// opposite of what is measured, which must be rare.
var wordFits = map[string]map[string]int{
	"darker":   {"tone": +1, "tone backwards": -1},
	"brighter": {"tone backwards": +1, "bass cut": +1, "tone": -1},
	"even":     {"load": +1},
}

func (o *opinions) knobs(name string, groups [][]int, r *proof.Row) []knobAnswer {
	mine := o.w.knobAnswers(groups, o.rs[0], o.draws[0])
	var theirs []knobAnswer
	for i, k := range r.Knobs {
		a := knobAnswer{k.Knob, k.Does, strings.Join(k.Mutes, " ")}
		if i < len(mine) && slices.Contains([]string{"tone", "tone backwards", "bass cut", "load"}, a.does) {
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

// newLoom makes up a loom by its seed, with at most so many settings.
func newLoom(seed uint64, shelf shelf, most int) string {
	m := &maker{rng: rand.New(rand.NewPCG(seed, 1)), shelf: shelf, most: most}
	return m.loom()
}

const librarySource = "../../../library"

// TestRandomLooms compares the two opinions on looms with known seeds. On
// failure the first disagreements are shown with their looms.
func TestRandomLooms(t *testing.T) {
	compareRandom(t, 0, 10000, 16)
}

const shards = 4

func compareRandom(t *testing.T, from, n uint64, most int) {
	shelf := readShelf(librarySource)
	lib := bench.New().Library
	defer debug.SetGCPercent(debug.SetGCPercent(400))
	var total tally
	var mu sync.Mutex
	t.Run("looms", func(t *testing.T) {
		for shard := range uint64(shards) {
			t.Run(fmt.Sprint(shard), func(t *testing.T) {
				t.Parallel()
				mine := compareSome(t, shelf, lib, from+shard, from+n, most)
				mu.Lock()
				defer mu.Unlock()
				total.add(mine)
			})
		}
	})
	t.Logf("%+v", total)
	if total.looms+total.refused < int(n) || total.refused > 0 || total.structures < total.looms || total.unsure == 0 || total.meshes == 0 {
		t.Error("the looms made up do not show enough")
	}
	if total.wrongWord*500 > total.sameWord {
		t.Errorf("%d knobs are called the opposite of what they do, %d what they do", total.wrongWord, total.sameWord)
	}
}

// compareSome compares on every shards-th loom.
func compareSome(t *testing.T, shelf shelf, lib *part.Library, from, to uint64, most int) tally {
	var total tally
	wrong := 0
	for seed := from; seed < to; seed += shards {
		text := newLoom(seed, shelf, most)
		o := compare(text, shelf, lib, seed)
		total.add(o.tally)
		if len(o.bad) == 0 {
			continue
		}
		if wrong++; wrong > 2 {
			text = ""
		}
		t.Errorf("seed %d\n%s%s", seed, text, strings.Join(o.bad[:min(len(o.bad), 5)], "\n"))
	}
	return total
}
