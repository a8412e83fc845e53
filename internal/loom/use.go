package loom

import (
	"slices"
	"strconv"
	"strings"

	"loomwright/internal/diag"
	"loomwright/internal/part"
	"loomwright/internal/sound"
	"loomwright/internal/source"
	"loomwright/internal/units"
)

// statedTolerance is how far a coil's measured ohms, henries or farads may be
// off when the file does not say (from memory: a hobby meter and a cool room).
const statedTolerance = 0.05

// use adds one part of the loom: the library's part with this file's values.
func (r *resolver) use(key source.String, f *UseFile) {
	if !part.IsWord(key.Value) || strings.Contains(key.Value, ".") {
		r.fail("part-named", key.Span, "%q cannot be the name of a part: names are written in joins and sounds, as one word without a dot", key.Value)
	}
	u := Use{Name: key.Value, Called: f.Called.Value, Span: key.Span, Note: f.Note.Value}
	var lib *part.Part
	var list diag.List
	if f.Is.Value != "" { // else the decoder has said that it is missing
		lib, list = r.part(f.Is.Value)
	}
	if lib == nil {
		r.unknownPart(f, list)
		lib = &part.Part{} // keeps indices in step; the loom is refused anyway
	}
	own := *lib
	u.Part = &own
	if len(list) == 0 {
		r.values(u.Part, f)
	}
	u.FromBridge = r.value(f.FromBridge, units.Metres).X
	r.loom.Uses = append(r.loom.Uses, u)
	r.leads(&r.loom.Uses[len(r.loom.Uses)-1], f)
}

func (r *resolver) unknownPart(f *UseFile, list diag.List) {
	for _, d := range list {
		if d.Code == "part-unknown" {
			d.Span = f.Is.Span
			d.Hint = diag.Nearest(f.Is.Value, r.partIDs())
			r.list.Add(d)
			return
		}
	}
	r.list = append(r.list, list...)
}

// values lays this file's values over a copy of the part.
func (r *resolver) values(p *part.Part, f *UseFile) {
	r.coils(p, f)
	r.track(p, f)
	p.Capacitors = r.twos(p.Capacitors, f.Tolerance, units.Farads, f.Capacitor, r.single(p, f, true))
	p.Resistors = r.twos(p.Resistors, f.Tolerance, units.Ohms, f.Resistor, r.single(p, f, false))
	if f.Travel.Value != "" {
		r.travel(p, f)
	}
	for _, s := range []source.String{f.Capacitor, r.single(p, f, true)} {
		if c, err := units.Farads(s.Value); err == nil {
			r.plausible(guitarCapacitor, s, c.X)
		}
	}
	r.unfit(p, f)
}

// single gives "value" to the only element of a part.
func (r *resolver) single(p *part.Part, f *UseFile, capacitor bool) source.String {
	if len(p.Capacitors)+len(p.Resistors) == 1 && (len(p.Capacitors) == 1) == capacitor {
		return f.Value
	}
	return source.String{}
}

// unfit reports values that the part has no use for.
func (r *resolver) unfit(p *part.Part, f *UseFile) {
	one := len(p.Capacitors)+len(p.Resistors) == 1
	for _, c := range []struct {
		given  source.String
		fits   bool
		anyone string
	}{
		{f.Track, len(p.Tracks) > 0, "track"},
		{f.Value, one, "value"},
		{f.Capacitor, len(p.Capacitors) == 1, "capacitor"},
		{f.Resistor, len(p.Resistors) == 1, "resistor"},
		{f.Travel, len(p.Switches) > 0, "travel"},
		{f.Code, len(p.Coils) > 0, "code"},
		{f.Coupling, len(p.Couplings) == 1, "coupling"},
		{f.FromBridge, len(p.Coils) > 0, "from-bridge"},
	} {
		if c.given.Value != "" && !c.fits {
			r.fail("part-unfit", c.given.Span, "a %s has no %s", p.Name, c.anyone)
		}
	}
}

func (r *resolver) travel(p *part.Part, f *UseFile) {
	p.Switches = slices.Clone(p.Switches)
	for i := range p.Switches {
		p.Switches[i].Travel = map[string]part.Travel{"break first": part.BreakFirst, "make first": part.MakeFirst,
			"unknown": part.UnknownTravel}[f.Travel.Value]
	}
}

func (r *resolver) track(p *part.Part, f *UseFile) {
	if f.Track.Value == "" || len(p.Tracks) == 0 {
		return
	}
	v, err := units.Track(f.Track.Value)
	if err != nil {
		r.unreadable(f.Track, err)
	}
	r.plausible(potTrack, f.Track, v.Ohms.X)
	p.Tracks = slices.Clone(p.Tracks)
	for i := range p.Tracks {
		p.Tracks[i].Value = v
		p.Tracks[i].Tolerance = r.tolerance(f.Tolerance, p.Tracks[i].Tolerance)
	}
}

func (r *resolver) tolerance(s source.String, otherwise float64) float64 {
	if s.Value == "" {
		return otherwise
	}
	x, err := units.Percent(s.Value)
	if err != nil || x < 0 || x >= 1 {
		r.fail("value-syntax", s.Span, "%q is not a tolerance: write 5%%, 10%% or 20%%", s.Value)
	}
	return x
}

