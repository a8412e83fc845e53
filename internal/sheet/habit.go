package sheet

// Say is the document with every text put through say: a country's habit of
// words. Drawings keep the words that they were drawn with.
func (d Document) Say(say func(string) string) Document {
	out := d
	out.Blocks = nil
	for _, b := range d.Blocks {
		out.Blocks = append(out.Blocks, said(b, say))
	}
	return out
}

func said(b Block, say func(string) string) Block {
	switch b := b.(type) {
	case Heading:
		b.Text = say(b.Text)
		return b
	case Paragraph:
		b.Text = say(b.Text)
		return b
	case List:
		b.Items = each(b.Items, say)
		return b
	case Table:
		return saidTable(b, say)
	case Figure:
		b.Caption = say(b.Caption)
		return b
	case Step:
		b.Do, b.Good, b.Notes = say(b.Do), say(b.Good), each(b.Notes, say)
		return b
	case Reading:
		return saidReading(b, say)
	}
	return b
}

func saidTable(t Table, say func(string) string) Table {
	t.Heads = each(t.Heads, say)
	rows := t.Rows
	t.Rows = nil
	for _, r := range rows {
		var cells []Cell
		for _, c := range r {
			c.Text = say(c.Text)
			cells = append(cells, c)
		}
		t.Rows = append(t.Rows, cells)
	}
	return t
}

func saidReading(r Reading, say func(string) string) Reading {
	r.Title = say(r.Title)
	takes := r.Takes
	r.Takes = nil
	for _, t := range takes {
		t.Stand, t.Do, t.Right = say(t.Stand), say(t.Do), say(t.Right)
		r.Takes = append(r.Takes, t)
	}
	return r
}

// each is a list with every text put through say; none stays none.
func each(list []string, say func(string) string) []string {
	var out []string
	for _, s := range list {
		out = append(out, say(s))
	}
	return out
}
