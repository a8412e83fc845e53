package sat

// scoreHeap is a binary heap of variables by falling activity (EVSIDS: Eén and
// Sörensson, "An extensible SAT-solver", 2003). Equal scores go by number, so
// that the order is total.
type scoreHeap struct {
	heap  []int32   // variables
	place []int32   // variable → index in heap, -1 when absent
	score []float64 // variable → activity
	bump  float64   // what a use adds now
}

const (
	scoreDecay = 0.95
	scoreLimit = 1e150
)

func (h *scoreHeap) grow(v int32, score float64) {
	h.place = append(h.place, -1)
	h.score = append(h.score, score)
	h.push(v)
}

func (h *scoreHeap) before(a, b int32) bool {
	return h.score[a] > h.score[b] || h.score[a] == h.score[b] && a < b
}

func (h *scoreHeap) push(v int32) {
	if h.place[v] >= 0 {
		return
	}
	h.place[v] = int32(len(h.heap))
	h.heap = append(h.heap, v)
	h.up(h.place[v])
}

func (h *scoreHeap) pop() {
	last := len(h.heap) - 1
	h.place[h.heap[0]] = -1
	v := h.heap[last]
	h.heap = h.heap[:last]
	if last > 0 {
		h.heap[0], h.place[v] = v, 0
		h.down(0)
	}
}

func (h *scoreHeap) up(i int32) {
	v := h.heap[i]
	for i > 0 {
		parent := (i - 1) / 2
		if !h.before(v, h.heap[parent]) {
			break
		}
		h.set(i, h.heap[parent])
		i = parent
	}
	h.set(i, v)
}

func (h *scoreHeap) down(i int32) {
	v, n := h.heap[i], int32(len(h.heap))
	for {
		child := 2*i + 1
		if child >= n {
			break
		}
		if child+1 < n && h.before(h.heap[child+1], h.heap[child]) {
			child++
		}
		if !h.before(h.heap[child], v) {
			break
		}
		h.set(i, h.heap[child])
		i = child
	}
	h.set(i, v)
}

func (h *scoreHeap) set(i, v int32) { h.heap[i], h.place[v] = v, i }

// use raises the activity of a variable.
func (h *scoreHeap) use(v int32) {
	h.score[v] += h.bump
	if h.score[v] > scoreLimit {
		h.rescale()
	}
	if h.place[v] >= 0 {
		h.up(h.place[v])
	}
}

// decay makes later uses count more.
func (h *scoreHeap) decay() { h.bump /= scoreDecay }

// rescale keeps the order: all scores shrink by one factor. Those that vanish
// may tie, so the heap is built again.
func (h *scoreHeap) rescale() {
	for v := range h.score {
		h.score[v] /= scoreLimit
	}
	h.bump /= scoreLimit
	for i := int32(len(h.heap))/2 - 1; i >= 0; i-- {
		h.down(i)
	}
}
