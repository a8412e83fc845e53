package source

import (
	"math"
	"reflect"
	"strconv"
	"strings"
)

// scalar fills a string, bool, int or float64.
func (d decoder) scalar(n *node, v reflect.Value, enum []string) {
	if !d.wants(n, Scalar) {
		return
	}
	switch v.Kind() {
	case reflect.String:
		v.SetString(d.oneOf(n, enum))
	case reflect.Bool:
		x, ok := boolOf(n)
		if v.SetBool(x); !ok {
			d.fail("bad-value", d.span(n), quoted(n.value)+" is neither yes nor no", "")
		}
	case reflect.Int, reflect.Int64:
		x, ok := numberOf(n)
		if whole := math.Trunc(x); !ok || whole != x || math.Abs(x) > 1<<53 {
			d.fail("bad-value", d.span(n), quoted(n.value)+" is no whole number", "")
			return
		}
		v.SetInt(int64(x))
	case reflect.Float64:
		x, ok := numberOf(n)
		if v.SetFloat(x); !ok {
			d.fail("bad-value", d.span(n), quoted(n.value)+" is no number", "")
		}
	default:
		ShapeOf(v.Type()) // panics: a type that nothing is decoded into
	}
}

// boolOf reads yes and no, and unquoted true and false (YAML 1.2 core schema).
func boolOf(n *node) (value, ok bool) {
	switch n.value {
	case "yes":
		return true, true
	case "no":
		return false, true
	case "true", "True", "TRUE":
		return true, n.style == plain
	case "false", "False", "FALSE":
		return false, n.style == plain
	}
	return false, false
}

// numberOf reads an unquoted number (YAML 1.2 core schema, without .inf and
// .nan).
func numberOf(n *node) (float64, bool) {
	if n.style != plain {
		return 0, false
	}
	return number(n.value)
}

func number(s string) (float64, bool) {
	if strings.HasPrefix(s, "0x") || strings.HasPrefix(s, "0o") {
		x, err := strconv.ParseUint(s, 0, 53)
		return float64(x), err == nil && !strings.Contains(s, "_")
	}
	digits := strings.TrimLeft(s, "+-")
	if len(s)-len(digits) > 1 || digits == "" || digits[0] != '.' && (digits[0] < '0' || digits[0] > '9') ||
		strings.Trim(digits, "0123456789.eE+-") != "" {
		return 0, false
	}
	x, err := strconv.ParseFloat(s, 64)
	return x, err == nil && !math.IsInf(x, 0)
}

// sameNumber reports whether two texts are the same number.
func sameNumber(a, b string) bool {
	x, ok := number(a)
	y, ok2 := number(b)
	return ok && ok2 && x == y
}
