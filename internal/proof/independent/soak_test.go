//go:build soak

package independent_test

import "testing"

func TestManyRandomLooms(t *testing.T) {
	compareRandom(t, 1000000, 200000, 200)
}
