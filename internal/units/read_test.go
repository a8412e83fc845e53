package units

import (
	"errors"
	"math"
	"strings"
	"testing"
)

type reader func(string) (Value, error)

// TestReaders holds each reader against values worked out by hand. Codes,
// letters in place of the point and tolerance letters are those of IEC 60062;
// ".022 is microfarads" is common practice, no source.
func TestReaders(t *testing.T) {
	readers := map[string]reader{"ohms": Ohms, "farads": Farads, "henries": Henries, "metres": Metres, "hertz": Hertz}
	for _, c := range []struct {
		kind, text string
		want       float64
	}{
		{"ohms", "500k", 500e3}, {"ohms", "4K7", 4700}, {"ohms", "4k7", 4700}, {"ohms", "R47", 0.47},
		{"ohms", "4R7", 4.7}, {"ohms", "4M7", 4.7e6}, {"ohms", "7.85k", 7850}, {"ohms", "8 kΩ", 8000},
		{"ohms", "8 kohm", 8000}, {"ohms", "8 kohms", 8000}, {"ohms", "10", 10}, {"ohms", "10R", 10},
		{"ohms", "1M", 1e6}, {"ohms", "1 meg", 1e6}, {"ohms", "350 mΩ", 0.35}, {"ohms", "4K7J", 4700},
		{"ohms", "10KK", 10e3}, {"ohms", "0", 0}, {"ohms", "500k ±20%", 500e3}, {"ohms", "8 k\u2126", 8000},
		{"ohms", "K47", 470}, {"ohms", "  4.0k ", 4000},
		{"farads", ".022", 22e-9}, {"farads", "0.022uF", 22e-9}, {"farads", "22n", 22e-9}, {"farads", "22nF", 22e-9},
		{"farads", "470p", 470e-12}, {"farads", "0.047 µF", 47e-9}, {"farads", "0.047 μF", 47e-9}, {"farads", "4n7", 4.7e-9},
		{"farads", "223K", 22e-9}, {"farads", "104", 100e-9}, {"farads", "102", 1e-9}, {"farads", "103", 10e-9},
		{"farads", "223", 22e-9}, {"farads", "333", 33e-9}, {"farads", "473", 47e-9}, {"farads", "471", 470e-12},
		{"farads", ".047 mfd", 47e-9}, {"farads", "500 mmfd", 500e-12}, {"farads", ".022K", 22e-9}, {"farads", "223F", 22e-9},
		{"farads", "22NF", 22e-9}, {"farads", "104Z", 100e-9}, {"farads", "0.1", 100e-9}, {"farads", "n47", 470e-12},
		{"farads", "1 F", 1},
		{"henries", "2.2H", 2.2}, {"henries", "2.2 H", 2.2}, {"henries", "450mH", 0.45}, {"henries", "4H5", 4.5},
		{"metres", "5m", 5}, {"metres", "30cm", 0.30}, {"metres", "300 mm", 0.3}, {"metres", "10ft", 3.048},
		{"metres", "12in", 0.3048}, {"metres", "3/8 in", 0.009525}, {"metres", `1/4"`, 0.00635},
		{"hertz", "440", 440}, {"hertz", "440 Hz", 440}, {"hertz", "3.2 kHz", 3200}, {"hertz", "3k2", 3200},
	} {
		v, err := readers[c.kind](c.text)
		if err != nil || math.Abs(v.X-c.want) > 1e-15*c.want {
			t.Errorf("%s %q = %v, %v; want %v", c.kind, c.text, v.X, err, c.want)
		}
		if v.Text != c.text {
			t.Errorf("%s %q keeps the text %q", c.kind, c.text, v.Text)
		}
	}
}

// TestTolerances: letters of IEC 60062.
func TestTolerances(t *testing.T) {
	for _, c := range []struct {
		read      reader
		text      string
		low, high float64
	}{
		{Ohms, "4K7F", 0.01, 0.01}, {Ohms, "4K7G", 0.02, 0.02}, {Ohms, "4K7J", 0.05, 0.05},
		{Ohms, "4K7K", 0.10, 0.10}, {Ohms, "4K7M", 0.20, 0.20}, {Ohms, "470RJ", 0.05, 0.05},
		{Farads, "104Z", 0.20, 0.80}, {Farads, "223K", 0.10, 0.10}, {Ohms, "500k ±20 %", 0.20, 0.20},
		{Ohms, "500k 20%", 0.20, 0.20}, {Ohms, "500k ± 20%", 0.20, 0.20}, {Farads, "100n -20/+80%", 0.20, 0.80},
		{Farads, "100 nF", 0, 0},
	} {
		v, err := c.read(c.text)
		if got := v.tolerance(); err != nil || got != (tolerance{c.low, c.high}) {
			t.Errorf("%q: %v, %v; want %v below, %v above", c.text, got, err, c.low, c.high)
		}
	}
	v, _ := Ohms("250k ±20%")
	if got := v.Interval(); got != (Interval{200e3, 300e3}) {
		t.Errorf("interval %v", got)
	}
	v, _ = Farads("104Z")
	if got := v.Interval(); math.Abs(got.Lo-80e-9) > 1e-20 || math.Abs(got.Hi-180e-9) > 1e-20 {
		t.Errorf("interval of 104Z %v", got)
	}
}

