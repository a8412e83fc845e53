package server

import (
	"encoding/json"
	"io/fs"
	"net/http"
	"strings"
)

// Bounds of a shelf that is served.
const (
	maxShelf      = 2 << 20 // bytes of all files together
	maxShelfFiles = 400
)

// shelf answers with the part files and lead codes of the user's shelf, by
// path: the page's core reads parts there before its own library.
func shelf(parts fs.FS) http.HandlerFunc {
	return func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "application/json")
		w.Header().Set("Cache-Control", "no-store")
		_ = json.NewEncoder(w).Encode(map[string]any{"files": shelved(parts)})
	}
}

// shelved reads a shelf; what is too large, or cannot be read, is left out.
func shelved(parts fs.FS) map[string]string {
	out, size := map[string]string{}, 0
	if parts == nil {
		return out
	}
	_ = fs.WalkDir(parts, ".", func(p string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return nil // a folder that cannot be read shows nothing
		case d.IsDir() && p != "." && (strings.HasPrefix(d.Name(), ".") || strings.Count(p, "/") >= maxDepth):
			return fs.SkipDir
		case !strings.HasSuffix(p, ".yaml") || !d.Type().IsRegular() || len(out) >= maxShelfFiles:
			return nil
		}
		info, err := d.Info()
		if err != nil || size+int(min(info.Size(), maxShelf)) > maxShelf {
			return nil
		}
		if data, err := fs.ReadFile(parts, p); err == nil {
			out[p] = string(data)
			size += len(data)
		}
		return nil
	})
	return out
}
