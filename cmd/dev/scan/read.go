package main

import (
	"image"
	"os"
	"path/filepath"
	"time"

	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/qrcode"
)

// reading is what a decoder made of one frame.
type reading struct {
	Read bool    `json:"read"` // the label's own text
	MS   float64 `json:"ms"`
}

// read writes gozxing.json: a reading for each frame, in their order.
func read(dir string) error {
	all, err := frames(dir)
	if err != nil {
		return err
	}
	hints := map[gozxing.DecodeHintType]any{gozxing.DecodeHintType_TRY_HARDER: true}
	var out []reading
	for _, f := range all {
		pix, err := os.ReadFile(filepath.Join(dir, f.File))
		if err != nil {
			return err
		}
		img := &image.Gray{Pix: pix, Stride: f.Width, Rect: image.Rect(0, 0, f.Width, f.Height)}
		start := time.Now()
		text := ""
		bmp, err := gozxing.NewBinaryBitmap(gozxing.NewHybridBinarizer(gozxing.NewLuminanceSourceFromImage(img)))
		if err == nil {
			if r, err := qrcode.NewQRCodeReader().Decode(bmp, hints); err == nil {
				text = r.GetText()
			}
		}
		out = append(out, reading{text == f.Text, float64(time.Since(start).Microseconds()) / 1000})
	}
	return writeJSON(filepath.Join(dir, "gozxing.json"), out)
}
