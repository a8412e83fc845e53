package electrics

import (
	"encoding/json"
	"fmt"
	"io/fs"
	"maps"
	"math/rand/v2"
	"testing"

	"loomwright/examples"
	"loomwright/internal/setting"
	"loomwright/internal/wiring"
)

// shippedLooms are the looms that users are shown, by file.
func shippedLooms(t testing.TB) (names []string, graphs []*wiring.Graph) {
	t.Helper()
	names, err := fs.Glob(examples.Files, "*.yaml")
	if err != nil || len(names) == 0 {
		t.Fatalf("no examples (%v)", err)
	}
	for _, n := range names {
		text, err := fs.ReadFile(examples.Files, n)
		if err != nil {
			t.Fatal(err)
		}
		graphs = append(graphs, graphOf(t, n, string(text)))
	}
	return names, graphs
}

// stated fills in what an example leaves unknown with what the model takes, so
// that a deck can be written of it.
func stated(m *Model) {
	for i := range m.coils {
		c := &m.g.Coils[i].Coil
		c.Ohms, c.Henries, c.Farads = m.coils[i].ohms, m.coils[i].henries, m.coils[i].farads
		c.Eddy, c.EddyPart = m.coils[i].eddy, m.coils[i].eddyPart
	}
	for i := range m.tracks {
		m.g.Tracks[i].Value.Ohms.X = m.tracks[i].ohms.Typical
	}
	for i := range m.resistors {
		m.g.Resistors[i].Value.X = m.resistors[i].value.Typical
	}
	for i := range m.caps {
		m.g.Caps[i].Value.X = m.caps[i].value.Typical
	}
}

// The examples against ngspice, within 1e-6 dB: settings spread over all of
// each loom's, knobs up in one and anywhere in the others.
func TestExamplesAgainstNgspice(t *testing.T) {
	const most = 12 // settings of one loom
	random := rand.New(rand.NewPCG(41, 42))
	_, graphs := shippedLooms(t)
	results := map[string][]complex128{}
	var all []asked
	d := &decker{prefix: "e0"}
	for _, g := range graphs {
		stated(modelOf(t, g, Options{}))
		count := setting.Count(g)
		for k := range min(count, most) {
			a := asked{g: g, at: setting.Nth(g, k*count/min(count, most)).At, turn: setting.FullUp(g)}
			if k > 0 {
				a.turn = randomTurn(random, g)
			}
			nets := setting.NewBase(g).Nets(a.at)
			if nets.Of[g.Hot] == nets.Of[g.Ground] {
				continue
			}
			for coil := range g.Coils {
				a.outs = append(a.outs, d.ac(g, a.at, a.turn, coil))
				d.saved = append(d.saved, "v("+a.outs[coil]+")")
			}
			all = append(all, a)
		}
		if d.count > 60 {
			maps.Copy(results, spice(t, d.acDeck("examples", "dec 13 20 20k")))
			d = &decker{prefix: fmt.Sprintf("e%d", len(all))}
		}
	}
	if d.count > 0 {
		maps.Copy(results, spice(t, d.acDeck("examples", "dec 13 20 20k")))
	}
	compare40(t, all, results, 60)
}

// Every figure of every setting of every example is a number that JSON takes,
// and the notes on figures that mislead speak of settings that there are.
func TestExamplesHaveFigures(t *testing.T) {
	names, graphs := shippedLooms(t)
	sounding := 0
	for i, g := range graphs {
		m := modelOf(t, g, Options{})
		ss, full := settingsOf(g), setting.FullUp(g)
		rows := m.Table(ss, full, 0)
		notes := m.Notes(ss, rows, full)
		if _, err := json.Marshal([]any{rows, notes, m.Band(ss[0].At, full)}); err != nil {
			t.Errorf("%s: %v", names[i], err)
		}
		known := map[string]bool{}
		for _, r := range rows {
			known[r.Setting] = true
			if r.Output == Sounding {
				sounding++
			}
		}
		for _, n := range notes {
			for _, s := range n.Settings {
				if !known[s] {
					t.Errorf("%s: a note speaks of %q", names[i], s)
				}
			}
		}
	}
	if sounding < 50 {
		t.Errorf("only %d settings sound", sounding)
	}
}
