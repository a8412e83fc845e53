package pdf

import (
	"math"
	"strconv"
	"unicode/utf16"
)

// appendNumber adds a number with three decimals, 0.35 µm, and a space.
func appendNumber(out []byte, v float64) []byte {
	return append(strconv.AppendFloat(out, math.Round(v*1000)/1000, 'f', -1, 64), ' ')
}

// number is a number and a space.
func number(v float64) string { return string(appendNumber(nil, v)) }

// utf16Of is runes as UTF-16, high byte first.
func utf16Of(runes ...rune) []byte {
	var out []byte
	for _, u := range utf16.Encode(runes) {
		out = append(out, byte(u>>8), byte(u))
	}
	return out
}
