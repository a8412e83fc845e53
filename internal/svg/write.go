package svg

import (
	"math"
	"strconv"
	"strings"

	"loomwright/internal/scene"
)

func (p *painter) raw(s string) *painter {
	p.out = append(p.out, s...)
	return p
}

// num writes a number with at most three decimals (a micrometre), without
// trailing zeros and without a minus before zero.
func (p *painter) num(v float64) *painter {
	p.out = appendNum(p.out, v)
	return p
}

func appendNum(out []byte, v float64) []byte {
	n := int64(math.Round(v * 1000))
	if n < 0 {
		out = append(out, '-')
		n = -n
	}
	whole, rest := n/1000, n%1000
	if whole < 10 {
		out = append(out, byte('0'+whole))
	} else {
		out = strconv.AppendInt(out, whole, 10)
	}
	if rest == 0 {
		return out
	}
	out = append(out, '.')
	for place := int64(100); rest > 0; place /= 10 {
		out = append(out, byte('0'+rest/place))
		rest %= place
	}
	return out
}

// appendPoint writes x and y.
func appendPoint(out []byte, q scene.Point) []byte {
	return appendNum(append(appendNum(out, q.X), ' '), q.Y)
}

func (p *painter) point(q scene.Point) *painter {
	p.out = appendPoint(p.out, q)
	return p
}

// color writes #rrggbb.
func (p *painter) color(c scene.Color) *painter {
	const digits = "0123456789abcdef"
	p.out = append(p.out, '#')
	for _, v := range [3]uint8{c.R, c.G, c.B} {
		p.out = append(p.out, digits[v>>4], digits[v&15])
	}
	return p
}

// attr writes an attribute; name is ours, value may be anybody's.
func (p *painter) attr(name, value string) *painter {
	return p.raw(" ").raw(name).raw(`="`).escape(value).raw(`"`)
}

func (p *painter) attrNum(name string, v float64) *painter {
	return p.raw(" ").raw(name).raw(`="`).num(v).raw(`"`)
}

func (p *painter) class(names string) *painter {
	if names == "" {
		return p
	}
	return p.attr("class", names)
}

// element writes <name>content</name>, nothing for no content.
func (p *painter) element(name, id, content string) *painter {
	if content == "" {
		return p
	}
	p.raw("<").raw(name)
	if id != "" {
		p.attr("id", p.IDPrefix+id)
	}
	return p.raw(">").escape(content).raw("</").raw(name).raw(">\n")
}

// escape writes words so that they stay words: markup characters as entities,
// what XML 1.0 (2.2, Char) does not allow as U+FFFD.
func (p *painter) escape(s string) *painter {
	if !strings.ContainsFunc(s, special) {
		return p.raw(s)
	}
	for _, r := range s {
		switch {
		case r == '&':
			p.raw("&amp;")
		case r == '<':
			p.raw("&lt;")
		case r == '>':
			p.raw("&gt;")
		case r == '"':
			p.raw("&quot;")
		case !xmlChar(r):
			p.raw("\uFFFD")
		default:
			p.out = append(p.out, string(r)...)
		}
	}
	return p
}

func special(r rune) bool {
	return r == '&' || r == '<' || r == '>' || r == '"' || r == '\uFFFD' || !xmlChar(r)
}

func xmlChar(r rune) bool {
	return r >= 0x20 && r <= 0xd7ff || r == '\t' || r == '\n' || r == '\r' ||
		r >= 0xe000 && r <= 0xfffd || r >= 0x10000
}
