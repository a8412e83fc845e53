package loom

import (
	"fmt"
	"slices"
	"strings"

	"loomwright/internal/diag"
	"loomwright/internal/part"
	"loomwright/internal/sound"
)

// leads gives a pickup the leads that its code names.
func (r *resolver) leads(u *Use, f *UseFile) {
	code, at := r.code(u, f)
	if code == nil || len(u.Part.Coils) == 0 {
		return // no pickup: reported as unfit, or as a part that was not found
	}
	hasLead := map[int]bool{}
	var wrong []wrongEnd
	for _, lead := range code.Leads {
		wrong = append(wrong, r.lead(u, lead, at, hasLead)...)
	}
	for _, group := range code.Inside {
		var ends []int
		for _, name := range group {
			found := leadEnds(u.Part, name)
			if ends = append(ends, found...); found == nil {
				wrong = append(wrong, wrongEnd{"joined inside", name})
			}
		}
		u.Inside = append(u.Inside, ends)
	}
	r.misfit(u, f, at, wrong)
	r.leadsTwice(u, f, at)
	r.unknownLeads(u, code, at, hasLead)
	for i := range u.Part.Terminals {
		if !hasLead[i] {
			u.NoLead = append(u.NoLead, i)
		}
	}
}

// code finds the lead code of a pickup: written out, in the file, or on a shelf.
func (r *resolver) code(u *Use, f *UseFile) (*part.Code, diag.Span) {
	if len(f.Leads.Entries) > 0 {
		file := part.CodeFile{Leads: f.Leads, Inside: f.Inside}
		return part.ResolveCode(u.Name, &file), f.Leads.Span
	}
	if f.Code.Value == "" {
		return nil, diag.Span{}
	}
	if f.Code.Value == "unknown" {
		r.fail("lead-code", f.Code.Span, "to say that nobody knows the leads, name them by their colours").Hint = "leads: {orange: unknown, pink: unknown, bare: shield}"
		return nil, f.Code.Span
	}
	if c, ok := r.own[f.Code.Value]; ok {
		return c, f.Code.Span
	}
	c, list := r.lib.Code(f.Code.Value)
	for _, d := range list {
		if d.Code == "part-unknown" {
			d.Span = f.Code.Span
		}
		r.list.Add(d)
	}
	return c, f.Code.Span
}

// lead adds one lead, and returns the ends of it that the pickup does not have.
func (r *resolver) lead(u *Use, lead part.Lead, at diag.Span, hasLead map[int]bool) (wrong []wrongEnd) {
	out := Lead{Name: lead.Name}
	if _, clash := u.Part.Terminal(lead.Name); clash && !slices.Contains(lead.Ends, lead.Name) {
		r.fail("lead-code", at, "the lead %q has the name of a terminal of %s", lead.Name, u.Part.Name)
	}
	for _, name := range lead.Ends {
		ends := leadEnds(u.Part, name)
		if ends == nil {
			wrong = append(wrong, wrongEnd{lead.Name, name})
		}
		if name == "link" && len(ends) == 2 {
			out.May = ends // one of the two, nobody knows which
			continue
		}
		out.Ends = append(out.Ends, ends...)
	}
	for _, e := range out.Ends {
		hasLead[e] = true
	}
	u.Leads = append(u.Leads, out)
	return wrong
}

// leadsTwice warns of leads that are given a coil end which a lead before them
// is already. Two wires on one shield or cover are usual.
func (r *resolver) leadsTwice(u *Use, f *UseFile, at diag.Span) {
	first := map[int]string{}
	for _, lead := range u.Leads {
		for _, e := range lead.Ends {
			was, taken := first[e]
			if !taken {
				first[e] = lead.Name
			}
			if !taken || !isCoilEnd(u.Part, e) {
				continue
			}
			r.list.Add(diag.Diagnostic{Code: "lead-twice", Severity: diag.Warning, Span: leadSpan(f, lead.Name, at),
				Message: fmt.Sprintf("%s and %s of %s are both said to be %s", was, lead.Name, u.Name, u.Part.Terminals[e].Name), Hint: leadless(u)})
		}
	}
}

// leadless names the coil ends that no lead is.
func leadless(u *Use) string {
	has := map[int]bool{}
	for _, lead := range u.Leads {
		for _, e := range slices.Concat(lead.Ends, lead.May) {
			has[e] = true
		}
	}
	var names []string
	for _, e := range openEnds(u, has) {
		names = append(names, u.Part.Terminals[e].Name)
	}
	if len(names) == 0 {
		return ""
	}
	return "no lead is " + orList(names)
}

func isCoilEnd(p *part.Part, term int) bool {
	return slices.ContainsFunc(p.Coils, func(c part.Coil) bool { return c.Start == term || c.Finish == term })
}

// leadSpan is where a lead is written at the pickup, or where its code is named.
func leadSpan(f *UseFile, lead string, at diag.Span) diag.Span {
	for _, e := range f.Leads.Entries {
		if e.Key.Value == lead {
			return e.Key.Span
		}
	}
	return at
}

// leadEnds gives a name in a lead code its terminals: the pickup's own name, or a
// maker's word. "hot" and "ground" are the ends of the customary full sound,
// "link" the two ends joined in its middle. nil: the pickup has no such end.
func leadEnds(p *part.Part, name string) []int {
	if i, ok := p.Terminal(name); ok {
		return []int{i}
	}
	hot, link, ground := chainEnds(p)
	switch {
	case name == "hot" && hot >= 0:
		return []int{hot}
	case name == "ground" && ground >= 0:
		return []int{ground}
	case name == "link" && len(link) == 2:
		return link
	case name == "bare":
		if i, ok := p.Terminal("shield"); ok {
			return []int{i}
		}
	}
	return nil
}

