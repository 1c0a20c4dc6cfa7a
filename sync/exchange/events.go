package exchange

import "trayside/sync/oplog"

// Kinds of Event: what happened to the phone.
const (
	EventStart      = "start"       // the app opened
	EventVisible    = "visible"     // it came to the front
	EventOnline     = "online"      // the system says there is a network
	EventSaved      = "saved"       // an entry was stored; its operations were given to Hold
	EventTap        = "tap"         // the person asked for an exchange
	EventRipple     = "ripple"      // the server says there is news
	EventTimer      = "timer"       // the timer of an Effect ran out (Seq)
	EventAnswer     = "answer"      // the post of an Effect was answered (Seq, Status, Body, JSON, RetryAfter)
	EventFailed     = "failed"      // the post or load of an Effect brought no answer (Seq, Reason)
	EventLoaded     = "loaded"      // the load of an Effect is done (Seq, Ops)
	EventStored     = "stored"      // the store of an Effect is durable (Seq)
	EventStoreFail  = "storefailed" // nothing of it was kept (Seq, Reason); where nobody can tell, open the app anew
	EventAuthed     = "authed"      // there is a new token (Seq)
	EventAuthFailed = "authfailed"  // there is none (Seq, Status, Body, JSON, RetryAfter; Status 0: no answer)
	EventIdle       = "idle"        // nothing to do; for the engine, the machine passes over it
)

// Event is one thing that happened.
type Event struct {
	Kind       string   `json:"kind"`
	Now        int64    `json:"now"`                  // phone's clock, ms
	Rand       float64  `json:"rand"`                 // 0 ≤ rand < 1, new for every event
	Seq        int      `json:"seq,omitempty"`        // of the Effect that this answers
	Status     int      `json:"status,omitempty"`     // HTTP status
	Body       string   `json:"body,omitempty"`       // body of the answer
	JSON       bool     `json:"json,omitempty"`       // its media type is application/json or ends in +json
	RetryAfter int      `json:"retryAfter,omitempty"` // seconds, 0 if the answer names none
	Ops        []string `json:"ops,omitempty"`        // loaded: bytes of the operations found, any order
	Reason     string   `json:"reason,omitempty"`
}

// Kinds of Effect: what the phone shall do.
const (
	EffectPost         = "post"         // POST Body to Path with the token; then answer or failed
	EffectLoad         = "load"         // read the bytes of IDs; then loaded with those there are, or failed
	EffectStore        = "store"        // write Store in one durable transaction; then stored or storefailed
	EffectAuthenticate = "authenticate" // sign for a new token; then authed or authfailed
	EffectTimer        = "timer"        // after MS send timer; a later one replaces it
	EffectStatus       = "status"       // show Status
	EffectChanged      = "changed"      // what was stored counts now: draw anew (the engine folds Fold and removes Drop)
	EffectWipe         = "wipe"         // a revocation of this phone was verified (Reason)
)

// Effect is one thing to do. Effects of one step are done in order.
type Effect struct {
	Kind   string     `json:"kind"`
	Seq    int        `json:"seq,omitempty"` // to be named in the event that follows
	Path   string     `json:"path,omitempty"`
	Body   string     `json:"body,omitempty"`
	IDs    []oplog.ID `json:"ids,omitempty"`
	Store  *Store     `json:"store,omitempty"`
	MS     int64      `json:"ms,omitempty"`
	Status *Status    `json:"status,omitempty"`
	Reason string     `json:"reason,omitempty"`

	// For the engine, which sees the effects before they leave Go: operations to
	// fold, and refused ones to take out of the fold.
	Fold []oplog.Sealed `json:"-"`
	Drop []oplog.ID     `json:"-"`
}

// Store is what an exchange taught, to be written in one transaction. Nothing
// of it counts before the stored event.
type Store struct {
	Ops     []string   `json:"ops,omitempty"`     // new operations, bytes verbatim; known to be on the server
	Known   []oplog.ID `json:"known,omitempty"`   // held here, now known to be on the server
	Unknown []oplog.ID `json:"unknown,omitempty"` // held here, believed to be on the server and not there: share again
	Refused []Result   `json:"refused,omitempty"` // to the drawer "not accepted"
	Roster  []string   `json:"roster,omitempty"`  // new signed roster texts
	Hint    Hint       `json:"hint"`
	Floor   int64      `json:"floor"` // newest household time seen, ms
	Heard   int64      `json:"heard"` // phone's time of the answer with which all was heard, ms; 0 if never
}

// States of a Status.
const (
	StateIdle    = "idle"    // nothing to do
	StateBusy    = "busy"    // exchanging
	StateOffline = "offline" // no answer
	StatePortal  = "portal"  // something else than the server answers: no connection
	StateAuth    = "auth"    // no token to be had
	StateRevoked = "revoked" // this phone was removed; verified
	StateProblem = "problem" // Detail says what
)

// Details of a StateProblem.
const (
	DetailStorage   = "storage"   // the phone could not store what it received
	DetailTooBig    = "too-big"   // an operation is too big for the server or what lies before it
	DetailMissing   = "missing"   // the phone's storage lacks the bytes of an operation not shared yet
	DetailDiffers   = "differs"   // the sets still differ after comparing
	DetailLater     = "later"     // the server takes nothing now
	DetailForbidden = "forbidden" // the server refuses this phone and shows no revocation
	DetailServer    = "server"    // the server has trouble of its own; Status of the answer follows, such as "server 507"
)

// Status is what the sync line shows.
type Status struct {
	Waiting int    `json:"waiting"` // operations not known to be on the server
	Heard   int64  `json:"heard"`   // phone's time of the answer with which all was heard, ms; 0 if never
	Fetched int    `json:"fetched"` // operations that came in since, with more to come; 0 when all is here
	State   string `json:"state"`
	Detail  string `json:"detail,omitempty"`
}
