package scene

import (
	"errors"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
)

// Limit is the largest coordinate and size, in mm, that a scene may hold.
const Limit = 1e5

// Check reports what would make a painter emit something broken: a number that
// is not finite or beyond Limit, a page without area, an outline that does not
// start with a MoveTo, an ID that is taken or not a name, a link that is not
// one. Every painter calls it first and paints nothing when it fails. Words
// are never refused.
func (s Scene) Check() error {
	c := checker{ids: map[string]bool{}}
	c.number("page width", s.Width)
	c.number("page height", s.Height)
	if c.err == nil && (s.Width <= 0 || s.Height <= 0) {
		c.fail("page of %g × %g mm has no area", s.Width, s.Height)
	}
	c.items(s.Items, Transform{}, 1)
	return c.err
}

// checker keeps the first complaint and the group it was found in.
type checker struct {
	ids  map[string]bool
	path []string
	err  error
}

func (c *checker) fail(format string, args ...any) {
	if c.err != nil {
		return
	}
	c.err = fmt.Errorf(format, args...)
	if len(c.path) > 0 {
		c.err = fmt.Errorf("group %s: %w", strings.Join(c.path, " > "), c.err)
	}
}

// number checks one value; the comparison is written so that NaN fails.
func (c *checker) number(what string, v float64) {
	if !(math.Abs(v) <= Limit) {
		c.fail("%s is %g, not a number of at most %g", what, v, Limit)
	}
}

func (c *checker) positive(what string, v float64) {
	c.number(what, v)
	if v < 0 {
		c.fail("%s is %g, below zero", what, v)
	}
}

func (c *checker) point(what string, p Point) {
	c.number(what, p.X)
	c.number(what, p.Y)
}

// items checks a list that stands at place on the page.
func (c *checker) items(items []Item, place Transform, depth int) {
	if depth > maxDepth {
		c.fail("groups are nested more than %d deep", maxDepth)
		return
	}
	for _, it := range items {
		switch it := it.(type) {
		case Path:
			c.checkPath(it)
		case Text:
			c.checkText(it)
		case Group:
			c.checkGroup(it, place, depth)
		default:
			c.fail("an item is %T, not a Path, Text or Group", it)
		}
	}
}

const maxDepth = 64

func (c *checker) checkPath(p Path) {
	for i, s := range p.Outline {
		if (i == 0 || p.Outline[i-1].Op == Close) && s.Op != MoveTo {
			c.fail("an outline's piece does not start with a MoveTo")
		}
		switch s.Op {
		case Close:
			continue
		case CubicTo:
			c.point("a control point", s.C1)
			c.point("a control point", s.C2)
		}
		c.point("an outline's point", s.P)
	}
	c.checkStroke(p.Stroke)
}

func (c *checker) checkStroke(s Stroke) {
	c.positive("stroke width", s.Width)
	c.number("dash phase", s.Phase)
	sum := 0.0
	for _, d := range s.Dash {
		c.positive("a dash", d)
		sum += d
	}
	if len(s.Dash) > 0 && sum < minPeriod {
		c.fail("a dash pattern of %g mm is shorter than %g mm", sum, minPeriod)
	}
}

const minPeriod = 0.01 // mm

func (c *checker) checkText(t Text) {
	c.point("a text's place", t.At)
	c.positive("text size", t.Size)
	c.number("text turn", t.Turn)
	c.positive("halo width", t.Halo.Width)
}

func (c *checker) checkGroup(g Group, place Transform, depth int) {
	c.path = append(c.path, g.label())
	c.number("a group's turn", g.Place.Turn)
	c.positive("a group's scale", g.Place.Scale)
	place = g.Place.Then(place)
	c.point("a group's place", place.Move)
	c.positive("a group's scale on the page", place.Scale)
	c.point("a clip", g.Clip.Min)
	c.point("a clip", g.Clip.Max)
	if !(g.Fade >= 0 && g.Fade <= 1) {
		c.fail("fade is %g, not from 0 to 1", g.Fade)
	}
	c.checkNames(g)
	c.items(g.Items, place, depth+1)
	c.path = c.path[:len(c.path)-1]
}

// checkNames checks what a page would look up.
func (c *checker) checkNames(g Group) {
	if g.ID != "" {
		if !isName(g.ID) {
			c.fail("ID %q is not a name of letters, digits, - _ and .", g.ID)
		}
		if strings.HasPrefix(g.ID, "_") {
			c.fail("ID %q starts with _, which is kept for painters", g.ID)
		}
		if c.ids[g.ID] {
			c.fail("ID %q is used twice", g.ID)
		}
		c.ids[g.ID] = true
	}
	for _, key := range slices.Sorted(maps.Keys(g.Data)) {
		if !isName(key) || key != strings.ToLower(key) {
			c.fail("data key %q is not a name in small letters", key)
		}
	}
	if err := checkLink(g.Link); err != nil {
		c.fail("link %q: %w", g.Link, err)
	}
}

func (g Group) label() string {
	switch {
	case g.ID != "":
		return g.ID
	case g.Title != "":
		return g.Title
	}
	return "without a name"
}

// isName accepts the ASCII part of an XML name without colons.
func isName(s string) bool {
	for i := range len(s) {
		c := s[i]
		letter := c|0x20 >= 'a' && c|0x20 <= 'z' || c == '_'
		if !letter && (i == 0 || !(c >= '0' && c <= '9' || c == '-' || c == '.')) {
			return false
		}
	}
	return s != ""
}

// checkLink lets through what cannot run a script.
func checkLink(link string) error {
	if link == "" || strings.HasPrefix(link, "#") && isName(link[1:]) {
		return nil
	}
	if strings.ContainsFunc(link, func(r rune) bool { return r <= ' ' || r > '~' }) {
		return errors.New("write spaces and letters outside ASCII as %XX")
	}
	for _, scheme := range []string{"http://", "https://", "mailto:"} {
		if strings.HasPrefix(link, scheme) {
			return nil
		}
	}
	return errors.New("only http, https, mailto and #id are linked to")
}
