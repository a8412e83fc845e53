package units

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

var printers = map[string]struct {
	print func(float64) string
	read  reader
}{
	"ohms": {FormatOhms, Ohms}, "farads": {FormatFarads, Farads}, "henries": {FormatHenries, Henries},
	"metres": {FormatMetres, Metres}, "hertz": {FormatHertz, Hertz},
}

// TestPrintReadsBack: any value that is printed is read back as the same bits.
func TestPrintReadsBack(t *testing.T) {
	for name, p := range printers {
		t.Run(name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				x := rapid.OneOf(
					rapid.Float64Range(0, 1e9),
					rapid.Map(rapid.Float64Range(-15, 12), func(e float64) float64 { return math.Pow(10, e) }),
					rapid.Map(rapid.Float64Range(-15, 9), func(e float64) float64 { return Round(math.Pow(10, e), 3) }),
				).Draw(t, "x")
				text := p.print(x)
				got, err := p.read(text)
				if err != nil || got.X != x {
					t.Fatalf("%v prints as %q, which reads as %v, %v", x, text, got.X, err)
				}
				if again := p.print(got.X); again != text {
					t.Fatalf("%q prints again as %q", text, again)
				}
			})
		})
	}
}

func TestFormat(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{FormatOhms(7850), "7.85 kΩ"}, {FormatOhms(0), "0 Ω"}, {FormatOhms(500e3), "500 kΩ"}, {FormatOhms(1e6), "1 MΩ"},
		{FormatOhms(0.47), "0.47 Ω"}, {FormatOhms(math.NaN()), "unknown"}, {FormatOhms(math.Inf(1)), "∞ Ω"},
		{FormatOhms(Round(7874.0157, 4)), "7.874 kΩ"}, {FormatOhms(-3), "-3 Ω"}, {FormatFarads(22e-9), "22 nF"},
		{FormatFarads(1e-7), "100 nF"}, {FormatFarads(2.2e-6), "2.2 µF"}, {FormatFarads(0.5e-12), "0.5 pF"},
		{FormatHenries(2.2), "2.2 H"}, {FormatHenries(0.45), "450 mH"}, {FormatMetres(0.3), "300 mm"}, {FormatMetres(5), "5 m"},
		{FormatHertz(3991.79), "3.99179 kHz"},
	} {
		if c.got != c.want {
			t.Errorf("printed %q, want %q", c.got, c.want)
		}
	}
}

// checkRead holds for any text: no panic, and a value read is a number that
// prints and reads back.
func checkRead(t *testing.T, name, text string) {
	p := printers[name]
	v, err := p.read(text)
	if err != nil {
		_ = err.Error()
		return
	}
	if math.IsNaN(v.X) || math.IsInf(v.X, 0) || v.X < 0 || v.Tol < 0 || v.TolLow < 0 {
		t.Fatalf("%s %q = %+v", name, text, v)
	}
	if again, err := p.read(p.print(v.X)); err != nil || again.X != v.X {
		t.Fatalf("%s %q = %v prints as %q, which reads as %v, %v", name, text, v.X, p.print(v.X), again.X, err)
	}
}

func FuzzValues(f *testing.F) {
	for _, s := range []string{"500k", "4K7J", "R47", "8 kΩ ±5%", ".022", "223K", "104Z", "0.047 µF", "450mH", "4H5", "3/8 in", "3k2", "100n -20/+80%", "22 mF", "4m7"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for name := range printers {
			checkRead(t, name, text)
		}
		if i, err := RangeOhms(text); err == nil && !(i.Lo <= i.Hi) {
			t.Fatalf("range %q = %v", text, i)
		}
	})
}

func FuzzTrack(f *testing.F) {
	for _, s := range []string{"500k audio", "A500K", "500kB", "500k reverse audio 85%", "504 linear", "500k ±20% audio 15%", "C"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		v, err := Track(text)
		if err != nil {
			return
		}
		again, err := Track(v.String())
		if err != nil || again.Ohms.X != v.Ohms.X || again.Taper != v.Taper || again.Half != v.Half {
			t.Fatalf("%q = %+v prints as %q, which reads as %+v, %v", text, v, v.String(), again, err)
		}
	})
}

func FuzzWireAndColour(f *testing.F) {
	for _, s := range []string{"22 AWG", "7/0.2", "22 SWG", "0.22 mm²", "green/yellow", "white with black stripe"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if w, err := Wire(text); err == nil && !(w.Diameter > 0 && w.Area > 0) {
			t.Fatalf("wire %q = %+v", text, w)
		}
		if c, err := ReadColour(text); err == nil && c.Letters() == "" {
			t.Fatalf("colour %q has no letters", text)
		}
	})
}
