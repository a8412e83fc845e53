//go:build soak

package synthesis

// The same tests, longer: go test -tags soak -timeout 60m ./internal/synthesis/
func init() {
	looms, exhaustiveLooms, oracleInstances, refutedBenches, anyLooms, besideLooms, kindSeeds = 6000, 400, 3000, 9, 10000, 600, 60
}
