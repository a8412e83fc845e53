package drawing

import (
	"bufio"
	"flag"
	"fmt"
	"maps"
	"os"
	"slices"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write testdata/baseline.txt anew")

// baseline is what the drawings of the examples may have at most. Crossings may
// only fall: lower the number in the file when they do.
const baseline = "testdata/baseline.txt"

// figures are those of one drawing.
type figures struct{ crossings, flaws int }

func readBaseline(t *testing.T) map[string]figures {
	t.Helper()
	f, err := os.Open(baseline)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	out := map[string]figures{}
	for s := bufio.NewScanner(f); s.Scan(); {
		var name string
		var is figures
		if _, err := fmt.Sscanf(s.Text(), "%s %d crossings %d flaws", &name, &is.crossings, &is.flaws); err == nil {
			out[name] = is
		}
	}
	return out
}

// TestExamples draws every example, looks for flaws, and holds the number of
// crossings against the baseline.
func TestExamples(t *testing.T) {
	files := exampleFiles(t)
	var lines []string
	want := map[string]figures{}
	if !*update {
		want = readBaseline(t)
	}
	for _, name := range slices.Sorted(maps.Keys(files)) {
		d := drawn(t, graphOf(t, name, files[name]), Options{})
		flaws := Lint(d)
		for _, check := range []func(*testing.T, string, *Drawing){checkEveryStepIsFound, checkKey, checkTwistIsDrawn, checkColoursAvoidLeads, checkNoSpikes, checkPage} {
			check(t, name, d)
		}
		lines = append(lines, fmt.Sprintf("%s %d crossings %d flaws", name, len(d.Crossings), len(flaws)))
		if *update {
			continue
		}
		limit, known := want[name]
		if !known {
			t.Errorf("%s is not in %s: %d crossings, %d flaws", name, baseline, len(d.Crossings), len(flaws))
		}
		if len(d.Crossings) > limit.crossings {
			t.Errorf("%s: %d crossings, %d before", name, len(d.Crossings), limit.crossings)
		}
		if len(flaws) > limit.flaws {
			t.Errorf("%s: %d flaws, %d before:", name, len(flaws), limit.flaws)
			for _, f := range flaws {
				t.Logf("   %s at %.1f: %s", f.Rule, f.At, f.Says)
			}
		}
	}
	if *update {
		head := "# Crossings and flaws of each example's drawing: they may only fall.\n"
		if err := os.WriteFile(baseline, []byte(head+strings.Join(lines, "\n")+"\n"), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}
