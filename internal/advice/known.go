package advice

import (
	"crypto/sha256"
	"encoding/binary"

	"trayside/internal/feedstock"
	"trayside/internal/label"
)

// KnownScrap reports whether the catalogue has a scrap of that id.
func KnownScrap(id string) bool {
	_, ok := feedstock.Standard().Lookup(id)
	return ok
}

// KnownClass reports whether a scrap that the catalogue lacks can be logged
// under that class.
func KnownClass(class string) bool { return feedstock.Class(class).Known() }

// Code reads a label's code or address as typed or scanned. why is "" for a
// code, otherwise the reason (see label.Reason) and detail a sentence about it.
func Code(typed string) (code, why, detail string) {
	c, err := label.FromAddress(typed)
	if err != nil {
		return "", string(label.ReasonOf(err)), err.Error()
	}
	return string(c), "", ""
}

// NewLabel stands in a claim for a code that nobody has yet: FreshCode draws it.
const NewLabel = "new"

// FreshCode makes a label's code from random bytes, the same from the same.
func FreshCode(random []byte) string {
	draw := uint64(0)
	return string(label.Draw(func() uint64 {
		draw++
		sum := sha256.Sum256(binary.BigEndian.AppendUint64([]byte("trayside label "+string(random)), draw))
		return binary.BigEndian.Uint64(sum[:8])
	}))
}
