package part

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"loomwright/internal/diag"
	"loomwright/internal/sound"
	"loomwright/internal/source"
	"loomwright/internal/units"
)

// Codes of this package's findings.
var Codes = []diag.Code{
	{Code: "part-name", Severity: diag.Error, Says: "a part file names a terminal, coil or position that it does not have, or has a name that cannot be written", Notice: "the part cannot be used until its file is mended"},
	{Code: "part-value", Severity: diag.Error, Says: "a value in a part file cannot be read", Notice: "the part cannot be used until its file is mended"},
	{Code: "part-shape", Severity: diag.Error, Says: "a part file contradicts itself", Notice: "the part cannot be used until its file is mended"},
	{Code: "part-unknown", Severity: diag.Error, Says: "no part file or lead code of that name is in the library or on the shelf", Notice: "the loom cannot be read until the part is named rightly"},
}

// resolver turns one File into a Part and collects what is wrong with it.
type resolver struct {
	part *Part
	list diag.List
}

// Resolve checks a part file and gives every name in it a meaning.
func Resolve(id string, f *File) (*Part, diag.List) {
	r := &resolver{part: &Part{
		ID: id, Name: f.Name.Value, Class: f.Class.Value, About: f.About.Value,
		Source: f.Source.Value, Confirm: f.Confirm.Value, index: map[string]int{},
	}}
	p := r.part
	p.Rank = r.number(f.Rank, 50)
	for _, e := range f.Terminals.Entries {
		r.terminal(e.Key, e.Value)
	}
	for _, tie := range f.Ties {
		p.Ties = append(p.Ties, r.terminals(tie))
	}
	for _, e := range f.Coils.Entries {
		r.word(e.Key)
		p.Coils = append(p.Coils, r.coil(e.Key.Value, e.Value))
	}
	for _, c := range f.Couplings {
		r.coupling(c)
	}
	r.full(f.Full)
	for _, e := range f.Tracks.Entries {
		p.Tracks = append(p.Tracks, r.track(e.Key.Value, e.Value))
	}
	p.Capacitors = r.twos(f.Capacitors, units.Farads)
	p.Resistors = r.twos(f.Resistors, units.Ohms)
	for _, e := range f.Switches.Entries {
		p.Switches = append(p.Switches, r.switchOf(e.Key, e.Value))
	}
	if f.Output != nil {
		p.Output = &Output{r.name(f.Output.Hot), r.name(f.Output.Ground)}
	}
	p.Grounds = r.terminals(f.Grounds)
	if b := f.Body; b != nil {
		p.Body = Body{b.Size.Value, b.Depth.Value, b.Shaft.Value, b.Thread.Value, b.Hole.Value, b.Joint.Value}
	}
	for _, s := range f.Outline {
		p.Outline = append(p.Outline, r.shape(s))
	}
	return p, r.list
}

func (r *resolver) fail(code string, s source.String, format string, args ...any) {
	r.list.Add(diag.Diagnostic{Code: code, Severity: diag.Error, Span: s.Span, Message: fmt.Sprintf(format, args...)})
}

func (r *resolver) terminal(key source.String, f *TerminalFile) {
	if _, twice := r.part.index[key.Value]; twice {
		return // duplicate keys are reported by source
	}
	r.listed(key)
	t := Terminal{Name: key.Value, Kind: "lug"}
	if f != nil {
		t.Words, t.Label, t.View = f.Words.Value, f.Label.Value, f.View.Value
		if f.Kind.Value != "" {
			t.Kind = f.Kind.Value
		}
		t.At, t.Placed = r.point(f.At)
		t.Pin, t.HasPin = r.point(f.Pin)
		for _, e := range f.Exit {
			t.Exit = append(t.Exit, e.Value)
		}
	}
	r.part.index[key.Value] = len(r.part.Terminals)
	r.part.Terminals = append(r.part.Terminals, t)
}

// IsWord reports whether a name can stand in sounds: one word of letters,
// digits and marks such as . - _, and none of those that sounds are made of.
func IsWord(name string) bool {
	odd := func(c rune) bool { return unicode.IsSpace(c) || strings.ContainsRune("(),", c) }
	return name != "" && !strings.ContainsFunc(name, odd) && !strings.Contains(name, "--") && !slices.Contains(sound.Words, name)
}

// word reports a name that cannot stand in a sound.
func (r *resolver) word(key source.String) {
	if !IsWord(key.Value) {
		r.fail("part-name", key, "%q cannot be a name: it is written in sounds and settings, as one word", key.Value)
	}
}

