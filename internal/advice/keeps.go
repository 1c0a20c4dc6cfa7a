package advice

import (
	"encoding/binary"
	"errors"
	"hash/crc32"
	"maps"
	"slices"

	"trayside/internal/colony"
	"trayside/internal/record"
)

// Keeps are how far back each bin has been worked out, by bin: what a caller
// holds on to from one Advice to the next, so that a new entry does not cost a
// run through five years.
type Keeps map[string]*colony.Keep

// Clone is for an Advice on another record, which must not leave its own behind,
// and for telling later what has moved on (Same).
func (k Keeps) Clone() Keeps { return maps.Clone(k) }

// Same reports whether nothing has moved on since other was cloned from k.
func (k Keeps) Same(other Keeps) bool { return maps.Equal(k, other) }

// Bytes, with every number as an unsigned varint and every text as its length
// and its bytes: "tsk1", then for each bin, sorted, its id and its Keep, then the
// CRC-32 (IEEE) of all before, 4 bytes, big-endian.
const keepsMagic = "tsk1"

// Bytes writes Keeps for ReadKeeps: equal bytes for equal states.
func (k Keeps) Bytes() []byte {
	out := []byte(keepsMagic)
	var keep []byte
	for _, bin := range slices.Sorted(maps.Keys(k)) {
		keep = k[bin].Append(keep[:0])
		for _, part := range [][]byte{[]byte(bin), keep} {
			out = append(binary.AppendUvarint(out, uint64(len(part))), part...)
		}
	}
	return binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(out))
}

var errKeeps = errors.New("advice: the bins' states are damaged; they are worked out from the log anew")

// ReadKeeps reads what Bytes wrote. An error means that nothing of it is of use.
func ReadKeeps(b []byte) (Keeps, error) {
	end := len(b) - crc32.Size
	if end < len(keepsMagic) || string(b[:len(keepsMagic)]) != keepsMagic ||
		binary.BigEndian.Uint32(b[end:]) != crc32.ChecksumIEEE(b[:end]) {
		return nil, errKeeps
	}
	rest := b[len(keepsMagic):end]
	next := func() (part []byte, ok bool) {
		n, size := binary.Uvarint(rest)
		if size <= 0 || n > uint64(len(rest)-size) {
			return nil, false
		}
		part, rest = rest[size:size+int(n)], rest[size+int(n):]
		return part, true
	}
	keeps := Keeps{}
	for len(rest) > 0 {
		bin, named := next()
		state, there := next()
		if !named || !there {
			return nil, errKeeps
		}
		keep, err := colony.ReadKeep(state)
		if err != nil {
			return nil, err
		}
		keeps[string(bin)] = keep
	}
	return keeps, nil
}

// of drops what is kept of bins that a household no longer has.
func (k Keeps) of(bins map[string]*record.Bin) {
	for bin := range k {
		if b := bins[bin]; b == nil || b.Gone {
			delete(k, bin)
		}
	}
}
