package independent_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
)

// maker makes up looms: parts of the library, joined as the trade would or
// anyhow.
type maker struct {
	rng      *rand.Rand
	shelf    shelf
	parts    []string // lines
	joins    []string
	all      []string // every terminal that can be soldered
	grounds  []string // that belong on ground
	hots     []string // one end of each pickup's chain
	links    []string // ends in the middle of a pickup
	ends     []string // all coil ends
	poles    [][]string
	pots     [][3]string // cw, wiper, ccw
	twos     [][2]string
	tip, gnd string
	count    int
	settings int     // so far
	most     int     // settings
	mess     float64 // 0: as the trade joins, 1: anyhow
}

// odd is the chance of a join that the trade would seldom make.
func (m *maker) odd(p float64) bool { return m.chance(p * m.mess) }

func (m *maker) chance(p float64) bool { return m.rng.Float64() < p }

func pick[T any](m *maker, xs []T) T { return xs[m.rng.IntN(len(xs))] }

// class lists the parts of a class, by name.
func (m *maker) class(name string) []string { return m.shelf.class[name] }

// loom makes one loom file.
func (m *maker) loom() string {
	m.settings = 1
	m.mess = pick(m, []float64{0, 0.1, 0.3, 1})
	m.output()
	for _, name := range []string{"neck", "middle", "bridge"}[:1+m.rng.IntN(3)] {
		m.pickup(name)
	}
	for i := range m.rng.IntN(3) {
		m.control(fmt.Sprintf("s%d", i), m.someSwitch())
	}
	for i := range m.rng.IntN(4) {
		m.control(fmt.Sprintf("p%d", i), pick(m, m.class("pot")))
	}
	for i := range m.rng.IntN(3) {
		m.control(fmt.Sprintf("c%d", i), pick(m, slices.Concat(m.class("capacitor"), m.class("capacitor"), m.class("bleed"), m.class("resistor"))))
	}
	if m.chance(0.4) {
		m.control("g0", pick(m, slices.Concat(m.class("ground"), m.class("splice"))))
	}
	switch kind := m.rng.Float64(); {
	case kind < 0.15:
		m.wild(3 + m.rng.IntN(15))
	case kind < 0.25:
		m.knot()
	default:
		m.plausible()
		m.spoil()
	}
	head := "loomwright: 1\n"
	if m.chance(0.1) {
		head += "hand: left with pot ends swapped\n"
	}
	return head + "parts:\n" + strings.Join(m.parts, "") + "joins:\n" + strings.Join(m.joins, "")
}

// someSwitch picks a switch, many-throw ones seldom: they make many settings.
func (m *maker) someSwitch() string {
	for {
		id := pick(m, m.class("switch"))
		if !strings.Contains(id, "rotary") || m.chance(0.25) {
			return id
		}
	}
}

func (m *maker) output() {
	id := pick(m, slices.Concat(m.class("jack"), m.class("output")))
	m.parts = append(m.parts, fmt.Sprintf("  out: {is: %s}\n", id))
	o := m.shelf.file[id].at["output"]
	m.tip, m.gnd = "out."+o.at["hot"].text, "out."+o.at["ground"].text
	for _, t := range m.shelf.file[id].at["terminals"].keys {
		m.all = append(m.all, "out."+t)
	}
}

func (m *maker) pickup(name string) {
	id := pick(m, m.class("pickup"))
	p := m.shelf.file[id]
	line := "is: " + id
	coils := p.at["coils"].keys
	for _, key := range []string{"winding", "pole"} {
		words := map[string][]string{"winding": {"clockwise", "anticlockwise", "unknown"}, "pole": {"north", "south", "unknown"}}[key]
		switch {
		case m.chance(0.15):
			line += fmt.Sprintf(", %s: %s", key, pick(m, words))
		case m.chance(0.15):
			line += fmt.Sprintf(", %s: {%s: %s}", key, pick(m, coils), pick(m, words))
		}
	}
	var lead map[string]string // coil end to lead
	if strings.HasPrefix(id, "pickup/twin-coil") && m.chance(0.6) && !strings.Contains(line, "unknown") {
		code := pick(m, m.class("codes"))
		if strings.Contains(m.shelf.file[code].at["about"].text, "maker's words") && strings.Contains(line, ":  ") {
			code = "codes/dunlin"
		}
		line += ", code: " + strings.TrimPrefix(code, "codes/")
		lead = m.coded(name, code, p)
	} else if m.chance(0.25) {
		lead = m.written(name, p, &line)
	}
	m.parts = append(m.parts, fmt.Sprintf("  %s: {%s}\n", name, line))
	m.pickupTerminals(name, p, lead)
}

// coded lists what a code gives names to; ends that it leaves out have no lead.
func (m *maker) coded(name, code string, p tree) map[string]string {
	lead := map[string]string{}
	for _, c := range m.shelf.file[code].at["leads"].keys {
		for _, e := range m.shelf.file[code].at["leads"].at[c].texts() {
			lead[e] = c
		}
		m.all = append(m.all, name+"."+c)
	}
	return lead
}

