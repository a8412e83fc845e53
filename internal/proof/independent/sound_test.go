package independent_test

import (
	"strings"
)

// expr is a printed sound, read back.
type expr struct {
	op   string // coil, through, series, parallel, mesh, silent
	name string
	sign int // of a coil: +1, -1; 0 when the text says that nobody knows
	kids []expr
}

// words is a printed sound cut up, with a place in it.
type words struct {
	w  []string
	at int
}

func (s *words) peek() string {
	if s.at < len(s.w) {
		return s.w[s.at]
	}
	return ""
}

func (s *words) take() string {
	t := s.peek()
	s.at++
	return t
}

// parseSound reads a sound as proof prints it; it panics on anything else.
func parseSound(text string) expr {
	text = strings.ReplaceAll(text, " (phase unknown)", "?")
	text = strings.NewReplacer("(", " ( ", ")", " ) ", ",", " , ").Replace(text)
	s := &words{w: strings.Fields(text)}
	if s.peek() == "silent" {
		return expr{op: "silent"}
	}
	e := s.chain()
	if s.at != len(s.w) {
		panic("cannot read the sound " + text)
	}
	return e
}

func (s *words) chain() expr {
	e := s.term()
	kids, op := []expr{e}, ""
	for s.peek() == "series" || s.peek() == "parallel" {
		if op != "" && s.peek() != op {
			panic("mixed " + strings.Join(s.w, " "))
		}
		op = s.take()
		kids = append(kids, s.term())
	}
	if op == "" {
		return e
	}
	return expr{op: op, kids: kids}
}

func (s *words) term() expr {
	e := s.atom()
	for s.peek() == "through" {
		s.take()
		e = expr{op: "series", kids: []expr{e, s.passive()}}
	}
	return e
}

// passive reads a value, or values in brackets.
func (s *words) passive() expr {
	if s.peek() != "(" {
		return expr{op: "through", name: s.take()}
	}
	s.take()
	kids, op := []expr{s.passive()}, ""
	for s.peek() != ")" {
		op = s.take()
		kids = append(kids, s.passive())
	}
	s.take()
	return expr{op: op, kids: kids}
}

func (s *words) atom() expr {
	switch t := s.take(); t {
	case "(":
		e := s.chain()
		if s.take() != ")" {
			panic("a bracket is open in " + strings.Join(s.w, " "))
		}
		return e
	case "reversed":
		return s.atom().reversed()
	case "mesh":
		s.take() // of
		e := expr{op: "mesh", kids: []expr{s.atom()}}
		for s.peek() == "," {
			s.take()
			e.kids = append(e.kids, s.atom())
		}
		return e
	case "", ")", "series", "parallel", "through":
		panic("no coil in " + strings.Join(s.w, " "))
	default:
		if name, unsure := strings.CutSuffix(t, "?"); unsure {
			return expr{op: "coil", name: name}
		}
		return expr{op: "coil", name: t, sign: 1}
	}
}

func (e expr) reversed() expr {
	out := e
	out.sign, out.kids = -e.sign, nil
	for _, k := range e.kids {
		out.kids = append(out.kids, k.reversed())
	}
	return out
}

// leaves lists the coils.
func (e expr) leaves() []expr {
	if e.op == "coil" {
		return []expr{e}
	}
	var out []expr
	for _, k := range e.kids {
		out = append(out, k.leaves()...)
	}
	return out
}

// values lists the values of the parts in the way.
func (e expr) values() []string {
	if e.op == "through" {
		return []string{e.name}
	}
	var out []string
	for _, k := range e.kids {
		out = append(out, k.values()...)
	}
	return out
}

// electric gives a sound its driving-point impedance and each coil's share at
// the output, from impedances by name.
func (e expr) electric(z func(e expr) complex128) (complex128, map[string]complex128) {
	switch e.op {
	case "coil":
		share := complex(float64(e.sign), 0)
		if e.sign == 0 {
			share = 1 // the caller compares sizes
		}
		return z(e), map[string]complex128{e.name: share}
	case "through":
		return z(e), nil
	}
	var zs []complex128
	var sum, y complex128
	share := map[string]complex128{}
	for _, k := range e.kids {
		zk, _ := k.electric(z)
		zs = append(zs, zk)
		sum += zk
		y += 1 / zk
	}
	for i, k := range e.kids {
		_, sk := k.electric(z)
		for name, s := range sk {
			if e.op == "parallel" {
				s *= 1 / (y * zs[i])
			}
			share[name] = s
		}
	}
	if e.op == "parallel" {
		return 1 / y, share
	}
	return sum, share
}
