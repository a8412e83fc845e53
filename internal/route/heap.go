package route

// heap is a binary heap of states by cost; equal costs come out in an order
// that depends on nothing but what went in.
type heap []entry

type entry struct{ cost, state int32 }

func (h heap) len() int { return len(h) }

func (h *heap) push(cost, state int32) {
	*h = append(*h, entry{cost, state})
	a, i := *h, len(*h)-1
	for i > 0 {
		up := (i - 1) / 4
		if a[up].cost <= cost {
			break
		}
		a[i], i = a[up], up
	}
	a[i] = entry{cost, state}
}

func (h *heap) pop() (cost, state int32) {
	a := *h
	top, last := a[0], a[len(a)-1]
	a = a[:len(a)-1]
	*h = a
	for i := 0; len(a) > 0; {
		least := i*4 + 1
		if least >= len(a) {
			a[i] = last
			break
		}
		for k := least + 1; k < len(a) && k <= i*4+4; k++ {
			if a[k].cost < a[least].cost {
				least = k
			}
		}
		if a[least].cost >= last.cost {
			a[i] = last
			break
		}
		a[i], i = a[least], least
	}
	return top.cost, top.state
}
