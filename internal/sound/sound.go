// Package sound is the small language in which wanted and heard sounds are
// written: coils joined by the words series and parallel, reversed, through a
// part's value, silent, any. It knows names, not wiring.
package sound

import (
	"slices"
	"strings"
)

// Op says what an expression is.
type Op int

// The kinds of expression. Name is a coil or a whole pickup; Through is one
// resistor or capacitor in the path, its value in Name; several in parallel
// are a Parallel of them.
const (
	Any Op = iota
	Silent
	Name
	Series
	Parallel
	Through
	Mesh // coils in a network that is not series-parallel; Kids are its leaves
)

// Words are the words that sounds are made of: none of them can be a name.
var Words = []string{"any", "silent", "series", "parallel", "reversed", "through", "mesh", "of"}

// Expr is one sound. Reversed is meaningful on Name only: in every other kind
// the sign sits on the leaves, so that two equal sounds are equal values.
type Expr struct {
	Op       Op     `json:"op"`
	Name     string `json:"name,omitempty"`
	Reversed bool   `json:"reversed,omitempty"`
	Unsure   bool   `json:"unsure,omitempty"` // sign cannot be told
	Kids     []Expr `json:"kids,omitempty"`
}

// MarshalText writes the kind as a word.
func (o Op) MarshalText() ([]byte, error) { return []byte(opWords[o]), nil }

// UnmarshalText reads the kind's word.
func (o *Op) UnmarshalText(b []byte) error {
	*o = Op(max(0, slices.Index(opWords[:], string(b))))
	return nil
}

var opWords = [...]string{"any", "silent", "coil", "series", "parallel", "through", "mesh"}

// Coil is the sound of one coil or pickup.
func Coil(name string, reversed bool) Expr { return Expr{Op: Name, Name: name, Reversed: reversed} }

// In joins sounds by an operation, flattening a kid of the same kind.
func In(op Op, kids ...Expr) Expr {
	out := Expr{Op: op}
	for _, k := range kids {
		if k.Op == op && op != Through {
			out.Kids = append(out.Kids, k.Kids...)
			continue
		}
		out.Kids = append(out.Kids, k)
	}
	if len(out.Kids) == 1 {
		return out.Kids[0]
	}
	return out
}

// Reverse turns every coil of a sound round.
func (e Expr) Reverse() Expr {
	out := e
	if e.Op == Name {
		out.Reversed = !e.Reversed
	}
	out.Kids = nil
	for _, k := range e.Kids {
		out.Kids = append(out.Kids, k.Reverse())
	}
	return out
}

// Canon sorts what order does not change, so that equal sounds are equal text.
func (e Expr) Canon() Expr {
	out := e
	out.Kids = nil
	for _, k := range e.Kids {
		out.Kids = append(out.Kids, k.Canon())
	}
	if e.Op == Series || e.Op == Parallel || e.Op == Mesh {
		sortKids(out.Kids)
	}
	return out
}

func sortKids(kids []Expr) {
	type keyed struct {
		key string
		kid Expr
	}
	by := make([]keyed, len(kids))
	for i, k := range kids {
		by[i] = keyed{k.sortKey(), k}
	}
	slices.SortStableFunc(by, func(a, b keyed) int { return strings.Compare(a.key, b.key) })
	for i := range by {
		kids[i] = by[i].kid
	}
}

// sortKey puts coils first, by name, then groups, then parts in the path.
func (e Expr) sortKey() string {
	rank := "1"
	switch {
	case e.Op == Name:
		rank = "0"
	case e.passive():
		rank = "2"
	}
	return rank + e.Unsigned().String()
}

// passive reports whether a sound is only parts in the path, without a coil.
func (e Expr) passive() bool {
	if len(e.Kids) == 0 {
		return e.Op == Through
	}
	return !slices.ContainsFunc(e.Kids, func(k Expr) bool { return !k.passive() })
}

// Unsigned returns the sound with every coil the right way round.
func (e Expr) Unsigned() Expr {
	out := e
	out.Reversed, out.Unsure, out.Kids = false, false, nil
	for _, k := range e.Kids {
		out.Kids = append(out.Kids, k.Unsigned())
	}
	return out
}

// Leaves returns the coil leaves in order.
func (e Expr) Leaves() []Expr {
	if e.Op == Name {
		return []Expr{e}
	}
	var out []Expr
	for _, k := range e.Kids {
		out = append(out, k.Leaves()...)
	}
	return out
}

// Map replaces every Name leaf by f's answer (a pickup by its coils, say). A
// reversed leaf reverses what replaces it.
func (e Expr) Map(f func(name string) Expr) Expr {
	if e.Op == Name {
		r := f(e.Name)
		if e.Reversed {
			r = r.Reverse()
		}
		return r
	}
	if len(e.Kids) == 0 {
		return e
	}
	kids := make([]Expr, len(e.Kids))
	for i, k := range e.Kids {
		kids[i] = k.Map(f)
	}
	return In(e.Op, kids...)
}

// String writes the sound in words, as Parse reads it.
func (e Expr) String() string {
	switch e.Op {
	case Any:
		return "any"
	case Silent:
		return "silent"
	case Name:
		return e.leafString()
	case Mesh:
		return "mesh of " + e.joined(", ", Expr.bracketed)
	}
	switch {
	case e.passive():
		return "through " + e.passiveString()
	case e.Op == Series:
		return e.seriesString()
	}
	return e.joined(" parallel ", Expr.bracketed)
}

func (e Expr) leafString() string {
	switch {
	case e.Unsure:
		return e.Name + " (phase unknown)"
	case e.Reversed:
		return "reversed " + e.Name
	}
	return e.Name
}

// seriesString puts "through 4.7k" after what it is in series with.
func (e Expr) seriesString() string {
	var b strings.Builder
	var parts []Expr
	for _, k := range e.Kids {
		if k.passive() {
			parts = append(parts, k)
			continue
		}
		if b.Len() > 0 {
			b.WriteString(" series ")
		}
		b.WriteString(k.bracketed())
	}
	for _, p := range parts {
		b.WriteString(" " + p.String())
	}
	return b.String()
}

// passiveString writes parts in the path: 4.7k, or (1n parallel 150k).
func (e Expr) passiveString() string {
	switch e.Op {
	case Through:
		return e.Name
	case Series:
		return "(" + e.joined(" series ", Expr.passiveString) + ")"
	}
	return "(" + e.joined(" parallel ", Expr.passiveString) + ")"
}

func (e Expr) joined(word string, write func(Expr) string) string {
	texts := make([]string, len(e.Kids))
	for i, k := range e.Kids {
		texts[i] = write(k)
	}
	return strings.Join(texts, word)
}

func (e Expr) bracketed() string {
	if e.Op == Series || e.Op == Parallel || e.Op == Mesh {
		return "(" + e.String() + ")"
	}
	return e.String()
}

// Equal reports whether two sounds are the same up to order.
func Equal(a, b Expr) bool { return a.Canon().String() == b.Canon().String() }
