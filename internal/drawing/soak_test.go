//go:build soak

package drawing

import "testing"

// TestManyRandomLooms is the long form of TestRandomLooms.
func TestManyRandomLooms(t *testing.T) { lintRandom(t, 200, 0.3) }
