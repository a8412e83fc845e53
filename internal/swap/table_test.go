package swap

import (
	"reflect"
	"testing"

	"loomwright/internal/diag"
)

func TestReadTable(t *testing.T) {
	rows, list := ReadTable(diag.NewText("customers.csv", "name, for, bridge.code, volume.is, volume.track, hand\n"+
		"curlew,\"Curlew, left\",knot,pot/mini,250k linear,left\n"+
		"\n"+
		"dunlin,,,,,\n"+
		"dunlin,,,,,\n"+
		"a b,,,,,\n"+
		"knot,,,,,,too many\n"+
		"stint,,,pot/mini\n"))
	want := []Row{
		{Name: "curlew", For: "Curlew, left", Line: 2, Request: Request{Hand: "left", Changes: []Change{{Use: "bridge", Code: "knot"}, {Use: "volume", Is: "pot/mini", Track: "250k linear"}}}},
		{Name: "dunlin", Line: 4},
		{Name: "stint", Line: 8, Request: Request{Changes: []Change{{Use: "volume", Is: "pot/mini"}}}},
	}
	if !reflect.DeepEqual(rows, want) {
		t.Errorf("got %+v", rows)
	}
	var lines []int
	for _, d := range list {
		lines = append(lines, d.Span.Start.Line)
	}
	if !reflect.DeepEqual(lines, []int{5, 6, 7}) {
		t.Errorf("findings on lines %v: %v", lines, list)
	}
}

func TestReadTableRefuses(t *testing.T) {
	for _, text := range []string{"", "who\nx\n", "name,name\nx,y\n", "name,bridge.colour\nx,y\n", "name,.is\n"} {
		if rows, list := ReadTable(diag.NewText("t.csv", text)); !list.HasErrors() || len(rows) > 0 {
			t.Errorf("%q gives %v %v", text, rows, list)
		}
	}
	rows, list := ReadTable(diag.NewText("t.csv", "name,for\na,\"x\nb,y\n"))
	if !list.HasErrors() {
		t.Errorf("an open quote gives %v", rows)
	}
}