func readErr[T any](read func(string) (T, error)) func(string) error {
	return func(s string) error { _, err := read(s); return err }
}

// TestAmbiguous: a text with two customary meanings is asked about, and each
// reading offered is itself a clear text.
func TestAmbiguous(t *testing.T) {
	for _, c := range []struct {
		read func(string) error
		text string
		want string
	}{
		{readErr(Farads), "47", "47 pF|47 nF|47 µF"},
		{readErr(Farads), "470", "470 pF|47 pF (three-digit code)"},
		{readErr(Farads), "220K", "220 pF ±10%|22 pF ±10% (three-digit code)"},
		{readErr(Farads), "2.2", "2.2 pF|2.2 nF|2.2 µF"},
		{readErr(Farads), "4700", "4700 pF|4700 nF|4700 µF"},
		{readErr(Farads), "22 mF", "22 µF (m for micro, old labels)|22000 µF (m for milli)"},
		{readErr(Ohms), "500m", "500M|500 mΩ"},
		{readErr(Ohms), "8 mohm", "8M|8 mΩ"},
		{readErr(Ohms), "4m7", "4.7M|4.7 mΩ"},
		{readErr(Henries), "2.2", "2.2 H|2.2 mH"},
		{readErr(Metres), "5", "5 mm|5 cm|5 m|5 in"},
		{readErr(Percent), "0.2", "0.2 %|20 %"},
		{readErr(Percent), "20", "20 %"},
		{readErr(Track), "A500K", "500k audio (Asian/US letter)|500k linear (old European letter)"},
		{readErr(Track), "B500K", "500k linear (Asian/US letter)|500k audio (old European letter)"},
		{readErr(Track), "500kA", "500k audio (Asian/US letter)|500k linear (old European letter)"},
		{readErr(Track), "500k B", "500k linear (Asian/US letter)|500k audio (old European letter)"},
		{readErr(Track), "C1M", "1M reverse audio (Asian/US letter)|1M audio (old European letter)"},
		{readErr(Track), "A504", "500k audio (Asian/US letter)|500k linear (old European letter)"},
		{readErr(Track), "A500", "500k audio (Asian/US letter)|500k linear (old European letter)"},
		{readErr(Track), "504 linear", "500k linear (three-digit code)|504 Ω linear"},
		{readErr(Track), "500", "500k|500 Ω"},
		{readErr(Wire), "22", "22 AWG|22 SWG"},
		{readErr(Wire), "22 gauge", "22 AWG|22 SWG"},
		{readErr(Wire), "7/30", "7/30 AWG|7/30 SWG"},
		{readErr(RangeOhms), "7.5..8.2k", "7.5k..8.2k|7.5 Ω..8.2k"},
	} {
		var asked *Ambiguous
		if err := c.read(c.text); !errors.As(err, &asked) {
			t.Errorf("%q: %v, want it asked about", c.text, err)
			continue
		}
		if got := strings.Join(asked.Readings, "|"); got != c.want {
			t.Errorf("%q asks %s, want %s", c.text, got, c.want)
		}
		for _, r := range asked.Readings {
			clear, _, _ := strings.Cut(r, " (")
			if err := c.read(clear); err != nil {
				t.Errorf("%q offers %q, which is not clear: %v", c.text, clear, err)
			}
		}
	}
}

