package phone

import (
	"encoding/json"
	"errors"
	"fmt"
	"hash/fnv"

	"trayside/internal/journal"
	"trayside/sync/digest"
	"trayside/sync/replica"
)

// A checkpoint is a frame: its header names the engine's reading of the log and
// the digest of the set, its body is the replica's snapshot. Storage treats all
// of it as bytes.
type checkpointHeader struct {
	Format string     `json:"format"`
	Kinds  uint64     `json:"kinds"` // fingerprint of the kinds: another schema folds differently
	Root   digest.Sum `json:"root"`
}

// summary is the part of an exchange's answer that goes with a new one.
type summary struct {
	Count int        `json:"count"` // operations in it
	Root  digest.Sum `json:"root"`
}

const checkpointFormat = "trayside checkpoint 1"

var errNoCheckpoint = errors.New("there is no checkpoint")

// kindsPrint changes whenever a kind or field does.
func kindsPrint() uint64 {
	h := fnv.New64a()
	for _, k := range journal.Kinds {
		fmt.Fprintln(h, k)
	}
	return h.Sum64()
}

func rootOf(rep *replica.Replica) digest.Sum {
	var root digest.Sum
	for m := range rep.Ops() {
		root = root.Add(m.ID)
	}
	return root
}

func checkpoint(rep *replica.Replica) (summary, []byte, error) {
	root := rootOf(rep)
	body, err := Frame(checkpointHeader{checkpointFormat, kindsPrint(), root}, rep.Snapshot())
	return summary{rep.Len(), root}, body, err
}

// restore reads a checkpoint. The error says why it is of no use.
func restore(b []byte) (*replica.Replica, error) {
	if len(b) == 0 {
		return nil, errNoCheckpoint
	}
	head, body, err := Split(b)
	if err != nil {
		return nil, errors.New("the checkpoint is damaged")
	}
	var h checkpointHeader
	if json.Unmarshal(head, &h) != nil || h.Format != checkpointFormat || h.Kinds != kindsPrint() {
		return nil, errors.New("the checkpoint was made by another version of the app")
	}
	rep, err := replica.Restore(body, journal.Schema())
	if err != nil {
		return nil, err
	}
	if rootOf(rep) != h.Root {
		return nil, errors.New("the checkpoint does not hold the set it names")
	}
	return rep, nil
}
