package drawing

import (
	"fmt"
	"math/rand/v2"
	"strings"
)

// randomLoom writes a loom of random parts with random joins: no music, but the
// crowd of wires that real looms have. At most two wires go to a lug.
func randomLoom(seed uint64) string {
	r := rand.New(rand.NewPCG(seed, 7))
	l := &loomWriter{r: r, used: map[string]int{}}
	l.pickups()
	l.controls()
	l.joins()
	return fmt.Sprintf("loomwright: 1\ntitle: random loom %d\nparts:\n%sjoins:\n%s", seed, l.parts.String(), l.lines.String())
}

type loomWriter struct {
	r            *rand.Rand
	parts, lines strings.Builder
	leads        []string // of pickups, and of capacitors
	caps         []string
	lugs, cases  []string
	used         map[string]int
}

func (l *loomWriter) part(format string, args ...any) {
	fmt.Fprintf(&l.parts, "  "+format+"\n", args...)
}

func (l *loomWriter) pickups() {
	for i := range 1 + l.r.IntN(3) {
		name := []string{"neck", "middle", "bridge"}[i]
		if l.r.IntN(2) == 0 {
			l.part("%s: {is: pickup/single-coil, leads: {%s: coil.start, black: coil.finish}}", name, []string{"yellow", "blue", "white"}[i])
			l.leads = append(l.leads, name+"."+[]string{"yellow", "blue", "white"}[i], name+".black")
			continue
		}
		l.part("%s: {is: pickup/twin-coil, code: dunlin}", name)
		for _, c := range []string{"orange", "pink", "blue", "violet", "bare"} {
			l.leads = append(l.leads, name+"."+c)
		}
	}
}

func (l *loomWriter) controls() {
	pots := 1 + l.r.IntN(4)
	for i := range pots {
		name := fmt.Sprintf("pot%d", i+1)
		kind := []string{"standard", "standard", "standard", "mini", "push-pull-pads", "push-pull-lugs"}[l.r.IntN(6)]
		l.part("%s: {is: pot/%s, track: 500k audio}", name, kind)
		l.lugs = append(l.lugs, name+".cw", name+".wiper", name+".ccw")
		l.cases = append(l.cases, name+".case")
		if strings.HasPrefix(kind, "push") {
			for _, t := range []string{"a", "a.pushed", "a.pulled", "b", "b.pushed", "b.pulled"} {
				l.lugs = append(l.lugs, name+".pull."+t)
			}
		}
	}
	switch l.r.IntN(5) {
	case 0:
		l.part("sel: {is: switch/lever-5way}")
		l.add("sel", "a", "a.1", "a.2", "a.3", "b", "b.1", "b.2", "b.3")
	case 1:
		l.part("sel: {is: switch/toggle-3way}")
		l.add("sel", "a", "a.neck", "a.bridge")
	case 2:
		l.part("sel: {is: switch/dpdt-on-on}")
		l.add("sel", "a", "a.up", "a.down", "b", "b.up", "b.down")
	case 3:
		l.part("sel: {is: switch/lever-3way}")
		l.add("sel", "a", "a.1", "a.2", "a.3")
	}
	for i := range l.r.IntN(3) {
		name := fmt.Sprintf("cap%d", i+1)
		l.part("%s: {is: capacitor/film, value: 22n}", name)
		l.caps = append(l.caps, name)
	}
	l.part("jack: {is: jack/mono}")
	l.part("strings: {is: ground/string}")
}

func (l *loomWriter) add(part string, terms ...string) {
	for _, t := range terms {
		l.lugs = append(l.lugs, part+"."+t)
	}
}

func (l *loomWriter) join(a, b string) {
	if a != "" && b != "" && a != b {
		fmt.Fprintf(&l.lines, "  - %s -- %s\n", a, b)
	}
}

// lug is a random lug with room for a wire; "" when all are full.
func (l *loomWriter) lug() string {
	for range 60 {
		if t := l.lugs[l.r.IntN(len(l.lugs))]; l.used[t] < 2 {
			l.used[t]++
			return t
		}
	}
	return ""
}

func (l *loomWriter) joins() {
	for i, lead := range l.leads {
		if l.r.IntN(3) == 0 || strings.HasSuffix(lead, "bare") || strings.HasSuffix(lead, "black") {
			l.join(lead, l.cases[l.r.IntN(len(l.cases))])
			continue
		}
		if next := i + 1; next < len(l.leads) && l.r.IntN(8) == 0 && strings.HasSuffix(lead, "pink") {
			l.join(lead, l.leads[next])
			continue
		}
		l.join(lead, l.lug())
	}
	for _, c := range l.caps {
		l.join(c+".a", l.lug())
		if l.r.IntN(2) == 0 {
			l.join(c+".b", l.cases[l.r.IntN(len(l.cases))])
		} else {
			l.join(c+".b", l.lug())
		}
	}
	for range 3 + l.r.IntN(8) {
		l.join(l.lug(), l.lug())
	}
	l.join(l.lug(), "jack.tip")
	l.join(l.cases[0], "jack.sleeve")
	for i := range l.cases[1:] {
		l.join(l.cases[i], l.cases[i+1])
	}
	l.join(l.lug(), l.cases[l.r.IntN(len(l.cases))])
	l.join("strings.wire", l.cases[l.r.IntN(len(l.cases))])
}
