package units

import (
	"math"
	"strconv"
	"strings"
)

// leadingNumber splits an unsigned decimal number (12, 4.7, .022, 10.) off the
// front of s. It is "" when s starts with none.
func leadingNumber(s string) (number, rest string) {
	end, digits, points := 0, 0, 0
	for end < len(s) {
		switch c := s[end]; {
		case isDigit(c):
			digits++
		case c == '.' && points == 0 && !strings.HasPrefix(s[end:], ".."):
			points++
		default:
			return cutNumber(s, end, digits)
		}
		end++
	}
	return cutNumber(s, end, digits)
}

func cutNumber(s string, end, digits int) (number, rest string) {
	if digits == 0 {
		return "", s
	}
	return s[:end], s[end:]
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

func allDigits(s string) bool {
	return s != "" && strings.Trim(s, "0123456789") == ""
}

// scaled is number·10^exp, rounded once, so that 7.85k is exactly 7850. It
// reports false for a number out of range.
func scaled(number string, exp int) (float64, bool) {
	x, err := strconv.ParseFloat(number+"e"+strconv.Itoa(exp), 64)
	return x, err == nil && !math.IsInf(x, 0)
}

// printScaled is x·10^-exp in plain decimals: the shortest that scaled reads
// back as x.
func printScaled(x float64, exp int) string {
	mantissa, power, _ := strings.Cut(strconv.FormatFloat(x, 'e', -1, 64), "e")
	digits := strings.Replace(mantissa, ".", "", 1)
	p, _ := strconv.Atoi(power)
	point := 1 + p - exp // digits before the point
	switch {
	case point <= 0:
		return "0." + strings.Repeat("0", -point) + digits
	case point >= len(digits):
		return digits + strings.Repeat("0", point-len(digits))
	}
	return digits[:point] + "." + digits[point:]
}

// Round rounds to a number of significant digits, for print.
func Round(x float64, digits int) float64 {
	r, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'g', digits, 64), 64)
	return r
}
