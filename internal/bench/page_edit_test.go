package bench

import (
	"io/fs"
	"slices"
	"strings"
	"testing"

	"loomwright/examples"
)

// TestCutAndJoin cuts every run of every example and joins it again: the graph
// has the same pairs of terminals as before, and no comment is lost.
func TestCutAndJoin(t *testing.T) {
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
		data := string(raw)
		want := b.Check(name, data).Graph
		for run := range want.Runs {
			cut, err := b.Cut(name, data, run)
			if err != nil {
				t.Errorf("%s, run %d: %v", name, run, err)
				continue
			}
			a, z := want.Terms[want.Runs[run].A].Name, want.Terms[want.Runs[run].B].Name
			back, err := b.Join(name, cut, a, z)
			if err != nil {
				t.Errorf("%s: %s -- %s: %v", name, a, z, err)
				continue
			}
			if lost := lostComments(cut, back); len(lost) > 0 {
				t.Errorf("%s: comments lost: %v", name, lost)
			}
			got := b.Check(name, back).Graph
			if pairs(b, name, data) != pairs(b, name, back) || len(got.Runs) != len(want.Runs) {
				t.Errorf("%s: %s -- %s cut and joined again is not the same loom", name, a, z)
			}
			tried++
		}
	}
	if tried < 200 {
		t.Errorf("only %d runs were tried", tried)
	}
}

func lostComments(before, after string) []string {
	var lost []string
	for _, line := range strings.Split(before, "\n") {
		if _, comment, ok := strings.Cut(line, "# "); ok && !strings.Contains(after, comment) {
			lost = append(lost, comment)
		}
	}
	return lost
}

// pairs lists the joined pairs of a loom, sorted.
func pairs(b *Bench, name, data string) string {
	g := b.Check(name, data).Graph
	var out []string
	for _, r := range g.Runs {
		x, y := g.Terms[r.A].Name, g.Terms[r.B].Name
		out = append(out, min(x, y)+" "+max(x, y))
	}
	slices.Sort(out)
	return strings.Join(out, "\n")
}

// TestFirstAndLastJoin empties a list of joins and begins it again.
func TestFirstAndLastJoin(t *testing.T) {
	b := New()
	const one = "loomwright: 1\nparts:\n  coil: {is: pickup/single-coil}\n  jack: {is: jack/mono}\njoins:\n  - coil.coil.start -- jack.tip\n"
	none, err := b.Cut("a", one, 0)
	if err != nil || !strings.Contains(none, "joins: []") {
		t.Fatalf("%v\n%s", err, none)
	}
	again, err := b.Join("a", none, "coil.coil.start", "jack.tip")
	if err != nil || again != one {
		t.Fatalf("%v\n%s", err, again)
	}
	for _, pair := range [][2]string{{"coil.coil.start", "coil.coil.start"}, {"coil.coil.start", "jack.tip"}, {"coil.coil.start", "jack.ring"}} {
		if _, err := b.Join("a", one, pair[0], pair[1]); err == nil {
			t.Errorf("%v was joined", pair)
		}
	}
}

func TestSetPart(t *testing.T) {
	b := New()
	const loom = "loomwright: 1\nparts:\n  coil: {is: pickup/single-coil} # as found\n  volume: {is: pot/standard, track: 500k audio}\n  jack: {is: jack/mono}\njoins: []\n"
	for _, c := range []struct{ use, key, value, want string }{
		{"volume", "track", "250k linear", "volume: {is: pot/standard, track: 250k linear}"},
		{"coil", "ohms", "6.1k", "{is: pickup/single-coil, ohms: 6.1k} "},
		{"volume", "track", "", "volume: {is: pot/standard}"},
	} {
		got, err := b.SetPart("a", loom, c.use, c.key, c.value)
		if err != nil || !strings.Contains(squeeze(got), c.want) || !strings.Contains(got, "# as found") {
			t.Errorf("%v: %v\n%s", c, err, got)
		}
	}
	if _, err := b.SetPart("a", loom, "volume", "track", "1k}, x: {is: jack/mono"); err == nil {
		t.Error("a value broke out of its place")
	}
}

func squeeze(s string) string {
	return strings.Join(strings.FieldsFunc(s, func(r rune) bool { return r == ' ' }), " ")
}
