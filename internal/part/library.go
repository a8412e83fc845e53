package part

import (
	"errors"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"
	"sync"

	"loomwright/internal/diag"
	"loomwright/internal/source"
)

// Shelf is one place where part files and lead codes lie: <class>/<name>.yaml
// and codes/<name>.yaml below FS.
type Shelf struct {
	Name string // shown in findings: "library", "shelf"
	FS   fs.FS
}

// Library finds parts on shelves, the first shelf that has a part wins. A part
// is read once, when first asked for; safe for concurrent use.
type Library struct {
	shelves []Shelf
	mu      sync.Mutex
	parts   map[string]found[*Part]
	codes   map[string]found[*Code]
}

type found[T any] struct {
	value T
	list  diag.List
	text  *diag.Text
}

// NewLibrary looks in the shelves in order: the user's own before the shipped.
func NewLibrary(shelves ...Shelf) *Library {
	return &Library{shelves: shelves, parts: map[string]found[*Part]{}, codes: map[string]found[*Code]{}}
}

// maxFile bounds a part file in bytes.
const maxFile = 1 << 20

// Part returns a part by id; nil when it is missing or wrong, with what is
// wrong. A missing part carries the nearest right name as a hint.
func (l *Library) Part(id string) (*Part, diag.List) {
	f := lookup(l, l.parts, id, func(text *diag.Text) (*Part, diag.List) {
		doc, list := source.Parse(text)
		if list.HasErrors() {
			return nil, list
		}
		var file File
		if list = append(list, source.Decode(doc, &file)...); list.HasErrors() {
			return nil, list
		}
		p, more := Resolve(id, &file)
		if list = append(list, more...); list.HasErrors() {
			return nil, at(list, text)
		}
		return p, list
	})
	return f.value, f.list
}

// Code returns a lead code by name, like Part.
func (l *Library) Code(name string) (*Code, diag.List) {
	f := lookup(l, l.codes, "codes/"+name, func(text *diag.Text) (*Code, diag.List) {
		doc, list := source.Parse(text)
		if list.HasErrors() {
			return nil, list
		}
		var file CodeFile
		if list = append(list, source.Decode(doc, &file)...); list.HasErrors() {
			return nil, list
		}
		return ResolveCode(name, &file), list
	})
	return f.value, f.list
}

// Text returns the file that a part or code ("codes/dunlin") was read from, for snippets.
func (l *Library) Text(id string) *diag.Text {
	text, _ := l.read(id)
	return text
}

// TextNamed returns the file by the name that findings give it: shelf name and
// path; nil when there is none.
func (l *Library) TextNamed(name string) *diag.Text {
	for _, s := range l.shelves {
		if rest, ok := strings.CutPrefix(name, s.Name+"/"); ok {
			if text := l.Text(strings.TrimSuffix(rest, ".yaml")); text != nil && text.Name == name {
				return text
			}
		}
	}
	return nil
}

// IDs lists all parts, sorted; codes have ids that start with "codes/".
func (l *Library) IDs() []string {
	var ids []string
	for _, s := range l.shelves {
		_ = fs.WalkDir(s.FS, ".", func(p string, d fs.DirEntry, err error) error {
			if err == nil && !d.IsDir() && strings.HasSuffix(p, ".yaml") && !strings.HasPrefix(p, "meters/") {
				ids = append(ids, strings.TrimSuffix(p, ".yaml"))
			}
			return nil // an unreadable folder of a shelf is as good as an empty one
		})
	}
	slices.Sort(ids)
	return slices.Compact(ids)
}

func lookup[T any](l *Library, memo map[string]found[T], id string, make func(*diag.Text) (T, diag.List)) found[T] {
	l.mu.Lock()
	f, ok := memo[id]
	l.mu.Unlock()
	if ok {
		return f
	}
	text, err := l.read(id)
	if err != nil { // not kept: the file may come yet
		return found[T]{list: diag.List{l.missing(id, err)}}
	}
	f.text = text
	f.value, f.list = make(text)
	l.mu.Lock()
	defer l.mu.Unlock()
	if first, ok := memo[id]; ok {
		return first // read by another at the same time: all get one
	}
	memo[id] = f
	return f
}

// read takes the file from the first shelf that has it.
func (l *Library) read(id string) (*diag.Text, error) {
	name := path.Clean(id) + ".yaml"
	if !fs.ValidPath(name) {
		return nil, fs.ErrInvalid
	}
	for _, s := range l.shelves {
		data, err := fs.ReadFile(s.FS, name)
		if errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err == nil && len(data) > maxFile {
			err = fmt.Errorf("%s is larger than %d bytes", name, maxFile)
		}
		if err != nil {
			return nil, err
		}
		return diag.NewText(s.Name+"/"+name, string(data)), nil
	}
	return nil, fs.ErrNotExist
}

func (l *Library) missing(id string, err error) diag.Diagnostic {
	kind, _, _ := strings.Cut(id, "/")
	shown := strings.TrimPrefix(id, "codes/")
	d := diag.Diagnostic{Code: "part-unknown", Severity: diag.Error}
	d.Message = fmt.Sprintf("no part file %q is in the library or on the shelf", shown)
	if kind == "codes" {
		d.Message = fmt.Sprintf("no lead code %q is in the library, on the shelf or in this file", shown)
	}
	if !errors.Is(err, fs.ErrNotExist) {
		d.Message = fmt.Sprintf("the part file %q cannot be read: %v", shown, err)
	}
	d.Hint = strings.TrimPrefix(diag.Nearest(id, l.sameKind(kind == "codes")), "codes/")
	return d
}

func (l *Library) sameKind(codes bool) []string {
	return slices.DeleteFunc(l.IDs(), func(id string) bool { return strings.HasPrefix(id, "codes/") != codes })
}

// at gives findings without a place the first line of their file.
func at(list diag.List, text *diag.Text) diag.List {
	for i := range list {
		if list[i].Span.IsZero() {
			list[i].Span = text.Span(1, 1, 1)
		}
	}
	return list
}

// ResolveCode turns a lead code as written into a Code.
func ResolveCode(name string, f *CodeFile) *Code {
	c := &Code{Name: name, About: f.About.Value}
	for _, e := range f.Leads.Entries {
		lead := Lead{Name: e.Key.Value}
		for _, end := range e.Value.Ends {
			if end.Value == "unknown" {
				lead.Unknown = true
				continue
			}
			lead.Ends = append(lead.Ends, end.Value)
		}
		c.Leads = append(c.Leads, lead)
	}
	for _, group := range f.Inside {
		var ends []string
		for _, end := range group {
			ends = append(ends, end.Value)
		}
		c.Inside = append(c.Inside, ends)
	}
	return c
}
