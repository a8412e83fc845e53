package independent_test

import (
	"fmt"
	"math/rand/v2"
	"runtime/debug"
	"strings"
	"sync"
	"testing"

	"loomwright/internal/bench"
	"loomwright/internal/part"
)

// newLoom makes up a loom by its seed, with at most so many settings.
func newLoom(seed uint64, shelf shelf, most int) string {
	m := &maker{rng: rand.New(rand.NewPCG(seed, 1)), shelf: shelf, most: most}
	return m.loom()
}

const librarySource = "../../../library"

// TestRandomLooms compares the two opinions on looms with known seeds. On
// failure the first disagreements are shown with their looms.
func TestRandomLooms(t *testing.T) {
	compareRandom(t, 0, 10000, 16)
}

const shards = 4

func compareRandom(t *testing.T, from, n uint64, most int) {
	shelf := readShelf(librarySource)
	lib := bench.New().Library
	defer debug.SetGCPercent(debug.SetGCPercent(400))
	var total tally
	var mu sync.Mutex
	t.Run("looms", func(t *testing.T) {
		for shard := range uint64(shards) {
			t.Run(fmt.Sprint(shard), func(t *testing.T) {
				t.Parallel()
				mine := compareSome(t, shelf, lib, from+shard, from+n, most)
				mu.Lock()
				defer mu.Unlock()
				total.add(mine)
			})
		}
	})
	t.Logf("%+v", total)
	if total.looms+total.refused < int(n) || total.refused > 0 || total.structures < total.looms || total.unsure == 0 || total.sure == 0 || total.meshes == 0 {
		t.Error("the looms made up do not show enough")
	}
	if total.wrongWord*5000 > total.sameWord {
		t.Errorf("%d knobs are called the opposite of what they do, %d what they do", total.wrongWord, total.sameWord)
	}
}

// compareSome compares on every shards-th loom.
func compareSome(t *testing.T, shelf shelf, lib *part.Library, from, to uint64, most int) tally {
	var total tally
	wrong := 0
	for seed := from; seed < to; seed += shards {
		text := newLoom(seed, shelf, most)
		o := compare(text, shelf, lib, seed)
		total.add(o.tally)
		if len(o.bad) == 0 {
			continue
		}
		if wrong++; wrong > 2 {
			text = ""
		}
		t.Errorf("seed %d\n%s%s", seed, text, strings.Join(o.bad[:min(len(o.bad), 5)], "\n"))
	}
	return total
}
