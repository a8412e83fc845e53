package svg

import (
	"testing"

	"loomwright/internal/scene/scenetest"
)

func BenchmarkPaint2000(b *testing.B) {
	s := scenetest.Big(2000)
	b.ReportAllocs()
	for b.Loop() {
		out, err := Paint(s, Options{Inline: true})
		if err != nil {
			b.Fatal(err)
		}
		b.SetBytes(int64(len(out)))
	}
}
