package oplog

import "fmt"

// Codes of an Invalid.
const (
	TooBig   = "too-big"   // more than MaxBytes
	NotJSON  = "not-json"  // no JSON object in UTF-8
	Missing  = "missing"   // a member that every operation has is not there
	BadField = "bad-field" // a member of the wrong type, size or form
	Twice    = "twice"     // the same member twice: readers would differ about which counts
)

// Invalid says why a text is no operation.
type Invalid struct {
	Code   string // one of the codes above
	Field  string // member concerned, "set.grams" for one inside set; empty for the text as a whole
	Detail string
}

func (e *Invalid) Error() string {
	if e.Field == "" {
		return fmt.Sprintf("oplog: the operation %s", e.Detail)
	}
	return fmt.Sprintf("oplog: %s %s", e.Field, e.Detail)
}

func invalid(code, field, detail string) *Invalid {
	return &Invalid{Code: code, Field: field, Detail: detail}
}
