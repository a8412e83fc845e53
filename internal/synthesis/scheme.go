package synthesis

import (
	"cmp"
	"fmt"
	"io/fs"
	"slices"
	"strconv"
	"strings"

	"loomwright/internal/diag"
	"loomwright/internal/loom"
	"loomwright/internal/part"
	"loomwright/internal/source"
)

// Scheme is a way to hook up the controls, as data: Each once for every pickup,
// before the selector; Whole once, behind the switches. Either may be missing.
type Scheme struct {
	ID, Name, About string
	Order           float64 // where several fit, the least comes first
	Each, Whole     *Section
}

// Section is one stretch of the way from the pickups to the jack: the sound
// enters at In and leaves at Out, both "role.terminal".
type Section struct {
	Roles   []Role
	In, Out string
	Joins   []SchemeJoin
	Some    bool // a pickup may do without it
	Hung    bool // it hangs on hot behind the switches, while its pickup is heard
}

// Role is a place in a scheme that a part of the loom fills.
type Role struct {
	Name     string
	Is       string // volume, tone, blend: a track; capacitor, bleed: a part
	Optional bool
	Shared   bool // one part may fill it for every pickup
}

// SchemeJoin is a run between two terminals of roles, with options as in a loom
// file.
type SchemeJoin struct{ A, B, Options string }

type schemeFile struct {
	Version source.String `yaml:"loomwright-scheme" required:"true" doc:"version of this layout: 1"`
	Name    source.String `yaml:"name" required:"true" doc:"what a loom file calls it"`
	About   source.String `yaml:"about" doc:"what a player notices"`
	Order   source.String `yaml:"order" doc:"where several schemes fit, the least number is taken"`
	Each    *sectionFile  `yaml:"each" doc:"once for each pickup, before the selector"`
	Whole   *sectionFile  `yaml:"whole" doc:"once, behind the switches"`
}

type sectionFile struct {
	Some  source.String        `yaml:"some" oneof:"yes|no" doc:"a pickup may do without"`
	Hung  source.String        `yaml:"hung" oneof:"yes|no" doc:"not between pickup and selector: the switches hang it on hot while its pickup is heard"`
	Roles source.Map[roleFile] `yaml:"roles" required:"true"`
	In    source.String        `yaml:"in" required:"true" doc:"where the sound comes in: role.terminal"`
	Out   source.String        `yaml:"out" required:"true" doc:"where it leaves"`
	Joins []loom.JoinFile      `yaml:"joins" doc:"role.terminal -- role.terminal; a track has full, wiper, off and case"`
}

type roleFile struct {
	Is       source.String `yaml:"is" required:"true" oneof:"volume|tone|blend|capacitor|bleed"`
	Optional source.String `yaml:"optional" oneof:"yes|no"`
	Shared   source.String `yaml:"shared" oneof:"yes|no"`
}

// ReadSchemes reads all schemes of the shelves' top folders, in their order; of
// two with one id the first shelf wins.
func ReadSchemes(shelves ...part.Shelf) ([]Scheme, diag.List) {
	var out []Scheme
	var list diag.List
	for _, shelf := range shelves {
		names, _ := fs.Glob(shelf.FS, "*.yaml")
		for _, name := range names {
			s, more := readScheme(shelf, name)
			list = append(list, more...)
			known := slices.ContainsFunc(out, func(o Scheme) bool { return o.ID == s.ID })
			if !known && !more.HasErrors() {
				out = append(out, s)
			}
		}
	}
	slices.SortStableFunc(out, func(a, b Scheme) int { return cmp.Compare(a.Order, b.Order) })
	return out, list
}

func readScheme(shelf part.Shelf, name string) (Scheme, diag.List) {
	id := strings.TrimSuffix(name, ".yaml")
	data, err := fs.ReadFile(shelf.FS, name)
	if err != nil {
		return Scheme{ID: id}, diag.List{{Code: "scheme-file", Severity: diag.Error, Message: fmt.Sprintf("%s/%s cannot be read: %v", shelf.Name, name, err)}}
	}
	doc, list := source.Parse(diag.NewText(shelf.Name+"/"+name, string(data)))
	if list.HasErrors() {
		return Scheme{ID: id}, list
	}
	var f schemeFile
	list = append(list, source.Decode(doc, &f)...)
	s := Scheme{ID: id, Name: f.Name.Value, About: f.About.Value}
	if f.Order.Value != "" {
		if s.Order, err = strconv.ParseFloat(f.Order.Value, 64); err != nil {
			list.Add(schemeError(f.Order, "%q is not a number", f.Order.Value))
		}
	}
	s.Each = f.Each.section(&list)
	s.Whole = f.Whole.section(&list)
	return s, list
}

func schemeError(at source.String, format string, args ...any) diag.Diagnostic {
	return diag.Diagnostic{Code: "scheme-file", Severity: diag.Error, Span: at.Span, Message: fmt.Sprintf(format, args...)}
}

func (f *sectionFile) section(list *diag.List) *Section {
	if f == nil {
		return nil
	}
	s := &Section{In: f.In.Value, Out: f.Out.Value, Some: f.Some.Value == "yes", Hung: f.Hung.Value == "yes"}
	for _, e := range f.Roles.Entries {
		s.Roles = append(s.Roles, Role{Name: e.Key.Value, Is: e.Value.Is.Value,
			Optional: e.Value.Optional.Value == "yes", Shared: e.Value.Shared.Value == "yes"})
	}
	for _, end := range []source.String{f.In, f.Out} {
		s.check(end.Value, end, list)
	}
	for _, j := range f.Joins {
		a, b, ok := strings.Cut(j.Run.Value, "--")
		if !ok {
			list.Add(schemeError(j.Run, "a join has two sides, with -- between them"))
			continue
		}
		a, b = strings.TrimSpace(a), strings.TrimSpace(b)
		s.check(a, j.Run, list)
		s.check(b, j.Run, list)
		s.Joins = append(s.Joins, SchemeJoin{a, b, j.Options.Value})
	}
	return s
}

// check reports an end that names no role or no terminal of it.
func (s *Section) check(end string, at source.String, list *diag.List) {
	name, terminal, _ := strings.Cut(end, ".")
	i := slices.IndexFunc(s.Roles, func(r Role) bool { return r.Name == name })
	if i < 0 {
		list.Add(schemeError(at, "%q names no role of this section", end))
		return
	}
	known := []string{"full", "wiper", "off", "case"}
	if s.Roles[i].Is == "capacitor" || s.Roles[i].Is == "bleed" {
		known = []string{"a", "b"}
	}
	if !slices.Contains(known, terminal) {
		list.Add(schemeError(at, "a %s has no terminal %q: it has %s", s.Roles[i].Is, terminal, strings.Join(known, ", ")))
	}
}

// sameName compares names without regard to case, commas and spaces.
func sameName(a, b string) bool {
	plain := func(s string) string {
		return strings.Join(strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return r == ' ' || r == ',' || r == '-' }), " ")
	}
	return plain(a) == plain(b)
}
