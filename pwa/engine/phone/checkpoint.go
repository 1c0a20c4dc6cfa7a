package phone

import (
	"encoding/json"
	"errors"
	"fmt"
	"hash/fnv"

	"trayside/internal/advice"
	"trayside/internal/journal"
	"trayside/sync/digest"
	"trayside/sync/replica"
)

// A checkpoint is a frame: its header names the engine's reading of the log and
// the digest of the set, its body is the replica's snapshot and, behind it, how
// far back each bin has been worked out. Storage treats all of it as bytes.
type checkpointHeader struct {
	Format string     `json:"format"`
	Kinds  uint64     `json:"kinds"` // fingerprint of the kinds: another schema folds differently
	Root   digest.Sum `json:"root"`
	Fold   int        `json:"fold"` // bytes of the snapshot
}

// summary is the part of an exchange's answer that goes with a new one.
type summary struct {
	Count int        `json:"count"` // operations in it
	Root  digest.Sum `json:"root"`
}

const checkpointFormat = "trayside checkpoint 2"

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

func checkpoint(rep *replica.Replica, keeps advice.Keeps) (summary, []byte, error) {
	root, fold := rootOf(rep), rep.Snapshot()
	head := checkpointHeader{checkpointFormat, kindsPrint(), root, len(fold)}
	body, err := Frame(head, append(fold, keeps.Bytes()...))
	return summary{rep.Len(), root}, body, err
}

// restore reads a checkpoint. The error says why it is of no use. Bins whose
// state is damaged are worked out from the fold anew; that is no error.
func restore(b []byte) (*replica.Replica, advice.Keeps, error) {
	if len(b) == 0 {
		return nil, nil, errNoCheckpoint
	}
	head, body, err := Split(b)
	if err != nil {
		return nil, nil, errors.New("the checkpoint is damaged")
	}
	var h checkpointHeader
	if json.Unmarshal(head, &h) != nil || h.Format != checkpointFormat || h.Kinds != kindsPrint() {
		return nil, nil, errors.New("the checkpoint was made by another version of the app")
	}
	if h.Fold < 0 || h.Fold > len(body) {
		return nil, nil, errors.New("the checkpoint is damaged")
	}
	rep, err := replica.Restore(body[:h.Fold:h.Fold], journal.Schema())
	if err != nil {
		return nil, nil, err
	}
	if rootOf(rep) != h.Root {
		return nil, nil, errors.New("the checkpoint does not hold the set it names")
	}
	keeps, err := advice.ReadKeeps(body[h.Fold:])
	if err != nil {
		keeps = advice.Keeps{}
	}
	return rep, keeps, nil
}
