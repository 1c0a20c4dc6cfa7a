package phone_test

import (
	"bytes"
	"encoding/json"
	"testing"

	"trayside/pwa/engine/phone"
)

func TestAFrameComesApartAsItWasPutTogether(t *testing.T) {
	for _, tc := range []struct {
		name   string
		header any
		body   []byte
		want   string
	}{
		{"header alone", map[string]int{"n": 1}, nil, `{"n":1}`},
		{"header and body", map[string]string{"s": "è"}, []byte{0, 255, '{'}, `{"s":"è"}`},
		{"empty header", struct{}{}, []byte("x"), `{}`},
	} {
		t.Run(tc.name, func(t *testing.T) {
			frame, err := phone.Frame(tc.header, tc.body)
			if err != nil {
				t.Fatal(err)
			}
			head, body, err := phone.Split(frame)
			if err != nil || string(head) != tc.want || !bytes.Equal(body, tc.body) {
				t.Errorf("Split = %q, %q, %v; want %q, %q", head, body, err, tc.want, tc.body)
			}
		})
	}
}

func TestAFrameCutShortIsRefused(t *testing.T) {
	frame, err := phone.Frame(map[string]int{"n": 1}, nil)
	if err != nil {
		t.Fatal(err)
	}
	for n := range len(frame) {
		if _, _, err := phone.Split(frame[:n]); err == nil {
			t.Errorf("Split of the first %d of %d bytes gave no error", n, len(frame))
		}
	}
}

func FuzzSplit(f *testing.F) {
	good, err := phone.Frame(map[string]any{"screen": "today"}, []byte("body"))
	if err != nil {
		f.Fatal(err)
	}
	f.Add(good)                               // a whole frame
	f.Add([]byte{0, 0, 0, 0})                 // no header at all
	f.Add([]byte{255, 255, 255, 255, '{'})    // a length far past the end
	f.Add([]byte{0, 0, 0, 2, '{', '}', 0, 1}) // the smallest header, with a body
	f.Fuzz(func(t *testing.T, frame []byte) {
		head, body, err := phone.Split(frame)
		if err != nil {
			return
		}
		if len(head)+len(body)+4 != len(frame) {
			t.Errorf("Split lost bytes: %d + %d + 4 of %d", len(head), len(body), len(frame))
		}
		if !json.Valid(head) {
			return
		}
		again, err := phone.Frame(json.RawMessage(head), body)
		if err != nil {
			t.Fatal(err)
		}
		if _, b, err := phone.Split(again); err != nil || !bytes.Equal(b, body) {
			t.Errorf("a second round gave body %q, %v; want %q", b, err, body)
		}
	})
}
