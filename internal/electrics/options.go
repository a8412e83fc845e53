// Package electrics computes numbers from a loom's graph: the resistance
// between any two terminals in any setting, as a guaranteed interval and as a
// meter shows it; what reaches the jack from each coil at each frequency; and
// from that level, brightness, resonance, hum and noise. All values are SI
// units; levels are dB. No result is ever NaN or infinite.
package electrics

// Options are what a loom file does not say. The zero value is usual.
type Options struct {
	Points  int     // of a curve, spread evenly over log frequency; 0: 400
	From    float64 // Hz, first point of a curve; 0: 20
	To      float64 // Hz, last point of a curve; 0: 20 000
	Room    Room    // zero: 20 °C, from 15 to 30 °C
	NoEddy  bool    // leave the loss branch of the coils out
	Pluck   float64 // m from the bridge, where strings are plucked; 0: 0.1
	Mains   float64 // Hz; 0: 50
	Noise   bool    // work out thermal noise too
	Samples int     // draws behind a band; 0: 64
	Seed    uint64  // of the draws
	Extra   []Extra // elements that the loom does not have: a fault, a bad joint
}

// Room is the temperature of the copper in °C: what is likely and its bounds.
type Room struct{ Typical, Lo, Hi float64 }

// Extra is an element between two terminals of the graph that the loom does not
// have. A zero Lo and Hi are the same as Typical.
type Extra struct {
	Name   string
	A, B   int
	Ohms   Bounds // zero: none
	Farads float64
}

// Bounds is a value between bounds.
type Bounds struct{ Typical, Lo, Hi float64 }

// Bounds of what can be asked for.
const (
	maxPoints  = 20000
	maxSamples = 10000
)

// with fills in what is usual, also in place of what cannot be.
func (o Options) with() Options {
	o.Points = min(max(usual(o.Points, 400), 2), maxPoints)
	o.From, o.To = usual(o.From, 20), usual(o.To, 20e3)
	if !(o.From > 1e-6 && o.To > o.From && o.To < 1e9) {
		o.From, o.To = 20, 20e3
	}
	o.Room = usual(o.Room, Room{20, 15, 30})
	o.Pluck, o.Mains = usual(o.Pluck, 0.1), usual(o.Mains, 50)
	if !(o.Mains >= 10 && o.Mains <= mainsTop) {
		o.Mains = 50
	}
	o.Samples = min(max(usual(o.Samples, 64), 1), maxSamples)
	return o
}

func usual[T comparable](given, otherwise T) T {
	var none T
	if given == none {
		return otherwise
	}
	return given
}
