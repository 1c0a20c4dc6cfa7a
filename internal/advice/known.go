package advice

import (
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
