package server

import (
	"crypto/rand"
	"os"
	"path"
	"regexp"
	"time"
)

// temporaryName is a fresh name for the file that a save writes first.
func temporaryName(loom string) string { return "." + loom + "." + rand.Text()[:8] + ".tmp" }

// temporary matches the names of temporaryName and no others.
var temporary = regexp.MustCompile(`^\.[^.].*\.ya?ml\.[A-Z2-7]{8}\.tmp$`)

// staleAfter is longer than any save takes: a younger file may be that of
// another server that saves just now.
const staleAfter = time.Minute

// Sweep removes what a server that was killed in the middle of a save left
// behind below a folder. What it cannot remove, it leaves.
func Sweep(folder *os.Root, now time.Time) {
	walk(folder, func(p string) {
		if !temporary.MatchString(path.Base(p)) {
			return
		}
		if info, err := folder.Lstat(p); err == nil && info.Mode().IsRegular() && now.Sub(info.ModTime()) > staleAfter {
			_ = folder.Remove(p)
		}
	})
}
