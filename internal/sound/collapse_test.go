package sound

import "testing"

func TestCollapse(t *testing.T) {
	names := []Named{
		{"bridge", In(Series, Coil("bridge.north", false), Coil("bridge.south", false))},
		{"neck", In(Series, Coil("neck.north", false), Coil("neck.south", false))},
	}
	for text, want := range map[string]string{
		"bridge.south series bridge.north":                                                    "bridge",
		"bridge.north parallel bridge.south":                                                  "bridge.north parallel bridge.south",
		"(bridge.north series bridge.south) parallel (neck.north series neck.south)":          "bridge parallel neck",
		"bridge.north series neck.north series bridge.south series neck.south":                "bridge series neck",
		"(bridge.north series bridge.south) parallel reversed (neck.south series neck.north)": "bridge parallel reversed neck",
		"bridge.north series reversed bridge.south":                                           "bridge.north series reversed bridge.south",
		"neck.north series neck.south series bridge.north through 4k7":                        "bridge.north series neck through 4k7",
	} {
		e, _, err := Parse(text)
		if err != nil {
			t.Fatal(err)
		}
		short := e.Collapse(names)
		if got := short.Canon().String(); got != want {
			t.Errorf("%s: got %s, want %s", text, got, want)
		}
		back := short.Map(func(name string) Expr {
			for _, n := range names {
				if n.Name == name {
					return n.Full
				}
			}
			return Coil(name, false)
		})
		if !Equal(back, e) {
			t.Errorf("%s: spelled out again it is %s", text, back)
		}
	}
}
