package bench

import (
	"slices"
	"strings"

	"loomwright/internal/diag"
	"loomwright/internal/drawing"
	"loomwright/internal/electrics"
	"loomwright/internal/loom"
	"loomwright/internal/meter"
	"loomwright/internal/part"
	"loomwright/internal/place"
	"loomwright/internal/proof"
	"loomwright/internal/source"
	"loomwright/internal/swap"
	"loomwright/internal/synthesis"
	"loomwright/internal/wiring"
)

// Codes lists the record of every diagnostic code, sorted: help, man page and
// documentation are made from it.
func Codes() []diag.Code {
	out := slices.Concat(source.Codes(), place.Codes, drawing.Codes, []diag.Code{unproved}, keptCodes, meter.Codes, synthesis.Codes, swap.Codes, electrics.Codes, part.Codes, loom.Codes, wiring.Codes, proof.Codes())
	slices.SortFunc(out, func(a, b diag.Code) int { return strings.Compare(a.Code, b.Code) })
	return out
}

// Quiet reports whether a code is left out unless everything is asked for.
func Quiet(code string) bool { return proof.Quiet[code] }
