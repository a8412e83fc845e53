package sheet

import (
	"fmt"
	"reflect"
	"strings"
	"testing"
)

// TestSayReachesEveryText puts a mark on every text of every kind of block, and
// leaves the document that it was made from as it was.
func TestSayReachesEveryText(t *testing.T) {
	d := Document{Title: "Knot", Blocks: []Block{
		Heading{Text: "w"}, Paragraph{Text: "w"}, List{Items: []string{"w", "w"}},
		Table{Heads: []string{"w"}, Rows: [][]Cell{{{Text: "w"}}}}, Figure{Caption: "w"},
		Step{Do: "w", Good: "w", Notes: []string{"w"}}, Reading{Title: "w", Takes: []Take{{Stand: "w", Do: "w", Right: "w"}}},
	}}
	before := strings.Count(fmt.Sprintf("%#v", d.Blocks), `"w"`)
	got := d.Say(func(s string) string { return s + "!" })
	if n := strings.Count(fmt.Sprintf("%#v", got.Blocks), `"w!"`); n != before || n != 14 {
		t.Errorf("%d of %d texts were said", n, before)
	}
	if strings.Count(fmt.Sprintf("%#v", d.Blocks), `"w"`) != before {
		t.Error("the document itself was changed")
	}
	if same := d.Say(func(s string) string { return s }); !reflect.DeepEqual(same.Blocks, d.Blocks) {
		t.Error("said as it is, it is another document")
	}
}