// written makes up a lead code on the spot: each end a colour, some unknown.
func (m *maker) written(name string, p tree, line *string) map[string]string {
	colours := []string{"orange", "pink", "blue", "violet", "brown", "grey", "yellow", "turquoise"}
	lead := map[string]string{}
	var words []string
	hidden := 0
	for i, t := range p.at["terminals"].keys {
		if k := p.at["terminals"].at[t].at["kind"].text; k == "plate" || i >= len(colours) {
			continue
		}
		lead[t] = colours[i]
		end := t
		if m.chance(0.2) && hidden < 3 && isEnd(p, t) {
			end = "unknown"
			hidden++
		}
		words = append(words, colours[i]+": "+end)
		m.all = append(m.all, name+"."+colours[i])
	}
	*line += ", leads: {" + strings.Join(words, ", ") + "}"
	return lead
}

func isEnd(p tree, terminal string) bool {
	for _, c := range p.at["coils"].keys {
		if t := p.at["coils"].at[c]; t.at["start"].text == terminal || t.at["finish"].text == terminal {
			return true
		}
	}
	return false
}

// pickupTerminals sorts a pickup's terminals by what the trade does with them.
func (m *maker) pickupTerminals(name string, p tree, lead map[string]string) {
	ref := func(t string) string {
		if lead == nil {
			return name + "." + t
		}
		if l, ok := lead[t]; ok {
			return name + "." + l
		}
		if p.at["terminals"].at[t].at["kind"].text == "plate" {
			return name + "." + t
		}
		return ""
	}
	for _, t := range p.at["terminals"].keys {
		r := ref(t)
		if r == "" {
			continue
		}
		if lead == nil {
			m.all = append(m.all, r)
		}
		if isEnd(p, t) {
			m.ends = append(m.ends, r)
		}
		switch {
		case strings.HasSuffix(t, "finish") && len(p.at["coils"].keys) > 1:
			m.links = append(m.links, r)
		case slices.Contains(p.at["grounds"].texts(), t), strings.Contains(t, "south"), strings.HasSuffix(t, "finish"):
			m.grounds = append(m.grounds, r)
		default:
			m.hots = append(m.hots, r)
		}
	}
	for end, l := range lead {
		switch end {
		case "hot", "unknown":
			m.hots = append(m.hots, name+"."+l)
		case "ground":
			m.grounds = append(m.grounds, name+"."+l)
		}
	}
	slices.Sort(m.hots)
	slices.Sort(m.grounds)
}

// control adds any other part, unless it makes too many settings.
func (m *maker) control(name, id string) {
	p := m.shelf.file[id]
	for _, s := range p.at["switches"].keys {
		if m.settings *= len(p.at["switches"].at[s].at["positions"].keys); m.settings > m.most {
			return
		}
	}
	m.count++
	line := "is: " + id
	if p.at["tracks"].at != nil {
		line += fmt.Sprintf(", track: %dk audio", 500+m.count)
	}
	cap, res := len(p.at["capacitors"].keys), len(p.at["resistors"].keys)
	if cap == 1 {
		key := "value"
		if res > 0 {
			key = "capacitor"
		}
		line += fmt.Sprintf(", %s: %d.%dn", key, 1+m.count, m.count)
	}
	if res == 1 {
		key := "value"
		if cap > 0 {
			key = "resistor"
		}
		line += fmt.Sprintf(", %s: %d.%dk", key, 1+m.count, m.count)
	}
	if p.at["switches"].at != nil && m.chance(0.2) {
		line += ", travel: " + pick(m, []string{"break first", "make first", "unknown"})
	}
	m.parts = append(m.parts, fmt.Sprintf("  %s: {%s}\n", name, line))
	ref := func(t tree) string { return name + "." + t.text }
	for _, t := range p.at["terminals"].keys {
		m.all = append(m.all, name+"."+t)
	}
	for _, g := range p.at["grounds"].list {
		m.grounds = append(m.grounds, ref(g))
	}
	for _, t := range p.at["tracks"].keys {
		f := p.at["tracks"].at[t]
		m.pots = append(m.pots, [3]string{ref(f.at["cw"]), ref(f.at["wiper"]), ref(f.at["ccw"])})
	}
	for _, kind := range []string{"capacitors", "resistors"} {
		for _, t := range p.at[kind].keys {
			m.twos = append(m.twos, [2]string{ref(p.at[kind].at[t].at["a"]), ref(p.at[kind].at[t].at["b"])})
		}
	}
	for _, s := range p.at["switches"].keys {
		for _, pole := range p.at["switches"].at[s].at["poles"].keys {
			m.pole(name, p.at["switches"].at[s].at["poles"].at[pole])
		}
	}
}

// pole lists a pole's common and then its other terminals.
func (m *maker) pole(name string, f tree) {
	var ts []string
	add := func(t string) {
		if t != "" && t != "-" && !slices.Contains(ts, name+"."+t) {
			ts = append(ts, name+"."+t)
		}
	}
	add(f.at["common"].text)
	for _, t := range f.at["throws"].list {
		add(t.text)
	}
	for _, pos := range f.at["contacts"].keys {
		for _, group := range f.at["contacts"].at[pos].list {
			for _, t := range group.texts() {
				add(t)
			}
		}
	}
	m.poles = append(m.poles, ts)
}