func (r *resolver) twos(old []part.Two, tol source.String, read func(string) (units.Value, error), given ...source.String) []part.Two {
	if len(old) != 1 {
		return old
	}
	out := slices.Clone(old)
	for _, g := range given {
		if g.Value == "" {
			continue
		}
		out[0].Value = r.value(g, read)
		out[0].Tolerance = max(out[0].Tolerance, out[0].Value.Tol)
	}
	out[0].Tolerance = r.tolerance(tol, out[0].Tolerance)
	return out
}

// coils lays measured values over the part's typical ones.
func (r *resolver) coils(p *part.Part, f *UseFile) {
	given := []struct {
		name string
		per  *PerCoil
	}{{"ohms", f.Ohms}, {"henries", f.Henries}, {"farads", f.Farads}, {"winding", f.Winding}, {"pole", f.Pole}, {"sensitivity", f.Sensitivity}}
	p.Coils = slices.Clone(p.Coils)
	for _, g := range given {
		if g.per == nil {
			continue
		}
		if len(p.Coils) == 0 {
			r.fail("part-unfit", f.Span, "a %s has no %s", p.Name, g.name)
			continue
		}
		r.perCoil(p, g.name, g.per)
	}
	if f.Coupling.Value != "" && len(p.Couplings) == 1 {
		p.Couplings = slices.Clone(p.Couplings)
		p.Couplings[0].K = r.coupling(f.Coupling)
	}
}

func (r *resolver) coupling(s source.String) float64 {
	k, err := strconv.ParseFloat(s.Value, 64)
	if err != nil || !(k > -1 && k < 1) {
		r.fail("value-syntax", s.Span, "%q is not a coupling: write a number between -1 and 1, dots at the starts", s.Value)
		return 0
	}
	return k
}

// perCoil hands one kind of value to the coils it is for.
func (r *resolver) perCoil(p *part.Part, name string, per *PerCoil) {
	names := make([]string, len(p.Coils))
	for i, c := range p.Coils {
		names[i] = c.Name
		if s, ok := per.Coils.Get(c.Name); ok {
			r.coilValue(&p.Coils[i], name, s, 1)
		} else if per.All.Value != "" {
			r.coilValue(&p.Coils[i], name, per.All, share(p, name))
		}
	}
	for _, e := range per.Coils.Entries {
		if p.CoilIndex(e.Key.Value) < 0 {
			r.fail("sound-name", e.Key.Span, "this pickup has no coil %q", e.Key.Value).Hint = diag.Nearest(e.Key.Value, names)
		}
	}
}

// share is the part of a whole pickup's reading that one of its coils has: the
// trade quotes ohms and henries for the customary full sound. In series each
// coil has an equal share, of the voltage too; coupling is left aside.
func share(p *part.Part, name string) float64 {
	if name == "winding" || name == "pole" {
		return 1
	}
	n := float64(len(p.Coils))
	switch {
	case name == "sensitivity" && p.Full.Op != sound.Series:
		return 1
	case p.Full.Op == sound.Series && name != "farads":
		return 1 / n
	case p.Full.Op == sound.Parallel && name != "farads", p.Full.Op == sound.Series:
		return n
	case p.Full.Op == sound.Parallel:
		return 1 / n
	}
	return 1
}

func (r *resolver) coilValue(c *part.Coil, name string, s source.String, share float64) {
	switch name {
	case "winding":
		c.Winding = r.sign(s, "clockwise", "anticlockwise", part.WindingSign)
	case "pole":
		c.Pole = r.sign(s, "north", "south", part.PoleSign)
	case "ohms":
		r.stated(&c.Ohms, s, pickupOhms, units.Ohms, share)
	case "henries":
		r.stated(&c.Henries, s, pickupHenries, units.Henries, share)
	case "farads":
		r.stated(&c.Farads, s, noKind, units.Farads, share)
	case "sensitivity":
		x, err := part.Sensitivity(s.Value)
		if err != nil {
			r.fail("value-syntax", s.Span, "%v", err)
		}
		if x > 0 {
			c.Sensitivity = x * share
		}
	}
}

func (r *resolver) sign(s source.String, plus, minus string, read func(string) part.Sign) part.Sign {
	if s.Value != plus && s.Value != minus && s.Value != "unknown" && read(s.Value) == 0 {
		r.fail("value-syntax", s.Span, "%q is neither %s, %s nor unknown", s.Value, plus, minus)
	}
	return read(s.Value)
}

func (r *resolver) stated(dst *part.Range, s source.String, kind int, read func(string) (units.Value, error), share float64) {
	v := r.value(s, read)
	if v.X == 0 {
		return // unknown: the typical range stands
	}
	tol := v.Tol
	if tol == 0 {
		tol = statedTolerance
	}
	r.plausible(kind, s, v.X)
	x := v.X * share
	*dst = part.Range{Typical: x, Lo: x * (1 - tol), Hi: x * (1 + tol), Known: true}
}