// listed reports a name that cannot stand in a list, or beside --.
func (r *resolver) listed(key source.String) {
	if name := key.Value; name == "" || name != strings.TrimSpace(name) || strings.Contains(name, ",") || strings.Contains(name, "--") {
		r.fail("part-name", key, "%q cannot be a name: it is written in lists and beside --", name)
	}
}

// name looks a terminal up; a wrong name is reported and answered with 0, which
// is safe because a part with findings is never used.
func (r *resolver) name(s source.String) int {
	if i, ok := r.part.index[s.Value]; ok {
		return i
	}
	d := diag.Diagnostic{Code: "part-name", Severity: diag.Error, Span: s.Span,
		Message: fmt.Sprintf("this part has no terminal %q", s.Value)}
	d.Hint = diag.Nearest(s.Value, r.part.TerminalNames())
	r.list.Add(d)
	return 0
}

func (r *resolver) terminals(names []source.String) []int {
	var out []int
	for _, n := range names {
		out = append(out, r.name(n))
	}
	return out
}

func (r *resolver) number(s source.String, absent float64) float64 {
	if s.Value == "" {
		return absent
	}
	x, err := strconv.ParseFloat(s.Value, 64)
	if err != nil || x != x || x > 1e12 || x < -1e12 {
		r.fail("part-value", s, "%q is not a number", s.Value)
		return absent
	}
	return x
}

func (r *resolver) percent(s source.String, absent float64) float64 {
	if s.Value == "" {
		return absent
	}
	x, err := units.Percent(s.Value)
	if err != nil {
		r.fail("part-value", s, "%v", err)
	}
	return x
}

func (r *resolver) point(xs []source.String) ([2]float64, bool) {
	if len(xs) == 0 {
		return [2]float64{}, false
	}
	if len(xs) != 2 {
		r.fail("part-value", xs[0], "a point is two numbers, x and y in mm")
		return [2]float64{}, false
	}
	return [2]float64{r.number(xs[0], 0), r.number(xs[1], 0)}, true
}

// value reads one quantity with one of the readers of units.
func (r *resolver) value(s source.String, read func(string) (units.Value, error)) units.Value {
	if s.Value == "" || s.Value == "unknown" {
		return units.Value{}
	}
	v, err := read(s.Value)
	if err != nil {
		r.fail("part-value", s, "%v", err)
	}
	return v
}

func (r *resolver) rangeOf(f *RangeFile, read func(string) (units.Value, error)) Range {
	if f == nil {
		return Range{}
	}
	out := Range{r.value(f.Typical, read).X, r.value(f.From, read).X, r.value(f.To, read).X, false}
	if out.Lo > out.Typical || out.Typical > out.Hi {
		r.fail("part-value", f.Typical, "a typical value lies between from and to")
	}
	return out
}

// apart reports ends that are one terminal: nothing can lie between them.
func (r *resolver) apart(ends ...source.String) {
	for i, a := range ends {
		for _, b := range ends[i+1:] {
			if a.Value == b.Value {
				r.fail("part-shape", b, "both ends are %q", a.Value)
			}
		}
	}
}

func (r *resolver) coil(name string, f CoilFile) Coil {
	r.apart(f.Start, f.Finish)
	return Coil{
		Name: name, Start: r.name(f.Start), Finish: r.name(f.Finish),
		Ohms: r.rangeOf(f.Ohms, units.Ohms), Henries: r.rangeOf(f.Henries, units.Henries),
		Farads: r.rangeOf(f.Farads, units.Farads), Eddy: r.rangeOf(f.Eddy, units.Ohms),
		EddyPart: r.percent(f.EddyPart, 0), Winding: WindingSign(f.Winding.Value), Pole: PoleSign(f.Pole.Value),
		Offset: r.number(f.Offset, 0), Mismatch: r.percent(f.Mismatch, 0), Sensitivity: r.sensitivity(f.Sensitivity),
	}
}

func (r *resolver) sensitivity(s source.String) float64 {
	x, err := Sensitivity(s.Value)
	if err != nil {
		r.fail("part-value", s, "%v", err)
	}
	return x
}

// Sensitivity reads a coil's voltage over that of an ordinary coil for the same
// movement of the strings; 0 where none is stated.
func Sensitivity(text string) (float64, error) {
	if text == "" || text == "unknown" {
		return 0, nil
	}
	x, err := strconv.ParseFloat(text, 64)
	if err != nil || !(x > 0 && x <= maxSensitivity) {
		return 0, fmt.Errorf("%q is not a sensitivity: write a number above 0, such as 1 for an ordinary coil, 0.6 for six tenths of its voltage", text)
	}
	return x, nil
}

