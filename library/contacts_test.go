package library_test

import (
	"fmt"
	"strings"
	"testing"

	"loomwright/internal/part"
)

// joined writes what one switch of a part joins in one position: "a=a.1, b=b.1".
func joined(p *part.Part, sw, position int) string {
	var out []string
	for _, pole := range p.Switches[sw].Poles {
		for _, group := range pole.Contacts[position] {
			var names []string
			for _, i := range group {
				names = append(names, p.Terminals[i].Name)
			}
			out = append(out, strings.Join(names, "="))
		}
	}
	return strings.Join(out, ", ")
}

// table writes a whole contact table, a line for each position.
func table(p *part.Part, sw int) string {
	var b strings.Builder
	for i, pos := range p.Switches[sw].Positions {
		fmt.Fprintf(&b, "%s: %s\n", pos.Name, joined(p, sw, i))
	}
	return b.String()
}

// facts are contact tables written down apart from the part files (from
// memory, common practice).
var facts = map[string]string{
	"switch/spst": `
		up: a=a.up
		down:`,
	"switch/spdt-on-on": `
		up: a=a.up
		down: a=a.down`,
	"switch/spdt-on-off-on": `
		up: a=a.up
		middle:
		down: a=a.down`,
	"switch/dpdt-on-on": `
		up: a=a.up, b=b.up
		down: a=a.down, b=b.down`,
	"switch/dpdt-on-off-on": `
		up: a=a.up, b=b.up
		middle:
		down: a=a.down, b=b.down`,
	"switch/dpdt-on-on-on": `
		up: a=a.up, b=b.up
		middle: a=a.up, b=b.down
		down: a=a.down, b=b.down`,
	"switch/dpdt-on-on-on-mirrored": `
		up: a=a.up, b=b.up
		middle: a=a.down, b=b.up
		down: a=a.down, b=b.down`,
	"switch/4pdt": `
		up: a=a.up, b=b.up, c=c.up, d=d.up
		down: a=a.down, b=b.down, c=c.down, d=d.down`,
	"switch/slide-dpdt": `
		up: a=a.up, b=b.up
		down: a=a.down, b=b.down`,
	"switch/toggle-3way": `
		bridge: a=a.bridge
		middle: a=a.bridge=a.neck
		neck: a=a.neck`,
	"switch/toggle-3way-separate": `
		bridge: a=a.bridge
		middle: a=a.bridge, b=b.neck
		neck: b=b.neck`,
	"switch/lever-3way": `
		bridge: a=a.1
		middle: a=a.2
		neck: a=a.3`,
	"switch/lever-3way-2pole": `
		bridge: a=a.1, b=b.1
		middle: a=a.2, b=b.2
		neck: a=a.3, b=b.3`,
	"switch/lever-4way": `
		bridge: a=a.1, b=b.1
		toward bridge: a=a.2, b=b.2
		toward neck: a=a.3, b=b.3
		neck: a=a.4, b=b.4`,
	"switch/lever-5way":        fiveWay,
	"switch/lever-5way-inline": fiveWay,
	"switch/lever-4p5t": `
		bridge: a=a.1, b=b.1, c=c.1, d=d.1
		toward bridge: a=a.2, b=b.2, c=c.2, d=d.2
		middle: a=a.3, b=b.3, c=c.3, d=d.3
		toward neck: a=a.4, b=b.4, c=c.4, d=d.4
		neck: a=a.5, b=b.5, c=c.5, d=d.5`,
	"pot/push-pull-pads": pull, "pot/push-pull-lugs": pull, "pot/push-push-pads": pull, "pot/push-push-lugs": pull,
	"jack/switched": `
		out: tip=contact
		in:`,
}

const fiveWay = `
		bridge: a=a.1, b=b.1
		toward bridge: a=a.1=a.2, b=b.1=b.2
		middle: a=a.2, b=b.2
		toward neck: a=a.2=a.3, b=b.2=b.3
		neck: a=a.3, b=b.3`

const pull = `
		pushed: pull.a=pull.a.pushed, pull.b=pull.b.pushed
		pulled: pull.a=pull.a.pulled, pull.b=pull.b.pulled`

// lines strips indents and blanks at line ends.
func lines(s string) string {
	var out []string
	for _, l := range strings.Split(strings.TrimSpace(s), "\n") {
		out = append(out, strings.TrimSpace(l))
	}
	return strings.Join(out, "\n")
}

