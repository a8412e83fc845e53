package swap

import (
	"slices"
	"strings"
	"testing"

	"loomwright/internal/diag"
	"loomwright/internal/loom"
)

// What is handed to the search is a loom file without the joins that are to be
// found: first those of the part alone, then all but metal on metal, with a wish
// for every setting.
func TestWishes(t *testing.T) {
	lib := shelf()
	text := exampleText(t, "three-single-coils-5way")
	var wishes []string
	r := Do(text, lib, Request{Changes: []Change{{Use: "lever", Is: "switch/lever-4p5t"}}}, func(wish string) (string, []string) {
		wishes = append(wishes, wish)
		return "", []string{"nothing"}
	})
	if r.Verdict != Search || len(wishes) != 2 || !slices.Equal(r.Said, []string{"nothing"}) || len(r.Why) != 1 {
		t.Fatalf("%q %v %v, %d wishes", r.Verdict, r.Why, r.Said, len(wishes))
	}
	var joins []int
	for _, w := range wishes {
		l, list := loom.Read(diag.NewText("wish.yaml", w), lib)
		if l == nil {
			t.Fatalf("%v\n%s", list, w)
		}
		if len(l.Sounds) < 5 || strings.Contains(withoutNote(w), "lever.") {
			t.Errorf("%d sounds\n%s", len(l.Sounds), w)
		}
		joins = append(joins, len(l.Joins))
	}
	if joins[0] < 8 || joins[1] != 1 {
		t.Errorf("%v joins are kept", joins)
	}
}

// Settings that nobody wished for are wished to sound as before.
func TestUnwishedSettings(t *testing.T) {
	data := strings.Replace(exampleText(t, "left-handed-tapped-coil").Data, "  - {with: tap right", "#", 1)
	data, sounds, _ := strings.Cut(data, "sounds:")
	if sounds == "" {
		t.Fatal("the example has no sounds to leave out")
	}
	text := diag.NewText("x.yaml", data)
	wish := ""
	Do(text, shelf(), Request{Changes: []Change{{Use: "tap", Is: "switch/spst"}}}, func(w string) (string, []string) { wish = w; return "", nil })
	before := Do(text, shelf(), Request{}, nil)
	l, list := loom.Read(diag.NewText("wish.yaml", wish), shelf())
	if l == nil || len(l.Sounds) != len(before.Rows) {
		t.Fatalf("%v\n%s", list, wish)
	}
	for i := range before.Rows {
		if got, want := l.Sounds[i].Hear.Canon().String(), before.Rows[i].Sound.Canon().String(); got != want {
			t.Errorf("wish %d is %s, heard was %s", i, got, want)
		}
	}
}

// What a search finds is not believed: it is proved, and of two findings the
// one with fewer changes is taken.
func TestFoundIsProved(t *testing.T) {
	text := exampleText(t, "three-single-coils-5way")
	ask := Request{Changes: []Change{{Use: "lever", Is: "switch/lever-4p5t"}}}
	wrong := Do(text, shelf(), ask, func(wish string) (string, []string) { return wish, nil }) // no joins found
	if wrong.Verdict != Searched || len(wrong.Differences) != 5 {
		t.Errorf("%q with %d differences", wrong.Verdict, len(wrong.Differences))
	}
	broken := Do(text, shelf(), ask, func(string) (string, []string) { return "loomwright: 1\nparts: 3\n", nil })
	if broken.Verdict != Search || broken.Text != "" {
		t.Errorf("%q %q", broken.Verdict, broken.Text)
	}
}

// Leads that the meter must tell are listed as the meter wants them.
func TestUnknownLeads(t *testing.T) {
	for _, c := range []struct {
		loom, code string
		want       Unknown
	}{
		{"two-twin-coils-phase", "knot", Unknown{"neck", "knot", 2, []string{"turquoise", "brown", "blue/yellow", "pink/grey"}, "bare"}},
		{"leads-unknown", "dunlin", Unknown{"bridge", "knot", 2, []string{"turquoise", "brown", "blue/yellow", "pink/grey"}, "bare"}},
	} {
		got := Do(exampleText(t, c.loom), shelf(), Request{Changes: []Change{{Use: c.want.Use, Code: c.code}}}, nil).Unknown
		if len(got) != 1 || got[0].Code != c.want.Code || got[0].Coils != 2 || !slices.Equal(got[0].Leads, c.want.Leads) || got[0].Bare != c.want.Bare {
			t.Errorf("%s: %+v", c.loom, got)
		}
	}
}
