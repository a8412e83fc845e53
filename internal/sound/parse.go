package sound

import (
	"fmt"
	"strings"
	"unicode"
)

// SyntaxError is a sound that cannot be read. Offset and Length are in runes
// of the text.
type SyntaxError struct {
	Offset, Length int
	Message, Hint  string
}

func (e *SyntaxError) Error() string { return e.Message }

// maxDepth bounds brackets, so that no text can exhaust the stack.
const maxDepth = 40

// Leaf is a coil or pickup name met in a sound, with its place in the text.
type Leaf struct {
	Name           string
	Offset, Length int // runes
}

// Parse reads a sound in words: "bridge.north series bridge.south",
// "neck parallel (reversed bridge)", "neck through 4k7", "silent", "any".
// Series and parallel do not mix without brackets.
func Parse(text string) (Expr, []Leaf, error) {
	p := &parser{words: split(text), end: len([]rune(text))}
	if len(p.words) == 0 {
		return Expr{}, nil, p.errorf("a sound is missing", "write a coil, a pickup, silent or any")
	}
	if len(p.words) == 1 {
		switch p.words[0].text {
		case "any":
			return Expr{Op: Any}, nil, nil
		case "silent":
			return Expr{Op: Silent}, nil, nil
		}
	}
	e, err := p.chain(0, p.term)
	if err != nil {
		return Expr{}, nil, err
	}
	if p.at < len(p.words) {
		if p.peek() == ")" {
			return Expr{}, nil, p.errorf("this bracket was never opened", "")
		}
		return Expr{}, nil, p.errorf(fmt.Sprintf("expected series, parallel or the end, found %q", p.peek()), joinerHint(p.peek()))
	}
	return e, p.leaves, nil
}

// joinerHint offers the words for what people write in their place.
func joinerHint(found string) string {
	switch found {
	case "+", "&", "and", "with", "/", "|", ",":
		return "both at once is parallel; one after the other is series: neck parallel bridge"
	}
	return ""
}

type word struct {
	text           string
	offset, length int
}

type parser struct {
	words  []word
	at     int
	end    int
	leaves []Leaf
}

// split cuts a text into words and brackets, with rune offsets.
func split(text string) []word {
	var out []word
	start := -1
	runes := []rune(text)
	flush := func(i int) {
		if start >= 0 {
			out = append(out, word{string(runes[start:i]), start, i - start})
			start = -1
		}
	}
	for i, r := range runes {
		switch {
		case unicode.IsSpace(r):
			flush(i)
		case r == '(' || r == ')':
			flush(i)
			out = append(out, word{string(r), i, 1})
		case start < 0:
			start = i
		}
	}
	flush(len(runes))
	return out
}

func (p *parser) peek() string {
	if p.at < len(p.words) {
		return p.words[p.at].text
	}
	return ""
}

func (p *parser) errorf(message, hint string) error {
	e := &SyntaxError{Offset: p.end, Length: 1, Message: message, Hint: hint}
	if p.at < len(p.words) {
		e.Offset, e.Length = p.words[p.at].offset, p.words[p.at].length
	}
	return e
}

// chain reads terms joined by one word, series or parallel.
func (p *parser) chain(depth int, term func(depth int) (Expr, error)) (Expr, error) {
	first, err := term(depth)
	if err != nil {
		return Expr{}, err
	}
	joiner, terms := "", []Expr{first}
	for p.peek() == "series" || p.peek() == "parallel" {
		if joiner != "" && p.peek() != joiner {
			return Expr{}, p.mixed(joiner, terms, func() (Expr, error) { return term(depth) })
		}
		joiner = p.peek()
		p.at++
		next, err := term(depth)
		if err != nil {
			return Expr{}, err
		}
		terms = append(terms, next)
	}
	if joiner == "parallel" {
		return In(Parallel, terms...), nil
	}
	return In(Series, terms...), nil
}

// mixed explains a mix of series and parallel by showing both readings.
func (p *parser) mixed(joiner string, terms []Expr, term func() (Expr, error)) error {
	other, rest := p.peek(), "…"
	mark := p.at
	p.at++
	if t, err := term(); err == nil {
		rest = t.operand()
	}
	p.at = mark
	var before []string
	for _, t := range terms {
		before = append(before, t.operand())
	}
	last := len(before) - 1
	one := fmt.Sprintf("(%s) %s %s", strings.Join(before, " "+joiner+" "), other, rest)
	two := fmt.Sprintf("%s %s (%s %s %s)", strings.Join(before[:last], " "+joiner+" "), joiner, before[last], other, rest)
	return p.errorf("series and parallel are mixed without brackets, which can be read in two ways",
		one+"   or   "+two)
}

// operand writes a term as it stands between series and parallel.
func (e Expr) operand() string {
	if e.passive() {
		return e.passiveString()
	}
	return e.bracketed()
}

// term reads one name, bracketed sound or reversed term, and what it goes through.
func (p *parser) term(depth int) (Expr, error) {
	e, err := p.atom(depth)
	for err == nil && p.peek() == "through" {
		p.at++
		var part Expr
		if part, err = p.passive(depth); err == nil {
			e = In(Series, e, part)
		}
	}
	return e, err
}

// passive reads what a sound goes through: a value, or several in brackets.
func (p *parser) passive(depth int) (Expr, error) {
	switch v := p.peek(); v {
	case "(":
		return p.group(depth, p.passive)
	case "", ")", "series", "parallel", "through", "reversed":
		return Expr{}, p.errorf("a value is missing after through", "through 4k7")
	default:
		p.at++
		return Expr{Op: Through, Name: v}, nil
	}
}

func (p *parser) atom(depth int) (Expr, error) {
	w := p.peek()
	switch w {
	case "":
		return Expr{}, p.errorf("a coil or pickup is missing here", "")
	case "series", "parallel", "through", ")":
		return Expr{}, p.errorf(fmt.Sprintf("a coil or pickup is missing before %q", w), "")
	case "any", "silent":
		return Expr{}, p.errorf(fmt.Sprintf("%q stands alone, it cannot be joined to other sounds", w), "")
	case "reversed":
		if depth >= maxDepth {
			return Expr{}, p.tooDeep()
		}
		p.at++
		e, err := p.atom(depth + 1)
		return e.Reverse(), err
	case "(":
		return p.group(depth, p.term)
	}
	at := p.words[p.at]
	p.leaves = append(p.leaves, Leaf{w, at.offset, at.length})
	p.at++
	return Coil(w, false), nil
}

func (p *parser) tooDeep() error { return p.errorf("too many brackets inside each other", "") }

func (p *parser) group(depth int, term func(depth int) (Expr, error)) (Expr, error) {
	if depth >= maxDepth {
		return Expr{}, p.tooDeep()
	}
	open := p.at
	p.at++
	e, err := p.chain(depth+1, term)
	if err != nil {
		return Expr{}, err
	}
	if p.peek() != ")" {
		p.at = open
		return Expr{}, p.errorf("this bracket is never closed", "")
	}
	p.at++
	return e, nil
}
