package electrics

import (
	"loomwright/internal/diag"
	"loomwright/internal/part"
	"loomwright/internal/setting"
	"loomwright/internal/wiring"
)

// Model is a graph with every value filled in: what does not change with the
// switches and knobs. It is safe for concurrent use.
type Model struct {
	g         *wiring.Graph
	base      *setting.Base
	opts      Options
	coils     []coil
	tracks    []track
	caps      []two
	resistors []two
	couplings []wiring.Coupling
	cable     float64 // F, at the jack
	input     float64 // Ω, at the jack
	scale     float64 // m, string length
	ac        *response
}

// New fills in the values of a graph. The Model is nil when a value is beyond
// what a part can have. An infinite value of a coil, track or resistor is a
// broken part.
func New(g *wiring.Graph, opts Options) (*Model, diag.List) {
	m := &Model{g: g, base: setting.NewBase(g), opts: opts.with(), couplings: g.Couplings}
	m.cable, m.input, m.scale = g.Loom.Cable.X, g.Loom.Input.X, g.Loom.Scale
	for i := range g.Coils {
		m.coils = append(m.coils, m.coil(&g.Coils[i]))
	}
	for i := range g.Tracks {
		m.tracks = append(m.tracks, m.track(&g.Tracks[i]))
	}
	for i := range g.Caps {
		m.caps = append(m.caps, m.two(&g.Caps[i], m.typicalCapacitor(&g.Caps[i])))
	}
	for i := range g.Resistors {
		m.resistors = append(m.resistors, m.two(&g.Resistors[i], typicalFixed))
	}
	m.extras()
	list := m.check()
	if list.HasErrors() {
		return nil, list
	}
	m.ac = newResponse(m)
	return m, list
}

// extras adds the elements that only the options know of.
func (m *Model) extras() {
	for _, e := range m.opts.Extra {
		name := usual(e.Name, "an added part")
		if e.Ohms != (Bounds{}) {
			r := part.Range{Typical: e.Ohms.Typical, Lo: e.Ohms.Lo, Hi: e.Ohms.Hi, Known: true}
			m.resistors = append(m.resistors, two{name: name, use: -1, a: e.A, b: e.B, value: filled(r, r)})
		}
		if e.Farads > 0 {
			r := part.Range{Typical: e.Farads, Lo: e.Farads, Hi: e.Farads, Known: true}
			m.caps = append(m.caps, two{name: name, use: -1, a: e.A, b: e.B, value: r})
		}
	}
}

// Graph returns the graph that the model was made of.
func (m *Model) Graph() *wiring.Graph { return m.g }

// Base returns the graph's merged base, for setting.Nets.
func (m *Model) Base() *setting.Base { return m.base }

// travelled is setting.Travelled of a track.
func travelled(t *part.Track, turn float64) float64 { return setting.Travelled(t, turn) }
