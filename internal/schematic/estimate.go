package schematic

import "slices"

// span is an estimated straight wire between two pins of a net.
type span struct {
	net  int
	a, b gp
}

// Prices of the estimate in grid units.
const (
	priceBend    = 1.5
	priceFacing  = 5.0 // the wire leaves a pin backward
	priceAside   = 1.0 // the wire leaves a pin at a right angle
	priceCross   = 8.0
	priceTall    = 0.15 // per row of the whole diagram
	priceApart   = 12.0
	priceTurned  = 12.0
	priceThrough = 6.0 // the straight line runs through a symbol
)

// cost estimates how hard a placement is to read: the length of a shortest tree
// per net, bends, pins that face away, crossings of the straight lines.
func (l *layout) cost() float64 {
	spans, cost := l.spans()
	for i, s := range spans {
		for _, t := range spans[:i] {
			if s.net != t.net && crosses(s, t) {
				cost += priceCross
			}
		}
	}
	lo, hi := l.bounds()
	return cost + priceTall*float64(hi.y-lo.y) + l.through(spans) + l.apart() + l.upsideDown()
}

// upsideDown prices coils whose end toward hot is not on top.
func (l *layout) upsideDown() float64 {
	cost := 0.0
	for _, s := range l.columns[0] {
		if l.far[s.pins[0].net] > l.far[s.pins[1].net] {
			cost += priceTurned
		}
	}
	return cost
}

// apart prices coils of one pickup that stand apart from one another.
func (l *layout) apart() float64 {
	cost := 0.0
	for i, s := range l.columns[0] {
		if i > 0 && s.use != l.columns[0][i-1].use {
			for _, o := range l.columns[0][:i] {
				if o.use == s.use {
					cost += priceApart
				}
			}
		}
	}
	return cost
}

// port is a pin as the estimate sees it.
type port struct{ at, out gp }

// spans builds each net's tree by Prim's rule.
func (l *layout) spans() ([]span, float64) {
	var out []span
	total := 0.0
	ports := l.ports()
	for net, all := range ports {
		if net == l.ground || len(all) < 2 {
			continue
		}
		joined := []port{all[0]}
		rest := slices.Clone(all[1:])
		for len(rest) > 0 {
			from, to, price := nearest(joined, rest)
			total += price
			out = append(out, span{net, joined[from].at, rest[to].at})
			joined = append(joined, rest[to])
			rest = slices.Delete(rest, to, to+1)
		}
	}
	return out, total
}

// ports lists the pins of every net.
func (l *layout) ports() [][]port {
	out := make([][]port, l.nets.Count)
	for _, s := range l.symbols {
		for i, p := range s.pins {
			out[p.net] = append(out[p.net], port{s.at(i), s.out(i)})
		}
	}
	return out
}

func nearest(joined, rest []port) (from, to int, price float64) {
	price = 1e18
	for i, a := range joined {
		for k, b := range rest {
			if p := wirePrice(a, b); p < price {
				from, to, price = i, k, p
			}
		}
	}
	return from, to, price
}

func wirePrice(a, b port) float64 {
	d := gp{b.at.x - a.at.x, b.at.y - a.at.y}
	price := float64(abs(d.x) + abs(d.y))
	if d.x != 0 && d.y != 0 {
		price += priceBend
	}
	return price + facing(a.out, d) + facing(b.out, gp{-d.x, -d.y})
}

// facing prices how a pin looks at where its wire goes.
func facing(out, d gp) float64 {
	switch along := out.x*d.x + out.y*d.y; {
	case along > 0:
		return 0
	case along == 0:
		return priceAside
	}
	return priceFacing
}

func abs(v int) int { return max(v, -v) }

// crosses reports whether two straight lines cross inside both.
func crosses(s, t span) bool {
	return turn(s.a, s.b, t.a)*turn(s.a, s.b, t.b) < 0 && turn(t.a, t.b, s.a)*turn(t.a, t.b, s.b) < 0
}

func turn(a, b, c gp) int {
	v := (b.x-a.x)*(c.y-a.y) - (b.y-a.y)*(c.x-a.x)
	return min(max(v, -1), 1)
}

// through prices lines that run through symbols which they do not end at.
func (l *layout) through(spans []span) float64 {
	cost := 0.0
	for _, s := range l.symbols {
		lo, hi := s.box()
		for _, sp := range spans {
			if inside(sp.a, lo, hi) || inside(sp.b, lo, hi) {
				continue
			}
			one, two := span{a: lo, b: hi}, span{a: gp{lo.x, hi.y}, b: gp{hi.x, lo.y}}
			if crosses(sp, one) || crosses(sp, two) {
				cost += priceThrough
			}
		}
	}
	return cost
}

func inside(p, lo, hi gp) bool { return p.x >= lo.x && p.x <= hi.x && p.y >= lo.y && p.y <= hi.y }
