package server

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"io"
	"io/fs"
	"net/http"
	"os"
	"path"
	"slices"
	"strings"
	"sync"
)

// Bounds of what is read and saved.
const (
	maxLoom  = 4 << 20 // bytes of a loom file
	maxLooms = 500     // files listed
	maxDepth = 3       // folders below the served one
)

// Shelf is the folder beside the looms where parts of the user's own may lie.
const Shelf = "shelf"

// files are the looms of one folder. Saves go one after another, so that of two
// pages with the same mark only one saves.
type files struct {
	root   *os.Root
	saving sync.Mutex
}

// list answers with the names of the looms, sorted.
func (f *files) list(w http.ResponseWriter, _ *http.Request) {
	names := []string{}
	walk(f.root, func(p string) {
		if isLoom(p) && len(names) < maxLooms {
			names = append(names, p)
		}
	})
	slices.Sort(names)
	w.Header().Set("Content-Type", "application/json")
	_ = json.NewEncoder(w).Encode(map[string]any{"looms": names})
}

// walk visits the regular files of a folder in which looms may lie: the shelf
// and hidden folders are left out.
func walk(root *os.Root, visit func(p string)) {
	_ = fs.WalkDir(root.FS(), ".", func(p string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return nil // a folder that cannot be read shows nothing
		case d.IsDir() && p != "." && (p == Shelf || strings.HasPrefix(d.Name(), ".") || strings.Count(p, "/") >= maxDepth):
			return fs.SkipDir
		case d.Type().IsRegular():
			visit(p)
		}
		return nil
	})
}

func isLoom(p string) bool {
	return (strings.HasSuffix(p, ".yaml") || strings.HasSuffix(p, ".yml")) && !strings.HasPrefix(path.Base(p), ".")
}

// name is the loom that a request is about; "" when it is none.
func name(r *http.Request) string {
	p := r.PathValue("name")
	if !fs.ValidPath(p) || !isLoom(p) || len(p) > 500 || strings.ContainsAny(p, "\\\x00:") {
		return ""
	}
	return p
}

func (f *files) read(w http.ResponseWriter, r *http.Request) {
	data, err := f.text(name(r))
	if err != nil {
		refuse(w, err)
		return
	}
	w.Header().Set("Content-Type", "application/yaml; charset=utf-8")
	w.Header().Set("ETag", tagOf(data))
	if r.Header.Get("If-None-Match") == tagOf(data) {
		w.WriteHeader(http.StatusNotModified)
		return
	}
	_, _ = w.Write(data)
}

// text reads a whole loom file.
func (f *files) text(name string) ([]byte, error) {
	if name == "" {
		return nil, fs.ErrNotExist
	}
	file, err := f.root.Open(name)
	if err != nil {
		return nil, err
	}
	defer func() { _ = file.Close() }() // only read
	info, err := file.Stat()
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() || info.Size() > maxLoom {
		return nil, fs.ErrInvalid
	}
	return io.ReadAll(io.LimitReader(file, maxLoom))
}

// save writes a loom whole or not at all. If-Match names the text that it takes
// the place of, If-None-Match: * a file that is not there yet (RFC 9110,
// section 13.1); anything else there by now is answered with 412.
func (f *files) save(w http.ResponseWriter, r *http.Request) {
	name := name(r)
	if name == "" {
		http.Error(w, "a loom's file name ends in .yaml and stays in the folder", http.StatusBadRequest)
		return
	}
	data, err := io.ReadAll(http.MaxBytesReader(w, r.Body, maxLoom))
	if err != nil {
		http.Error(w, "this is larger than any loom file", http.StatusRequestEntityTooLarge)
		return
	}
	f.saving.Lock()
	defer f.saving.Unlock()
	switch there, err := f.text(name); {
	case err == nil && r.Header.Get("If-Match") != tagOf(there),
		errors.Is(err, fs.ErrNotExist) && r.Header.Get("If-None-Match") != "*":
		http.Error(w, "the file holds something else by now", http.StatusPreconditionFailed)
		return
	case err != nil && !errors.Is(err, fs.ErrNotExist):
		refuse(w, err)
		return
	}
	if err := f.replace(name, data); err != nil {
		refuse(w, err)
		return
	}
	w.Header().Set("ETag", tagOf(data))
	w.WriteHeader(http.StatusNoContent)
}

// replace writes a new file beside the old one and renames it over that.
func (f *files) replace(name string, data []byte) (err error) {
	temporary := path.Join(path.Dir(name), temporaryName(path.Base(name)))
	file, err := f.root.OpenFile(temporary, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			_ = f.root.Remove(temporary) // the first error is the one to tell
		}
	}()
	_, err = file.Write(data)
	if syncErr := file.Sync(); err == nil {
		err = syncErr
	}
	if closeErr := file.Close(); err == nil {
		err = closeErr
	}
	if err != nil {
		return err
	}
	return f.root.Rename(temporary, name)
}

// refuse says in words why a file is not read or saved, without paths of the
// machine.
func refuse(w http.ResponseWriter, err error) {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		http.Error(w, "there is no such loom", http.StatusNotFound)
	case errors.Is(err, fs.ErrPermission):
		http.Error(w, "this file may not be touched", http.StatusForbidden)
	default:
		http.Error(w, "this file cannot be read or saved", http.StatusInternalServerError)
	}
}

// tagOf is a strong entity tag.
func tagOf(data []byte) string {
	sum := sha256.Sum256(data)
	return `"` + hex.EncodeToString(sum[:12]) + `"`
}