// wrongEnd is a coil end that a lead code gives a lead and the pickup has not.
type wrongEnd struct{ lead, end string }

// misfit says once what of a lead code the pickup does not have.
func (r *resolver) misfit(u *Use, f *UseFile, at diag.Span, wrong []wrongEnd) {
	if len(wrong) == 0 {
		return
	}
	code := "what is written of the leads"
	if len(f.Leads.Entries) == 0 {
		code = fmt.Sprintf("the lead code %q", f.Code.Value)
	}
	var each []string
	for _, w := range wrong {
		each = append(each, fmt.Sprintf("%q (%s)", w.end, w.lead))
	}
	d := r.fail("lead-code", at, "%s does not fit %s (%s): it has no coil end %s", code, u.Name, u.Part.Name, orList(each))
	if len(wrong) == 1 {
		d.Hint = r.nearest(wrong[0].end, u.Part.TerminalNames)
	}
	if d.Hint == "" {
		d.Hint = "its leads and ends are " + strings.Join(u.Part.LeadNames(), ", ")
	}
}

// orList is "a, b or c".
func orList(words []string) string {
	last := len(words) - 1
	if last == 0 {
		return words[0]
	}
	return strings.Join(words[:last], ", ") + " or " + words[last]
}

// chainEnds returns the hot end, the two joined ends and the ground end of a
// pickup whose customary sound is one coil or two in series; −1 where winding
// or pole is unknown, or the sound is another.
func chainEnds(p *part.Part) (hot int, link []int, ground int) {
	leaves := p.Full.Leaves()
	if len(leaves) == 0 || len(leaves) > 2 || p.Full.Op == sound.Parallel {
		return -1, nil, -1
	}
	hot, ground = -1, -1
	for i, leaf := range leaves {
		c := p.Coils[p.CoilIndex(leaf.Name)]
		sign := c.Winding * c.Pole
		if sign == 0 {
			return -1, nil, -1
		}
		up, down := c.Start, c.Finish
		if (sign < 0) != leaf.Reversed {
			up, down = down, up
		}
		if i == 0 {
			hot = up
		} else {
			link = append(link, up)
		}
		if i == len(leaves)-1 {
			ground = down
		} else {
			link = append(link, down)
		}
	}
	return hot, link, ground
}

// unknownLeads lists what each unknown lead may be: the coil ends that no other
// lead is and that are not joined inside.
func (r *resolver) unknownLeads(u *Use, code *part.Code, at diag.Span, hasLead map[int]bool) {
	open := openEnds(u, hasLead)
	unknown, link := 0, 0
	for i := range u.Leads {
		l := &u.Leads[i]
		switch {
		case code.Leads[i].Unknown:
			l.May = open
			unknown++
		case len(l.May) > 0 && slices.Contains(open, l.May[0]): // else the two are joined inside
			link++
		}
		for _, t := range l.May {
			hasLead[t] = true
		}
	}
	if unknown+link > len(open) || link > 2 {
		r.fail("lead-code", at, "more leads are unknown, or are to be joined, than %s has coil ends left for them", u.Name)
	}
}

// openEnds lists the coil ends that no lead is and that are not joined inside.
func openEnds(u *Use, hasLead map[int]bool) []int {
	inside := slices.Concat(u.Inside...)
	var open []int
	for _, c := range u.Part.Coils {
		for _, t := range []int{c.Start, c.Finish} {
			if !hasLead[t] && !slices.Contains(inside, t) && !slices.Contains(open, t) {
				open = append(open, t)
			}
		}
	}
	return open
}

// ref finds a terminal as written: part.terminal, or part.lead.
func (r *resolver) ref(text string, at diag.Span) (Ref, bool) {
	ref := Ref{Terminal: -1, Lead: -1, Name: text, Span: at}
	use, terminal := cut(text)
	i, ok := r.loom.Use(use)
	if !ok {
		r.fail("join-terminal", at, "no part is called %q", use).Hint = r.nearest(text, r.terminalNames)
		return ref, false
	}
	ref.Use = i
	u := &r.loom.Uses[i]
	for k, l := range u.Leads {
		if l.Name == terminal {
			ref.Lead = k
			if len(l.Ends) > 0 {
				ref.Terminal = l.Ends[0]
			}
			return ref, true
		}
	}
	t, ok := u.Part.Terminal(terminal)
	if !ok {
		if len(u.Part.Terminals) > 0 {
			r.fail("join-terminal", at, "%s has no terminal %q", use, terminal).Hint = r.nearest(text, r.terminalNames)
		}
		return ref, false
	}
	if slices.Contains(u.NoLead, t) && u.Part.Terminals[t].Kind == "lead" {
		r.fail("join-terminal", at, "%s.%s has no lead to solder: it is joined inside the pickup, or its lead code leaves it out", use, terminal)
		return ref, false
	}
	ref.Terminal = t
	return ref, true
}

// cut splits "lever.b.3" at its first dot.
func cut(text string) (use, terminal string) {
	for i := range len(text) {
		if text[i] == '.' {
			return text[:i], text[i+1:]
		}
	}
	return text, ""
}

// terminalNames lists every name that a join may use.
func (r *resolver) terminalNames() []string {
	var out []string
	for i := range r.loom.Uses {
		u := &r.loom.Uses[i]
		for _, l := range u.Leads {
			out = append(out, u.Name+"."+l.Name)
		}
		for _, t := range u.Part.Terminals {
			out = append(out, u.Name+"."+t.Name)
		}
	}
	return out
}
