// Package plot draws curves over frequency as scenes: one chosen curve with the
// band in which it can lie, others to compare it with, marks at its peaks. Each
// curve has a dash pattern of its own, so that the plot reads without colour.
package plot

import (
	"fmt"
	"math"
	"strings"

	"loomwright/internal/scene"
)

// Plot is what to draw. The zero Width is 170 mm, the zero Height leaves the
// curves 62 mm.
type Plot struct {
	Title  string
	Unit   string // of the levels; "" is dB
	Lines  []Line // the chosen one first
	Band   *Band  // of the chosen one
	Notes  []string
	Width  float64 // mm
	Height float64 // mm
}

// Line is one curve: dB at rising frequencies in Hz. Mark puts a ring and a
// text at one of its points; a Mark without Hz is none.
type Line struct {
	Name string
	Hz   []float64
	DB   []float64
	Mark Mark
}

// Mark is a named point of a curve.
type Mark struct {
	Hz, DB float64
	Text   string
}

// Band is where the chosen curve can lie, and what kind of band it is.
type Band struct {
	Name   string
	Hz     []float64
	Lo, Hi []float64 // dB
}

// MaxLines is the number of curves that can be told apart; Draw leaves out the
// rest.
const MaxLines = 6

// Draw makes the scene.
func Draw(p Plot) scene.Scene {
	p.Lines = p.Lines[:min(len(p.Lines), MaxLines)]
	if p.Width <= 0 {
		p.Width = 170
	}
	if p.Height <= 0 {
		p.Height = top + 62 + bottom + keyRow*float64(p.keyRows()) + 1
	}
	a := p.axes()
	s := scene.Scene{Width: p.Width, Height: p.Height, Title: p.Title, Desc: p.describe()}
	s.Items = append(s.Items, a.paper()...)
	curves := scene.Group{Class: "curves", Clip: a.box}
	curves.Items = append(curves.Items, a.band(p.Band)...)
	for i := len(p.Lines) - 1; i >= 0; i-- { // the chosen one on top
		curves.Items = append(curves.Items, a.curve(&p.Lines[i], pens[i])...)
	}
	s.Items = append(s.Items, curves)
	s.Items = append(s.Items, a.frame()...)
	s.Items = append(s.Items, a.marks(p.Lines)...)
	s.Items = append(s.Items, p.heading(a)...)
	s.Items = append(s.Items, p.key(a)...)
	return s
}

// describe puts the plot in words for those who cannot see it.
func (p *Plot) describe() string {
	var says []string
	for _, l := range p.Lines {
		lo, hi := extremes(l.DB)
		text := fmt.Sprintf("%s: from %.0f to %.0f dB", l.Name, lo, hi)
		if len(l.DB) == 0 {
			text = l.Name + ": nothing"
		}
		if l.Mark.Hz > 0 && l.Mark.Text != "" {
			text += ", marked " + l.Mark.Text
		}
		says = append(says, text)
	}
	if p.Band != nil {
		says = append(says, "shaded: "+p.Band.Name)
	}
	return strings.Join(append(says, p.Notes...), ". ")
}

// extremes are the least and the most of what is drawn; silence is left out.
func extremes(db []float64) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, x := range db {
		if x > silence {
			lo, hi = min(lo, x), max(hi, x)
		}
	}
	if lo > hi {
		return 0, 0
	}
	return lo, hi
}

// silence is what no ear hears and no axis reaches, dB.
const silence = -150
