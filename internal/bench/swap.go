package bench

import (
	"loomwright/internal/diag"
	"loomwright/internal/swap"
)

// Swap gives the parts of a loom other leads, bodies or values, and proves it
// again.
func (b *Bench) Swap(name, data string, r swap.Request) swap.Result {
	return swap.Do(diag.NewText(name, data), b.Library, r)
}

// SwapTable reads a table of customers' parts.
func SwapTable(name, data string) ([]swap.Row, diag.List) {
	return swap.ReadTable(diag.NewText(name, data))
}

// SwapRow makes the loom of one customer.
func (b *Bench) SwapRow(name, data string, r swap.Row) swap.Result {
	return r.Do(diag.NewText(name, data), b.Library)
}
