package independent_test

import (
	"fmt"
	"loomwright/internal/bench"
	"os"
	"strconv"
	"strings"
	"testing"
)

func TestShow(t *testing.T) {
	shelf := readShelf(librarySource)
	for _, f := range strings.Fields(os.Getenv("SEEDS")) {
		n, _ := strconv.Atoi(f)
		text := newLoom(uint64(n), shelf)
		o := compare(text, shelf, bench.New(), uint64(n))
		fmt.Println("seed", n)
		fmt.Println(text)
		fmt.Println(strings.Join(o.bad, "\n"))
		if os.Getenv("ROWS") != "" {
			for _, r := range bench.New().Check("x", text).Rows {
				fmt.Println(r.Name, "|", r.Heard, r.Output, r.Knobs)
			}
		}
	}
}