func TestContactTables(t *testing.T) {
	for _, p := range parts(t) {
		want := facts[p.ID]
		var poles, throws int
		if n, _ := fmt.Sscanf(p.ID, "switch/rotary-%dp%d", &poles, &throws); n == 2 {
			want = selector(poles, throws)
		}
		switch {
		case len(p.Switches) > 1:
			t.Errorf("%s: more than one switch", p.ID)
		case len(p.Switches) == 0 && want != "":
			t.Errorf("%s: no switch", p.ID)
		case len(p.Switches) == 1 && want == "":
			t.Errorf("%s: no fact is written down for this switch", p.ID)
		case len(p.Switches) == 1 && lines(table(p, 0)) != lines(want):
			t.Errorf("%s joins\n%s\nwant\n%s", p.ID, table(p, 0), lines(want))
		}
	}
	for id := range facts {
		get(t, id)
	}
}

// selector is the table of a plain selector: every pole at throw k in position k.
func selector(poles, throws int) string {
	var b strings.Builder
	for k := 1; k <= throws; k++ {
		var row []string
		for i := range poles {
			pole := string(rune('a' + i))
			row = append(row, fmt.Sprintf("%s=%s.%d", pole, pole, k))
		}
		fmt.Fprintf(&b, "%d: %s\n", k, strings.Join(row, ", "))
	}
	return b.String()
}

// TestOnOnOnKinds: the two kinds differ only in the middle, and half a turn of
// one (up and down, a and b change places) is the same kind again.
func TestOnOnOnKinds(t *testing.T) {
	one, other := table(get(t, "switch/dpdt-on-on-on"), 0), table(get(t, "switch/dpdt-on-on-on-mirrored"), 0)
	for kind, tab := range map[string]string{"one": one, "mirrored": other} {
		if got := turned(tab); got != tab {
			t.Errorf("%s, turned by half:\n%s\nwant\n%s", kind, got, tab)
		}
	}
	a, b := strings.Split(one, "\n"), strings.Split(other, "\n")
	if a[0] != b[0] || a[1] == b[1] || a[2] != b[2] {
		t.Errorf("the kinds must differ in the middle alone:\n%s\n%s", one, other)
	}
}

// turned is a table seen after half a turn of the switch, put in order again.
func turned(tab string) string {
	tab = strings.NewReplacer("up", "down", "down", "up", "a=", "b=", "b=", "a=", "a.", "b.", "b.", "a.").Replace(tab)
	rows := strings.Split(strings.TrimSpace(tab), "\n")
	for i, r := range rows {
		name, joins, _ := strings.Cut(r, ": ")
		b, a, _ := strings.Cut(joins, ", ")
		rows[i] = name + ": " + a + ", " + b
	}
	return rows[2] + "\n" + rows[1] + "\n" + rows[0] + "\n"
}

// TestTravel holds what happens between positions (from memory, common practice).
func TestTravel(t *testing.T) {
	for id, want := range map[string]part.Travel{
		"switch/lever-3way": part.MakeFirst, "switch/lever-3way-2pole": part.MakeFirst,
		"switch/lever-5way": part.MakeFirst, "switch/lever-5way-inline": part.MakeFirst,
		"switch/toggle-3way": part.MakeFirst, "switch/toggle-3way-separate": part.MakeFirst,
		"switch/dpdt-on-on": part.BreakFirst, "switch/slide-dpdt": part.BreakFirst, "pot/push-pull-lugs": part.BreakFirst,
		"switch/lever-4way": part.UnknownTravel, "switch/rotary-2p4": part.UnknownTravel, "switch/lever-4p5t": part.UnknownTravel,
	} {
		if got := get(t, id).Switches[0].Travel; got != want {
			t.Errorf("%s: travel %d, want %d", id, got, want)
		}
	}
	for _, p := range parts(t) {
		for _, s := range p.Switches {
			if s.Around || s.Skew != (len(s.Poles) > 1) || (s.Proved >= 0) != (p.Class == "jack") {
				t.Errorf("%s: around %v, skew %v with %d poles, proved %d", p.ID, s.Around, s.Skew, len(s.Poles), s.Proved)
			}
		}
	}
}