func TestInvalid(t *testing.T) {
	for name, c := range map[string]struct {
		read  func(string) error
		texts []string
	}{
		"ohms":    {readErr(Ohms), []string{"", "k", "R", "4,7k", "-5k", "5kk", "8 kF", "1e3", "5%", "500k 0%", "4k7k7", "4K7X", "10 20k", "½k", "4..7k", "NaN", "inf", "+5"}},
		"farads":  {readErr(Farads), []string{"", "022", "22k", "22H", "-1n", "22 n n", "223X", "22M F", "n"}},
		"henries": {readErr(Henries), []string{"", "2.2", "450MH", "2HH", "H"}},
		"metres":  {readErr(Metres), []string{"", "5 yd", "3/0 in", "3.5/8 in", "mm"}},
		"hertz":   {readErr(Hertz), []string{"", "Hz", "4 kz"}},
		"percent": {readErr(Percent), []string{"", "%", "-5%", "5 %%", "five%"}},
		"track":   {readErr(Track), []string{"", "audio", "500k loud", "500k linear 20%", "500k audio 60%", "500k audio ±15%", "A500K reverse audio", "W500K", "500k audio linear"}},
		"wire":    {readErr(Wire), []string{"", "AWG", "99 AWG", "51 SWG", "0/0.2", "7/", "22 mm2 mm2", "-1 AWG", "0.2 m m", "200 mm", "7/0.2/3"}},
		"range":   {readErr(RangeOhms), []string{"..", "8k..", "8.2k..7.5k", "7k..8k..9k", "x..8k"}},
		"colour":  {readErr(ReadColour), []string{"", "beige", "red/green/blue", "bare"}},
	} {
		for _, text := range c.texts {
			err := c.read(text)
			var invalid *Invalid
			var asked *Ambiguous
			if name == "henries" && errors.As(err, &asked) {
				continue // 2.2 is asked about, see TestAmbiguous
			}
			if !errors.As(err, &invalid) {
				t.Errorf("%s %q: %v, want it refused", name, text, err)
			} else if invalid.Kind == "" || invalid.Write == "" {
				t.Errorf("%s %q: no help in %q", name, text, err)
			}
		}
	}
}

func TestRanges(t *testing.T) {
	for _, c := range []struct {
		read func(string) (Interval, error)
		text string
		want Interval
	}{
		{RangeOhms, "7.5k..8.2k", Interval{7500, 8200}}, {RangeOhms, "7.5k .. 8.2k", Interval{7500, 8200}},
		{RangeOhms, "8k", Interval{8000, 8000}}, {RangeOhms, "10..12", Interval{10, 12}}, {RangeOhms, "7k5..8k2", Interval{7500, 8200}},
		{RangeHenries, "2H..3.5H", Interval{2, 3.5}}, {RangeFarads, "100p..200p", Interval{100e-12, 200e-12}},
		{RangeMetres, "10 mm..12 mm", Interval{0.010, 0.012}}, {RangeHertz, "2 kHz..5 kHz", Interval{2000, 5000}},
	} {
		got, err := c.read(c.text)
		if err != nil || got != c.want {
			t.Errorf("%q = %v, %v; want %v", c.text, got, err, c.want)
		}
	}
	if i := (Interval{1, 2}); !i.Contains(1) || !i.Contains(2) || i.Contains(2.1) || i.Contains(0.9) {
		t.Error("Contains is not that of a closed interval")
	}
}

func TestTrack(t *testing.T) {
	for _, c := range []struct {
		text  string
		ohms  float64
		taper Taper
		half  float64
	}{
		{"500k audio", 500e3, Audio, 0}, {"250k linear", 250e3, Linear, 0}, {"250k lin", 250e3, Linear, 0},
		{"500k reverse audio", 500e3, ReverseAudio, 0}, {"1M anti-log", 1e6, ReverseAudio, 0}, {"500 kΩ audio", 500e3, Audio, 0},
		{"500k audio 15%", 500e3, Audio, 0.15}, {"500k log 10 %", 500e3, Audio, 0.10}, {"500k", 500e3, "", 0},
		{"500k reverse audio 85%", 500e3, ReverseAudio, 0.15}, {"500k reverse audio 15%", 500e3, ReverseAudio, 0.15},
		{"A500K audio", 500e3, Audio, 0}, {"B500K linear", 500e3, Linear, 0}, {"500k ±20% audio 15%", 500e3, Audio, 0.15},
		{"4k7 linear", 4700, Linear, 0}, {"500 Ω linear", 500, Linear, 0},
	} {
		got, err := Track(c.text)
		if err != nil || got.Ohms.X != c.ohms || got.Taper != c.taper || got.Half != c.half || got.Text != c.text {
			t.Errorf("%q = %+v, %v", c.text, got, err)
		}
		again, err := Track(got.String())
		if err != nil || again.Ohms.X != c.ohms || again.Ohms.Tol != got.Ohms.Tol || again.Taper != c.taper || again.Half != c.half {
			t.Errorf("%q prints as %q, which reads as %+v, %v", c.text, got.String(), again, err)
		}
	}
}
