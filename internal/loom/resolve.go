package loom

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"loomwright/internal/diag"
	"loomwright/internal/part"
	"loomwright/internal/source"
	"loomwright/internal/units"
)

// Limits keep a file's cost bounded.
const (
	maxParts  = 400
	maxRuns   = 20000
	maxSounds = 4096 // one for each setting
)

// Codes of this package's findings.
var Codes = []diag.Code{
	{Code: "loom-version", Severity: diag.Error, Says: "the file is of another version", Notice: "nothing is read"},
	{Code: "file-empty", Severity: diag.Error, Says: "the file has nothing in it", Notice: "nothing is read"},
	{Code: "file-not-text", Severity: diag.Error, Says: "the file is not text", Notice: "nothing is read"},
	{Code: "loom-limit", Severity: diag.Error, Says: "the file asks for more than Loomwright reads", Notice: "nothing is computed"},
	{Code: "part-named", Severity: diag.Error, Says: "a part has a name that cannot be written in joins and sounds", Notice: "no wire could go to it"},
	{Code: "part-unfit", Severity: diag.Error, Says: "a value is given that this kind of part does not have", Notice: "the value would be ignored"},
	{Code: "value-syntax", Severity: diag.Error, Says: "a value cannot be read", Notice: "nothing is computed from it"},
	{Code: "value-unlikely", Severity: diag.Warning, Says: "a value is far from what such parts have", Notice: "a k or an M is missing, or one too many"},
	{Code: "value-ambiguous", Severity: diag.Error, Says: "a value can be read in several ways", Notice: "Loomwright asks instead of guessing"},
	{Code: "lead-code", Severity: diag.Error, Says: "a lead code does not fit the pickup", Notice: "the lead leads nowhere"},
	{Code: "lead-twice", Severity: diag.Warning, Says: "two leads are given the same coil end", Notice: "one of them is likely another end, which then has no lead"},
	{Code: "join-syntax", Severity: diag.Error, Says: "a join cannot be read", Notice: "the wire is not there"},
	{Code: "join-terminal", Severity: diag.Error, Says: "a join names a part or terminal that does not exist", Notice: "the wire has no place to go"},
	{Code: "join-option", Severity: diag.Error, Says: "an option of a join cannot be read", Notice: "the wire would be of the wrong kind"},
	{Code: "join-self", Severity: diag.Error, Says: "a join goes from a terminal to itself", Notice: "the wire does nothing"},
	{Code: "sound-syntax", Severity: diag.Error, Says: "a wanted sound cannot be read", Notice: "it is not proved"},
	{Code: "sound-name", Severity: diag.Error, Says: "a wanted sound names a coil, a switch or a position that does not exist", Notice: "it is not proved"},
	{Code: "sound-twice", Severity: diag.Error, Says: "two wanted sounds ask for different things in one setting", Notice: "one of them can never hold"},
}

type resolver struct {
	loom    *Loom
	lib     *part.Library
	own     map[string]*part.Code // lead codes written in the file
	ownPart map[string]*part.Part // part files written in the file
	list    diag.List
	runs    int
	asks    int // nearest names asked for
}

// maxAsks bounds the nearest names that are looked for: a file of nothing but
// wrong names is not helped by more.
const maxAsks = 200

// nearest is the right name that a wrong one is closest to.
func (r *resolver) nearest(word string, names func() []string) string {
	if r.asks++; r.asks > maxAsks {
		return ""
	}
	return diag.Nearest(word, names())
}

// Read parses, decodes and resolves a loom file against a library. The Loom is
// nil when the findings hold an error.
func Read(text *diag.Text, lib *part.Library) (*Loom, diag.List) {
	if list := notText(text); list.HasErrors() {
		return nil, list
	}
	doc, list := source.Parse(text)
	if list.HasErrors() {
		return nil, list
	}
	var f File
	list = append(list, source.Decode(doc, &f)...)
	l, more := Resolve(doc, &f, lib)
	list = append(list, more...)
	if list.HasErrors() {
		return nil, once(slips(list, text))
	}
	return l, once(list)
}

// once leaves out findings that say the same of the same place: one text read
// for several coils.
func once(l diag.List) diag.List {
	return slices.CompactFunc(l.Sorted(), func(a, b diag.Diagnostic) bool {
		return a.Code == b.Code && a.Span == b.Span && a.Message == b.Message
	})
}

// notText refuses, once, what is no text at all or empty.
func notText(text *diag.Text) diag.List {
	bad := strings.Count(text.Data, "\x00") + strings.Count(strings.ToValidUTF8(text.Data, "\x00"), "\x00")
	d := diag.Diagnostic{Severity: diag.Error, Span: text.Span(1, 1, 1)}
	switch {
	case bad > 8:
		d.Code, d.Message = "file-not-text", "this is not a text file"
	case strings.TrimSpace(text.Data) == "":
		d.Code, d.Message, d.Hint = "file-empty", "the file is empty: begin with one of the lists of loomwright new", "loomwright new one-twin-coil"
	default:
		return nil
	}
	return diag.List{d}
}

