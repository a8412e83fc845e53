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

// What spreadsheets write: a byte order mark, CRLF, semicolons or tabs, a line
// that names the separator, rows and columns left empty, capitals in heads.
func TestReadTableOfSpreadsheets(t *testing.T) {
	for name, c := range map[string]struct {
		text  string
		lines [2]int
	}{
		"semicolons":  {"\ufeffName;For;bridge.Ohms\r\ncurlew;Ms Ōyster <b>, **x**;8,1k\r\n;;\r\ngröße;\"a; b\";\r\n", [2]int{2, 4}},
		"quoted head": {"\ufeff\"name\";for;bridge.ohms;;\ncurlew;Ms Ōyster <b>, **x**;8,1k;;\n\ngröße;\"a; b\"\n", [2]int{2, 4}},
		"tabs":        {"name\tfor\tbridge.ohms\ncurlew\tMs Ōyster <b>, **x**\t8,1k\n\t\t\ngröße\ta; b\t\n", [2]int{2, 4}},
		"commas":      {"name,for,bridge.ohms\ncurlew,\"Ms Ōyster <b>, **x**\",\"8,1k\"\n,,\ngröße,a; b,\n", [2]int{2, 4}},
		"named":       {"SEP=;\r\nname;for;bridge.ohms\r\ncurlew;Ms Ōyster <b>, **x**;8,1k\r\ngröße;\"a; b\";", [2]int{3, 4}},
	} {
		rows, list := ReadTable(diag.NewText("t.csv", c.text))
		want := []Row{
			{Name: "curlew", For: "Ms Ōyster <b>, **x**", Line: c.lines[0], Request: Request{Changes: []Change{{Use: "bridge", Ohms: "8,1k"}}}},
			{Name: "größe", For: "a; b", Line: c.lines[1]},
		}
		if len(list) > 0 || !reflect.DeepEqual(rows, want) {
			t.Errorf("%s: %v\n%+v", name, list, rows)
		}
	}
}

// A finding says where: line and column, counted in letters.
func TestReadTableSaysWhere(t *testing.T) {
	for text, want := range map[string][2]int{
		"name,bridge.colour\nx,y\n":             {1, 6},
		"name,for\ngröße,Knot\nGRÖSSE,\ngröße,": {4, 1},
		"for,name\nö,a/b\n":                     {2, 3},
		"for,name\nö\n":                         {2, 1},
		"name,for\na,b\xe4\n":                   {2, 3},
		"name,for\na,b,c\n":                     {2, 5},
		"name,for\na,\"b\"c\n":                  {2, 5},
		"name,for\na,b\x00\n":                   {2, 3},
	} {
		_, list := ReadTable(diag.NewText("t.csv", text))
		if len(list) != 1 || list[0].Span.Start.Line != want[0] || list[0].Span.Start.Col != want[1] {
			t.Errorf("%q: %+v, want one at %v", text, list, want)
		}
	}
}
