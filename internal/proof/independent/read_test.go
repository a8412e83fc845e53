// Package independent holds a second opinion on package proof: it reads loom
// and part files by itself and answers by other algorithms. Only
// compare_test.go knows the code that it doubts.
package independent_test

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"go.yaml.in/yaml/v4"
)

// tree is YAML as plain text, list or map; keys keep their order.
type tree struct {
	text string
	list []tree
	keys []string
	at   map[string]tree
}

func parse(text string) tree {
	var n yaml.Node
	if err := yaml.Unmarshal([]byte(text), &n); err != nil {
		panic(fmt.Sprintf("%v in\n%s", err, text))
	}
	return plain(n.Content[0])
}

func plain(n *yaml.Node) tree {
	t := tree{text: n.Value}
	switch n.Kind {
	case yaml.SequenceNode:
		for _, c := range n.Content {
			t.list = append(t.list, plain(c))
		}
	case yaml.MappingNode:
		t.at = map[string]tree{}
		for i := 0; i < len(n.Content); i += 2 {
			k := n.Content[i].Value
			t.keys = append(t.keys, k)
			t.at[k] = plain(n.Content[i+1])
		}
	}
	return t
}

// texts lists the scalars of a list, or the scalar itself.
func (t tree) texts() []string {
	if t.list == nil {
		return []string{t.text}
	}
	var out []string
	for _, c := range t.list {
		out = append(out, c.text)
	}
	return out
}

// shelf is every file of the library by its path without ".yaml", and those
// paths by class.
type shelf struct {
	file  map[string]tree
	class map[string][]string
}

func readShelf(dir string) shelf {
	out := shelf{map[string]tree{}, map[string][]string{}}
	files, _ := filepath.Glob(filepath.Join(dir, "*", "*.yaml"))
	for _, f := range files {
		data, err := os.ReadFile(f)
		if err != nil {
			panic(err)
		}
		path, _ := filepath.Rel(dir, f)
		id := strings.TrimSuffix(filepath.ToSlash(path), ".yaml")
		class, _, _ := strings.Cut(id, "/")
		out.file[id] = parse(string(data))
		out.class[class] = append(out.class[class], id)
	}
	return out
}

// The world is a loom as terminals with numbers, and what is between them.
type world struct {
	id       map[string]int
	names    []string
	metal    [][2]int // inside parts
	wires    [][2]int // runs, in file order
	braids   [][2]int // braid terminal to where it is soldered, with its run
	braidOf  []int    // run of each entry of braids
	coils    []coil
	pots     []pot
	caps     []two
	ress     []two
	knobs    []string
	switches []lever
	hot, gnd int
	grounds  []int
	unknown  []mystery
}

type coil struct {
	name          string
	start, finish int
	winding, pole int
}

type pot struct {
	knob           int
	cw, wiper, ccw int // cw is where "10" is
	law            string
	cutAt          float64 // turn at which the track is cut; -1: never
	ohms           float64
}

type two struct {
	a, b  int
	value float64
}

type lever struct {
	name         string
	positions    []string
	travel       string
	skew, around bool
	proved       int
	poles        [][][][]int // pole, position, group
}

type mystery struct {
	lead int
	may  []int
}

func (w *world) term(name string) int {
	if i, ok := w.id[name]; ok {
		return i
	}
	w.id[name] = len(w.names)
	w.names = append(w.names, name)
	return w.id[name]
}

func (w *world) tie(use string, names []string) {
	for _, n := range names[1:] {
		w.metal = append(w.metal, [2]int{w.term(use + "." + names[0]), w.term(use + "." + n)})
	}
}

// readLoom builds the world of a loom file.
func readLoom(text string, shelf shelf) *world {
	file := parse(text)
	w := &world{id: map[string]int{}, hot: -1}
	swapped := strings.HasSuffix(file.at["hand"].text, "swapped")
	for _, use := range file.at["parts"].keys {
		f := file.at["parts"].at[use]
		w.part(use, f, shelf.file[f.at["is"].text], swapped)
		w.leads(use, f, shelf, file.at["codes"])
	}
	for _, j := range file.at["joins"].list {
		run, options := j.text, ""
		if len(j.keys) == 1 {
			run, options = j.keys[0], j.at[j.keys[0]].text
		}
		w.join(run, options)
	}
	return w
}

