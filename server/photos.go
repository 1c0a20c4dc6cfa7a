package server

import (
	"bytes"
	"encoding/binary"
	"errors"
	"image/jpeg"
	"io"
	"mime"
	"net/http"
	"sync"
	"time"

	"github.com/labstack/echo/v4"

	"trayside/server/store"
	"trayside/sync/oplog"
)

// Photos is where pictures are kept, under the hash of their bytes.
// Implementations are safe for concurrent use; server/store holds two and
// storetest.RunPhotos says what all must do.
type Photos interface {
	// PutPhoto keeps a picture; it is on disk when PutPhoto returns.
	PutPhoto(home oplog.ID, body []byte) error
	// Photo gives a picture's bytes, nil if it is not kept.
	Photo(home oplog.ID, h store.PhotoHash) ([]byte, error)
	// DeletePhoto removes a picture for good; one that is not kept is no error.
	DeletePhoto(home oplog.ID, h store.PhotoHash) error
	// Photos lists what is kept, by hash.
	Photos(home oplog.ID) ([]store.PhotoSize, error)
}

// What a household may keep (our choice): a phone shrinks a picture to 400 kB at
// most, and a picture a day for five years fits.
const (
	photoMost      = 500_000     // bytes of one
	photoSide      = 4096        // px; the phone sends 1600 at most
	photoCountMost = 2000        // of a household
	photoBytesMost = 800_000_000 // of a household
)

// photoTime is how long a picture may take to come in: the largest one over
// 45 kbit/s, a cellar's connection at its worst.
const photoTime = 90 * time.Second

// album is one household's pictures.
type album struct {
	home   oplog.ID
	photos Photos
	mu     sync.Mutex // while room is looked for and taken
}

// photoList is what GET /api/v1/photos answers.
type photoList struct {
	Photos    []string `json:"photos"` // hashes
	Bytes     int64    `json:"bytes"`
	MostCount int      `json:"mostCount"`
	MostBytes int64    `json:"mostBytes"`
}

func (s *Server) listPhotos(c echo.Context) error {
	kept, err := s.album.photos.Photos(s.home.id)
	if err != nil {
		return err
	}
	list := photoList{Photos: []string{}, MostCount: photoCountMost, MostBytes: photoBytesMost}
	for _, p := range kept {
		list.Photos = append(list.Photos, p.Hash.String())
		list.Bytes += p.Bytes
	}
	return answer(c, http.StatusOK, list)
}

func photoHash(c echo.Context) (store.PhotoHash, error) {
	h, ok := store.ParsePhotoHash(c.Param("hash"))
	if !ok {
		return h, problem("not-found", "A picture's address ends in its SHA-256, 64 hexadecimal digits in lower case.")
	}
	return h, nil
}

// photo serves a picture so that it can be nothing but a picture.
func (s *Server) photo(c echo.Context) error {
	h, err := photoHash(c)
	if err != nil {
		return err
	}
	body, err := s.album.photos.Photo(s.home.id, h)
	var bad *store.Damaged
	if errors.As(err, &bad) {
		s.cfg.Log.Error("a photo went bad on disk; a phone that holds it brings it back", "hash", h.String())
		body, err = nil, s.album.photos.DeletePhoto(s.home.id, h)
	}
	if err != nil {
		return err
	}
	if body == nil {
		return problem("not-found", "This picture is not kept here; it was removed, or the phone that took it has not sent it yet.")
	}
	header := c.Response().Header()
	header.Set("Content-Security-Policy", "default-src 'none'; sandbox")
	header.Set("Cache-Control", "no-store") // phones keep pictures themselves, and let them go
	return c.Blob(http.StatusOK, "image/jpeg", body)
}

func (s *Server) putPhoto(c echo.Context) error {
	h, err := photoHash(c)
	if err != nil {
		return err
	}
	media, _, err := mime.ParseMediaType(c.Request().Header.Get(echo.HeaderContentType))
	if err != nil || media != "image/jpeg" {
		return problem("unsupported-media", "Send the picture as image/jpeg.")
	}
	// The error, if the connection knows no deadlines, changes nothing here.
	_ = http.NewResponseController(c.Response()).SetReadDeadline(time.Now().Add(photoTime))
	body, err := io.ReadAll(io.LimitReader(c.Request().Body, photoMost+1))
	if err != nil {
		return problem("bad-request", "The body could not be read to its end.")
	}
	if len(body) > photoMost {
		return problem("too-large", "The picture is larger than %d bytes; make it smaller.", photoMost)
	}
	if err := checkPhoto(body); err != nil {
		return err
	}
	if store.HashPhoto(body) != h {
		return problem("photo-hash", "The picture does not have the hash of its address: it changed on the way, or the address is another's.")
	}
	if err := s.album.put(h, body); err != nil {
		return err
	}
	return c.NoContent(http.StatusNoContent)
}

// put keeps a picture if the household has room for it.
func (a *album) put(h store.PhotoHash, body []byte) error {
	a.mu.Lock()
	defer a.mu.Unlock()
	kept, err := a.photos.Photos(a.home)
	if err != nil {
		return err
	}
	var size int64
	for _, p := range kept {
		if p.Hash == h {
			return nil
		}
		size += p.Bytes
	}
	if len(kept) >= photoCountMost || size+int64(len(body)) > photoBytesMost {
		return problem("photo-quota", "The household has %d pictures of %d MB here, which is all it may keep; remove some. What waits on the phone stays there.",
			len(kept), size/1_000_000)
	}
	return a.photos.PutPhoto(a.home, body)
}

func (s *Server) deletePhoto(c echo.Context) error {
	h, err := photoHash(c)
	if err != nil {
		return err
	}
	if err := s.album.photos.DeletePhoto(s.home.id, h); err != nil {
		return err
	}
	return c.NoContent(http.StatusNoContent)
}

// checkPhoto refuses what is no JPEG of a sensible size, and one that says more
// than it shows: a phone's camera writes place and time into its pictures.
func checkPhoto(body []byte) error {
	if http.DetectContentType(body) != "image/jpeg" {
		return problem("unsupported-media", "This is no JPEG picture.")
	}
	shape, err := jpeg.DecodeConfig(bytes.NewReader(body))
	if err != nil {
		return problem("unsupported-media", "This JPEG picture cannot be read.")
	}
	if shape.Width > photoSide || shape.Height > photoSide {
		return problem("too-large", "The picture is %d by %d pixels; send at most %d a side.", shape.Width, shape.Height, photoSide)
	}
	if tellsMore(body) {
		return problem("photo-private", "The picture carries details of where and how it was taken; send it without (Exif, XMP and IPTC removed).")
	}
	return nil
}

// tellsMore looks for Exif, XMP (both in APP1) or IPTC (APP13) in the segments
// before the picture itself (ITU-T T.81, annex B: FF, marker, length).
func tellsMore(body []byte) bool {
	const app1, app13, scan = 0xE1, 0xED, 0xDA
	for at := 2; at+4 <= len(body) && body[at] == 0xFF; {
		marker := body[at+1]
		if marker == 0xFF { // fill byte
			at++
			continue
		}
		if marker == app1 || marker == app13 {
			return true
		}
		if marker == scan {
			return false
		}
		at += 2 + int(binary.BigEndian.Uint16(body[at+2:]))
	}
	return false
}
