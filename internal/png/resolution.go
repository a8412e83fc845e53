package png

import (
	"encoding/binary"
	"hash/crc32"
	"math"
)

// afterHeader is where the first chunk after IHDR starts: 8 bytes of signature
// and 25 of IHDR.
const afterHeader = 33

// withResolution adds a pHYs chunk (PNG specification, 11.3.5.3) to a PNG file,
// so that printing keeps the scale.
func withResolution(file []byte, dpi float64) []byte {
	chunk := make([]byte, 0, 21)
	chunk = binary.BigEndian.AppendUint32(chunk, 9)
	chunk = append(chunk, "pHYs"...)
	perMetre := uint32(math.Round(dpi / 0.0254))
	chunk = binary.BigEndian.AppendUint32(chunk, perMetre)
	chunk = binary.BigEndian.AppendUint32(chunk, perMetre)
	chunk = append(chunk, 1) // the unit is the metre
	chunk = binary.BigEndian.AppendUint32(chunk, crc32.ChecksumIEEE(chunk[4:]))
	out := make([]byte, 0, len(file)+len(chunk))
	out = append(out, file[:afterHeader]...)
	out = append(out, chunk...)
	return append(out, file[afterHeader:]...)
}
