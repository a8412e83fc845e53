package electrics

import (
	"math"
	"testing"

	"loomwright/internal/part"
	"loomwright/internal/setting"
)

// bothJoinedAlike is a pair of equal coils in series, each start toward hot.
func humRow(t *testing.T, joins string, winding, pole [2]part.Sign, mismatch float64) Row {
	t.Helper()
	g := twoCoils(t, joins, 0)
	for i := range g.Coils {
		g.Coils[i].Winding, g.Coils[i].Pole, g.Coils[i].Mismatch = winding[i], pole[i], mismatch
	}
	return modelOf(t, g, Options{}).Table([]setting.Setting{{}}, nil, -1)[0]
}

// Two coils joined alike: winding and magnet decide phase and hum (general rule,
// several published pages agree); swapping one coil's leads toggles "winding".
func TestHumRule(t *testing.T) {
	for _, c := range []struct {
		joins                 string
		otherWind, otherPole  bool
		inPhase, humCancelled bool
	}{
		{parallelAiding, false, false, true, false},
		{parallelAiding, true, false, false, true},
		{parallelAiding, false, true, false, false},
		{parallelAiding, true, true, true, true},
		{parallelOpposing, false, true, true, true}, // one coil's leads swapped
		{seriesOpposing, false, true, true, true},   // the ordinary twin
		{seriesAiding, true, true, true, true},
	} {
		winding, pole := [2]part.Sign{1, 1}, [2]part.Sign{1, 1}
		if c.otherWind {
			winding[1] = -1
		}
		if c.otherPole {
			pole[1] = -1
		}
		row := humRow(t, c.joins, winding, pole, 0.02)
		one := humRow(t, oneCoil, winding, pole, 0.02)
		inPhase := row.Level > one.Level-3
		if inPhase != c.inPhase {
			t.Errorf("%+v: level %.1f dB against %.1f dB of one coil", c, row.Level, one.Level)
		}
		if c.inPhase && (row.Hum.Verdict == HumCancels) != c.humCancelled {
			t.Errorf("%+v: hum %+v", c, row.Hum)
		}
		if !c.inPhase && row.Hum.Index < 0 && !c.humCancelled {
			t.Errorf("%+v: the signal cancels and hum does not, but the index is %g dB", c, row.Hum.Index)
		}
	}
}

// What is left of the hum of two coils 1, 2, 5, 10 % apart: −40.0, −34.0, −26.0,
// −20.0 dB of one coil's EMF (worked out); the index is 6 dB lower, as the
// signals of the two add up.
func TestHumOfUnevenCoils(t *testing.T) {
	for percent, want := range map[float64]float64{1: -40, 2: -33.979, 5: -26.021, 10: -20} {
		row := humRow(t, seriesOpposing, [2]part.Sign{1, 1}, [2]part.Sign{1, -1}, percent/100)
		if math.Abs(row.Hum.Index-want+6.0206) > 0.05 || !row.Hum.Limited {
			t.Errorf("%g %%: %+v, want %.1f dB", percent, row.Hum, want-6.02)
		}
	}
}

// One coil by itself is 0 dB whatever it is; two like ones are no better.
func TestHumOfOneCoil(t *testing.T) {
	up := [2]part.Sign{1, 1}
	if row := humRow(t, oneCoil, up, up, 0.05); math.Abs(row.Hum.Index) > 1e-9 || row.Hum.Verdict != HumFull {
		t.Errorf("%+v", row.Hum)
	}
	if row := humRow(t, parallelAiding, up, up, 0.05); math.Abs(row.Hum.Index) > 0.2 || row.Hum.Verdict != HumFull {
		t.Errorf("two alike: %+v", row.Hum)
	}
}

// An unknown winding leaves hum open, and says which coil would settle it; known
// windings with an unknown pole leave only phase open.
func TestHumCannotTell(t *testing.T) {
	row := humRow(t, seriesOpposing, [2]part.Sign{1, 0}, [2]part.Sign{1, -1}, 0.03)
	if row.Hum.Verdict != HumUnsure || len(row.Hum.Settle) != 1 || row.Hum.Settle[0] != "winding of bridge.south" {
		t.Errorf("%+v", row.Hum)
	}
	if row.Hum.Lo > -20 || row.Hum.Hi < 0 || row.LevelHi-row.LevelLo < 20 {
		t.Errorf("%+v, level %g…%g dB", row.Hum, row.LevelLo, row.LevelHi)
	}
	row = humRow(t, seriesOpposing, [2]part.Sign{0, 0}, [2]part.Sign{1, -1}, 0.03)
	if row.Hum.Verdict != HumUnsure || row.Hum.Settle != nil || len(row.Hum.Needs) != 2 {
		t.Errorf("two unknown windings: %+v", row.Hum)
	}
	row = humRow(t, oneCoil, [2]part.Sign{0, 0}, [2]part.Sign{0, 0}, 0.03)
	if row.Hum.Verdict != HumFull {
		t.Errorf("one coil hums whichever way it is wound: %+v", row.Hum)
	}
}
