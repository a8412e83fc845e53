package units

import (
	"math"
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"loomwright/internal/oracle"
)

// TestAWG: values worked out from the formula of ASTM B258.
func TestAWG(t *testing.T) {
	for n, mm := range map[int]float64{41: 0.0711273, 42: 0.0633407, 43: 0.0564065, 44: 0.0502314, 36: 0.127} {
		if d, ok := AWG(n); !ok || math.Abs(d*1e3-mm) > 5e-8 {
			t.Errorf("AWG %d = %v mm, want %v", n, d*1e3, mm)
		}
	}
}

// TestSWG: inches of BS 3737:1964.
func TestSWG(t *testing.T) {
	for n, inch := range map[int]float64{
		20: .036, 22: .028, 24: .022, 28: .0148, 30: .0124, 36: .0076, 40: .0048, 42: .0040, 44: .0032,
	} {
		if d, ok := SWG(n); !ok || math.Abs(d/metresPerInch-inch) > 1e-9 {
			t.Errorf("SWG %d = %v in, want %v", n, d/metresPerInch, inch)
		}
	}
	if d, _ := SWG(22); math.Abs(d*1e3-0.7112) > 1e-9 {
		t.Errorf("SWG 22 = %v mm, want 0.7112", d*1e3)
	}
}

// TestGaugesAgainstUnits asks the independent program `units` for every gauge.
func TestGaugesAgainstUnits(t *testing.T) {
	units := oracle.Need(t, "units")
	var asked strings.Builder
	var want []float64
	for n := range 51 {
		awg, _ := AWG(n)
		swg, _ := SWG(n)
		want = append(want, awg, swg)
		asked.WriteString("wiregauge(" + strconv.Itoa(n) + ")\nm\nbrwiregauge(" + strconv.Itoa(n) + ")\nm\n")
	}
	cmd := exec.Command(units, "--quiet", "--one-line", "--strict", "--compact", "--digits", "12")
	cmd.Stdin = strings.NewReader(asked.String())
	out, err := cmd.Output()
	lines := strings.Fields(string(out))
	if err != nil || len(lines) != len(want) {
		t.Fatalf("units: %v, %d answers for %d questions", err, len(lines), len(want))
	}
	for i, line := range lines {
		got, err := strconv.ParseFloat(line, 64)
		if err != nil || math.Abs(got/want[i]-1) > 1e-9 {
			t.Errorf("gauge %d of system %d: units says %s m, ours is %v", i/2, i%2, line, want[i])
		}
	}
}

func TestWire(t *testing.T) {
	for _, c := range []struct {
		text     string
		mm, mm2  float64
		strands  int
		strandMM float64
	}{
		{"22 AWG", 0.6438, 0.32556, 1, 0.6438}, {"AWG 22", 0.6438, 0.32556, 1, 0.6438}, {"22awg", 0.6438, 0.32556, 1, 0.6438},
		{"22 SWG", 0.7112, 0.39726, 1, 0.7112}, {"7/0.2", 0.6, 0.21991, 7, 0.2}, {"7/0.2 mm", 0.6, 0.21991, 7, 0.2},
		{"0.6 mm", 0.6, 0.28274, 1, 0.6}, {"19/0.15", 0.75, 0.33576, 19, 0.15}, {"7/30 AWG", 0.76392, 0.35648, 7, 0.25464},
		{"16/0.2", 0.924, 0.50265, 16, 0.2}, {"0.22 mm²", 0.52926, 0.22, 0, 0}, {"0.22 mm2", 0.52926, 0.22, 0, 0},
	} {
		w, err := Wire(c.text)
		if err != nil || math.Abs(w.Diameter*1e3-c.mm) > 1e-4*c.mm || math.Abs(w.Area*1e6-c.mm2) > 1e-4*c.mm2 ||
			w.Strands != c.strands || math.Abs(w.Strand*1e3-c.strandMM) > 1e-4*c.mm || w.Text != c.text {
			t.Errorf("%q = %+v, %v", c.text, w, err)
		}
	}
}

// TestPreferred: IEC 60063. The E12 series is a table (rounded powers would
// have 26, 32, 38, 46 and 83 in it).
func TestPreferred(t *testing.T) {
	for _, n := range []float64{10, 12, 15, 18, 22, 27, 33, 39, 47, 56, 68, 82} {
		for _, decade := range []int{-12, -9, 0, 3, 5} {
			x := decimal(n, decade)
			if got := PreferredE12(x * 1.01); got != x {
				t.Errorf("E12 nearest to %v is %v, want %v", x*1.01, got, x)
			}
		}
	}
	for x, want := range map[float64]float64{319: 330, 23.4e-9: 24e-9, 0.99: 1, 9.6e3: 10e3, 5.2e5: 510e3} {
		if got := PreferredE24(x); got != want {
			t.Errorf("E24 nearest to %v is %v, want %v", x, got, want)
		}
	}
	if got := PreferredE12(0); got != 0 {
		t.Errorf("nearest to 0 is %v", got)
	}
}

// TestColours: letters and their order in pairs from IEC 60757:2021, clauses 4
// and 5.
func TestColours(t *testing.T) {
	for text, want := range map[string]string{
		"black": "BK", "brown": "BN", "red": "RD", "orange": "OG", "yellow": "YE", "green": "GN", "blue": "BU",
		"violet": "VT", "grey": "GY", "white": "WH", "pink": "PK", "gold": "GD", "turquoise": "TQ", "silver": "SR",
		"purple": "VT", "gray": "GY", "Slate": "GY", "gn": "GN",
		"red/blue": "RDBU", "blue/red": "RDBU", "white with black stripe": "BKWH", "orange-violet": "OGVT",
		"green yellow stripe": "YEGN", "red/red": "RD",
	} {
		c, err := ReadColour(text)
		if err != nil || c.Letters() != want {
			t.Errorf("%q has letters %q, %v; want %s", text, c.Letters(), err, want)
		}
		if again, err := ReadColour(c.String()); err != nil || again != c {
			t.Errorf("%q prints as %q, which reads as %v, %v", text, c, again, err)
		}
	}
	if c, _ := ReadColour("blue/red"); c != (Colour{"blue", "red"}) {
		t.Errorf("blue with a red stripe became %+v", c)
	}
	if n := len(ColourWords()); n != 14 {
		t.Errorf("%d colours, the standard has 14", n)
	}
}
