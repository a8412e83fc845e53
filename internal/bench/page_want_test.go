package bench

import (
	"io/fs"
	"strings"
	"testing"

	"loomwright/examples"
	"loomwright/internal/setting"
)

// TestWant asks every setting of every example for silence, and for what it had
// again: each other setting keeps what is wanted of it.
func TestWant(t *testing.T) {
	b := New()
	names, err := fs.Glob(examples.Files, "*.yaml")
	if err != nil || len(names) < 12 {
		t.Fatal(names, err)
	}
	tried := 0
	for _, name := range names {
		raw, err := examples.Files.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		c := b.Check(name, string(raw))
		if len(c.Rows) > 12 {
			continue
		}
		for i := range c.Rows {
			silent, err := b.Want(name, string(raw), setting.Nth(c.Graph, i).Name, "silent")
			if err != nil {
				t.Errorf("%s: %v", name, err)
				continue
			}
			for k, r := range b.Check(name, silent).Rows {
				want := "silent"
				if k != i {
					want = c.Rows[k].Wanted.Sound
				}
				if r.Wanted == nil || r.Wanted.Sound != want {
					t.Errorf("%s: with %s silent, %s wants %v, not %s", name, c.Rows[i].Name, r.Name, r.Wanted, want)
				}
			}
			tried++
		}
	}
	if tried < 40 {
		t.Errorf("only %d settings were tried", tried)
	}
}

// TestWantNothing takes wishes away until none is left, and begins again.
func TestWantNothing(t *testing.T) {
	b := New()
	const loom = "loomwright: 1\nparts:\n  neck: {is: pickup/single-coil}\n  kill: {is: switch/spst}\n  jack: {is: jack/mono}\njoins: []\nsounds:\n  - {hear: neck}\n"
	rows := b.Check("a", loom).Rows
	text := loom
	for _, r := range rows {
		var err error
		if text, err = b.Want("a", text, r.Name, ""); err != nil {
			t.Fatal(err)
		}
	}
	if !strings.Contains(text, "sounds: []") {
		t.Errorf("a wish is left:\n%s", text)
	}
	text, err := b.Want("a", text, rows[0].Name, "reversed neck")
	if err != nil || !strings.Contains(text, "hear: reversed neck") {
		t.Errorf("%v\n%s", err, text)
	}
	if _, err := b.Want("a", text, rows[0].Name, "neck series"); err == nil {
		t.Error("half a sound was taken")
	}
	if _, err := b.Want("a", text, rows[0].Name, "neck}, {hear: neck"); err == nil {
		t.Error("a sound broke out of its place")
	}
}

// TestWishesCanBeRead asks for each sound that is offered for tapping.
func TestWishesCanBeRead(t *testing.T) {
	b := New()
	for _, s := range Starts() {
		w := NewDesk(b).Wishes(s.Name, s.Text)
		row := b.Check(s.Name, s.Text).Rows[0].Name
		for _, group := range w.Groups {
			for _, wish := range group.Sounds {
				if _, err := b.Want(s.Name, s.Text, row, wish); err != nil {
					t.Errorf("%s: %s: %v", s.Name, wish, err)
				}
			}
		}
		if len(w.Groups) < 2 {
			t.Errorf("%s: only %d groups", s.Name, len(w.Groups))
		}
	}
}
