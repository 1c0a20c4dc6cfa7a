package phone_test

import (
	"encoding/json"
	"hash/crc32"
	"slices"
	"strconv"
	"testing"

	"trayside/internal/demo"
	"trayside/pwa/engine/phone"
)

// worked is a phone whose checkpoint holds how far its bins have been worked
// out; fold is the part of the checkpoint's body that is the fold alone.
func worked(t *testing.T) (h *hand, tray string, head map[string]json.RawMessage, fold, keeps []byte) {
	t.Helper()
	h, tray = atRest(t, demo.Long(1, 20782, 3000))
	var body []byte
	made, whole := h.idle(false)
	if made == nil {
		t.Fatal("the bins were worked out, and idle gives no checkpoint")
	}
	h.checkpoint = whole
	h2, body, err := phone.Split(whole)
	if err != nil || json.Unmarshal(h2, &head) != nil {
		t.Fatal(err)
	}
	n, err := strconv.Atoi(string(head["fold"]))
	if err != nil {
		t.Fatal(err)
	}
	return h, tray, head, body[:n], body[n:]
}

// again is a checkpoint of other parts.
func again(t *testing.T, head map[string]json.RawMessage, fold, keeps []byte) []byte {
	t.Helper()
	frame, err := phone.Frame(head, append(slices.Clone(fold), keeps...))
	if err != nil {
		t.Fatal(err)
	}
	return frame
}

func TestACheckpointIsMadeWhenBinsWereWorkedOutAndNotAgain(t *testing.T) {
	h, tray, _, _, keeps := worked(t)
	if len(keeps) < 1000 {
		t.Fatalf("%d bytes are kept of the bins", len(keeps))
	}
	if made, _ := h.idle(false); made != nil {
		t.Error("a second checkpoint without anything new")
	}
	before := string(view[json.RawMessage](h, "tray", tray))
	if got := h.open(); got.State != "ready" {
		t.Fatalf("open: %+v; want ready", got)
	}
	if made, _ := h.idle(false); made != nil {
		t.Error("a checkpoint after nothing but a start")
	}
	if after := string(view[json.RawMessage](h, "tray", tray)); after != before {
		t.Errorf("the tray looks different from what was kept:\n%s\n%s", after, before)
	}
	if made, _ := h.idle(false); made != nil {
		t.Error("a checkpoint after a view that went on from the last one")
	}
	if made, _ := h.idle(true); made == nil {
		t.Error("no checkpoint when the storage has none of all entries")
	}
}

// The fold and every number stay what they are, whatever becomes of the bins'
// states; they are worked out and kept again.
func TestDamagedStatesOfBinsAreDroppedAndTheFoldIsNot(t *testing.T) {
	h, tray, head, fold, keeps := worked(t)
	before := string(view[json.RawMessage](h, "tray", tray))
	flipped := slices.Clone(keeps)
	flipped[len(keeps)/2] ^= 1
	// A later model's bytes may be whole and mean something else.
	other := slices.Clone(keeps[:len(keeps)-4])
	at := 4 + 1 + int(other[4])
	for other[at]&0x80 != 0 {
		at++
	}
	other[at+1] += 2
	sum := crc32.ChecksumIEEE(other)
	other = append(other, byte(sum>>24), byte(sum>>16), byte(sum>>8), byte(sum))
	for what, bytes := range map[string][]byte{
		"none": nil, "cut short": keeps[:len(keeps)/2], "one bit turned": flipped, "of another version": other,
	} {
		h.checkpoint = again(t, head, fold, bytes)
		if got := h.open(); got.State != "ready" || got.Count != len(h.ops) || got.Why != "" {
			t.Errorf("%s: open says %+v; want ready with %d", what, got, len(h.ops))
		}
		if after := string(view[json.RawMessage](h, "tray", tray)); after != before {
			t.Errorf("%s: the tray looks different:\n%s\n%s", what, after, before)
		}
		made, whole := h.idle(false)
		if made == nil {
			t.Errorf("%s: what was worked out again is not kept", what)
			continue
		}
		if _, body, _ := phone.Split(whole); !slices.Equal(body[len(fold):], keeps) {
			t.Errorf("%s: other states are kept than before", what)
		}
	}
}

func TestACheckpointWhoseFoldIsDamagedIsRebuilt(t *testing.T) {
	h, _, head, fold, keeps := worked(t)
	flipped := slices.Clone(fold)
	flipped[len(fold)/2] ^= 1
	whole := again(t, head, flipped, keeps)
	long := map[string]json.RawMessage{}
	for k, v := range head {
		long[k] = v
	}
	long["fold"] = json.RawMessage(strconv.Itoa(len(fold) + len(keeps) + 1))
	older := map[string]json.RawMessage{"format": json.RawMessage(`"trayside checkpoint 1"`), "kinds": head["kinds"], "root": head["root"]}
	for what, bytes := range map[string][]byte{
		"a bit turned": whole, "a fold longer than all": again(t, long, fold, keeps), "the format before": again(t, older, fold, nil),
	} {
		h.checkpoint = bytes
		if got := h.open(); got.State != "rebuilding" || got.Why == "" {
			t.Errorf("%s: open says %+v; want rebuilding and why", what, got)
		}
	}
}
