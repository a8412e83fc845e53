package pdf

import (
	"encoding/binary"
	"slices"
)

// truetype is the tables of a TrueType font (ISO/IEC 14496-22). Only fonts
// that are compiled in are read, so that nothing in them is doubted.
type truetype map[string][]byte

var be = binary.BigEndian

func tablesOf(ttf []byte) truetype {
	t := truetype{}
	for i := range int(be.Uint16(ttf[4:])) {
		entry := ttf[12+16*i:]
		from := be.Uint32(entry[8:])
		t[string(entry[:4])] = ttf[from : from+be.Uint32(entry[12:])]
	}
	return t
}

// glyph is the outline of one glyph; empty for a space.
func (t truetype) glyph(id int) []byte {
	at := func(i int) int {
		if be.Uint16(t["head"][50:]) == 0 {
			return 2 * int(be.Uint16(t["loca"][2*i:]))
		}
		return int(be.Uint32(t["loca"][4*i:]))
	}
	return t["glyf"][at(id):at(id+1)]
}

// advance is in units of the font.
func (t truetype) advance(id int) int {
	last := int(be.Uint16(t["hhea"][34:])) - 1
	return int(be.Uint16(t["hmtx"][4*min(id, last):]))
}

// subset is a font with the outlines of some glyphs, and of the box for what
// is missing, under their old numbers; all others are empty. No glyph of the Go
// fonts is made of others.
func (t truetype) subset(ids []int) []byte {
	used := map[int]bool{0: true}
	for _, id := range ids {
		used[id] = true
	}
	out := truetype{"hmtx": slices.Clone(t["hmtx"]), "head": slices.Clone(t["head"])}
	for _, tag := range []string{"cvt ", "fpgm", "hhea", "maxp", "prep"} {
		out[tag] = t[tag]
	}
	metrics := int(be.Uint16(t["hhea"][34:]))
	for id := range int(be.Uint16(t["maxp"][4:])) {
		out["loca"] = be.AppendUint32(out["loca"], uint32(len(out["glyf"])))
		if used[id] {
			out["glyf"] = append(out["glyf"], t.glyph(id)...)
		} else if id < metrics-1 {
			clear(out["hmtx"][4*id : 4*id+4])
		}
		for len(out["glyf"])%4 != 0 {
			out["glyf"] = append(out["glyf"], 0)
		}
	}
	out["loca"] = be.AppendUint32(out["loca"], uint32(len(out["glyf"])))
	be.PutUint16(out["head"][50:], 1) // long offsets
	return out.file()
}

// file writes the tables as a font file.
func (t truetype) file() []byte {
	var tags []string
	for tag := range t {
		tags = append(tags, tag)
	}
	slices.Sort(tags)
	count, log := uint16(len(tags)), uint16(0)
	for 2<<log <= count {
		log++
	}
	dir := be.AppendUint32(nil, 0x00010000)
	for _, v := range []uint16{count, 16 << log, log, 16*count - 16<<log} {
		dir = be.AppendUint16(dir, v)
	}
	var body []byte
	be.PutUint32(t["head"][8:], 0)
	for _, tag := range tags {
		dir = append(dir, tag...)
		for _, v := range []uint32{checksum(t[tag]), uint32(12 + 16*len(tags) + len(body)), uint32(len(t[tag]))} {
			dir = be.AppendUint32(dir, v)
		}
		body = append(body, t[tag]...)
		for len(body)%4 != 0 {
			body = append(body, 0)
		}
	}
	out := append(dir, body...)
	be.PutUint32(out[12+16*len(tags)+headAt(t, tags)+8:], 0xb1b0afba-checksum(out))
	return out
}

// headAt is where the head table begins behind the directory.
func headAt(t truetype, tags []string) int {
	at := 0
	for _, tag := range tags {
		if tag == "head" {
			break
		}
		at += (len(t[tag]) + 3) &^ 3
	}
	return at
}

// checksum is the sum of a table's 32-bit words.
func checksum(table []byte) uint32 {
	var sum uint32
	for i, b := range table {
		sum += uint32(b) << (24 - 8*(i%4))
	}
	return sum
}
