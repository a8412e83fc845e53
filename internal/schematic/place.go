package schematic

import (
	"cmp"
	"slices"
)

// layout is where the symbols of a diagram stand.
type layout struct {
	*netlist
	columns [][]*symbol // from the left, each from the top
	clear   int         // least number of free rows between two symbols of a column

	linked   []linkage
	unlinked []string // switches and knobs with a linkage that found no way
}

// place puts symbols into columns and looks for the order, the sides and the
// heights with the shortest wires and the fewest crossings.
func place(n *netlist, clear int) *layout {
	n.columns()
	l := &layout{netlist: n, clear: clear}
	for _, s := range n.symbols {
		for len(l.columns) <= s.column {
			l.columns = append(l.columns, nil)
		}
		l.columns[s.column] = append(l.columns[s.column], s)
	}
	for c := range l.columns {
		slices.SortStableFunc(l.columns[c], func(a, b *symbol) int { return cmp.Compare(rank(a), rank(b)) })
	}
	l.stack()
	l.across()
	l.improve()
	l.toOrigin()
	return l
}

// rank puts the path of the sound above what hangs on it.
func rank(s *symbol) int {
	switch s.kind {
	case jackSymbol:
		return 0
	case coilSymbol, poleSymbol:
		return 1
	case potSymbol:
		return 2
	}
	return 3
}

// top and bottom are the rows that a symbol takes, ground marks included.
func (l *layout) top(s *symbol) int { return l.extent(s, -1) }

func (l *layout) bottom(s *symbol) int { return l.extent(s, 1) }

func (l *layout) extent(s *symbol, side int) int {
	lo, hi := s.box()
	y := lo.y
	if side > 0 {
		y = hi.y
	}
	for i, p := range s.pins {
		if p.net == l.ground && s.out(i).y == side {
			y = max(side*y, side*(s.at(i).y+2*side)) * side
		}
	}
	return y
}

// stack sets every column from the top down, each symbol as near as it can to
// the height of what it is joined to on the left.
func (l *layout) stack() {
	for c, col := range l.columns {
		free := 0
		for _, s := range col {
			s.origin.y = 0
			want := l.wanted(s, c)
			s.origin.y = max(want, free-l.top(s))
			free = l.bottom(s) + 1 + l.clear
		}
	}
}

// wanted is the height at which a symbol's pins meet those on its left.
func (l *layout) wanted(s *symbol, column int) int {
	sum, count := 0, 0
	for i, p := range s.pins {
		if p.net == l.ground {
			continue
		}
		for _, o := range l.symbols {
			if o.column >= column {
				continue
			}
			for k, q := range o.pins {
				if q.net == p.net {
					sum += o.at(k).y - s.at(i).y
					count++
				}
			}
		}
	}
	if count == 0 {
		return 0
	}
	return sum / count
}

// across sets the columns side by side, with room for the wires between them.
func (l *layout) across() {
	x := 0
	for c, col := range l.columns {
		reach := 0
		for _, s := range col {
			s.origin.x = 0
			lo, hi := s.box()
			if s.kind == poleSymbol {
				s.origin.x = -(lo.x + hi.x) / 2
				lo.x += s.origin.x
			}
			reach = max(reach, -lo.x)
		}
		axis := x + reach
		for _, s := range col {
			s.origin.x += axis
			_, hi := s.box()
			x = max(x, hi.x)
		}
		x += l.clear + l.tracks(c)
	}
}

// tracks is how many nets have pins that face the gap right of a column.
func (l *layout) tracks(c int) int {
	nets := map[int]bool{}
	for _, s := range l.symbols {
		for i, p := range s.pins {
			faces := s.column == c && s.out(i).x >= 0 || s.column == c+1 && s.out(i).x <= 0
			if faces && p.net != l.ground {
				nets[p.net] = true
			}
		}
	}
	return len(nets)
}

