package electrics

import (
	"fmt"
	"math"

	"loomwright/internal/diag"
	"loomwright/internal/part"
	"loomwright/internal/units"
	"loomwright/internal/wiring"
)

// Codes of this package's findings.
var Codes = []diag.Code{
	{Code: "value-absurd", Severity: diag.Error, Says: "a value is beyond what any such part has", Notice: "nothing is computed from it"},
	{Code: "value-missing", Severity: diag.Info, Says: "a value is not stated and a usual one is taken", Notice: "figures are less sure than they could be"},
	{Code: "coupling-absurd", Severity: diag.Error, Says: "coils are said to be coupled in a way that no coils can be", Notice: "nothing is computed from it"},
}

// Bounds of what a part can have, wide enough for any fault but a broken one.
var (
	possibleOhms   = part.Range{Lo: 1e-3, Hi: 1e12}
	possibleHenry  = part.Range{Lo: 1e-9, Hi: 1e5}
	possibleFarads = part.Range{Lo: 0, Hi: 1}
)

// check reports values that no part can have, and those that are not stated.
func (m *Model) check() diag.List {
	c := checker{m: m}
	for i := range m.coils {
		k := &m.coils[i]
		c.possible(k.use, k.name, "a resistance", k.ohms, possibleOhms, units.FormatOhms, true)
		c.possible(k.use, k.name, "an inductance", k.henries, possibleHenry, units.FormatHenries, false)
		c.possible(k.use, k.name, "a capacitance", k.farads, possibleFarads, units.FormatFarads, false)
		if !(k.eddyPart >= 0 && k.eddyPart <= 1) {
			c.add(k.use, "value-absurd", diag.Error, "%s: %g %% of an inductance cannot be under a loss", k.name, 100*k.eddyPart)
		}
		if k.eddyPart != 0 {
			c.possible(k.use, k.name, "a loss resistance", k.eddy, possibleOhms, units.FormatOhms, false)
		}
	}
	for i := range m.tracks {
		t := &m.tracks[i]
		c.possible(m.g.Tracks[i].Use, t.name, "a track", t.ohms, possibleOhms, units.FormatOhms, true)
		c.missing(m.g.Tracks[i].Use, t.name, "track", t.ohms, units.FormatOhms)
		c.taper(&m.g.Tracks[i], t.name)
	}
	for _, t := range m.caps {
		c.possible(t.use, t.name, "a capacitance", t.value, possibleFarads, units.FormatFarads, false)
		c.missing(t.use, t.name, "capacitance", t.value, units.FormatFarads)
	}
	for _, t := range m.resistors {
		c.possible(t.use, t.name, "a resistance", t.value, part.Range{Hi: possibleOhms.Hi}, units.FormatOhms, true)
		c.missing(t.use, t.name, "resistance", t.value, units.FormatOhms)
	}
	c.load()
	c.couplings()
	return c.list
}

type checker struct {
	m    *Model
	list diag.List
}

func (c *checker) add(use int, code string, severity diag.Severity, format string, args ...any) {
	d := diag.Diagnostic{Code: code, Severity: severity, Message: fmt.Sprintf(format, args...)}
	if use >= 0 {
		d.Span = c.m.g.Loom.Uses[use].Span
	}
	c.list.Add(d)
}

// possible reports a value outside what is possible. A broken part is possible
// where infinite is.
func (c *checker) possible(use int, name, what string, r, bounds part.Range, format func(float64) string, infinite bool) {
	if infinite && math.IsInf(r.Typical, 1) {
		return
	}
	for _, x := range []float64{r.Typical, r.Lo, r.Hi} {
		if !(x >= bounds.Lo && x <= bounds.Hi) {
			c.add(use, "value-absurd", diag.Error, "%s: %s of %s is beyond what a part can have (%s to %s)",
				name, what, format(x), format(bounds.Lo), format(bounds.Hi))
			return
		}
	}
}

func (c *checker) missing(use int, name, what string, r part.Range, format func(float64) string) {
	if !r.Known {
		c.add(use, "value-missing", diag.Info, "%s: its %s is not stated; taken as %s, from %s to %s", name, what,
			format(r.Typical), format(r.Lo), format(r.Hi))
	}
}

// taper says of a pot whose taper nobody stated that it is taken as linear.
func (c *checker) taper(t *wiring.Track, name string) {
	if t.Value.Ohms.X > 0 && t.Value.Taper == "" && len(t.Table) == 0 {
		c.add(t.Use, "value-missing", diag.Info, "%s: its taper is not stated; taken as linear (write 500k audio or 500k linear)", name)
	}
}

// load checks what the jack is plugged into.
func (c *checker) load() {
	m := c.m
	if !(m.input >= 1 && m.input <= possibleOhms.Hi) {
		c.add(-1, "value-absurd", diag.Error, "the input that the jack is plugged into: %s is beyond what an input can have", units.FormatOhms(m.input))
	}
	if !(m.cable >= 0 && m.cable <= 1e-3) {
		c.add(-1, "value-absurd", diag.Error, "the cable: %s is beyond what a cable can have", units.FormatFarads(m.cable))
	}
	if !(m.scale > 0.01 && m.scale < 10) {
		c.add(-1, "value-absurd", diag.Error, "a string of %s is no guitar's", units.FormatMetres(m.scale))
	}
}

// couplings checks every coupling, and every group of coupled coils: their
// inductances must form a positive definite matrix.
func (c *checker) couplings() {
	for _, k := range c.m.couplings {
		if !(k.K > -1 && k.K < 1) {
			a := &c.m.coils[k.A]
			c.add(a.use, "coupling-absurd", diag.Error, "%s and %s: a coupling of %g is not between -1 and 1", a.name, c.m.coils[k.B].name, k.K)
			return
		}
	}
	for _, g := range groups(c.m.coils, c.m.couplings) {
		if len(g.coils) > 2 && !positive(g.k) {
			a := &c.m.coils[g.coils[0]]
			c.add(a.use, "coupling-absurd", diag.Error, "%s and the coils beside it: no coils can have these couplings all at once", a.name)
		}
	}
}

// positive reports whether a symmetric matrix is positive definite (Cholesky).
func positive(k [][]float64) bool {
	l := make([][]float64, len(k))
	for i := range k {
		l[i] = make([]float64, i+1)
		for j := range i + 1 {
			sum := k[i][j]
			for n := range j {
				sum -= l[i][n] * l[j][n]
			}
			if i != j {
				l[i][j] = sum / l[j][j]
				continue
			}
			if sum <= 1e-9 {
				return false
			}
			l[i][i] = math.Sqrt(sum)
		}
	}
	return true
}