func (m *maker) join(a, b string) {
	if a == b {
		return
	}
	option := ""
	if m.chance(0.05) {
		option = pick(m, []string{": bare", ": screened", ": screened, braid " + m.gnd, ": screened, braid " + m.gnd + " -- " + pick(m, m.all), ": blue"})
	}
	line := fmt.Sprintf("  - %s -- %s%s\n", a, b, option)
	if m.chance(0.05) {
		if c := pick(m, m.all); c != a && c != b {
			line = fmt.Sprintf("  - %s, %s -- %s%s\n", a, c, b, option)
		}
	}
	m.joins = append(m.joins, line)
}

func (m *maker) wild(n int) {
	for range n {
		m.join(pick(m, m.all), pick(m, m.all))
	}
}

// knot joins coils and parts to a few nodes, so that bridges come about.
func (m *maker) knot() {
	m.pickup("extra")
	m.pickup("more")
	nodes := []string{m.tip, m.gnd}
	for i := range 2 + m.rng.IntN(2) {
		m.control(fmt.Sprintf("j%d", i), "splice/joint")
		nodes = append(nodes, fmt.Sprintf("j%d.joint", i))
	}
	for _, t := range m.ends {
		m.join(t, pick(m, nodes))
	}
	for _, t := range m.twos {
		m.join(t[0], pick(m, nodes))
		m.join(t[1], pick(m, nodes))
	}
}

// plausible joins parts roughly as the trade does: pickups to throws or pots,
// commons to pots or the output, volumes to the output, tones to ground.
func (m *maker) plausible() {
	signal := []string{m.tip}
	for _, p := range m.pots {
		signal = append(signal, p[0])
	}
	var throws []string
	for _, p := range m.poles {
		throws = append(throws, p[1:]...)
	}
	for _, h := range m.hots {
		to := signal
		if len(throws) > 0 && m.chance(0.65) {
			to = throws
		}
		if !m.odd(0.15) {
			m.join(h, pick(m, to))
		}
	}
	for _, g := range m.grounds {
		if !m.odd(0.2) {
			m.join(g, m.gnd)
		}
	}
	m.plausibleLinks(throws)
	m.plausiblePoles(signal, throws)
	m.plausiblePots(signal)
}

// plausibleLinks joins the middles of pickups to each other or to switches.
func (m *maker) plausibleLinks(throws []string) {
	for i, l := range m.links {
		switch {
		case i%2 == 1 && m.chance(0.6):
			m.join(l, m.links[i-1])
		case len(m.poles) > 0 && m.chance(0.4):
			m.join(l, pick(m, m.poles)[0])
		case len(throws) > 0 && m.chance(0.5):
			m.join(l, pick(m, throws))
		case m.odd(0.3):
			m.join(l, m.gnd)
		case m.odd(0.5):
			m.join(l, m.tip)
		}
	}
}

func (m *maker) plausiblePoles(signal, throws []string) {
	for _, p := range m.poles {
		switch {
		case m.chance(0.75):
			m.join(p[0], pick(m, signal))
		case m.odd(0.3):
			m.join(p[0], m.gnd)
		case len(m.links) > 0 && m.chance(0.6):
			m.join(p[0], pick(m, m.links))
		}
		for _, t := range p[1:] {
			switch {
			case m.odd(0.1):
				m.join(t, m.gnd)
			case m.odd(0.2):
				m.join(t, pick(m, throws))
			case m.chance(0.15):
				m.join(t, pick(m, slices.Concat(m.hots, m.links)))
			}
		}
	}
}

func (m *maker) plausiblePots(signal []string) {
	twos := slices.Clone(m.twos)
	for _, p := range m.pots {
		if len(twos) > 0 && m.chance(0.4) { // a tone
			c := twos[0]
			twos = twos[1:]
			end := p[2]
			if m.chance(0.3) {
				end = p[0]
			}
			m.join(p[1], pick(m, signal))
			m.join(end, c[0])
			m.join(c[1], m.gnd)
			continue
		}
		cw, wiper := p[0], p[1]
		if m.chance(0.2) {
			cw, wiper = wiper, cw
		}
		m.join(wiper, m.tip)
		if m.chance(0.85) {
			m.join(p[2], m.gnd)
		}
		if m.chance(0.3) {
			m.join(cw, pick(m, signal))
		}
	}
	for _, c := range twos {
		if len(m.pots) > 0 && m.chance(0.6) { // a treble bleed
			p := pick(m, m.pots)
			m.join(c[0], p[0])
			m.join(c[1], p[1])
			continue
		}
		m.join(c[0], pick(m, m.all))
		m.join(c[1], pick(m, m.all))
	}
}

// spoil makes a slip or two.
func (m *maker) spoil() {
	for m.odd(0.6) {
		switch {
		case m.chance(0.4) && len(m.joins) > 1:
			i := m.rng.IntN(len(m.joins))
			m.joins = slices.Delete(m.joins, i, i+1)
		default:
			m.wild(1)
		}
	}
}
