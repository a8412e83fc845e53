package source

import "loomwright/internal/diag"

// keys are those of one map, to find doubles.
type keys struct {
	p    *parser
	seen map[string]*node
}

func newKeys(p *parser, n int) keys { return keys{p, make(map[string]*node, n)} }

// accept reports whether a key is a text that stands in the map for the first
// time.
func (k keys) accept(key *node) bool {
	first, double := k.seen[key.value]
	switch {
	case key.kind == Null && key.value == "":
		k.p.fail("yaml-key", key.at, place{line: key.at.line, col: key.at.col + 1}, "there is no key in front of the colon", "")
	case key.kind == Mapping || key.kind == Sequence:
		k.p.fail("yaml-key", key.at, key.end, "a key is a single text, not "+key.kind.String(), "put quotes around it if brackets are meant as they stand")
	case key.value == "<<" && key.style == plain:
		k.p.fail("yaml-feature", key.at, key.end, "merge keys (<<) are not used in these files", "write the keys out where they are meant")
	case double:
		k.p.fail("duplicate-key", key.at, key.end, "the key "+quoted(key.value)+" stands here a second time", "")
		k.p.list[len(k.p.list)-1].Related = []diag.Related{{Span: k.p.spanOf(first), Message: "first here"}}
	default:
		k.seen[key.value] = key
		return true
	}
	return false
}

func (p *parser) spanOf(n *node) diag.Span {
	s := session{doc: p.doc}
	return s.span(n.at, n.end)
}

func quoted(s string) string { return `"` + s + `"` }