func (w *world) part(use string, f, p tree, swapped bool) {
	for _, t := range p.at["terminals"].keys {
		w.term(use + "." + t)
	}
	for _, tie := range p.at["ties"].list {
		w.tie(use, tie.texts())
	}
	w.coilsOf(use, f, p)
	w.potsOf(use, f, p, swapped)
	w.caps = append(w.caps, w.twos(use, p.at["capacitors"], f.at["capacitor"].text, f.at["value"].text)...)
	w.ress = append(w.ress, w.twos(use, p.at["resistors"], f.at["resistor"].text, f.at["value"].text)...)
	w.switchesOf(use, f, p)
	if o := p.at["output"]; o.at != nil && w.hot < 0 {
		w.hot, w.gnd = w.term(use+"."+o.at["hot"].text), w.term(use+"."+o.at["ground"].text)
	}
	for _, g := range p.at["grounds"].list {
		w.grounds = append(w.grounds, w.term(use+"."+g.text))
	}
}

// perCoil is a value of the loom file for one coil, over the part's own.
func perCoil(f, c tree, key, name string) string {
	over, ok := f.at[key]
	switch {
	case !ok:
		return c.at[key].text
	case over.at == nil:
		return over.text
	case over.at[name].text != "":
		return over.at[name].text
	}
	return c.at[key].text
}

func sign(text, plus, minus string) int {
	switch text {
	case plus:
		return 1
	case minus:
		return -1
	}
	return 0
}

func (w *world) coilsOf(use string, f, p tree) {
	cs := p.at["coils"]
	for _, name := range cs.keys {
		c := cs.at[name]
		full := use + "." + name
		if len(cs.keys) == 1 {
			full = use
		}
		w.coils = append(w.coils, coil{full, w.term(use + "." + c.at["start"].text), w.term(use + "." + c.at["finish"].text),
			sign(perCoil(f, c, "winding", name), "clockwise", "anticlockwise"), sign(perCoil(f, c, "pole", name), "north", "south")})
	}
}

func (w *world) potsOf(use string, f, p tree, swapped bool) {
	knob := map[string]int{}
	ts := p.at["tracks"]
	for _, name := range ts.keys {
		t := ts.at[name]
		k, seen := knob[t.at["knob"].text]
		if !seen {
			k = len(w.knobs)
			knob[t.at["knob"].text] = k
			w.knobs = append(w.knobs, strings.TrimSuffix(use+"."+t.at["knob"].text, "."))
		}
		one := pot{k, w.term(use + "." + t.at["cw"].text), w.term(use + "." + t.at["wiper"].text), w.term(use + "." + t.at["ccw"].text),
			t.at["law"].text, -1, amount(f.at["track"].text)}
		if t.at["no-load"].text == "yes" {
			one.cutAt = 1
		}
		if swapped {
			one = one.mirrored()
		}
		w.pots = append(w.pots, one)
	}
}

// mirrored is a pot turned the other way round: what was at 10 is at 0.
func (p pot) mirrored() pot {
	p.cw, p.ccw = p.ccw, p.cw
	switch p.law {
	case "first half":
		p.law = "second half"
	case "second half":
		p.law = "first half"
	}
	if p.cutAt >= 0 {
		p.cutAt = 1 - p.cutAt
	}
	return p
}

func (w *world) twos(use string, m tree, values ...string) []two {
	var out []two
	for _, name := range m.keys {
		v := ""
		for _, s := range values {
			if s != "" {
				v = s
			}
		}
		out = append(out, two{w.term(use + "." + m.at[name].at["a"].text), w.term(use + "." + m.at[name].at["b"].text), amount(v)})
	}
	return out
}

func (w *world) switchesOf(use string, f, p tree) {
	ss := p.at["switches"]
	for _, name := range ss.keys {
		s := ss.at[name]
		l := lever{name: use, positions: s.at["positions"].keys, travel: s.at["travel"].text, skew: s.at["skew"].text == "yes",
			around: s.at["around"].text == "yes", proved: -1}
		if len(ss.keys) > 1 {
			l.name += "." + name
		}
		if t := f.at["travel"].text; t != "" {
			l.travel = t
		}
		for i, pos := range l.positions {
			if pos == s.at["proved"].text {
				l.proved = i
			}
		}
		for _, pole := range s.at["poles"].keys {
			l.poles = append(l.poles, w.pole(use, l.positions, s.at["poles"].at[pole]))
		}
		w.switches = append(w.switches, l)
	}
}

func (w *world) pole(use string, positions []string, p tree) [][][]int {
	table := make([][][]int, len(positions))
	for i, pos := range positions {
		if throws := p.at["throws"].list; throws != nil && throws[i].text != "-" {
			table[i] = [][]int{{w.term(use + "." + p.at["common"].text), w.term(use + "." + throws[i].text)}}
		}
		for _, group := range p.at["contacts"].at[pos].list {
			var g []int
			for _, t := range group.texts() {
				g = append(g, w.term(use+"."+t))
			}
			table[i] = append(table[i], g)
		}
	}
	return table
}

