package part_test

import (
	"io/fs"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/fstest"

	"loomwright/internal/part"
)

func file(text string) *fstest.MapFile { return &fstest.MapFile{Data: []byte(text)} }

func jack(name string) *fstest.MapFile {
	return file("loomwright-part: 1\nname: " + name + "\nclass: jack\nterminals: {tip: , sleeve: }\noutput: {hot: tip, ground: sleeve}\n")
}

func TestFirstShelfWins(t *testing.T) {
	lib := part.NewLibrary(
		part.Shelf{Name: "mine", FS: fstest.MapFS{"jack/a.yaml": jack("of mine"), "codes/knot.yaml": file("loomwright-code: 1\nleads: {grey: unknown}\n")}},
		part.Shelf{Name: "library", FS: fstest.MapFS{"jack/a.yaml": jack("of the library"), "jack/b.yaml": jack("another"), "codes/knot.yaml": file("loomwright-code: 1\nleads: {}\n")}})
	for id, want := range map[string]string{"jack/a": "of mine", "jack/b": "another"} {
		p, list := lib.Part(id)
		if len(list) > 0 || p.Name != want {
			t.Errorf("%s is %v (%v), want %q", id, p, list, want)
		}
	}
	if c, list := lib.Code("knot"); len(list) > 0 || len(c.Leads) != 1 || !c.Leads[0].Unknown {
		t.Errorf("code %+v, %v", c, list)
	}
	if got, want := lib.IDs(), []string{"codes/knot", "jack/a", "jack/b"}; !slices.Equal(got, want) {
		t.Errorf("ids %v, want %v", got, want)
	}
	for name, want := range map[string]bool{"mine/jack/a.yaml": true, "library/jack/b.yaml": true, "library/jack/a.yaml": false, "else/jack/a.yaml": false} {
		if got := lib.TextNamed(name) != nil; got != want {
			t.Errorf("text of %s found: %v, want %v", name, got, want)
		}
	}
}

// TestAbsentPart: it is told with the nearest name, and found once it is there.
func TestAbsentPart(t *testing.T) {
	shelf := fstest.MapFS{"jack/mono.yaml": jack("mono")}
	lib := part.NewLibrary(part.Shelf{Name: "mine", FS: shelf})
	p, list := lib.Part("jack/monno")
	if p != nil || len(list) != 1 || list[0].Code != "part-unknown" || list[0].Hint != "jack/mono" {
		t.Errorf("%v, %v", p, list)
	}
	if _, list := lib.Code("knot"); len(list) != 1 || !strings.Contains(list[0].Message, "no lead code") {
		t.Errorf("%v", list)
	}
	shelf["jack/monno.yaml"] = jack("the new one")
	if p, list := lib.Part("jack/monno"); p == nil || len(list) > 0 {
		t.Errorf("not found after it came: %v", list)
	}
}

// brokenFS is a shelf on a disk that fails.
type brokenFS struct{}

func (brokenFS) Open(string) (fs.File, error) { return nil, fs.ErrPermission }

func TestUnreadableParts(t *testing.T) {
	lib := part.NewLibrary(part.Shelf{Name: "mine", FS: fstest.MapFS{"x/large.yaml": file(strings.Repeat("# \n", 1<<20))}})
	for _, id := range []string{"x/large", "../x", "/etc/x", ""} {
		if p, list := lib.Part(id); p != nil || len(list) != 1 || list[0].Code != "part-unknown" {
			t.Errorf("%q: %v, %v", id, p, list)
		}
	}
	lib = part.NewLibrary(part.Shelf{Name: "mine", FS: brokenFS{}})
	if _, list := lib.Part("jack/mono"); len(list) != 1 || !strings.Contains(list[0].Message, "cannot be read") {
		t.Errorf("%v", list)
	}
	if ids := lib.IDs(); len(ids) != 0 {
		t.Errorf("ids of a broken shelf: %v", ids)
	}
}

// TestWrongPartIsNotUsed: a file with an error gives no part, and its findings
// stand in it, each time it is asked for.
func TestWrongPartIsNotUsed(t *testing.T) {
	lib := part.NewLibrary(part.Shelf{Name: "mine", FS: fstest.MapFS{
		"x/a.yaml": file("loomwright-part: 1\nname: x\nclass: jack\nterminals: {tip: }\noutput: {hot: tip, ground: slive}\n")}})
	for range 2 {
		p, list := lib.Part("x/a")
		if p != nil || len(list) != 1 || list[0].Code != "part-name" || list[0].Span.File != "mine/x/a.yaml" || list[0].Span.Start.Line != 5 || list[0].Span.Start.Col != 28 {
			t.Errorf("%v, %v", p, list)
		}
	}
}

func TestOneLibraryForMany(t *testing.T) {
	lib := part.NewLibrary(part.Shelf{Name: "mine", FS: fstest.MapFS{"jack/a.yaml": jack("a")}})
	var all sync.WaitGroup
	got := make([]*part.Part, 16)
	for i := range got {
		all.Go(func() { got[i], _ = lib.Part("jack/a") })
	}
	all.Wait()
	for _, p := range got {
		if p == nil || p != got[0] {
			t.Fatal("one part is read as several")
		}
	}
}

func TestSigns(t *testing.T) {
	for word, want := range map[string]part.Sign{"clockwise": 1, "anticlockwise": -1, "unknown": 0, "": 0} {
		if got := part.WindingSign(word); got != want {
			t.Errorf("winding %q is %d", word, got)
		}
	}
	for word, want := range map[string]part.Sign{"north": 1, "south": -1, "unknown": 0} {
		if got := part.PoleSign(word); got != want {
			t.Errorf("pole %q is %d", word, got)
		}
	}
}

func TestNamesInSounds(t *testing.T) {
	for name, want := range map[string]bool{"neck": true, "neck-2": true, "ü_1": true, "blue/yellow": true, "": false, "two words": false,
		"any": false, "series": false, "a--b": false, "a,b": false, "(a": false, "through": false} {
		if got := part.IsWord(name); got != want {
			t.Errorf("%q: %v, want %v", name, got, want)
		}
	}
}
