package electrics

import (
	"bufio"
	"bytes"
	"encoding/binary"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"loomwright/internal/oracle"
)

// spice runs one deck through ngspice and returns each saved vector by name,
// lower case, without its first letter and brackets: v(out) is "out".
func spice(t testing.TB, deck string) map[string][]complex128 {
	t.Helper()
	program := oracle.Need(t, "ngspice")
	dir := t.TempDir()
	in, raw := filepath.Join(dir, "deck.cir"), filepath.Join(dir, "out.raw")
	if err := os.WriteFile(in, []byte(deck), 0o600); err != nil {
		t.Fatal(err)
	}
	said, err := exec.Command(program, "-b", "-r", raw, in).CombinedOutput()
	if err != nil {
		t.Fatalf("ngspice: %v\n%s", err, tail(said))
	}
	data, err := os.ReadFile(raw)
	if err != nil {
		t.Fatalf("ngspice wrote nothing: %v\n%s", err, tail(said))
	}
	return readRaw(t, data)
}

func tail(b []byte) []byte { return b[max(0, len(b)-1500):] }

// readRaw reads ngspice's binary raw file.
func readRaw(t testing.TB, data []byte) map[string][]complex128 {
	t.Helper()
	r := bufio.NewReader(bytes.NewReader(data))
	var names []string
	points, complexes := 0, false
	for {
		line, err := r.ReadString('\n')
		if err != nil {
			t.Fatalf("raw file without data: %v", err)
		}
		key, value, _ := strings.Cut(strings.TrimRight(line, "\n"), ":")
		switch value = strings.TrimSpace(value); key {
		case "Flags":
			complexes = strings.Contains(value, "complex")
		case "No. Points":
			points, _ = strconv.Atoi(value)
		default:
			if f := strings.Fields(line); len(f) >= 3 && line[0] == '\t' {
				names = append(names, strings.TrimSuffix(strings.TrimPrefix(strings.ToLower(f[1]), "v("), ")"))
			}
		}
		if key == "Binary" {
			break
		}
	}
	return readPoints(t, r, names, points, complexes)
}

func readPoints(t testing.TB, r io.Reader, names []string, points int, complexes bool) map[string][]complex128 {
	out := map[string][]complex128{}
	width := 1
	if complexes {
		width = 2
	}
	row := make([]float64, width*len(names))
	for range points {
		if err := binary.Read(r, binary.LittleEndian, row); err != nil {
			t.Fatalf("raw file cut short: %v", err)
		}
		for i, n := range names {
			x := complex(row[width*i], 0)
			if complexes {
				x = complex(row[2*i], row[2*i+1])
			}
			out[n] = append(out[n], x)
		}
	}
	return out
}

// spiceRest is what ngspice may leave, of a volt, where large numbers cancel:
// up to 5e-11 was seen where the wiring makes exactly nothing.
const spiceRest = 5e-11

// off is how far a response is from ngspice's, in dB. Nothing is less than
// −180 dB on both sides.
func off(got, want complex128) float64 {
	difference := math.Hypot(real(got-want), imag(got-want)) - spiceRest
	size := math.Hypot(real(want), imag(want))
	if difference <= 0 || got == 0 && size < openBelow {
		return 0
	}
	return 20 * math.Log10(1+difference/size)
}

func number(x float64) string { return strconv.FormatFloat(x, 'g', 17, 64) }

func line(b *strings.Builder, format string, args ...any) { fmt.Fprintf(b, format+"\n", args...) }
