package record

// Photo is a picture that belongs to an entry. Only this stands in the log; the
// picture itself is kept by its hash, and one taken back is gone for good.
type Photo struct {
	ID     string
	Of     string // entity it belongs to
	Hash   string // SHA-256 of the picture's bytes, 64 hexadecimal digits
	Type   string // media type, image/jpeg
	Width  int64  // pixels
	Height int64
	Bytes  int64
	Who    Who
	Logger string // member whose phone logged it
	At     string
	Day    Day
}
