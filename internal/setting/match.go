package setting

import (
	"fmt"
	"strconv"
	"strings"

	"loomwright/internal/diag"
	"loomwright/internal/wiring"
)

// Match returns the settings that positions in words hold in: "lever middle,
// volume pulled". A switch that is not named stands anywhere; the empty text is
// every setting. The error names the nearest right words.
func Match(g *wiring.Graph, text string) ([]Setting, error) {
	want := make([]int, len(g.Switches))
	for i := range want {
		want[i] = -1
	}
	for _, clause := range strings.Split(text, ",") {
		if clause = strings.TrimSpace(clause); clause == "" || clause == "as wired" {
			continue
		}
		sw, at, err := position(g, clause)
		if err != nil {
			return nil, err
		}
		want[sw] = at
	}
	var out []Setting
	for s := range All(g) {
		if fits(s.At, want) {
			out = append(out, s)
		}
	}
	return out, nil
}

func fits(at, want []int) bool {
	for i, w := range want {
		if w >= 0 && at[i] != w {
			return false
		}
	}
	return true
}

// position reads "lever middle" or "lever 3".
func position(g *wiring.Graph, clause string) (sw, at int, err error) {
	name, pos, _ := strings.Cut(clause, " ")
	var names []string
	for i := range g.Switches {
		s := &g.Switches[i]
		names = append(names, s.Name)
		if s.Name != name {
			continue
		}
		var positions []string
		for k, p := range s.Positions {
			if p.Name == strings.TrimSpace(pos) {
				return i, k, nil
			}
			positions = append(positions, p.Name)
		}
		if n, e := strconv.Atoi(strings.TrimSpace(pos)); e == nil && n >= 1 && n <= len(s.Positions) {
			return i, n - 1, nil
		}
		return 0, 0, fmt.Errorf("%s has no position %q: it has %s", name, pos, strings.Join(positions, ", "))
	}
	if len(names) == 0 {
		return 0, 0, fmt.Errorf("this loom has no switch %q, nor any other", name)
	}
	hint := diag.Nearest(name, names)
	if hint == "" {
		hint = strings.Join(names, ", ")
	}
	return 0, 0, fmt.Errorf("this loom has no switch %q: there is %s", name, hint)
}