// maxSensitivity is far beyond what any coil has.
const maxSensitivity = 100

// WindingSign is + for clockwise, − for anticlockwise, 0 when unknown.
func WindingSign(word string) Sign {
	if word == "counterclockwise" {
		word = "anticlockwise"
	}
	return signOf(word, "clockwise", "anticlockwise")
}

// PoleSign is + for north, − for south, 0 when unknown.
func PoleSign(word string) Sign { return signOf(word, "north", "south") }

func signOf(word, plus, minus string) Sign {
	switch word {
	case plus:
		return 1
	case minus:
		return -1
	}
	return 0
}

func (r *resolver) coupling(f CouplingFile) {
	if len(f.Coils) != 2 {
		r.fail("part-shape", f.K, "a coupling is between two coils")
		return
	}
	c := Coupling{A: r.part.CoilIndex(f.Coils[0].Value), B: r.part.CoilIndex(f.Coils[1].Value), K: r.number(f.K, 0)}
	if c.A < 0 || c.B < 0 || c.A == c.B {
		r.fail("part-name", f.Coils[0], "a coupling names two coils of this part")
		return
	}
	if c.K <= -1 || c.K >= 1 {
		r.fail("part-value", f.K, "a coupling lies between -1 and 1")
		c.K = 0
	}
	r.part.Couplings = append(r.part.Couplings, c)
}

// full reads the customary full sound; a part with one coil needs none.
func (r *resolver) full(s source.String) {
	p := r.part
	if s.Value == "" {
		if len(p.Coils) > 0 {
			p.Full = sound.Coil(p.Coils[0].Name, false)
		}
		if len(p.Coils) > 1 {
			r.list.Add(diag.Diagnostic{Code: "part-shape", Severity: diag.Error,
				Message: fmt.Sprintf("%s has several coils and does not say its customary full sound", p.ID), Hint: "full: north series south"})
		}
		return
	}
	e, leaves, err := sound.Parse(s.Value)
	if err != nil {
		r.fail("part-value", s, "%v", err)
		return
	}
	for _, leaf := range leaves {
		if p.CoilIndex(leaf.Name) < 0 {
			r.fail("part-name", s, "this part has no coil %q", leaf.Name)
		}
	}
	p.Full = e
}

func (r *resolver) track(name string, f TrackFile) Track {
	r.apart(f.CW, f.Wiper, f.CCW)
	t := Track{
		Name: name, CW: r.name(f.CW), Wiper: r.name(f.Wiper), CCW: r.name(f.CCW), Knob: f.Knob.Value,
		Tolerance: r.percent(f.Tolerance, 0.20), End: r.value(f.End, units.Ohms).X, NoLoad: f.NoLoad.Value == "yes",
		Law: map[string]Law{"first half": FirstHalf, "second half": SecondHalf}[f.Law.Value],
	}
	text := strings.TrimSpace(f.Ohms.Value + " " + f.Taper.Value)
	if text != "" {
		v, err := units.Track(text)
		if err != nil {
			r.fail("part-value", f.Ohms, "%v", err)
		}
		t.Value = v
	}
	for _, s := range f.Table {
		t.Table = append(t.Table, r.percent(s, 0))
	}
	return t
}

func (r *resolver) twos(m source.Map[TwoFile], read func(string) (units.Value, error)) []Two {
	var out []Two
	for _, e := range m.Entries {
		f := e.Value
		r.apart(f.A, f.B)
		v := r.value(f.Value, read)
		out = append(out, Two{Name: e.Key.Value, A: r.name(f.A), B: r.name(f.B), Value: v,
			Tolerance: r.percent(f.Tolerance, v.Tol)})
	}
	return out
}

func (r *resolver) shape(f ShapeFile) Shape {
	s := Shape{Shape: f.Shape.Value, Text: f.Text.Value, Fill: f.Fill.Value, Round: r.number(f.Round, 0)}
	s.At, _ = r.point(f.At)
	s.Size, _ = r.point(f.Size)
	if len(f.Points)%2 != 0 {
		r.fail("part-value", f.Points[0], "points are x, y pairs")
		return s
	}
	for i := 0; i+1 < len(f.Points); i += 2 {
		s.Points = append(s.Points, [2]float64{r.number(f.Points[i], 0), r.number(f.Points[i+1], 0)})
	}
	return s
}
