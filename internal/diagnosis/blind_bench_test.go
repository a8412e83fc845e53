//go:build blind

package diagnosis_test

import (
	"os"
	"strconv"
	"strings"
	"testing"

	"loomwright/internal/fault"
	"loomwright/internal/meter"
)

// TestBlindBench is a bench with a hidden fault to take readings on, for someone
// who knows only the questions of the tool:
//
//	BLIND_LOOM=two-twins BLIND_FAULT=3 BLIND_READ='ohms jack.tip to jack.sleeve; toggle neck' \
//	    go test -tags blind ./internal/diagnosis -run TestBlindBench -v
//
// BLIND_READ is the key of a reading, as every question carries it; several are
// parted by "|". BLIND_TELL=yes tells the fault, for the end.
func TestBlindBench(t *testing.T) {
	number, err := strconv.ParseUint(os.Getenv("BLIND_FAULT"), 10, 64)
	if err != nil {
		t.Fatal("BLIND_FAULT is the number of a hidden fault")
	}
	name := os.Getenv("BLIND_LOOM")
	if name == "" {
		name = oneTwin
	}
	table, list := meter.NewTableOf(graphOf(t, name), meter.Options{}, fault.List(graphOf(t, name)), nil)
	if table == nil {
		t.Fatal(list)
	}
	f, b := hidden(table, number)
	for _, key := range strings.Split(os.Getenv("BLIND_READ"), "|") {
		if key = strings.TrimSpace(key); key == "" {
			continue
		}
		a, err := meter.Parse(table.Graph, key)
		if err != nil {
			t.Fatal(err)
		}
		t.Logf("%s: %s", key, b.take(a))
	}
	if os.Getenv("BLIND_TELL") == "yes" {
		t.Logf("the fault: %s", f.Words)
	}
}
