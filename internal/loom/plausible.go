package loom

import (
	"fmt"

	"loomwright/internal/diag"
	"loomwright/internal/source"
	"loomwright/internal/units"
)

// usual are the ranges that values of guitar parts lie in (from memory, wide):
// what lies outside is asked about, not refused.
var usual = []struct {
	what   string
	lo, hi float64
	print  func(float64) string
}{
	{"a pickup's ohms", 500, 40e3, units.FormatOhms},
	{"a pickup's inductance", 0.05, 30, units.FormatHenries},
	{"a pot's track", 10e3, 2e6, units.FormatOhms},
	{"a capacitor in a guitar", 10e-12, 1e-6, units.FormatFarads},
}

// The rows of usual.
const (
	pickupOhms = iota
	pickupHenries
	potTrack
	guitarCapacitor
	noKind = -1
)

// plausible warns of a value that no such part has; a missing k or M is the
// likeliest slip.
func (r *resolver) plausible(kind int, s source.String, x float64) {
	if kind == noKind {
		return
	}
	u := usual[kind]
	if x == 0 || x >= u.lo && x <= u.hi {
		return
	}
	d := diag.Diagnostic{Code: "value-unlikely", Severity: diag.Warning, Span: s.Span,
		Message: fmt.Sprintf("%s is %s here, and %s lies between %s and %s", s.Value, u.print(x), u.what, u.print(u.lo), u.print(u.hi))}
	for _, k := range []float64{1e3, 1e6, 1e-3, 1e-6} {
		if x*k >= u.lo && x*k <= u.hi {
			d.Hint = u.print(x * k)
			break
		}
	}
	r.list.Add(d)
}
