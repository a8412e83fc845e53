package electrics

import (
	"fmt"
	"math"

	"loomwright/internal/setting"
	"loomwright/internal/units"
)

// Split is a coil that a setting shorts while a coil beside it sounds, against
// the same coil left open. Coupled coils make the two differ: a shorted coil is
// a closed turn in its neighbour's field.
type Split struct {
	Index   int     `json:"index"` // of the setting
	Setting string  `json:"setting"`
	Coil    string  `json:"coil"`
	Louder  float64 `json:"louder"`          // level with the coil open over that with it shorted, dB
	Short   *Peak   `json:"short,omitempty"` // resonance as it is
	Open    *Peak   `json:"open,omitempty"`  // resonance with the coil left open
	Words   string  `json:"words"`
}

// Splits finds the coils that settings short while coils coupled to them sound.
func (m *Model) Splits(settings []setting.Setting, turn setting.Turn) []Split {
	if m.g.Hot < 0 {
		return nil
	}
	m.ac.prepare()
	var out []Split
	r := &runner{}
	for _, s := range settings {
		nets := m.base.Nets(s.At)
		for k := range m.coils {
			if nets.Of[m.coils[k].start] != nets.Of[m.coils[k].finish] || !m.coupled(k) {
				continue
			}
			if split, ok := m.split(s, turn, k, r); ok {
				out = append(out, split)
			}
		}
	}
	return out
}

func (m *Model) coupled(k int) bool {
	g := m.ac.groupOf[k]
	return g >= 0 && len(m.ac.groups[g].coils) > 1
}

func (m *Model) split(s setting.Setting, turn setting.Turn, k int, r *runner) (Split, bool) {
	short, open := m.sound(s.At, turn, nil, r), m.sound(s.At, turn, lift{k}, r)
	if short.Output != Sounding || open.Output != Sounding || !m.besides(short.Heard, k) {
		return Split{}, false
	}
	out := Split{Index: s.Index, Setting: s.Name, Coil: m.coils[k].name, Louder: open.Level - short.Level, Short: short.Peak, Open: open.Peak}
	out.Words = fmt.Sprintf("With %s, %s is shorted. Left open instead, the sound would be %s, its resonance %s instead of %s",
		s.Name, out.Coil, louder(out.Louder), peakText(open.Peak), peakText(short.Peak))
	return out, true
}

// besides reports whether a coil coupled to coil k is among the heard.
func (m *Model) besides(heard []Heard, k int) bool {
	for _, h := range heard {
		i := m.g.CoilIndex(h.Coil)
		if i != k && i >= 0 && m.ac.groupOf[i] == m.ac.groupOf[k] {
			return true
		}
	}
	return false
}

// sound is the row of a setting with some coils left open, without ohms.
func (m *Model) sound(at []int, turn setting.Turn, free lift, r *runner) Row {
	row := Row{Output: Shorted}
	c := m.circuit(at, turn, free)
	if !c.shorted {
		r.fit(c)
		m.levels(&row, c, r)
	}
	return row
}

func louder(db float64) string {
	switch {
	case math.Abs(db) < 0.05:
		return "as loud"
	case db > 0:
		return fmt.Sprintf("%.1f dB louder", db)
	}
	return fmt.Sprintf("%.1f dB weaker", -db)
}

func peakText(p *Peak) string {
	if p == nil {
		return "none"
	}
	return fmt.Sprintf("%.1f dB at %s", p.DB, hzText(p.Hz))
}

func hzText(hz float64) string { return units.FormatHertz(units.Round(hz, 2)) }
