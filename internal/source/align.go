package source

import "strings"

// line is one printed line.
type line struct {
	indent int
	text   string // up to the cell
	cell   string // what starts in an aligned column, "" for none
	pad    int    // blanks between text and cell
	note   string // comment behind it
	gap    int    // blanks in front of the note
	blank  bool   // a blank line goes above it
	opens  bool   // a block starts below it
	raw    bool   // a line of a literal or folded text
	group  int    // lines of the same group are aligned, 0 for none
	spread int    // how far apart the widths of aligned texts may be
}

// How far apart the widths of neighbours may be that are aligned: of keys, of
// texts in front of a token, of whole lines in front of a comment.
const (
	keySpread     = 12
	columnSpread  = 5
	commentSpread = 30
)

// setValue puts a kid's value on its line.
func (l *line) setValue(parent, k *piece, column string) {
	if k.line == "" {
		return
	}
	if at := tokenAt(parent, k, column); at >= 0 {
		whole := l.text + " " + k.line
		at += len(l.text) - len(k.head())
		if !k.named {
			at += 2
		}
		l.text, l.cell = strings.TrimRight(whole[:at], " "), column+" "+strings.TrimLeft(whole[at+len(column):], " ")
		l.pad, l.spread = 1, columnSpread
		return
	}
	if k.named && parent.layout.Align {
		l.cell, l.pad, l.spread = k.line, 1, keySpread
		return
	}
	l.text += " " + k.line
}

// tokenAt is where a column's token stands in the unquoted text of an item or
// key, or -1.
func tokenAt(parent, k *piece, column string) int {
	text := k.line
	if k.named {
		text = k.key
	}
	if column == "" || k.named && len(parent.kids) > 1 || !k.named && k.kind != Scalar || text[0] == '\'' || text[0] == '"' {
		return -1
	}
	if at := strings.Index(text, " "+column+" "); at > 0 {
		return at + 1
	}
	return -1
}

// whole is the line without its line break.
func (l line) whole() string {
	if l.raw && l.text == "" {
		return ""
	}
	s := strings.Repeat(" ", l.indent) + l.text
	if l.cell != "" {
		s += strings.Repeat(" ", l.pad) + l.cell
	}
	if l.note != "" {
		s += strings.Repeat(" ", l.gap) + l.note
	}
	return s
}

// alignCells pads the texts of neighbours to one width.
func alignCells(lines []line) {
	runs(lines, func(l line) (int, int) {
		if l.cell == "" {
			return -1, 0
		}
		return l.indent + columns(l.text), l.spread
	}, func(l *line, short int) { l.pad = 1 + short })
}

// alignComments pads neighbours with comments to one width, three columns at
// least in front of each comment.
func alignComments(lines []line) {
	runs(lines, func(l line) (int, int) {
		if l.note == "" {
			return -1, 0
		}
		before := l
		before.note = ""
		return columns(before.whole()), commentSpread
	}, func(l *line, short int) { l.gap = 3 + short })
}

// runs finds runs of neighbouring lines of one group whose widths lie within a
// spread, and tells each line how much it is shorter than the run's widest. A
// line of width -1 is in no run.
func runs(lines []line, width func(line) (cols, spread int), set func(*line, int)) {
	widths := make([]int, len(lines))
	for i := 0; i < len(lines); {
		w, spread := width(lines[i])
		low, high, end := w, w, i+1
		for widths[i] = w; w >= 0 && end < len(lines) && !lines[end].blank && lines[end].group == lines[i].group; end++ {
			next, _ := width(lines[end])
			if next < 0 || max(high, next)-min(low, next) > spread {
				break
			}
			widths[end], low, high = next, min(low, next), max(high, next)
		}
		for ; i < end; i++ {
			if widths[i] >= 0 {
				set(&lines[i], high-widths[i])
			}
		}
	}
}
