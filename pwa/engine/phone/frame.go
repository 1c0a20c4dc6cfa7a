package phone

import (
	"encoding/binary"
	"encoding/json"
	"fmt"
)

// A frame is what crosses the border in either direction: four bytes,
// big-endian, the length of a JSON header; the header; then a raw body to the
// end. Checkpoints travel as bodies, everything else in headers.

// maxHeader bounds a header. The largest one carries a batch of operations.
const maxHeader = 64 << 20

// Frame builds a frame from a header, which must be a value that encodes as a
// JSON object, and a body, which may be nil.
func Frame(header any, body []byte) ([]byte, error) {
	head, err := json.Marshal(header)
	if err != nil {
		return nil, fmt.Errorf("phone: frame header: %w", err)
	}
	if len(head) > maxHeader {
		return nil, fmt.Errorf("phone: frame header of %d bytes; at most %d fit, so pass operations in smaller batches", len(head), maxHeader)
	}
	frame := make([]byte, 4, 4+len(head)+len(body))
	binary.BigEndian.PutUint32(frame, uint32(len(head)))
	frame = append(frame, head...)
	return append(frame, body...), nil
}

// Split takes a frame apart. Both results are parts of frame.
func Split(frame []byte) (header, body []byte, err error) {
	if len(frame) < 4 {
		return nil, nil, fmt.Errorf("phone: a frame has at least 4 bytes, this one has %d", len(frame))
	}
	n := binary.BigEndian.Uint32(frame)
	if n > maxHeader || int(n) > len(frame)-4 {
		return nil, nil, fmt.Errorf("phone: the frame announces a header of %d bytes but only %d follow", n, len(frame)-4)
	}
	return frame[4 : 4+n], frame[4+n:], nil
}

// unframe reads a call's frame into header and returns its body.
func unframe(frame []byte, header any) ([]byte, error) {
	head, body, err := Split(frame)
	if err != nil {
		return nil, err
	}
	if err := json.Unmarshal(head, header); err != nil {
		return nil, fmt.Errorf("phone: frame header: %w", err)
	}
	return body, nil
}