// leads gives the colours of a lead code their coil ends.
func (w *world) leads(use string, f tree, shelf shelf, own tree) {
	code := f
	if name := f.at["code"].text; name != "" && f.at["leads"].at == nil {
		code = shelf.file["codes/"+name]
		if c, ok := own.at[name]; ok {
			code = c
		}
	}
	p := shelf.file[f.at["is"].text]
	taken := map[int]bool{}
	for _, group := range code.at["inside"].list {
		var ends []int
		for _, t := range group.texts() {
			ends = append(ends, w.ends(use, f, p, t)...)
		}
		for _, e := range ends {
			taken[e] = true
			w.metal = append(w.metal, [2]int{ends[0], e})
		}
	}
	var open []int // leads that nobody has told
	for _, lead := range code.at["leads"].keys {
		if w.lead(use, lead, f, p, code.at["leads"].at[lead].texts(), taken) {
			open = append(open, w.term(use+"."+lead))
		}
	}
	if len(open) > 0 {
		w.mysteries(use, p, open, taken)
	}
}

// lead reads one lead; true when nobody has told what it is.
func (w *world) lead(use, lead string, f, p tree, words []string, taken map[int]bool) bool {
	var ends []int
	for _, word := range words {
		if word == "unknown" {
			continue
		}
		es := w.ends(use, f, p, word)
		if word == "link" && len(es) == 2 {
			w.unknown = append(w.unknown, mystery{w.term(use + "." + lead), es})
			return false
		}
		ends = append(ends, es...)
	}
	if len(ends) == 0 {
		return true
	}
	w.id[use+"."+lead] = ends[0]
	for _, e := range ends {
		taken[e] = true
		w.metal = append(w.metal, [2]int{ends[0], e})
	}
	return false
}

// mysteries says what the unknown leads of a pickup can be.
func (w *world) mysteries(use string, p tree, open []int, taken map[int]bool) {
	var may []int
	for _, name := range p.at["coils"].keys {
		for _, end := range []string{"start", "finish"} {
			if t := w.term(use + "." + p.at["coils"].at[name].at[end].text); !taken[t] && !slices.Contains(may, t) {
				may = append(may, t)
			}
		}
	}
	for _, lead := range open {
		w.unknown = append(w.unknown, mystery{lead, may})
	}
}

// ends gives a word of a lead code its terminals.
func (w *world) ends(use string, f, p tree, word string) []int {
	if _, ok := p.at["terminals"].at[word]; ok {
		return []int{w.term(use + "." + word)}
	}
	if word == "bare" {
		return []int{w.term(use + ".shield")}
	}
	// The coils of the full sound from hot to ground, each with the end that
	// faces hot first.
	var chain []int
	full := parseSound(p.at["full"].text)
	if len(p.at["coils"].keys) == 1 {
		full = expr{op: "coil", name: p.at["coils"].keys[0], sign: 1}
	}
	for _, leaf := range full.leaves() {
		c := p.at["coils"].at[leaf.name]
		up, down := c.at["start"].text, c.at["finish"].text
		if leaf.sign*sign(perCoil(f, c, "winding", leaf.name), "clockwise", "anticlockwise")*
			sign(perCoil(f, c, "pole", leaf.name), "north", "south") < 0 {
			up, down = down, up
		}
		chain = append(chain, w.term(use+"."+up), w.term(use+"."+down))
	}
	switch word {
	case "hot":
		return chain[:1]
	case "ground":
		return chain[len(chain)-1:]
	}
	return chain[1 : len(chain)-1]
}

func (w *world) join(run, options string) {
	left, right, _ := strings.Cut(run, "--")
	first := len(w.wires)
	for _, a := range strings.Split(left, ",") {
		for _, b := range strings.Split(right, ",") {
			w.wires = append(w.wires, [2]int{w.term(strings.TrimSpace(a)), w.term(strings.TrimSpace(b))})
		}
	}
	if !strings.HasPrefix(options, "screened") {
		return
	}
	_, braid, soldered := strings.Cut(options, "braid ")
	for i := first; i < len(w.wires); i++ {
		at := w.term(fmt.Sprintf("braid of %d", i))
		w.grounds = append(w.grounds, at)
		if soldered {
			for _, end := range strings.Split(braid, "--") {
				w.braids = append(w.braids, [2]int{at, w.term(strings.TrimSpace(end))})
				w.braidOf = append(w.braidOf, i)
			}
		}
	}
}

// amount reads "501k audio", "4.7k", "22n": a number and one letter.
func amount(text string) float64 {
	text, _, _ = strings.Cut(text, " ")
	if text == "" {
		return 0
	}
	scale := map[byte]float64{'k': 1e3, 'M': 1e6, 'n': 1e-9, 'p': 1e-12}[text[len(text)-1]]
	if scale == 0 {
		scale = 1
	} else {
		text = text[:len(text)-1]
	}
	var x float64
	if _, err := fmt.Sscanf(text, "%g", &x); err != nil {
		panic(err)
	}
	return x * scale
}
