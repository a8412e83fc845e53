package bench

import "testing"

const tryLoom = `
loomwright: 1
title: Two twin coils
parts:
  neck: {is: pickup/twin-coil, code: dunlin}
  bridge: {is: pickup/twin-coil, code: dunlin}
  lever: {is: switch/toggle-3way}
  v1: {is: pot/push-pull-pads, track: 500k audio}
  v2: {is: pot/push-pull-pads, track: 500k audio}
  t1: {is: pot/standard, track: 500k audio}
  t2: {is: pot/standard, track: 500k audio}
  c1: {is: capacitor/film, value: 22n}
  c2: {is: capacitor/film, value: 22n}
  strings: {is: ground/string}
  jack: {is: jack/mono}
joins:
  - neck.orange -- v1.cw
  - neck.pink -- v1.pull.a
  - neck.blue -- v1.pull.b
  - neck.violet, neck.bare -- v1.case
  - v1.pull.a.pushed -- v1.pull.b.pushed
  - v1.pull.a.pulled -- v1.case
  - v1.pull.b.pulled -- v1.cw
  - v1.ccw -- v1.case
  - bridge.orange -- v2.cw
  - bridge.pink -- v2.pull.a
  - bridge.blue -- v2.pull.b
  - bridge.violet, bridge.bare -- v2.case
  - v2.pull.a.pushed -- v2.pull.b.pushed
  - v2.pull.a.pulled -- v2.case
  - v2.pull.b.pulled -- v2.cw
  - v2.ccw -- v2.case
  - v1.case -- v2.case
  - v2.case -- t1.case
  - t1.case -- t2.case
  - t1.case -- jack.sleeve
  - strings.wire -- t1.case
  - v1.wiper -- lever.a.neck
  - v2.wiper -- lever.a.bridge
  - lever.a -- jack.tip
  - v1.cw -- t1.wiper
  - t1.ccw -- c1.a
  - c1.b -- t1.case
  - v2.cw -- t2.wiper
  - t2.ccw -- c2.a
  - c2.b -- t2.case
  - lever.case -- v1.case
sounds:
  - {with: "lever neck, v1 pushed", hear: neck}
  - {with: "lever neck, v1 pulled", hear: neck.north parallel neck.south}
  - {with: "lever bridge, v2 pushed", hear: bridge}
  - {with: "lever bridge, v2 pulled", hear: bridge.north parallel bridge.south}
  - {with: "lever middle, v1 pushed, v2 pushed", hear: neck parallel bridge}
`

func TestTry(t *testing.T) {
	c := New().Check("a", tryLoom)
	for _, r := range c.Rows {
		t.Log(r.Name, "|", r.Heard, "|", r.Phase, r.Hum, r.Knobs, r.Travel)
	}
	for _, d := range c.Findings {
		t.Log(d)
	}
}
func BenchmarkTry(b *testing.B) {
	bb := New()
	b.ReportAllocs()
	for b.Loop() {
		bb.Check("a", tryLoom)
	}
}
