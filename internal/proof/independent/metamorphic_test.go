package independent_test

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"regexp"
	"slices"
	"sort"
	"strings"
	"testing"
	"testing/fstest"

	"loomwright/internal/bench"
	"loomwright/internal/diag"
	"loomwright/internal/part"
	"loomwright/internal/proof"
	"loomwright/internal/sound"
)

type (
	row     = proof.Row
	knobAct = proof.KnobAct
	passage = proof.Passage
)

// Renaming parts, putting joins and parts in another order, and mirroring a
// switch change nothing of an answer but names and order.

const changed = 500 // looms

// result is an answer without what may change: findings without their places
// and words, lists sorted.
func result(t *testing.T, b *bench.Bench, text string) []string {
	t.Helper()
	c, list := proved(text, b.Library)
	if len(c.Rows) == 0 {
		t.Fatalf("not proved: %v\n%s", list, text)
	}
	var out []string
	for _, r := range c.Rows {
		r.LiveRuns, r.Short = nil, ""
		out = append(out, written(r))
	}
	for _, d := range c.Findings {
		if d.Code != "join-suspect" {
			out = append(out, finding(d))
		}
	}
	sort.Strings(out)
	return out
}

func finding(d diag.Diagnostic) string {
	settings := slices.Clone(d.Settings)
	sort.Strings(settings)
	return fmt.Sprint(d.Code, " ", d.Severity, " ", settings)
}

func sortAll(lists ...[]string) {
	for _, l := range lists {
		sort.Strings(l)
	}
}

// eachLoom makes up looms and compares the answer before a change with the
// answer after it, translated back.
func eachLoom(t *testing.T, change func(rng *rand.Rand, text string) (changed string, back func(string) string)) {
	shelf := readShelf(librarySource)
	b := bench.New()
	for seed := range uint64(changed) {
		text := newLoom(seed+500000, shelf, 12)
		other, back := change(rand.New(rand.NewPCG(seed, 3)), text)
		want, got := result(t, b, text), result(t, b, other)
		for i := range got {
			got[i] = back(got[i])
		}
		sort.Strings(got)
		if !slices.Equal(want, got) {
			t.Fatalf("seed %d:\n%s\nchanged to\n%s\nbefore:\n%s\nafter:\n%s", seed, text, other, strings.Join(want, "\n"), strings.Join(got, "\n"))
		}
	}
}

func TestReorderingChangesNothing(t *testing.T) {
	eachLoom(t, func(rng *rand.Rand, text string) (string, func(string) string) {
		head, rest, _ := strings.Cut(text, "parts:\n")
		parts, joins, _ := strings.Cut(rest, "joins:\n")
		// Parts with switches keep their order: it is the order of the settings.
		return head + "parts:\n" + shuffled(rng, parts, keepsOrder) + "joins:\n" + shuffled(rng, joins, func(string) bool { return false }),
			func(s string) string { return s }
	})
}

func keepsOrder(line string) bool {
	return strings.Contains(line, "is: switch/") || strings.Contains(line, "is: pot/pu") || strings.Contains(line, "is: jack/switched")
}

// shuffled puts lines in another order, except those that keep theirs.
func shuffled(rng *rand.Rand, text string, keep func(line string) bool) string {
	lines := strings.SplitAfter(strings.TrimSuffix(text, "\n"), "\n")
	lines[len(lines)-1] += "\n"
	var free []int
	for i, l := range lines {
		if !keep(l) {
			free = append(free, i)
		}
	}
	out := slices.Clone(lines)
	for i, k := range rng.Perm(len(free)) {
		out[free[i]] = lines[free[k]]
	}
	return strings.Join(out, "")
}

func TestRenamingChangesOnlyNames(t *testing.T) {
	eachLoom(t, func(rng *rand.Rand, text string) (string, func(string) string) {
		to, from := map[string]string{}, map[string]string{}
		for _, m := range regexp.MustCompile(`(?m)^  (\w+): `).FindAllStringSubmatch(text, -1) {
			to[m[1]] = fmt.Sprintf("z%c%d", 'a'+rng.IntN(26), len(to))
			from[to[m[1]]] = m[1]
		}
		rename := regexp.MustCompile(`(?m)(^  |^  - |-- |, |braid )(\w+)(\.|: )`)
		other := rename.ReplaceAllStringFunc(text, func(s string) string {
			m := rename.FindStringSubmatch(s)
			if n, ok := to[m[2]]; ok {
				return m[1] + n + m[3]
			}
			return s
		})
		return other, func(s string) string { return canonical(restore(s, from)) }
	})
}

