package exchange

import (
	"trayside/sync/digest"
	"trayside/sync/oplog"
)

// Where the messages are posted.
const (
	PathExchange  = "/api/v1/exchange"
	PathReconcile = "/api/v1/reconcile"
)

// Bounds of a message. A request beyond them is answered with status 413.
const (
	MaxOps       = 500       // operations in one message, and ids wanted in one request
	MaxOpBytes   = 384 << 10 // bytes of operations in one message; quoted and wrapped they stay below MaxWireBytes for texts such as people write
	MaxWireBytes = 512 << 10 // bytes of a request body as sent
	MaxBodyBytes = 2 << 20   // bytes of a request body after decompression
	MaxMonths    = 12        // months whose days are asked for in one request
	MaxDays      = 16        // days whose parts are asked for in one request
	MaxScopes    = 256       // days or parts whose ids are asked for in one request
	PageIDs      = 2000      // ids in one answer
)

// Hint is how far into a log's order of arrival somebody has read. It makes an
// exchange fast and is never relied on.
type Hint struct {
	Inst string `json:"inst"` // the log's instance; new whenever arrival numbers start again
	N    uint64 `json:"n"`    // arrival number of the last operation read; 0 is before the first
}

// Request is the body of POST PathExchange.
type Request struct {
	After      Hint       `json:"after"`
	Ops        []string   `json:"ops"`              // the operations' bytes, verbatim
	Root       digest.Sum `json:"root"`             // what the asker believes the other side holds
	Roster     []string   `json:"roster,omitempty"` // signed roster texts that the other side may lack
	RosterRoot digest.Sum `json:"rosterRoot"`
}

// Answer is the answer to a Request.
type Answer struct {
	Results []Result   `json:"results"` // one per operation of the request, in its order
	Ops     []string   `json:"ops"`     // what arrived after the hint, without the request's own
	Next    Hint       `json:"next"`
	More    bool       `json:"more,omitempty"` // ask again with Next before comparing roots
	Root    digest.Sum `json:"root"`           // of the snapshot that Ops and Next were read from
	Now     int64      `json:"now"`            // answering side's clock, ms
	Roster  []string   `json:"roster"`         // all signed roster texts; null when the roots agree
}

// Codes of a Result. An unknown code is treated as Later.
const (
	Stored  = "stored"  // on disk now
	Dup     = "dup"     // was there already
	Refused = "refused" // not accepted; Why says why. It belongs in the drawer, outside the set
	Later   = "later"   // not now; offer it again
)

// Reasons of a Refused that this package gives; a door may give others, such as "role".
const (
	WhyInvalid = "invalid" // no well-formed operation
	WhyTooBig  = "too-big" // more than oplog.MaxBytes
)

// Result says what became of one operation.
type Result struct {
	ID   oplog.ID `json:"id"`
	Code string   `json:"code"`
	Why  string   `json:"why,omitempty"`
}

// Query is the body of POST PathReconcile. Exactly one question is asked.
type Query struct {
	Months bool           `json:"months,omitempty"`
	Days   []digest.Month `json:"days,omitempty"`
	Parts  []digest.Day   `json:"parts,omitempty"`
	IDs    []Scope        `json:"ids,omitempty"`
	Cursor string         `json:"cursor,omitempty"` // with IDs: where the page before ended
	Want   []oplog.ID     `json:"want,omitempty"`
}

// Scope names a day or one part of it.
type Scope struct {
	Day  digest.Day `json:"day"`
	Part int        `json:"part"` // first byte of the ids, or digest.WholeDay
}

// Reply is the answer to a Query.
type Reply struct {
	Months []digest.MonthSum `json:"months,omitempty"`
	Days   []digest.DaySum   `json:"days,omitempty"`
	Parts  []digest.PartSum  `json:"parts,omitempty"`
	IDs    []oplog.ID        `json:"ids,omitempty"`
	Cursor string            `json:"cursor,omitempty"` // not empty: ask again with it
	Ops    []string          `json:"ops,omitempty"`    // of those wanted; ask again for the rest
	Root   digest.Sum        `json:"root"`
	Now    int64             `json:"now"`
}
