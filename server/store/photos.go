package store

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"

	"trayside/sync/oplog"
)

// PhotoHash names a photo: the SHA-256 of its bytes.
type PhotoHash [sha256.Size]byte

// HashPhoto returns the name of a photo.
func HashPhoto(body []byte) PhotoHash { return sha256.Sum256(body) }

// ParsePhotoHash reads 64 hexadecimal digits in lower case.
func ParsePhotoHash(s string) (h PhotoHash, ok bool) {
	b, err := hex.DecodeString(s)
	if err != nil || len(b) != len(h) || hex.EncodeToString(b) != s {
		return h, false
	}
	return PhotoHash(b), true
}

// String is 64 hexadecimal digits.
func (h PhotoHash) String() string { return hex.EncodeToString(h[:]) }

// PhotoSize is how much a photo takes.
type PhotoSize struct {
	Hash  PhotoHash
	Bytes int64
}

func sortedPhotos(list []PhotoSize) []PhotoSize {
	slices.SortFunc(list, func(a, b PhotoSize) int { return strings.Compare(a.Hash.String(), b.Hash.String()) })
	return list
}

// PhotoFiles keeps photos as files, dir/HOUSEHOLD/HASH.jpg: a database would
// rewrite hundreds of kilobytes whenever it tidies, and would go on holding for
// a while what was removed. It is safe for concurrent use.
type PhotoFiles struct {
	dir  string
	free func() (uint64, error)
	mu   sync.Mutex // one writer: a half-written name is never another's
}

const photoExt = ".jpg"

// OpenPhotos opens the folder, makes it if it is missing, and takes out what a
// crash left half written. free tells the disk space left in bytes; nil asks the
// system.
func OpenPhotos(dir string, free func() (uint64, error)) (*PhotoFiles, error) {
	if free == nil {
		free = func() (uint64, error) { return freeSpace(dir) }
	}
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return nil, fmt.Errorf("store: make the folder of photos: %w", err)
	}
	halves, err := filepath.Glob(filepath.Join(dir, "*", "*"+halfExt))
	for _, half := range halves {
		err = errors.Join(err, os.Remove(half))
	}
	if err != nil {
		return nil, fmt.Errorf("store: tidy the folder of photos: %w", err)
	}
	return &PhotoFiles{dir: dir, free: free}, nil
}

const halfExt = ".half"

func (p *PhotoFiles) path(home oplog.ID, h PhotoHash) string {
	return filepath.Join(p.dir, home.String(), h.String()+photoExt)
}

// PutPhoto keeps a photo; it is on disk when PutPhoto returns. Keeping one twice
// changes nothing.
func (p *PhotoFiles) PutPhoto(home oplog.ID, body []byte) error {
	free, err := p.free()
	if err != nil {
		return fmt.Errorf("store: ask for the disk space left: %w", err)
	}
	if free < MinFree {
		return ErrFull
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	at := p.path(home, HashPhoto(body))
	if err := os.MkdirAll(filepath.Dir(at), 0o700); err != nil {
		return fmt.Errorf("store: make the household's folder of photos: %w", err)
	}
	f, err := os.CreateTemp(filepath.Dir(at), "*"+halfExt)
	if err != nil {
		return fmt.Errorf("store: put a photo: %w", err)
	}
	_, err = f.Write(body)
	if err = errors.Join(err, f.Sync(), f.Close()); err == nil {
		err = os.Rename(f.Name(), at)
	}
	if err != nil {
		return fmt.Errorf("store: put a photo: %w", errors.Join(err, os.Remove(f.Name())))
	}
	return syncFolder(filepath.Dir(at))
}

// Photo returns a photo's bytes, nil if it is not kept. One whose bytes went bad
// is a *Damaged and is never served.
func (p *PhotoFiles) Photo(home oplog.ID, h PhotoHash) ([]byte, error) {
	body, err := os.ReadFile(p.path(home, h))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, fmt.Errorf("store: read a photo: %w", err)
	}
	if HashPhoto(body) != h {
		return nil, &Damaged{What: "photo"}
	}
	return body, nil
}

// DeletePhoto removes a photo for good. Removing what is not kept is no error.
func (p *PhotoFiles) DeletePhoto(home oplog.ID, h PhotoHash) error {
	p.mu.Lock()
	defer p.mu.Unlock()
	err := os.Remove(p.path(home, h))
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return fmt.Errorf("store: remove a photo: %w", err)
	}
	return syncFolder(filepath.Join(p.dir, home.String()))
}

// Photos lists what is kept, by hash.
func (p *PhotoFiles) Photos(home oplog.ID) ([]PhotoSize, error) {
	entries, err := os.ReadDir(filepath.Join(p.dir, home.String()))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, fmt.Errorf("store: list photos: %w", err)
	}
	var list []PhotoSize
	for _, e := range entries {
		name, is := strings.CutSuffix(e.Name(), photoExt)
		h, ok := ParsePhotoHash(name)
		if !is || !ok {
			continue
		}
		info, err := e.Info()
		if errors.Is(err, fs.ErrNotExist) {
			continue // removed meanwhile
		}
		if err != nil {
			return nil, fmt.Errorf("store: list photos: %w", err)
		}
		list = append(list, PhotoSize{h, info.Size()})
	}
	return sortedPhotos(list), nil
}

// syncFolder makes what was renamed or removed in a folder outlast a power cut.
// Windows has no such call and needs none.
func syncFolder(dir string) error {
	f, err := os.Open(dir)
	if err != nil {
		return fmt.Errorf("store: open a folder of photos: %w", err)
	}
	defer f.Close()
	if err := f.Sync(); err != nil && !errors.Is(err, fs.ErrPermission) && !errors.Is(err, fs.ErrInvalid) {
		return fmt.Errorf("store: write a folder of photos down: %w", err)
	}
	return nil
}

// PhotoMemory is a store of photos that forgets everything when the process ends.
type PhotoMemory struct {
	mu     sync.RWMutex
	photos map[oplog.ID]map[PhotoHash][]byte
}

// NewPhotoMemory makes an empty one.
func NewPhotoMemory() *PhotoMemory {
	return &PhotoMemory{photos: map[oplog.ID]map[PhotoHash][]byte{}}
}

// PutPhoto: see PhotoFiles.
func (m *PhotoMemory) PutPhoto(home oplog.ID, body []byte) error {
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.photos[home] == nil {
		m.photos[home] = map[PhotoHash][]byte{}
	}
	m.photos[home][HashPhoto(body)] = slices.Clone(body)
	return nil
}

// Photo: see PhotoFiles.
func (m *PhotoMemory) Photo(home oplog.ID, h PhotoHash) ([]byte, error) {
	m.mu.RLock()
	defer m.mu.RUnlock()
	return slices.Clone(m.photos[home][h]), nil
}

// DeletePhoto: see PhotoFiles.
func (m *PhotoMemory) DeletePhoto(home oplog.ID, h PhotoHash) error {
	m.mu.Lock()
	defer m.mu.Unlock()
	delete(m.photos[home], h)
	return nil
}

// Photos: see PhotoFiles.
func (m *PhotoMemory) Photos(home oplog.ID) ([]PhotoSize, error) {
	m.mu.RLock()
	defer m.mu.RUnlock()
	var list []PhotoSize
	for h, body := range maps.All(m.photos[home]) {
		list = append(list, PhotoSize{h, int64(len(body))})
	}
	return sortedPhotos(list), nil
}
