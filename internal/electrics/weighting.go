package electrics

import "math"

// aWeight is the amplitude factor of A-weighting at f Hz (IEC 61672-1, Annex E:
// the four poles and the offset that makes it 0 dB at 1 kHz).
func aWeight(f float64) float64 {
	const p1, p2, p3, p4 = 20.598997, 107.65265, 737.86223, 12194.217
	const offset = 1.2588761334495793 // 1.99966 dB
	f2 := f * f
	return offset * p4 * p4 * f2 * f2 /
		((f2 + p1*p1) * math.Sqrt((f2+p2*p2)*(f2+p3*p3)) * (f2 + p4*p4))
}

// floorDB is the level that stands for silence: no figure goes lower.
const floorDB = -200

// db is a ratio of amplitudes in dB, no less than floorDB.
func db(ratio float64) float64 { return max(floorDB, 20*math.Log10(ratio)) }

// powerDB is a ratio of powers in dB, no less than floorDB.
func powerDB(ratio float64) float64 { return max(floorDB, 10*math.Log10(ratio)) }
