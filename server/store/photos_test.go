package store_test

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"trayside/server"
	"trayside/server/store"
	"trayside/server/store/storetest"
	"trayside/sync/oplog"
)

type photosOnDisk struct {
	*store.PhotoFiles
	dir string
}

func openPhotos(t testing.TB, dir string) server.Photos {
	t.Helper()
	p, err := store.OpenPhotos(dir, nil)
	if err != nil {
		t.Fatal(err)
	}
	return photosOnDisk{p, dir}
}

func TestMemoryIsAStoreOfPhotos(t *testing.T) {
	storetest.RunPhotos(t, func(testing.TB) server.Photos { return store.NewPhotoMemory() }, nil)
}

func TestAFolderIsAStoreOfPhotos(t *testing.T) {
	storetest.RunPhotos(t, func(t testing.TB) server.Photos { return openPhotos(t, filepath.Join(t.TempDir(), "photos")) },
		func(t testing.TB, p server.Photos) server.Photos { return openPhotos(t, p.(photosOnDisk).dir) })
}

var photoHome = oplog.Hash([]byte("home"))

func TestANearlyFullDiskTakesNoPhotoAndLeavesNoTrace(t *testing.T) {
	free := uint64(store.MinFree - 1)
	p, err := store.OpenPhotos(t.TempDir(), func() (uint64, error) { return free, nil })
	if err != nil {
		t.Fatal(err)
	}
	if err := p.PutPhoto(photoHome, []byte("a photo")); !errors.Is(err, store.ErrFull) {
		t.Errorf("put: %v, want ErrFull", err)
	}
	if list, err := p.Photos(photoHome); len(list) != 0 || err != nil {
		t.Errorf("photos: %v, %v; want none", list, err)
	}
	free = store.MinFree
	if err := p.PutPhoto(photoHome, []byte("a photo")); err != nil {
		t.Errorf("with room again: %v", err)
	}
}

func TestAPhotoThatWentBadIsReportedAndNeverServed(t *testing.T) {
	dir := t.TempDir()
	p := openPhotos(t, dir)
	h := store.HashPhoto([]byte("a photo"))
	if err := p.PutPhoto(photoHome, []byte("a photo")); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, photoHome.String(), h.String()+".jpg"), []byte("a phot0"), 0o600); err != nil {
		t.Fatal(err)
	}
	var bad *store.Damaged
	if body, err := p.Photo(photoHome, h); body != nil || !errors.As(err, &bad) {
		t.Errorf("photo: %q, %v; want it damaged", body, err)
	}
	if err := p.PutPhoto(photoHome, []byte("a photo")); err != nil {
		t.Fatal(err)
	}
	if body, err := p.Photo(photoHome, h); string(body) != "a photo" || err != nil {
		t.Errorf("after a phone brought it again: %q, %v", body, err)
	}
}

func TestWhatACrashLeftHalfWrittenIsTakenOut(t *testing.T) {
	dir := t.TempDir()
	p := openPhotos(t, dir)
	if err := p.PutPhoto(photoHome, []byte("a photo")); err != nil {
		t.Fatal(err)
	}
	half := filepath.Join(dir, photoHome.String(), "123.half")
	if err := os.WriteFile(half, []byte("a ph"), 0o600); err != nil {
		t.Fatal(err)
	}
	p = openPhotos(t, dir)
	if _, err := os.Stat(half); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("the half is still there: %v", err)
	}
	if list, err := p.Photos(photoHome); len(list) != 1 || err != nil {
		t.Errorf("photos: %v, %v; want the whole one", list, err)
	}
}
