package diagnosis_test

import (
	"testing"

	"loomwright/internal/diagnosis"
	"loomwright/internal/meter"
)

// The first advice on the larger bench, when nothing is known: the slowest.
func BenchmarkFirstAdvice(b *testing.B) {
	table := tableOf(b, twoTwins, meter.Options{})
	for b.Loop() {
		if diagnosis.NewBelief(table).Next() < 0 {
			b.Fatal("nothing to ask")
		}
	}
}

// Judge with four readings taken, as a face calls it.
func BenchmarkJudge(b *testing.B) {
	table := tableOf(b, twoTwins, meter.Options{})
	f, _ := faultCalled(b, table, "open joint of neck.pink at neck-volume.pull.a")
	s, _ := played(b, table, newBench(table.Graph, 3, f))
	s.Answers = s.Answers[:min(4, len(s.Answers))]
	for b.Loop() {
		judged(b, table, s)
	}
}
