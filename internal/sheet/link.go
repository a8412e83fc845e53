package sheet

import (
	"bytes"
	"compress/flate"
	_ "embed" // the words of links
	"encoding/base64"
	"net/url"
	"path"
	"strings"
)

// Link is what the code on the sheet leads to: Base, the address of a bench
// page, and behind it the loom itself, or the name of its file where that is too
// long.
type Link struct{ Base, Loom, File string }

// dictionary is the preset dictionary of links: text as looms have it. Printed codes
// need it as it is for good: other words get a file and a mark of their own.
//
//go:embed words-1.txt
var dictionary []byte

// LoomLink is the part of an address that carries a loom file to the bench page,
// opened at its solder steps: DEFLATE (RFC 1951) that begins as if that had
// just been packed, in base64url (RFC 4648, section 5) behind the mark.
func LoomLink(text string) string {
	var packed bytes.Buffer
	w, err := flate.NewWriterDict(&packed, flate.BestCompression, dictionary)
	if err != nil {
		return "" // the level is a valid one
	}
	if _, err := w.Write([]byte(text)); err != nil || w.Close() != nil {
		return "" // a buffer takes everything
	}
	return solderMode + "loom1=" + base64.RawURLEncoding.EncodeToString(packed.Bytes())
}

const solderMode = "#mode=solder&"

// address is where the code leads, and what that is in words.
func (l Link) address() (text, says string) {
	if text = l.Base + l.Loom; l.Loom != "" && len(text) <= maxLink {
		return text, "this loom on the bench's page"
	}
	file := path.Base(strings.ReplaceAll(l.File, `\`, "/"))
	return l.Base + solderMode + "file=" + url.QueryEscape(file), "on the bench's page: " + file
}
