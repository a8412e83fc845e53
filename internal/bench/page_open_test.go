package bench

import (
	"reflect"
	"testing"
)

// TestCheckupIsTheCheck holds a desk's two answers against the one of Check,
// which the command line gives: the same rows, figures and findings.
func TestCheckupIsTheCheck(t *testing.T) {
	b := New()
	begin := begin()
	wrong := 0
	for _, loom := range append(begin.Starts, begin.Examples...) {
		d, whole := NewDesk(b), b.Check(loom.Name, loom.Text)
		open := d.Open(loom.Name, loom.Text)
		if !reflect.DeepEqual(open.Rows, whole.Rows) || !reflect.DeepEqual(open.Figures, whole.Figures) || open.Over != whole.Over || open.Title != whole.Title {
			t.Errorf("%s: the table is not that of the check", loom.Name)
		}
		found := d.Checkup(loom.Name, loom.Text).Findings
		if !reflect.DeepEqual(found, whole.Findings) {
			t.Errorf("%s: found\n%v\nthe check finds\n%v", loom.Name, found, whole.Findings)
		}
		if len(found) > len(open.Findings) {
			wrong++
		}
	}
	if wrong < 10 {
		t.Errorf("only %d looms have anything to be found", wrong)
	}
}
