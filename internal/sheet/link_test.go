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

// What a link carries is unpacked by gzip: the same DEFLATE stream (RFC 1951) in
// gzip's frame (RFC 1952).
func TestLoomLink(t *testing.T) {
	tool := oracle.Need(t, "gzip")
	for _, name := range few {
		text := string(mustRead(t, name)) + "# größe 🐦\n"
		code, ok := strings.CutPrefix(LoomLink(text), "#mode=solder&loom=")
		packed, err := base64.RawURLEncoding.DecodeString(code)
		if !ok || err != nil {
			t.Fatalf("%q: %v", code, err)
		}
		frame := append([]byte{0x1f, 0x8b, 8, 0, 0, 0, 0, 0, 0, 255}, packed...)
		frame = binary.LittleEndian.AppendUint32(frame, crc32.ChecksumIEEE([]byte(text)))
		frame = binary.LittleEndian.AppendUint32(frame, uint32(len(text)))
		file := filepath.Join(t.TempDir(), "loom.gz")
		if err := os.WriteFile(file, frame, 0o600); err != nil {
			t.Fatal(err)
		}
		if got := run(t, tool, "-dc", file); got != text {
			t.Errorf("%s comes back as %q", name, got)
		}
	}
}
