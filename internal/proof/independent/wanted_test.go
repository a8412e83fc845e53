package independent_test

import (
	"fmt"
	"math/cmplx"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"loomwright/internal/bench"
	"loomwright/internal/proof"
)

// wish is a wanted sound made up from one that is heard.
type wish struct {
	setting string
	hear    string
	phase   string
}

// wishes asks in some settings for what is heard there, and in some for it
// upside down, with a coil reversed, or joined otherwise.
func wishes(rng *rand.Rand, rows []proof.Row) []wish {
	var out []wish
	for _, r := range rows {
		plain := r.Output == proof.Sounding && !strings.ContainsAny(r.Heard, "?") &&
			!strings.Contains(r.Heard, "unknown") && !strings.Contains(r.Heard, "mesh") && !r.Unsure
		if !plain || rng.IntN(3) == 0 || r.Name == "as wired" {
			continue
		}
		w := wish{setting: r.Name, hear: r.Heard, phase: []string{"", "", "free", "fixed"}[rng.IntN(4)]}
		switch rng.IntN(6) {
		case 0:
			w.hear = "reversed (" + r.Heard + ")"
		case 1:
			w.hear = "reversed " + r.Heard
		case 2:
			if !strings.Contains(r.Heard, "(") && !strings.Contains(r.Heard, "through") {
				w.hear = strings.ReplaceAll(r.Heard, "series", "parallel")
			}
		case 3:
			w.hear = strings.Replace(r.Heard, "reversed ", "", 1)
		}
		out = append(out, w)
	}
	return out
}

// verdict holds a wish against a measurement: yes with the polarity that it is
// met in, or no.
func (o *opinions) verdict(w wish, c *circuit, heard []bool) (flip int, ok bool) {
	e := parseSound(w.hear)
	way, known := c.inTheWay(o.draws[0], heard)
	if !known {
		return 0, false
	}
	names := map[string]element{}
	for el := range way {
		names[o.valueOf(el)] = el
	}
	bare := c.with(func(el element) bool { return way[el] })
	var coils []string
	for _, leaf := range e.leaves() {
		coils = append(coils, leaf.name)
	}
	for i, h := range heard {
		if h != slices.Contains(coils, o.w.coils[i].name) {
			return 0, false
		}
	}
	for _, d := range o.draws {
		m, _ := bare.measure(d)
		fits := true
		z, share := e.electric(func(leaf expr) complex128 {
			if leaf.op == "through" {
				el, here := names[leaf.name]
				fits = fits && here
				if !here {
					return 1
				}
				return d[el.kind][el.of]
			}
			return d['c'][slices.IndexFunc(o.w.coils, func(k coil) bool { return k.name == leaf.name })]
		})
		if !fits || cmplx.Abs(z-m.z) > 1e-7*(1+cmplx.Abs(z)) {
			return 0, false
		}
		for i, k := range o.w.coils {
			if !heard[i] {
				continue
			}
			rel := m.share[i] * complex(float64(k.winding*k.pole), 0) / share[k.name]
			side := 1
			if real(rel) < 0 {
				side = -1
			}
			if w.phase != "free" && flip == -side {
				return 0, false
			}
			flip = side
		}
	}
	if w.phase == "free" {
		flip = 0
	}
	return flip, true
}

// TestWantedSounds compares what is said of wishes.
func TestWantedSounds(t *testing.T) {
	shelf := readShelf(librarySource)
	lib := bench.New().Library
	asked, met := 0, 0
	for seed := range uint64(1500) {
		text := newLoom(seed+900000, shelf, 12)
		before, _ := proved(text, lib)
		rng := rand.New(rand.NewPCG(seed, 5))
		ws := wishes(rng, before.Rows)
		if len(ws) == 0 {
			continue
		}
		more := text + "sounds:\n"
		for _, w := range ws {
			more += fmt.Sprintf("  - {with: \"%s\", hear: %s", w.setting, w.hear)
			if w.phase != "" {
				more += ", phase: " + w.phase
			}
			more += "}\n"
		}
		after, list := proved(more, lib)
		if len(after.Rows) == 0 {
			t.Fatalf("seed %d: %v\n%s", seed, list, more)
		}
		want := expected(text, shelf, seed, ws)
		for _, r := range after.Rows {
			if r.Wanted == nil {
				continue
			}
			asked++
			if r.Wanted.Met == proof.Yes {
				met++
			}
			if want[r.Name] != (r.Wanted.Met == proof.Yes) {
				t.Fatalf("seed %d: %s: wanted %q, heard %q: independent %v, proof %+v\n%s", seed, r.Name, r.Wanted.Sound, r.Heard, want[r.Name], *r.Wanted, more)
			}
		}
	}
	t.Logf("%d wishes, %d met", asked, met)
	if asked < 300 || met < asked/4 || met > asked*9/10 {
		t.Errorf("%d wishes, %d met: the wishes show too little", asked, met)
	}
}

// expected judges wishes: each by itself, then the common polarity that most
// are met in; those in the other are missed.
func expected(text string, shelf shelf, seed uint64, ws []wish) map[string]bool {
	o := &opinions{rng: rand.New(rand.NewPCG(seed, 2)), w: readLoom(text, shelf)}
	o.draws = [2]draw{o.w.random(o.rng), o.w.random(o.rng)}
	for k := range o.draws {
		o.draws[k] = o.tied(o.draws[k])
	}
	o.rs = o.w.readings()
	flips, votes := map[string]int{}, 0
	out := map[string]bool{}
	for _, at := range o.w.settings() {
		name := o.w.settingName(at)
		i := slices.IndexFunc(ws, func(w wish) bool { return w.setting == name })
		if i < 0 {
			continue
		}
		c := o.w.circuit(o.w.contacts(at), o.w.fullUp(), o.rs[0])
		flip, ok := o.verdict(ws[i], c, c.heard(o.draws[0]))
		if out[name], flips[name] = ok, flip; !ok {
			continue
		}
		votes += flip
		if ws[i].phase == "fixed" {
			votes += 10000
		}
	}
	for name, flip := range flips {
		if votes >= 0 && flip < 0 || votes < 0 && flip > 0 {
			out[name] = false
		}
	}
	return out
}
