package server_test

import (
	"testing"
)

const loomName = "two-twin-coils-phase.yaml"

func sizes(t *testing.T, try func(t *testing.T, size [2]int64)) {
	for name, size := range map[string][2]int64{"phone": phone, "desktop": desktop} {
		t.Run(name, func(t *testing.T) { try(t, size) })
	}
}

// TestLook opens an example and keeps pictures of every sheet.
func TestLook(t *testing.T) {
	needPage(t)
	sizes(t, func(t *testing.T, size [2]int64) {
		address, folder := serve(t, loomName)
		v := call(t, size, address, folder, "")
		v.until(`document.querySelector(".cards button")`)
		v.shot("open")
		v.axe("open")
		v.press(loomName)
		v.proved()
		v.shot("bench")
		v.axe("bench")
		v.quiet()
	})
}
