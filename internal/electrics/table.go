package electrics

import (
	"cmp"
	"math"
	"math/cmplx"
	"slices"

	"loomwright/internal/setting"
)

// Row is one setting in numbers. Levels are dB over the same figure of the
// chosen setting, or over one coil of mean inductance by itself where none was
// chosen or it is silent.
type Row struct {
	Index      int      `json:"index"` // of the setting
	Setting    string   `json:"setting"`
	Output     Output   `json:"output"`
	Ohms       Reading  `json:"ohms"`           // at the jack, tip to sleeve
	Low        float64  `json:"low"`            // level at the open low E, 82.4 Hz, dB
	Level      float64  `json:"level"`          // A-weighted level of plucked open strings, dB
	LevelLo    float64  `json:"levelLo"`        // the same over all that unknown phases can be
	LevelHi    float64  `json:"levelHi"`        //
	Brightness float64  `json:"brightness"`     // of that level, what is above 2 kHz over the whole, dB
	Peak       *Peak    `json:"peak,omitempty"` // nil: no resonance
	Hum        Hum      `json:"hum"`
	Noise      float64  `json:"noise,omitempty"`  // thermal, A-weighted, V; only when asked for
	Unsure     []string `json:"unsure,omitempty"` // coils heard whose winding or pole is unknown
	Heard      []Heard  `json:"heard"`            // loudest first
}

// Heard is a coil that is heard in a setting, and how loud by itself: dB over
// the loudest one there.
type Heard struct {
	Coil  string  `json:"coil"`
	Level float64 `json:"level"`
}

// Table works out the figures of settings at one turn of the knobs. ref is the
// place in settings of the one that levels are over, or −1.
func (m *Model) Table(settings []setting.Setting, turn setting.Turn, ref int) []Row {
	rows := make([]Row, len(settings))
	t := &tabler{m: m, turn: turn}
	for i, s := range settings {
		rows[i] = t.row(s)
	}
	if ref >= 0 && ref < len(rows) {
		over(rows, rows[ref])
	}
	return rows
}

// over makes levels relative to those of a row.
func over(rows []Row, ref Row) {
	if ref.Output != Sounding {
		return
	}
	for i := range rows {
		if r := &rows[i]; r.Output == Sounding || r.Output == Silent {
			r.Low = max(floorDB, r.Low-ref.Low)
			r.Level = max(floorDB, r.Level-ref.Level)
			r.LevelLo, r.LevelHi = max(floorDB, r.LevelLo-ref.Level), max(floorDB, r.LevelHi-ref.Level)
		}
	}
}

// tabler works out one row after the other. Settings that are the same circuit
// as far as the jack goes are worked out once.
type tabler struct {
	m    *Model
	turn setting.Turn
	run  runner
	seen []*circuit
	rows []Row
}

func (t *tabler) row(s setting.Setting) Row {
	row := Row{Output: NoOutput, Heard: []Heard{}, Low: floorDB, Level: floorDB, LevelLo: floorDB, LevelHi: floorDB}
	if t.m.g.Hot >= 0 {
		t.m.ac.prepare()
		row = t.figures(t.m.circuit(s.At, t.turn, nil), row)
		row.Ohms = t.m.DC(s.At, t.turn).Ohms(t.m.g.Hot, t.m.g.Ground)
	}
	row.Index, row.Setting = s.Index, s.Name
	return row
}

// figures is a row with all that a circuit says.
func (t *tabler) figures(c *circuit, row Row) Row {
	if c.shorted {
		row.Output = Shorted
		return row
	}
	for i, o := range t.seen {
		if c.same(o) {
			return t.rows[i]
		}
	}
	t.run.fit(c)
	t.m.levels(&row, c, &t.run)
	if t.m.opts.Noise {
		row.Noise = t.m.noise(c, &t.run)
	}
	t.seen, t.rows = append(t.seen, c), append(t.rows, row)
	return row
}

// levels fills in what the coils do.
func (m *Model) levels(row *Row, c *circuit, r *runner) {
	h := m.listen(c, r)
	row.Output = outputOf(h.loudest)
	if row.Output == Open {
		return
	}
	row.heard(m, h)
	all := m.choices()
	row.Low = db(m.low(h, all.list[0]))
	row.levels(h, all.list)
	if row.Output == Sounding {
		row.Peak = m.peak(c, r)
		row.Hum = m.hum(h, all)
	}
}

// leastHeard is how far below the loudest a coil still counts as heard, dB.
const leastHeard = 40

func (row *Row) heard(m *Model, h *heardBy) {
	most := 0.0
	for i := range m.coils {
		most = max(most, h.dark[pairAt(i, i)]+h.bright[pairAt(i, i)])
	}
	for i := range m.coils {
		level := powerDB((h.dark[pairAt(i, i)] + h.bright[pairAt(i, i)]) / most)
		if level < -leastHeard || most == 0 {
			continue
		}
		row.Heard = append(row.Heard, Heard{m.coils[i].name, level})
		if m.coils[i].pole == 0 || m.coils[i].winding == 0 {
			row.Unsure = append(row.Unsure, m.coils[i].name)
		}
	}
	slices.SortStableFunc(row.Heard, func(a, b Heard) int { return cmp.Compare(b.Level, a.Level) })
}

func (row *Row) levels(h *heardBy, list []choice) {
	row.LevelLo, row.LevelHi = math.Inf(1), math.Inf(-1)
	for i, c := range list {
		dark, bright := together(h.dark, c.signs), together(h.bright, c.signs)
		level := powerDB(dark + bright)
		if i == 0 {
			row.Level, row.Brightness = level, powerDB(bright/max(dark+bright, math.SmallestNonzeroFloat64))
		}
		row.LevelLo, row.LevelHi = min(row.LevelLo, level), max(row.LevelHi, level)
	}
}

// low is the size of all coils together at the open low E.
func (m *Model) low(h *heardBy, c choice) float64 {
	sum := complex128(0)
	for i, x := range h.low {
		sum += complex(c.signs[i]*m.ac.gain[i], 0) * x
	}
	return cmplx.Abs(sum)
}
