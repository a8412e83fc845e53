package sat_test

import (
	"fmt"
	"math/rand/v2"
	"os"
	"testing"

	. "loomwright/internal/sat"
)

func randomSound(r *rand.Rand, coils int) sound {
	p := r.Perm(coils)
	switch r.IntN(6) {
	case 0:
		return coil(p[0])
	case 1, 2:
		return series(coil(p[0]), coil(p[1]))
	case 3, 4:
		return parallel(coil(p[0]), coil(p[1]))
	}
	if coils < 4 {
		return coil(p[0])
	}
	return parallel(series(coil(p[0]), coil(p[1])), series(coil(p[2]), coil(p[3])))
}

func TestZZDump(t *testing.T) {
	made := 0
	for seed := 0; made < 24; seed++ {
		r := rand.New(rand.NewPCG(uint64(seed), 1))
		shape := [][3]int{{4, 4, 5}, {3, 6, 5}, {4, 5, 4}, {6, 4, 4}, {5, 4, 5}, {3, 5, 6}}[seed%6]
		w := wiring{coils: shape[0], poles: shape[1]}
		for range shape[2] {
			w.sounds = append(w.sounds, randomSound(r, w.coils))
		}
		e := w.encode(Options{})
		e.s.MaxConflicts = 100000
		c := 0
		st := Unknown
		for {
			st = e.s.Solve()
			if st != Sat {
				break
			}
			c = 0
			for c < len(e.cost) && e.s.Value(e.cost[c]) {
				c++
			}
			e.s.AddClause(e.cost[c-1].Not())
		}
		fmt.Println(seed, w, c, st, e.s.Stats().Conflicts)
		if e.s.Stats().Conflicts < 8000 || c == 0 {
			continue
		}
		made++
		for d := 0; d < 2; d++ {
			e = w.encode(Options{})
			e.s.AddClause(e.cost[c-1+d].Not())
			f, _ := os.Create(fmt.Sprintf("/tmp/lab/cnf/r%d_%d%d%d_%d_%v.cnf", seed, shape[0], shape[1], shape[2], c-1+d, []string{st.String(), "sat"}[d]))
			e.s.CNF().WriteDIMACS(f)
			f.Close()
		}
	}
}
