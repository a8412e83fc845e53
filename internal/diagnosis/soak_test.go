//go:build soak

package diagnosis_test

import (
	"testing"

	"loomwright/internal/meter"
)

// Ten thousand trials on each bench with fresh tolerances and meter errors: the
// true fault is never lost. Run with -tags soak.
func TestTenThousandTrials(t *testing.T) {
	for _, access := range []meter.Access{meter.Open, meter.Outside} {
		for _, name := range []string{oneTwin, twoTwins} {
			s := single(t, tableOf(t, name, meter.Options{Access: access}), 1e6, 10000)
			t.Logf("%s, %s: %s", name, access, &s)
		}
	}
}

// Doubles in numbers.
func TestManyDoubles(t *testing.T) {
	for name, n := range map[string]int{oneTwin: 2000, twoTwins: 400} {
		d := doublesOf(t, name, n, 99)
		t.Logf("%s: %s", name, &d)
		if 100*d.flagged < 85*d.trials || 100*d.wrong > 2*d.trials {
			t.Errorf("%s: at least 85 %% flagged and at most 2 %% silently wrong are wanted", name)
		}
	}
}
