package source

import "unicode"

// wideRanges are the characters that terminals show two columns wide (after
// Unicode Standard Annex #11; the blocks are from memory).
var wideRanges = [...][2]rune{
	{0x1100, 0x115f}, {0x2e80, 0x303e}, {0x3041, 0x4dbf}, {0x4e00, 0xa4cf}, {0xac00, 0xd7a3}, {0xf900, 0xfaff},
	{0xfe30, 0xfe6f}, {0xff01, 0xff60}, {0xffe0, 0xffe6}, {0x1f300, 0x1f64f}, {0x1f680, 0x1f6ff}, {0x1f900, 0x1f9ff}, {0x20000, 0x3fffd},
}

// runeWidth is the number of terminal columns that a character takes.
func runeWidth(r rune) int {
	switch {
	case r < 0x300:
		return 1
	case unicode.In(r, unicode.Mn, unicode.Me, unicode.Cf):
		return 0
	}
	for _, w := range wideRanges {
		if r >= w[0] && r <= w[1] {
			return 2
		}
	}
	return 1
}

// columns is the number of terminal columns that a text takes.
func columns(s string) int {
	n := 0
	for _, r := range s {
		n += runeWidth(r)
	}
	return n
}
