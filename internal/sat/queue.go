package sat

// useQueue lists the variables by their last use (VMTF: Biere and Fröhlich,
// "Evaluating CDCL variable scoring schemes", 2015).
type useQueue struct {
	prev, next []int32 // -1 at the ends
	stamp      []int64 // variable → time of its last use
	first      int32
	last       int32
	search     int32 // every variable after it is assigned
	clock      int64
}

func (q *useQueue) grow(v int32) {
	q.prev = append(q.prev, -1)
	q.next = append(q.next, -1)
	q.stamp = append(q.stamp, 0)
	q.append(v)
	q.search = v
}

func (q *useQueue) append(v int32) {
	q.prev[v], q.next[v] = q.last, -1
	if q.last >= 0 {
		q.next[q.last] = v
	} else {
		q.first = v
	}
	q.last = v
	q.clock++
	q.stamp[v] = q.clock
}

func (q *useQueue) remove(v int32) {
	p, n := q.prev[v], q.next[v]
	if p >= 0 {
		q.next[p] = n
	} else {
		q.first = n
	}
	if n >= 0 {
		q.prev[n] = p
	} else {
		q.last = p
	}
}

// use moves an assigned variable to the end, where the search for a decision
// starts.
func (q *useQueue) use(v int32) {
	if q.next[v] < 0 {
		return
	}
	if q.search == v {
		q.search = q.prev[v]
		if q.search < 0 {
			q.search = q.next[v]
		}
	}
	q.remove(v)
	q.append(v)
}

// unassigned tells the queue that a variable is open again.
func (q *useQueue) unassigned(v int32) {
	if q.stamp[v] > q.stamp[q.search] {
		q.search = v
	}
}
