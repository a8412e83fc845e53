// Package meter says which readings can be taken on a loom, what each shows on
// a right loom and on one with a fault, and the fewest that prove a loom right.
package meter

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"loomwright/internal/setting"
	"loomwright/internal/wiring"
)

// Kind is a kind of reading.
type Kind string

// The kinds of reading. A tap is steel touched to a coil while the meter stands
// on its lowest volts range; darkens listens while a tone goes from 10 to 0;
// farads reads a capacitor, with one of its leads lifted; a compass over a coil
// tells its pole.
const (
	Ohms    Kind = "ohms"
	Tap     Kind = "tap"
	Farads  Kind = "farads"
	Darkens Kind = "darkens"
	Compass Kind = "compass"
)

// Kinds lists all kinds of reading in the order of reports.
func Kinds() []Kind { return []Kind{Ohms, Tap, Darkens, Compass, Farads} }

// Ask is one reading that can be taken. What of it has a meaning depends on the
// kind.
type Ask struct {
	Kind Kind
	At   []int        // positions of the switches
	Turn setting.Turn // of the knobs
	A, B int          // terminals: red probe, black probe
	Coil int          // tap, compass
	Knob int          // darkens
	Cap  int          // farads
}

// Key is the ask as one line of text, which Parse reads:
//
//	ohms jack.tip to jack.sleeve; volume pulled; volume=0
//	tap bridge.north at jack.tip to jack.sleeve; volume pushed
//	darkens tone; volume pushed
//	farads tone-cap
//	compass bridge.north
func (a *Ask) Key(g *wiring.Graph) string {
	var s string
	switch a.Kind {
	case Ohms:
		s = fmt.Sprintf("ohms %s to %s", g.Terms[a.A].Name, g.Terms[a.B].Name)
	case Tap:
		s = fmt.Sprintf("tap %s at %s to %s", g.Coils[a.Coil].Name, g.Terms[a.A].Name, g.Terms[a.B].Name)
	case Darkens:
		s = "darkens " + g.Knobs[a.Knob].Name
	case Farads:
		return "farads " + capName(g, a.Cap)
	case Compass:
		return "compass " + g.Coils[a.Coil].Name
	}
	if with := setting.Name(g, a.At); with != asWired {
		s += "; " + with
	}
	if knobs := a.knobs(g); len(knobs) > 0 {
		s += "; " + strings.Join(knobs, ", ")
	}
	return s
}

const asWired = "as wired"

// knobs lists the knobs that do not stand as usual.
func (a *Ask) knobs(g *wiring.Graph) []string {
	var out []string
	full := setting.FullUp(g)
	for i, t := range a.Turn {
		if t != full[i] && !(a.Kind == Darkens && i == a.Knob) {
			out = append(out, g.Knobs[i].Name+"="+mark(t))
		}
	}
	return out
}

func capName(g *wiring.Graph, i int) string {
	c := &g.Caps[i]
	if c.Use < 0 {
		return c.Name
	}
	use := &g.Loom.Uses[c.Use]
	if len(use.Part.Capacitors) > 1 {
		return use.Name + "." + c.Name
	}
	return use.Name
}

// Parse reads the line that Key writes. A switch or knob that it leaves out
// stands in its first position, or as usual.
func Parse(g *wiring.Graph, line string) (Ask, error) {
	fields := strings.Split(line, ";")
	kind, what, _ := strings.Cut(strings.TrimSpace(fields[0]), " ")
	a := Ask{Kind: Kind(kind), At: setting.Nth(g, 0).At, Turn: setting.FullUp(g), A: -1, B: -1, Coil: -1, Knob: -1, Cap: -1}
	if !slices.Contains(Kinds(), a.Kind) {
		return a, fmt.Errorf("no reading is called %q: there is ohms, tap, darkens, compass, farads", kind)
	}
	if err := a.subject(g, what); err != nil {
		return a, err
	}
	for _, f := range fields[1:] {
		if err := a.stand(g, strings.TrimSpace(f)); err != nil {
			return a, err
		}
	}
	return a, nil
}

// subject reads what stands after the kind.
func (a *Ask) subject(g *wiring.Graph, what string) (err error) {
	switch a.Kind {
	case Ohms:
		return a.probes(g, what)
	case Tap:
		coil, at, _ := strings.Cut(what, " at ")
		if a.Coil, err = coilOf(g, coil); err != nil {
			return err
		}
		return a.probes(g, at)
	case Compass:
		a.Coil, err = coilOf(g, what)
	case Darkens:
		a.Knob, err = knobOf(g, what)
	case Farads:
		for i := range g.Caps {
			if capName(g, i) == strings.TrimSpace(what) {
				a.Cap = i
				return nil
			}
		}
		return fmt.Errorf("this loom has no capacitor %q", what)
	}
	return err
}

func coilOf(g *wiring.Graph, name string) (int, error) {
	if i := g.CoilIndex(strings.TrimSpace(name)); i >= 0 {
		return i, nil
	}
	return -1, fmt.Errorf("this loom has no coil %q", name)
}

func knobOf(g *wiring.Graph, name string) (int, error) {
	for i := range g.Knobs {
		if g.Knobs[i].Name == strings.TrimSpace(name) {
			return i, nil
		}
	}
	return -1, fmt.Errorf("this loom has no knob %q", name)
}

// probes reads "jack.tip to jack.sleeve".
func (a *Ask) probes(g *wiring.Graph, text string) error {
	red, black, ok := strings.Cut(text, " to ")
	if !ok {
		return fmt.Errorf("%q: write two terminals with \"to\" between them", text)
	}
	for _, p := range []struct {
		name string
		term *int
	}{{red, &a.A}, {black, &a.B}} {
		t, ok := g.Find(strings.TrimSpace(p.name))
		if !ok {
			return fmt.Errorf("this loom has no terminal %q", strings.TrimSpace(p.name))
		}
		*p.term = t
	}
	return nil
}

// stand reads positions ("volume pulled") or knobs ("volume=0, tone=5").
func (a *Ask) stand(g *wiring.Graph, text string) error {
	if !strings.Contains(text, "=") {
		found, err := setting.Match(g, text)
		if err == nil && len(found) > 0 {
			a.At = found[0].At
		}
		return err
	}
	for _, k := range strings.Split(text, ",") {
		name, mark, _ := strings.Cut(k, "=")
		i, err := knobOf(g, name)
		if err != nil {
			return err
		}
		x, err := strconv.ParseFloat(strings.TrimSpace(mark), 64)
		if err != nil || !(x >= 0 && x <= 10) {
			return fmt.Errorf("%s: knobs go from 0 to 10", strings.TrimSpace(k))
		}
		a.Turn = a.Turn.With(i, math.Round(x*1000)/10000)
	}
	return nil
}
