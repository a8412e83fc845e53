package meter

import (
	"math"

	"loomwright/internal/electrics"
	"loomwright/internal/fault"
	"loomwright/internal/setting"
	"loomwright/internal/units"
	"loomwright/internal/wiring"
)

// state is where switches and knobs stand, as a key.
type state struct {
	setting int
	turn    string
}

func stateOf(g *wiring.Graph, a *Ask) state {
	var turn []byte
	for _, t := range a.Turn {
		turn = append(turn, byte(math.Round(200*t)))
	}
	return state{setting.Index(g, a.At), string(turn)}
}

// models are one circuit with all its values: as it likely is, and where it
// has a bad joint or contact, with the least and the most of that.
type models struct {
	g       *wiring.Graph
	likely  *electrics.Model
	extreme []*electrics.Model // likely among them
}

func newModels(g *wiring.Graph, o electrics.Options) (*models, bool) {
	m := &models{g: g}
	m.likely, _ = electrics.New(g, o)
	if m.likely == nil {
		return nil, false
	}
	m.extreme = []*electrics.Model{m.likely}
	for _, end := range []float64{0, 1} {
		if changed, ok := fault.BadAt(g, end); ok {
			x, _ := electrics.New(changed, o)
			if x == nil {
				return nil, false
			}
			m.extreme = append(m.extreme, x)
		}
	}
	return m, true
}

// solved is one circuit at one state.
type solved struct {
	m    *models
	at   []int
	turn setting.Turn
	dc   []*electrics.DC // as models.extreme
}

func (m *models) at(a *Ask) *solved {
	s := &solved{m: m, at: a.At, turn: a.Turn}
	for _, e := range m.extreme {
		s.dc = append(s.dc, e.DC(a.At, a.Turn))
	}
	return s
}

// ohms is what a meter may show between two terminals.
func (s *solved) ohms(meter *electrics.Meter, a, b int) Shown {
	_, lo, hi := s.dc[0].Interval(a, b)
	return display(meter, lo, hi)
}

// Share of a coil's EMF that certainly moves the meter, and that certainly does
// not (judgements).
const (
	surelySeen = 0.15
	neverSeen  = 0.005
)

// tap is which way the meter can move when steel touches a coil. Steel brought
// to a coil adds to the flux that its magnet sends through it: out toward the
// strings where that pole is north. The induced current opposes the change
// (Lenz): seen from the strings it runs clockwise, which in a coil wound
// clockwise from its start is from start to finish inside the coil. So its
// finish becomes the positive end, V(start) − V(finish) goes negative.
func (s *solved) tap(coil, a, b int) Answer {
	c := &s.m.g.Coils[coil]
	sign := -float64(c.Winding * c.Pole)
	var may Answer
	for _, dc := range s.dc {
		v := dc.Tap(coil, a, b)
		switch {
		case math.Abs(v) <= neverSeen:
			may |= Still
			continue
		case math.Abs(v) < surelySeen:
			may |= Still
		}
		switch {
		case sign == 0:
			may |= Up | Down
		case v*sign > 0:
			may |= Up
		default:
			may |= Down
		}
	}
	return may
}

// Bounds of what is heard of a tone (judgements): dB of brightness that surely
// darken, or surely do not; dB of level that are surely lost in silence or
// surely not; and of a level, over one coil by itself, that surely sounds or
// surely does not.
var (
	darkening = bounds{1, 5}
	losing    = bounds{20, 40}
	sounding  = bounds{-50, -30}
)

type bounds struct{ no, yes float64 }

// of is the set of yes and no that a figure can be heard as.
func (b bounds) of(x float64, yes, no Answer) Answer {
	switch {
	case x >= b.yes:
		return yes
	case x <= b.no:
		return no
	}
	return yes | no
}

// darkens is what can be heard as a tone goes from 10 to 0.
func (m *models) darkens(a *Ask) Answer {
	s := []setting.Setting{setting.Nth(m.g, setting.Index(m.g, a.At))}
	var may Answer
	for _, e := range m.extreme {
		open := e.Table(s, a.Turn.With(a.Knob, 1), -1)[0]
		shut := e.Table(s, a.Turn.With(a.Knob, 0), -1)[0]
		may |= darker(&open, &shut)
	}
	return may
}

func darker(open, shut *electrics.Row) Answer {
	const heard = Darker | Same | Mutes
	may := sounding.of(open.Level, heard, Mute)
	if may&heard == 0 {
		return may
	}
	left := losing.of(open.Level-shut.Level, Mutes, Darker|Same)
	if left&Darker != 0 {
		left = left&Mutes | darkening.of(open.Brightness-shut.Brightness, Darker, Same)
	}
	return may&Mute | left
}

func (m *models) compass(coil int) Answer {
	switch m.g.Coils[coil].Pole {
	case 1:
		return North
	case -1:
		return South
	}
	return North | South
}

// usualCapacitor is what a capacitor of unknown value may be, F (from memory).
const (
	leastCapacitor = 470e-12
	mostCapacitor  = 470e-9
	capTolerance   = 0.10
)

// farads is what a meter may show of a capacitor with one lead lifted.
func (m *models) farads(i int) Shown {
	c := &m.g.Caps[i]
	broken := func(t int) bool { return m.g.Terms[t].Kind == "inside" }
	shorted := func() bool {
		for _, l := range m.g.Links {
			if l.Run < 0 && (l.A == c.A && l.B == c.B || l.A == c.B && l.B == c.A) {
				return true
			}
		}
		return false
	}
	switch {
	case broken(c.A) || broken(c.B):
		return displayFarads(0, 0)
	case shorted():
		return Shown{Lo: 1, Hi: math.Inf(1)}
	case c.Value.X == 0:
		return displayFarads(leastCapacitor, mostCapacitor)
	}
	v := c.Value
	v.Tol = max(v.Tol, c.Tolerance)
	if v.Tol == 0 {
		v.Tol = capTolerance
	}
	return displayFarads(interval(v))
}

func interval(v units.Value) (lo, hi float64) {
	i := v.Interval()
	return i.Lo, i.Hi
}
