package proof

import (
	"slices"

	"loomwright/internal/setting"
)

// KnobAct says what a knob does in a setting.
type KnobAct struct {
	Knob  string   `json:"knob"`
	Does  string   `json:"does"`            // volume, volume of some, tone, tone backwards, volume backwards, bass cut, blend, load
	Mutes []string `json:"mutes,omitempty"` // coils that are heard at 10 and not at 0
	index int
}

// What a knob can do.
const (
	volume          = "volume"
	volumeOfSome    = "volume of"
	volumeBackwards = "volume backwards"
	tone            = "tone"
	toneBackwards   = "tone backwards"
	bassCut         = "bass cut"
	blend           = "blend"
	load            = "load"
)

// knobs lists the knobs that act in a setting: those with a part of their track
// between hot and ground when turned to the middle.
func (p *prover) knobs(s setting.Setting, up *network) []KnobAct {
	var out []KnobAct
	for k := range p.g.Knobs {
		if !up.reached(k) || !p.acts(s, k) {
			continue
		}
		act := KnobAct{Knob: p.g.Knobs[k].Name, index: k}
		p.describe(&act, s, up, k)
		out = append(out, act)
	}
	return out
}

// reached reports whether the wiper of a knob's track is where signal or ground
// is. Where it is not, no way from hot to ground passes the track in mid-turn
// either: with the wiper back at its end, that way would pass there. A no-load
// track is cut there.
func (n *network) reached(knob int) bool {
	for i := range n.g.Tracks {
		t := &n.g.Tracks[i]
		if t.Knob != knob {
			continue
		}
		wiper := n.nets.Of[t.Wiper]
		if t.NoLoad || wiper == n.hot || wiper == n.ground || n.hot == n.ground || n.touchesLive(wiper) {
			return true
		}
	}
	return false
}

func (n *network) touchesLive(net int) bool {
	for i, e := range n.elements {
		if n.live[i] && (e.a == net || e.b == net) {
			return true
		}
	}
	return false
}

// acts reports whether turning a knob in mid-turn changes a track on a path from
// hot to ground. The middle of a blend is metal, so two places are tried.
func (p *prover) acts(s setting.Setting, knob int) bool {
	for _, at := range []float64{0.4, 0.6} {
		n := p.moved(s, knob, at, 0)
		if !n.anyLive(coil) {
			continue
		}
		for i := range p.g.Tracks {
			t := &p.g.Tracks[i]
			if x := setting.Travelled(&t.Track, at); t.Knob == knob && x > 0 && x < 1 && n.turns(i) {
				return true
			}
		}
	}
	return false
}

// turns reports whether a track in mid-turn matters at the output: not if its
// wiper touches nothing else, which leaves the whole track between its ends.
func (n *network) turns(t int) bool {
	wiper, cw, ccw := n.nets.Of[n.g.Tracks[t].Wiper], n.nets.Of[n.g.Tracks[t].CW], n.nets.Of[n.g.Tracks[t].CCW]
	own, others := false, wiper == n.hot || wiper == n.ground || cw == ccw
	for i, e := range n.elements {
		switch {
		case !n.live[i]:
		case e.kind == track && e.index == t:
			own = true
		case e.a == wiper || e.b == wiper:
			others = true
		}
	}
	return own && others
}

// describe compares the setting with the knob at 0 and at 10.
func (p *prover) describe(act *KnobAct, s setting.Setting, up *network, knob int) {
	down := p.moved(s, knob, 0, 0)
	if isBlend(p.g, knob) {
		act.Does = blend
		far := p.moved(s, knob, 1, 1)
		act.Mutes = append(p.lost(up, down), p.lost(up, far)...)
		return
	}
	act.Mutes = p.lost(up, down)
	gained := p.lost(down, up)
	switch {
	case len(gained) > len(act.Mutes):
		act.Does, act.Mutes = volumeBackwards, gained
	case len(act.Mutes) > 0 && len(act.Mutes) == count(up.liveCoils()):
		act.Does = volume
	case len(act.Mutes) > 0:
		act.Does = volumeOfSome
	case darkens(up, down, knob):
		act.Does = tone
	case darkens(down, up, knob):
		act.Does = toneBackwards
	case !slices.Equal(up.thinning(), down.thinning()):
		act.Does = bassCut
	default:
		act.Does = load
	}
}

// darkens reports whether a knob lays a capacitor across the sound on its way
// from one network to another. Where the sound then goes through a track of the
// knob, the track weighs more than a capacitor anywhere but at the output.
func darkens(from, to *network, knob int) bool {
	if from.goesThrough(knob) {
		return false
	}
	had := from.engaged()
	return slices.ContainsFunc(to.engaged(), func(c int) bool {
		return !slices.Contains(had, c) && (to.acrossOutput(c) || !to.goesThrough(knob))
	})
}

// lost names the coils heard in one network and not in another.
func (p *prover) lost(from, to *network) []string {
	had, has := from.liveCoils(), to.liveCoils()
	var out []string
	for i := range had {
		if had[i] && !has[i] {
			out = append(out, p.g.Coils[i].Name)
		}
	}
	return out
}

// engaged lists the capacitors that lie straight across nets of heard coils,
// hot or ground, with no track in the way: they darken at full strength.
func (n *network) engaged() []int {
	signal := n.coilNets()
	signal[n.hot], signal[n.ground] = true, true
	return n.liveCaps(func(e element) bool {
		return signal[e.a] && signal[e.b] && !slices.Contains(n.way(), e)
	})
}

// goesThrough reports whether the sound goes through a track of a knob.
func (n *network) goesThrough(knob int) bool {
	return slices.ContainsFunc(n.way(), func(e element) bool { return e.kind == track && n.g.Tracks[e.index].Knob == knob })
}

// thinning lists the capacitors that the sound goes through: they take bass
// away.
func (n *network) thinning() []int {
	return n.liveCaps(func(e element) bool { return slices.Contains(n.way(), e) })
}

// coilNets marks the nets at which heard coils end.
func (n *network) coilNets() []bool {
	out := make([]bool, n.nets.Count)
	for i, e := range n.elements {
		if e.kind == coil && n.live[i] {
			out[e.a], out[e.b] = true, true
		}
	}
	return out
}

func (n *network) liveCaps(are func(element) bool) []int {
	var out []int
	for i, e := range n.elements {
		if e.kind == capacitor && n.live[i] && are(e) {
			out = append(out, e.index)
		}
	}
	return out
}
