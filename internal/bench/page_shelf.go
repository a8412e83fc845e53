package bench

import (
	"io"
	"io/fs"
	"path"
	"slices"
	"strings"
	"time"

	"loomwright/internal/part"
)

// Shelve puts part files of the user's own before the library, as --shelf does
// on the command line; nil takes them away again.
func (d *Desk) Shelve(files map[string]string) {
	*d = Desk{bench: New()}
	if len(files) > 0 {
		d.bench = New(part.Shelf{Name: "shelf", FS: texts(files)})
	}
}

// texts are files by path, as a file system that holds nothing else.
type texts map[string]string

// Open finds a file, or a folder above one.
func (t texts) Open(name string) (fs.File, error) {
	if text, ok := t[name]; ok && fs.ValidPath(name) {
		return &textFile{textInfo{path.Base(name), int64(len(text)), 0}, strings.NewReader(text)}, nil
	}
	if entries, _ := t.ReadDir(name); len(entries) > 0 {
		return &textFile{textInfo{path.Base(name), 0, fs.ModeDir}, strings.NewReader("")}, nil
	}
	return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
}

// ReadDir lists what lies in a folder, sorted.
func (t texts) ReadDir(name string) ([]fs.DirEntry, error) {
	seen := map[string]textInfo{}
	for p, text := range t {
		rest, inside := strings.CutPrefix(p, name+"/")
		if name == "." {
			rest, inside = p, true
		}
		if !inside || !fs.ValidPath(p) {
			continue
		}
		first, _, deeper := strings.Cut(rest, "/")
		info := textInfo{first, int64(len(text)), 0}
		if deeper {
			info = textInfo{first, 0, fs.ModeDir}
		}
		seen[first] = info
	}
	var out []fs.DirEntry
	for _, info := range seen {
		out = append(out, fs.FileInfoToDirEntry(info))
	}
	slices.SortFunc(out, func(a, b fs.DirEntry) int { return strings.Compare(a.Name(), b.Name()) })
	return out, nil
}

type textInfo struct {
	name string
	size int64
	mode fs.FileMode
}

func (i textInfo) Name() string       { return i.name }
func (i textInfo) Size() int64        { return i.size }
func (i textInfo) Mode() fs.FileMode  { return i.mode | 0o444 }
func (i textInfo) ModTime() time.Time { return time.Time{} }
func (i textInfo) IsDir() bool        { return i.mode.IsDir() }
func (i textInfo) Sys() any           { return nil }

type textFile struct {
	info textInfo
	io.Reader
}

func (f *textFile) Stat() (fs.FileInfo, error) { return f.info, nil }
func (f *textFile) Close() error               { return nil }
