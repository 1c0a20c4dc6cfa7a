package server_test

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"io"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"trayside/server"
	"trayside/server/store"
	"trayside/sync/oplog"
	"trayside/sync/roster"
)

// drawn is the nth picture: a small JPEG.
func drawn(t testing.TB, n, side int) []byte {
	t.Helper()
	img := image.NewGray(image.Rect(0, 0, side, 8))
	for x := range side {
		img.SetGray(x, x%8, color.Gray{Y: uint8(40*n + x)})
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, nil); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// withSegment puts an APPn segment behind the start of a JPEG.
func withSegment(body []byte, marker byte, content string) []byte {
	n := len(content) + 2
	out := append([]byte{0xFF, 0xD8, 0xFF, marker, byte(n >> 8), byte(n)}, content...)
	return append(out, body[2:]...)
}

func at(body []byte) string { return "/api/v1/photos/" + store.HashPhoto(body).String() }

func (p *phone) putPhoto(path string, body []byte) reply {
	p.s.t.Helper()
	return p.s.do(http.MethodPut, path, p.token, bytes.NewReader(body), "Content-Type", "image/jpeg")
}

func (p *phone) photos() (list struct {
	Photos []string
	Bytes  int64
}) {
	p.s.t.Helper()
	p.s.get("/api/v1/photos", p.token).into(p.s.t, &list)
	return list
}

func wantStatus(t testing.TB, r reply, status int) {
	t.Helper()
	if r.status != status {
		t.Errorf("status %d: %s; want %d", r.status, r.body, status)
	}
}

func TestAPhotoGoesFromOnePhoneToAnotherAndAwayAgain(t *testing.T) {
	s := newSite(t)
	ada, odell := s.member("Ada's phone", roster.Keeper), s.member("Odell's phone", roster.Feeder)
	picture := drawn(t, 1, 16)
	wantStatus(t, odell.putPhoto(at(picture), picture), http.StatusNoContent)
	wantStatus(t, odell.putPhoto(at(picture), picture), http.StatusNoContent)

	got := s.get(at(picture), ada.token)
	if got.status != http.StatusOK || !bytes.Equal(got.body, picture) {
		t.Fatalf("status %d, %d bytes; want the picture", got.status, len(got.body))
	}
	for name, want := range map[string]string{
		"Content-Type": "image/jpeg", "X-Content-Type-Options": "nosniff", "Cache-Control": "no-store",
		"Content-Security-Policy": "default-src 'none'; sandbox",
	} {
		if got.header.Get(name) != want {
			t.Errorf("%s: %q, want %q", name, got.header.Get(name), want)
		}
	}
	if list := ada.photos(); !slices.Equal(list.Photos, []string{store.HashPhoto(picture).String()}) || list.Bytes != int64(len(picture)) {
		t.Errorf("list %+v, want the one picture", list)
	}

	wantStatus(t, s.do(http.MethodDelete, at(picture), odell.token, nil), http.StatusNoContent)
	wantStatus(t, s.do(http.MethodDelete, at(picture), ada.token, nil), http.StatusNoContent)
	s.get(at(picture), ada.token).refused(t, http.StatusNotFound, "not-found")
	if list := ada.photos(); len(list.Photos) != 0 || list.Bytes != 0 {
		t.Errorf("list %+v, want nothing", list)
	}
}

// slowly is a reader that takes its time over the second half.
type slowly struct {
	io.Reader
	wait time.Duration
}

func (s *slowly) Read(b []byte) (int, error) {
	n, err := s.Reader.Read(b[:min(len(b), 256)])
	time.Sleep(s.wait)
	return n, err
}

func TestAPictureMayTakeLongerThanOtherRequests(t *testing.T) {
	s := newSite(t)
	p := s.member("Ada's phone", roster.Keeper)
	web := httptest.NewUnstartedServer(s.Handler())
	web.Config.ReadTimeout = 300 * time.Millisecond
	web.Start()
	defer web.Close()
	s.url = web.URL
	picture := drawn(t, 1, 16)
	body := &slowly{bytes.NewReader(picture), 250 * time.Millisecond}
	r := s.do(http.MethodPut, at(picture), p.token, body, "Content-Type", "image/jpeg")
	wantStatus(t, r, http.StatusNoContent)
}

func TestOnlyTheHouseholdsPhonesReachItsPhotos(t *testing.T) {
	s := newSite(t)
	keeper, viewer := s.member("Ada's phone", roster.Keeper), s.member("Mentor's phone", roster.Viewer)
	picture, other := drawn(t, 1, 16), drawn(t, 2, 16)
	wantStatus(t, keeper.putPhoto(at(picture), picture), http.StatusNoContent)

	wantStatus(t, s.get(at(picture), viewer.token), http.StatusOK)
	viewer.putPhoto(at(other), other).refused(t, http.StatusForbidden, "role")
	s.do(http.MethodDelete, at(picture), viewer.token, nil).refused(t, http.StatusForbidden, "role")
	for _, method := range []string{http.MethodGet, http.MethodPut, http.MethodDelete} {
		s.do(method, at(picture), "", nil).refused(t, http.StatusUnauthorized, "no-token")
	}
	s.get("/api/v1/photos", "").refused(t, http.StatusUnauthorized, "no-token")
	wantStatus(t, s.get(at(picture), keeper.token), http.StatusOK)
}

func TestWhatIsNoPlainJPEGIsRefused(t *testing.T) {
	s := newSite(t)
	p := s.member("Ada's phone", roster.Keeper)
	picture := drawn(t, 1, 16)
	png := []byte("\x89PNG\r\n\x1a\n and so on")
	cut := picture[:20]
	wide := drawn(t, 1, 4097)
	exif := withSegment(picture, 0xE1, "Exif\x00\x00II*\x00 at home")
	xmp := withSegment(picture, 0xE1, "http://ns.adobe.com/xap/1.0/\x00<x/>")
	iptc := withSegment(picture, 0xED, "Photoshop 3.0\x00 a place's name")
	behind := withSegment(exif, 0xE0, "JFIF\x00\x01\x02\x00\x00\x01\x00\x01\x00\x00")
	long := withSegment(picture, 0xE0, strings.Repeat("x", 60_000))
	for range 8 {
		long = withSegment(long, 0xE0, strings.Repeat("x", 60_000))
	}
	for _, tt := range []struct {
		name   string
		body   []byte
		path   string
		status int
		code   string
	}{
		{"a PNG", png, at(png), http.StatusUnsupportedMediaType, "unsupported-media"},
		{"a page that calls itself JPEG", []byte("<html>"), at([]byte("<html>")), http.StatusUnsupportedMediaType, "unsupported-media"},
		{"nothing", nil, at(nil), http.StatusUnsupportedMediaType, "unsupported-media"},
		{"a JPEG that ends too soon", cut, at(cut), http.StatusUnsupportedMediaType, "unsupported-media"},
		{"more pixels than a phone sends", wide, at(wide), http.StatusRequestEntityTooLarge, "too-large"},
		{"more bytes than a phone sends", long, at(long), http.StatusRequestEntityTooLarge, "too-large"},
		{"Exif", exif, at(exif), http.StatusUnprocessableEntity, "photo-private"},
		{"Exif behind another segment", behind, at(behind), http.StatusUnprocessableEntity, "photo-private"},
		{"XMP", xmp, at(xmp), http.StatusUnprocessableEntity, "photo-private"},
		{"IPTC", iptc, at(iptc), http.StatusUnprocessableEntity, "photo-private"},
		{"another picture's address", picture, at(cut), http.StatusUnprocessableEntity, "photo-hash"},
		{"no address of a picture", picture, "/api/v1/photos/ABC", http.StatusNotFound, "not-found"},
		{"an address in upper case", picture, "/api/v1/photos/" + strings.ToUpper(store.HashPhoto(picture).String()), http.StatusNotFound, "not-found"},
	} {
		t.Run(tt.name, func(t *testing.T) { p.putPhoto(tt.path, tt.body).refused(t, tt.status, tt.code) })
	}
	s.do(http.MethodPut, at(picture), p.token, bytes.NewReader(picture), "Content-Type", "text/plain").
		refused(t, http.StatusUnsupportedMediaType, "unsupported-media")
	if list := p.photos(); len(list.Photos) != 0 {
		t.Errorf("kept %v, want nothing", list.Photos)
	}
}

func TestAHouseholdKeepsNoMorePhotosThanItMay(t *testing.T) {
	photos := &countless{PhotoMemory: store.NewPhotoMemory()}
	s := newSite(t, func(c *server.Config) { c.Photos = photos })
	p := s.member("Ada's phone", roster.Keeper)
	picture, held := drawn(t, 1, 16), drawn(t, 2, 16)
	wantStatus(t, p.putPhoto(at(held), held), http.StatusNoContent)
	for _, tt := range []struct {
		name  string
		count int
		bytes int64
		code  string
	}{
		{"one more fits", 1998, 10, ""},
		{"too many", 1999, 10, "photo-quota"},
		{"too much", 3, 800_000_000, "photo-quota"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			photos.count, photos.bytes = tt.count, tt.bytes
			r := p.putPhoto(at(picture), picture)
			if tt.code != "" {
				r.refused(t, http.StatusInsufficientStorage, tt.code)
				// What is kept already takes no room.
				wantStatus(t, p.putPhoto(at(held), held), http.StatusNoContent)
				return
			}
			wantStatus(t, r, http.StatusNoContent)
			wantStatus(t, s.do(http.MethodDelete, at(picture), p.token, nil), http.StatusNoContent)
		})
	}
}

