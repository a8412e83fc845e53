package svg

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"

	"loomwright/internal/scene"
	"loomwright/internal/scene/scenetest"
)

func paint(t testing.TB, s scene.Scene, o Options) []byte {
	t.Helper()
	out, err := Paint(s, o)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// document is what an XML reader finds: how often each element, all attributes
// by name, the words in each kind of element.
type document struct {
	elements map[string]int
	attrs    map[string][]string
	words    map[string][]string
}

// read is a strict reading by encoding/xml.
func read(t testing.TB, data []byte) document {
	t.Helper()
	doc := document{map[string]int{}, map[string][]string{}, map[string][]string{}}
	var open []string
	var words []string
	for d := xml.NewDecoder(bytes.NewReader(data)); ; {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return doc
		}
		if err != nil {
			t.Fatalf("not well-formed: %v", err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			doc.elements[token.Name.Local]++
			for _, a := range token.Attr {
				doc.attrs[a.Name.Local] = append(doc.attrs[a.Name.Local], a.Value)
			}
			open, words = append(open, token.Name.Local), append(words, "")
		case xml.CharData:
			for i := range words {
				words[i] += string(token)
			}
		case xml.EndElement:
			last := len(open) - 1
			doc.words[open[last]] = append(doc.words[open[last]], words[last])
			open, words = open[:last], words[:last]
		}
	}
}

// Every text of the scene is a text element that says exactly that, drawn
// glyphs included; every group's name is a title.
func TestTextStaysText(t *testing.T) {
	s := scenetest.Rich()
	doc := read(t, paint(t, s, Options{}))
	var want []string
	for text := range scene.Texts(s.Items) {
		want = append(want, text.Content)
	}
	if got := doc.words["text"]; !slices.Equal(got, want) {
		t.Errorf("texts read back:\n%q\nwant\n%q", got, want)
	}
	for _, title := range []string{s.Title, "wire BU 1", "faded"} {
		if !slices.Contains(doc.words["title"], title) {
			t.Errorf("no title %q in %q", title, doc.words["title"])
		}
	}
	if !slices.Contains(doc.words["desc"], s.Desc) {
		t.Errorf("no description in %q", doc.words["desc"])
	}
}

func TestPageInMillimetres(t *testing.T) {
	doc := read(t, paint(t, scene.Scene{Width: 215.9, Height: 279.4}, Options{}))
	if doc.attrs["width"][0] != "215.9mm" || doc.attrs["height"][0] != "279.4mm" || doc.attrs["viewBox"][0] != "0 0 215.9 279.4" {
		t.Errorf("page is %v %v %v", doc.attrs["width"], doc.attrs["height"], doc.attrs["viewBox"])
	}
}

func TestGroupsAreFound(t *testing.T) {
	doc := read(t, paint(t, scenetest.Rich(), Options{Inline: true, IDPrefix: "a-"}))
	for attr, want := range map[string]string{
		"id": "a-wire-0", "class": "wire", "data-wire": "BU 1", "data-terminal": "volume.cw",
		"href": "https://example.org/saltmarsh?a=1&b=2", "clip-path": "url(#a-_clip1)", "role": "graphics-object",
		"aria-labelledby": "a-_title",
	} {
		if !slices.Contains(doc.attrs[attr], want) {
			t.Errorf("no %s=%q in %q", attr, want, doc.attrs[attr])
		}
	}
	for _, id := range doc.attrs["id"] {
		if !strings.HasPrefix(id, "a-") {
			t.Errorf("ID %q has no prefix: two scenes would clash in a page", id)
		}
	}
	if bytes.HasPrefix(paint(t, scenetest.Rich(), Options{Inline: true}), []byte("<?xml")) {
		t.Error("an inline scene starts with an XML header")
	}
}

// Words with markup stay words, wherever they stand.
func TestMarkupStaysText(t *testing.T) {
	evil := `</title></text><script>alert(1)</script><g onload="x" 'y'>&lt;`
	s := scene.Scene{Width: 10, Height: 10, Title: evil, Desc: evil, Items: []scene.Item{
		scene.Path{Class: evil, Outline: scene.Circle(scene.Pt(5, 5), 1), Fill: scene.Black},
		scene.Group{
			Class: evil, Title: evil, Desc: evil, Data: map[string]string{"wire": evil}, Link: "https://example.org/?a='\"<>&",
			Items: []scene.Item{scene.Text{Class: evil, Content: evil + " ⏚", Size: 3, Color: scene.Black}},
		},
	}}
	doc := read(t, paint(t, s, Options{Inline: true}))
	if doc.elements["script"] > 0 || len(doc.attrs["onload"]) > 0 || doc.elements["g"] != 2 {
		t.Errorf("markup got through: %v", doc.elements)
	}
	for _, where := range []string{"title", "desc"} {
		if !slices.Equal(doc.words[where], []string{evil, evil}) {
			t.Errorf("%s says %q", where, doc.words[where])
		}
	}
	if doc.attrs["data-wire"][0] != evil || doc.words["text"][0] != evil+" ⏚" {
		t.Errorf("words changed: %q, %q", doc.attrs["data-wire"], doc.words["text"])
	}
}

func TestOnlyPlainConstructs(t *testing.T) {
	out := string(paint(t, scenetest.Rich(), Options{Inline: true}))
	for _, word := range []string{"<script", " style=", "<style", "<foreignObject", "<image", "url(http", "NaN", "Inf"} {
		if strings.Contains(out, word) {
			t.Errorf("the picture contains %s", word)
		}
	}
	number := `-?[0-9]+(\.[0-9]{0,2}[1-9])?`
	plain := regexp.MustCompile(`^([MLC]?` + number + ` ?|Z)*$`)
	doc := read(t, []byte(out))
	for _, attr := range []string{"d", "x", "y", "width", "stroke-width", "stroke-dasharray", "font-size", "fill-opacity"} {
		for _, v := range doc.attrs[attr] {
			if !plain.MatchString(strings.TrimSuffix(v, "mm")) || strings.Contains(" "+v, " -0 ") {
				t.Errorf("%s=%q is not written plainly", attr, v)
			}
		}
	}
}

func TestInkAndFade(t *testing.T) {
	s := scenetest.Rich()
	doc := read(t, paint(t, s, Options{Ink: scene.Grey}))
	for _, attr := range []string{"fill", "stroke"} {
		for _, c := range doc.attrs[attr] {
			if len(c) == 7 && (c[1:3] != c[3:5] || c[3:5] != c[5:7]) {
				t.Errorf("%s %s is no grey", attr, c)
			}
		}
	}
	black := scene.Path{Outline: scene.Circle(scene.Pt(0, 0), 1), Fill: scene.Black}
	faded := read(t, paint(t, scene.Scene{Width: 1, Height: 1, Items: []scene.Item{scene.Group{Fade: 0.75, Items: []scene.Item{black}}}}, Options{}))
	if !slices.Contains(faded.attrs["fill"], "#bfbfbf") {
		t.Errorf("fills %q, want #bfbfbf", faded.attrs["fill"])
	}
}

func TestLockWidths(t *testing.T) {
	s := scene.Scene{Width: 10, Height: 10, Items: []scene.Item{scene.Text{Content: "BU 7", Size: 2, Color: scene.Black}}}
	doc := read(t, paint(t, s, Options{LockWidths: true}))
	want := fmt.Sprintf("%.3f", scene.TextWidth("BU 7", 2, scene.Regular))
	if got := doc.attrs["textLength"]; len(got) != 1 || got[0] != strings.TrimRight(want, "0") {
		t.Errorf("textLength %q, want %s", got, want)
	}
}

func TestNumbers(t *testing.T) {
	for v, want := range map[float64]string{
		0: "0", math.Copysign(0, -1): "0", -0.0004: "0", 0.0005: "0.001", 1.5: "1.5", -12.3456: "-12.346",
		100000: "100000", 0.05: "0.05", 99.9996: "100", -0.9999: "-1", 7.01: "7.01", 7.001: "7.001",
	} {
		if got := string(appendNum(nil, v)); got != want {
			t.Errorf("%g is written %s, want %s", v, got, want)
		}
	}
}

func TestSameSceneSameBytes(t *testing.T) {
	want := paint(t, scenetest.Rich(), Options{Inline: true})
	var wg sync.WaitGroup
	for range 8 {
		wg.Go(func() {
			if got, err := Paint(scenetest.Rich(), Options{Inline: true}); err != nil || !bytes.Equal(got, want) {
				t.Error("the same scene gave other bytes")
			}
		})
	}
	wg.Wait()
}

func TestPaintRefusesWhatCheckDoes(t *testing.T) {
	s := scene.Scene{Width: 10, Height: 10, Items: []scene.Item{scene.Text{At: scene.Pt(math.NaN(), 0), Size: 3}}}
	if out, err := Paint(s, Options{}); err == nil || out != nil {
		t.Errorf("painted %q, %v", out, err)
	}
}

// Whatever numbers and words come in, a picture is well-formed and without
// anything that is not a number, or there is none.
func FuzzPaint(f *testing.F) {
	for _, s := range scenetest.WildSeeds {
		f.Add(s.A, s.B, s.C, s.D, s.Words)
	}
	f.Fuzz(func(t *testing.T, a, b, c, d float64, words string) {
		out, err := Paint(scenetest.Wild(a, b, c, d, words), Options{Inline: true, LockWidths: true})
		if err != nil {
			return
		}
		doc := read(t, out)
		for _, attr := range []string{"d", "x", "y", "transform", "stroke-width", "font-size", "textLength"} {
			for _, v := range doc.attrs[attr] {
				if strings.Contains(v, "NaN") || strings.Contains(v, "Inf") {
					t.Errorf("%s=%q", attr, v)
				}
			}
		}
		if doc.elements["script"] > 0 {
			t.Error("a script got in")
		}
	})
}