var newName = regexp.MustCompile(`\bz[a-z]\d+\b`)

func restore(s string, from map[string]string) string {
	return newName.ReplaceAllStringFunc(s, func(n string) string { return from[n] })
}

// canonical sorts again what was sorted by name.
func canonical(s string) string {
	if !strings.HasPrefix(s, "{") {
		return s
	}
	var r row
	if err := json.Unmarshal([]byte(s), &r); err != nil {
		panic(err)
	}
	return written(r)
}

// written writes a row with all that has no order of its own sorted.
func written(r row) string {
	r.Sound = r.Sound.Canon()
	if !r.Unsure {
		r.Heard = r.Sound.String()
	}
	sortAll(r.Off, r.Shorted, r.Hanging)
	for _, k := range r.Knobs {
		sort.Strings(k.Mutes)
	}
	slices.SortFunc(r.Knobs, func(a, b knobAct) int { return strings.Compare(a.Knob, b.Knob) })
	slices.SortFunc(r.Travel, func(a, b passage) int { return strings.Compare(a.Switch+a.To, b.Switch+b.To) })
	data, err := json.Marshal(r)
	if err != nil {
		panic(err)
	}
	return string(data)
}

// TestMirroringASwitch turns a lever's contact table round, and its positions'
// names with it: the same metal meets under the same names.
func TestMirroringASwitch(t *testing.T) {
	const original = `loomwright-part: 1
name: lever
class: switch
terminals: {a: , a.1: , a.2: , a.3: , b: , b.1: , b.2: , b.3: }
switches:
  lever:
    positions: {one: , two: , three: , four: , five: }
    travel: make first
    skew: yes
    poles:
      a: {common: a, contacts: {one: [[a, a.1]], two: [[a, a.1, a.2]], three: [[a, a.2]], four: [[a, a.2, a.3]], five: [[a, a.3]]}}
      b: {common: b, contacts: {one: [[b, b.1]], two: [[b, b.1, b.2]], three: [[b, b.2]], four: [[b, b.2, b.3]], five: [[b, b.3]]}}
`
	mirrored := strings.Replace(original, "{one: , two: , three: , four: , five: }", "{five: , four: , three: , two: , one: }", 1)
	on := func(file string) *bench.Bench {
		return bench.New(part.Shelf{Name: "shelf", FS: fstest.MapFS{"switch/lever-5way.yaml": {Data: []byte(file)}}})
	}
	one, two := on(original), on(mirrored)
	shelf := readShelf(librarySource)
	compared := 0
	for seed := uint64(700000); compared < 200; seed++ {
		text := newLoom(seed, shelf, 40)
		if !strings.Contains(text, "switch/lever-5way}") && !strings.Contains(text, "switch/lever-5way,") {
			continue
		}
		compared++
		if want, got := result(t, one, text), result(t, two, text); !slices.Equal(want, got) {
			t.Fatalf("seed %d:\n%s\nas it is:\n%s\nmirrored:\n%s", seed, text, strings.Join(want, "\n"), strings.Join(got, "\n"))
		}
	}
}

// TestReversedLeadsReverseTheSound: with start and finish of every coil changed
// for each other, every coil is heard the other way round.
func TestReversedLeadsReverseTheSound(t *testing.T) {
	const loom = `loomwright: 1
parts:
  neck:   {is: pickup/twin-coil}
  bridge: {is: pickup/single-coil}
  lever:  {is: switch/lever-5way}
  jack:   {is: jack/mono}
joins:
  - neck.north.START -- lever.a.1
  - neck.north.FINISH -- neck.south.FINISH
  - neck.south.START -- jack.sleeve
  - bridge.coil.START -- lever.a.2
  - bridge.coil.FINISH -- jack.sleeve
  - lever.a -- jack.tip
`
	one := bench.New().Check("one", strings.NewReplacer("START", "start", "FINISH", "finish").Replace(loom))
	two := bench.New().Check("two", strings.NewReplacer("START", "finish", "FINISH", "start").Replace(loom))
	for i, r := range one.Rows {
		if !sound.Equal(r.Sound.Reverse(), two.Rows[i].Sound) || r.Hum != two.Rows[i].Hum || r.Phase != two.Rows[i].Phase {
			t.Errorf("%s: %s %s %s, leads reversed %s %s %s", r.Name, r.Heard, r.Phase, r.Hum, two.Rows[i].Heard, two.Rows[i].Phase, two.Rows[i].Hum)
		}
	}
}
