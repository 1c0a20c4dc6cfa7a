package storetest

import (
	"bytes"
	"fmt"
	"slices"
	"sync"
	"testing"

	"trayside/server"
	"trayside/server/store"
	"trayside/sync/oplog"
)

// RunPhotos runs what every store of photos must do. open makes an empty one for
// one test; reopen, nil for one that forgets, opens what it kept.
func RunPhotos(t *testing.T, open func(testing.TB) server.Photos, reopen func(testing.TB, server.Photos) server.Photos) {
	tests := map[string]func(*testing.T, server.Photos){
		"a photo comes back byte for byte under its hash":        photoComesBack,
		"keeping a photo twice keeps one":                        photoOnce,
		"a removed photo is gone, and can come again":            photoRemoved,
		"what is not kept is neither found nor missed":           photoUnknown,
		"households do not see each other's photos":              photosApart,
		"many writers and removers at once leave what they said": photosInParallel,
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) { test(t, open(t)) })
	}
	if reopen == nil {
		return
	}
	t.Run("photos are there after a restart, removed ones are not", func(t *testing.T) {
		p := open(t)
		stays, goes := photo(1), photo(2)
		putPhotos(t, p, home, stays, goes)
		ok(t, p.DeletePhoto(home, store.HashPhoto(goes)))
		wantPhotos(t, reopen(t, p), home, stays)
	})
}

// photo makes the nth photo; no store looks into it.
func photo(n int) []byte { return bytes.Repeat(fmt.Appendf(nil, "photo %d ", n), 1+n) }

func putPhotos(t testing.TB, p server.Photos, home oplog.ID, bodies ...[]byte) {
	t.Helper()
	for _, b := range bodies {
		ok(t, p.PutPhoto(home, b))
	}
}

// wantPhotos holds list and content against the photos that should be there.
func wantPhotos(t testing.TB, p server.Photos, home oplog.ID, bodies ...[]byte) {
	t.Helper()
	var want []store.PhotoSize
	for _, b := range bodies {
		h := store.HashPhoto(b)
		want = append(want, store.PhotoSize{Hash: h, Bytes: int64(len(b))})
		got, err := p.Photo(home, h)
		ok(t, err)
		if !bytes.Equal(got, b) {
			t.Errorf("photo %v is %q, want %q", h, got, b)
		}
	}
	slices.SortFunc(want, func(a, b store.PhotoSize) int { return bytes.Compare(a.Hash[:], b.Hash[:]) })
	got, err := p.Photos(home)
	ok(t, err)
	if !slices.Equal(got, want) {
		t.Errorf("photos are %v, want %v", got, want)
	}
}

func photoComesBack(t *testing.T, p server.Photos) {
	a, b := photo(1), photo(2)
	putPhotos(t, p, home, a, b)
	wantPhotos(t, p, home, a, b)
}

func photoOnce(t *testing.T, p server.Photos) {
	putPhotos(t, p, home, photo(1), photo(1))
	wantPhotos(t, p, home, photo(1))
}

func photoRemoved(t *testing.T, p server.Photos) {
	gone := store.HashPhoto(photo(1))
	putPhotos(t, p, home, photo(1), photo(2))
	ok(t, p.DeletePhoto(home, gone))
	wantPhotos(t, p, home, photo(2))
	if b, err := p.Photo(home, gone); b != nil || err != nil {
		t.Errorf("removed photo: %q, %v; want nothing", b, err)
	}
	putPhotos(t, p, home, photo(1))
	wantPhotos(t, p, home, photo(1), photo(2))
}

func photoUnknown(t *testing.T, p server.Photos) {
	h := store.HashPhoto(photo(9))
	if b, err := p.Photo(home, h); b != nil || err != nil {
		t.Errorf("unknown photo: %q, %v; want nothing", b, err)
	}
	ok(t, p.DeletePhoto(home, h))
	wantPhotos(t, p, home)
}

func photosApart(t *testing.T, p server.Photos) {
	other := oplog.Hash([]byte("other"))
	putPhotos(t, p, home, photo(1))
	putPhotos(t, p, other, photo(1), photo(2))
	ok(t, p.DeletePhoto(other, store.HashPhoto(photo(1))))
	wantPhotos(t, p, home, photo(1))
	wantPhotos(t, p, other, photo(2))
}

func photosInParallel(t *testing.T, p server.Photos) {
	var all sync.WaitGroup
	for n := range 8 {
		all.Go(func() {
			for range 5 {
				if err := p.PutPhoto(home, photo(n)); err != nil {
					t.Errorf("put: %v", err)
				}
				if n%2 == 0 {
					if err := p.DeletePhoto(home, store.HashPhoto(photo(n))); err != nil {
						t.Errorf("remove: %v", err)
					}
				}
			}
		})
	}
	all.Wait()
	wantPhotos(t, p, home, photo(1), photo(3), photo(5), photo(7))
}
