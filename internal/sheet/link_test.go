package sheet

import (
	"encoding/base64"
	"encoding/binary"
	"hash/crc32"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"loomwright/internal/oracle"
)

// What a link carries is unpacked by gzip: the same DEFLATE stream (RFC 1951)
// behind the words as a stored block, in gzip's frame (RFC 1952).
func TestLoomLink(t *testing.T) {
	tool := oracle.Need(t, "gzip")
	for _, name := range few {
		text := string(mustRead(t, name)) + "# größe 🐦\n"
		code, ok := strings.CutPrefix(LoomLink(text), "#mode=solder&loom1=")
		packed, err := base64.RawURLEncoding.DecodeString(code)
		if !ok || err != nil {
			t.Fatalf("%q: %v", code, err)
		}
		frame := []byte{0x1f, 0x8b, 8, 0, 0, 0, 0, 0, 0, 255, 0}
		frame = binary.LittleEndian.AppendUint16(frame, uint16(len(dictionary)))
		frame = binary.LittleEndian.AppendUint16(frame, ^uint16(len(dictionary)))
		frame = append(append(frame, dictionary...), packed...)
		all := string(dictionary) + text
		frame = binary.LittleEndian.AppendUint32(frame, crc32.ChecksumIEEE([]byte(all)))
		frame = binary.LittleEndian.AppendUint32(frame, uint32(len(all)))
		file := filepath.Join(t.TempDir(), "loom.gz")
		if err := os.WriteFile(file, frame, 0o600); err != nil {
			t.Fatal(err)
		}
		if got := run(t, tool, "-dc", file); got != all {
			t.Errorf("%s comes back as %q", name, got)
		}
	}
}

// Printed codes hold on to the words: they stay as they are.
func TestWordsOfLinksStay(t *testing.T) {
	if sum := crc32.ChecksumIEEE(dictionary); sum != 0xe9f51d18 {
		t.Errorf("the words of links changed (%#x): new words need a new mark beside loom1=", sum)
	}
}

// Every example fits a code, at the address of a bench of 40 bytes; but for
// those of many joins.
func TestExamplesFitACode(t *testing.T) {
	files, err := filepath.Glob("../../examples/*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatal(files, err)
	}
	large := 0
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		n := len(LoomLink(string(text)))
		t.Logf("%-40s %4d bytes", filepath.Base(file), n)
		if n > maxLink-40 {
			large++
		}
	}
	if large > 2 {
		t.Errorf("%d examples are too large for a code", large)
	}
}