// improve changes sides, orders and heights as long as the estimate falls.
func (l *layout) improve() {
	best := l.cost()
	for range 6 {
		before := best
		l.trySides(&best)
		l.tryTurns(&best)
		l.tryOrders(&best)
		l.tryHeights(&best)
		if best == before {
			return
		}
	}
}

// keep reports whether a change is for the better; if so the estimate is
// lowered, else the caller undoes it.
func (l *layout) keep(best *float64) bool {
	c := l.cost()
	if c >= *best-1e-9 {
		return false
	}
	*best = c
	return true
}

func (l *layout) trySides(best *float64) {
	for _, s := range l.symbols {
		if s.kind != potSymbol && s.kind != poleSymbol {
			continue
		}
		x := l.xs()
		s.flipped = !s.flipped
		l.across()
		if !l.keep(best) {
			s.flipped = !s.flipped
			l.setXs(x)
		}
	}
}

// tryTurns stands coils and small parts on their head, unless they end on
// ground.
func (l *layout) tryTurns(best *float64) {
	for _, s := range l.symbols {
		if s.kind == potSymbol || s.kind == poleSymbol || s.kind == jackSymbol || s.touches([]int{l.ground}) {
			continue
		}
		s.turn()
		if !l.keep(best) {
			s.turn()
		}
	}
}

func (l *layout) xs() []int {
	out := make([]int, len(l.symbols))
	for i, s := range l.symbols {
		out[i] = s.origin.x
	}
	return out
}

func (l *layout) setXs(xs []int) {
	for i, s := range l.symbols {
		s.origin.x = xs[i]
	}
}

// tryOrders swaps neighbours of a column.
func (l *layout) tryOrders(best *float64) {
	for _, col := range l.columns {
		for i := 1; i < len(col); i++ {
			a, b := col[i-1], col[i]
			ay, by := a.origin.y, b.origin.y
			l.swap(col, i)
			if !l.keep(best) {
				col[i-1], col[i] = a, b
				a.origin.y, b.origin.y = ay, by
			}
		}
	}
}

// swap puts the lower of two neighbours where the upper one began, and the
// upper one where the lower one ended.
func (l *layout) swap(col []*symbol, i int) {
	a, b := col[i-1], col[i]
	top, bottom := l.top(a), l.bottom(b)
	b.origin.y += top - l.top(b)
	a.origin.y += bottom - l.bottom(a)
	col[i-1], col[i] = b, a
}

// tryHeights moves single symbols, and all of a column from one on, up and down.
func (l *layout) tryHeights(best *float64) {
	for _, col := range l.columns {
		for i := range col {
			for _, tail := range [][]*symbol{col[i : i+1], col[i:]} {
				for _, d := range []int{-8, 8, -4, 4, -2, 2, -1, 1} {
					l.shift(tail, d)
					if !l.fits(col) || !l.keep(best) {
						l.shift(tail, -d)
					}
				}
			}
		}
	}
}

func (l *layout) shift(symbols []*symbol, d int) {
	for _, s := range symbols {
		s.origin.y += d
	}
}

func (l *layout) fits(col []*symbol) bool {
	for i := 1; i < len(col); i++ {
		if l.top(col[i]) < l.bottom(col[i-1])+1+l.clear {
			return false
		}
	}
	return true
}

// room is the width of the free margin around a diagram.
const room = 4

// toOrigin moves the diagram so that it starts near 0, 0, with room for wires
// around.
func (l *layout) toOrigin() {
	lo, _ := l.bounds()
	for _, s := range l.symbols {
		s.origin = s.origin.add(gp{room - lo.x, room - lo.y})
	}
}

// bounds is the box of all symbols.
func (l *layout) bounds() (lo, hi gp) {
	for i, s := range l.symbols {
		a, b := s.box()
		a.y, b.y = l.top(s), l.bottom(s)
		if i == 0 {
			lo, hi = a, b
		}
		lo = gp{min(lo.x, a.x), min(lo.y, a.y)}
		hi = gp{max(hi.x, b.x), max(hi.y, b.y)}
	}
	return lo, hi
}