// Resolve gives every name in a loom file a meaning and reports all that have none.
func Resolve(doc *source.Document, f *File, lib *part.Library) (*Loom, diag.List) {
	r := &resolver{lib: lib, own: map[string]*part.Code{}, ownPart: map[string]*part.Part{}, loom: &Loom{
		Doc: doc, Title: f.Title.Value, Note: f.Note.Value, Left: strings.HasPrefix(f.Hand.Value, "left"),
		EndsSwapped: strings.HasSuffix(f.Hand.Value, "swapped"),
		Scheme:      f.Scheme, Place: map[string][3]float64{},
	}}
	if v := f.Version; v.Value != "" && v.Value != "1" {
		r.fail("loom-version", v.Span, "this file is of version %q, and version 1 is what is read here", v.Value)
	}
	r.into(f)
	for _, e := range f.Codes.Entries {
		r.own[e.Key.Value] = part.ResolveCode(e.Key.Value, &e.Value)
	}
	r.ownParts(f.Own)
	if n := len(f.Parts.Entries); n > maxParts {
		r.fail("loom-limit", f.Parts.Span, "%d parts are more than the %d that one loom may have", n, maxParts)
		return r.loom, r.list
	}
	for _, e := range f.Parts.Entries {
		r.use(e.Key, &e.Value)
	}
	for _, j := range f.Joins {
		r.join(j)
	}
	if n := len(f.Sounds); n > maxSounds {
		r.fail("loom-limit", f.Sounds[maxSounds].Span, "%d wanted sounds are more than the %d that one loom may have", n, maxSounds)
		f.Sounds = f.Sounds[:maxSounds]
	}
	for i := range f.Sounds {
		r.sound(&f.Sounds[i])
	}
	for _, s := range f.Free {
		if ref, ok := r.ref(s.Value, s.Span); ok {
			r.loom.Free = append(r.loom.Free, ref)
		}
	}
	r.place(f)
	return r.loom, r.list
}

func (r *resolver) fail(code string, at diag.Span, format string, args ...any) *diag.Diagnostic {
	r.list.Add(diag.Diagnostic{Code: code, Severity: diag.Error, Span: at, Message: fmt.Sprintf(format, args...)})
	return &r.list[len(r.list)-1]
}

// value reads a quantity and reports it in place; an absent or unknown one is zero.
func (r *resolver) value(s source.String, read func(string) (units.Value, error)) units.Value {
	if s.Value == "" || s.Value == "unknown" {
		return units.Value{}
	}
	v, err := read(s.Value)
	if err != nil {
		r.unreadable(s, err)
	}
	return v
}

func (r *resolver) unreadable(s source.String, err error) {
	code := "value-syntax"
	hint := ""
	if a := (*units.Ambiguous)(nil); errors.As(err, &a) {
		code, hint = "value-ambiguous", strings.Join(a.Readings, "   or   ")
	}
	r.fail(code, s.Span, "%v", err).Hint = hint
}

// Ordinary cable and input, from memory (Sound on Sound, Nov 2009, gives about
// 100 pF/m): 4.7 m of cable into 1 MΩ.
const (
	cablePerMetre = 100e-12
	defaultCable  = 470e-12
	defaultInput  = 1e6
	defaultScale  = 0.6477
)

func (r *resolver) into(f *File) {
	l := r.loom
	l.Cable, l.Input, l.Scale = units.Value{X: defaultCable}, units.Value{X: defaultInput}, defaultScale
	if f.Scale.Value != "" {
		l.Scale = r.value(f.Scale, units.Metres).X
	}
	if f.Into == nil {
		return
	}
	if f.Into.Input.Value != "" {
		l.Input = r.value(f.Into.Input, units.Ohms)
	}
	if c := f.Into.Cable; c.Value != "" {
		if m, err := units.Metres(c.Value); err == nil {
			l.Cable = units.Value{X: m.X * cablePerMetre, Text: c.Value}
			return
		}
		l.Cable = r.value(c, units.Farads)
	}
}

func (r *resolver) place(f *File) {
	for _, e := range f.Place.Entries {
		if _, ok := r.loom.Use(e.Key.Value); !ok {
			r.fail("join-terminal", e.Key.Span, "no part is called %q", e.Key.Value).Hint = r.nearest(e.Key.Value, r.useNames)
			continue
		}
		var at [3]float64
		if len(e.Value) < 2 || len(e.Value) > 3 {
			r.fail("value-syntax", e.Key.Span, "a place is x and y in mm, and quarter turns if any: [40, 25, 1]")
			continue
		}
		for i, s := range e.Value {
			if _, err := fmt.Sscanf(s.Value, "%g", &at[i]); err != nil || at[i] != at[i] || at[i] > 2000 || at[i] < -2000 {
				r.fail("value-syntax", s.Span, "%q is not a number of mm", s.Value)
			}
		}
		r.loom.Place[e.Key.Value] = at
	}
}

func (r *resolver) useNames() []string {
	names := make([]string, len(r.loom.Uses))
	for i := range r.loom.Uses {
		names[i] = r.loom.Uses[i].Name
	}
	return names
}

// partIDs lists what "is" may name.
func (r *resolver) partIDs() []string {
	return slices.DeleteFunc(r.lib.IDs(), func(id string) bool { return strings.HasPrefix(id, "codes/") })
}