// countless says that it keeps more than it does.
type countless struct {
	*store.PhotoMemory
	count int
	bytes int64
}

func (c *countless) Photos(home oplog.ID) ([]store.PhotoSize, error) {
	list, err := c.PhotoMemory.Photos(home)
	for n := range c.count {
		list = append(list, store.PhotoSize{Hash: store.HashPhoto(fmt.Append(nil, n)), Bytes: c.bytes / int64(c.count)})
	}
	return list, err
}

func TestAFullDiskRefusesAPhotoAsItRefusesEntries(t *testing.T) {
	files, err := store.OpenPhotos(filepath.Join(t.TempDir(), "photos"), func() (uint64, error) { return 0, nil })
	if err != nil {
		t.Fatal(err)
	}
	s := newSite(t, func(c *server.Config) { c.Photos = files })
	p := s.member("Ada's phone", roster.Keeper)
	picture := drawn(t, 1, 16)
	p.putPhoto(at(picture), picture).refused(t, http.StatusInsufficientStorage, "no-space")
}

func TestAPhotoThatWentBadIsDroppedSoThatAPhoneBringsItAgain(t *testing.T) {
	bad := &spoiled{PhotoMemory: store.NewPhotoMemory()}
	s := newSite(t, func(c *server.Config) { c.Photos = bad })
	p := s.member("Ada's phone", roster.Keeper)
	picture := drawn(t, 1, 16)
	wantStatus(t, p.putPhoto(at(picture), picture), http.StatusNoContent)
	s.get(at(picture), p.token).refused(t, http.StatusNotFound, "not-found")
	if list := p.photos(); len(list.Photos) != 0 {
		t.Errorf("kept %v, want nothing: the phone would not bring it again", list.Photos)
	}
}

type spoiled struct{ *store.PhotoMemory }

func (*spoiled) Photo(oplog.ID, store.PhotoHash) ([]byte, error) {
	return nil, errors.Join(errors.New("read"), &store.Damaged{What: "photo"})
}
