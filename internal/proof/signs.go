package proof

import (
	"math"

	"loomwright/internal/sound"
)

// phase tells whether the strings' signals of the heard coils add. One coil
// has no phase to speak of; an unknown sign of any of several leaves it open.
func phase(heard sound.Expr) Verdict {
	plus, minus, unknown := 0, 0, 0
	for _, leaf := range heard.Leaves() {
		switch {
		case leaf.Unsure:
			unknown++
		case leaf.Reversed:
			minus++
		default:
			plus++
		}
	}
	switch total := plus + minus + unknown; {
	case total == 0:
		return Nothing
	case total == 1:
		return OneCoil
	case plus > 0 && minus > 0:
		return OutOfPhase
	case unknown > 0:
		return CannotTell
	}
	return InPhase
}

// hum tells what a uniform field does in the heard coils: it adds with the sign
// of winding and lead order, whatever the magnets. Coils are taken as alike; an
// unknown winding leaves open what depends on it.
func (n *network) hum() Verdict {
	if n.output() != Sounding {
		return Nothing
	}
	gains, ok := n.gains()
	if !ok {
		return CannotTell
	}
	var known, whole float64
	var unknown []float64
	for c, gain := range gains {
		whole += math.Abs(gain)
		if w := n.g.Coils[c].Winding; w != 0 {
			known += float64(w) * gain
		} else if gain != 0 {
			unknown = append(unknown, gain)
		}
	}
	switch {
	case len(unknown) == 0:
		return humVerdict(known / whole)
	case len(unknown) > 10:
		return CannotTell
	}
	return humOverSigns(known, whole, unknown)
}

// humOverSigns tries every winding of the unknown coils.
func humOverSigns(known, whole float64, unknown []float64) Verdict {
	first := Nothing
	for mask := range 1 << len(unknown) {
		sum := known
		for i, gain := range unknown {
			if mask>>i&1 == 1 {
				gain = -gain
			}
			sum += gain
		}
		v := humVerdict(sum / whole)
		if first == Nothing {
			first = v
		}
		if v != first {
			return CannotTell
		}
	}
	return first
}

func humVerdict(share float64) Verdict {
	switch share = math.Abs(share); {
	case share < 1e-9:
		return Cancels
	case share > 1-1e-9:
		return Adds
	}
	return Partly
}
