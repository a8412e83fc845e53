package png

import (
	"testing"

	"loomwright/internal/scene/scenetest"
)

func BenchmarkImage2000At200DPI(b *testing.B) {
	s := scenetest.Big(2000)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Image(s, Options{DPI: 200}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkPaint2000At200DPI(b *testing.B) {
	s := scenetest.Big(2000)
	for b.Loop() {
		if _, err := Paint(s, Options{DPI: 200}); err != nil {
			b.Fatal(err)
		}
	}
}
