package server

import (
	"bytes"
	"crypto/rand"
	"encoding/binary"
	"net/http"
	"strings"

	"github.com/labstack/echo/v4"

	"trayside/internal/label"
	"trayside/server/sheet"
)

// What a phone may have printed.
const (
	printLabels      = "labels"
	printCalibration = "calibration"
	printCards       = "cards"
)

// printRequest asks for a PDF. The phone says what stands on it, because it may
// know of trays that the server has not heard of yet; the server draws.
type printRequest struct {
	What     string        `json:"what"` // "labels", "calibration" or "cards"
	Language string        `json:"language,omitempty"`
	Anyway   bool          `json:"anyway,omitempty"` // put question marks for letters that no font has
	Sheet    *label.Sheet  `json:"sheet,omitempty"`  // labels, calibration
	Start    int           `json:"start,omitempty"`  // cells of the first sheet that are used already
	OffsetX  int64         `json:"offsetX,omitempty"`
	OffsetY  int64         `json:"offsetY,omitempty"`
	Copies   int           `json:"copies,omitempty"` // of each label; 1 if missing
	Labels   []labelToDraw `json:"labels,omitempty"`
	Blank    int           `json:"blank,omitempty"` // labels that no tray carries yet, added at the end
	Paper    string        `json:"paper,omitempty"` // cards: "a4" or "letter"
	Cards    []cardToDraw  `json:"cards,omitempty"`
}

type labelToDraw struct {
	Code string `json:"code"`
	Tray string `json:"tray"`
	Bin  string `json:"bin"`
}

type cardToDraw struct {
	Bin     string         `json:"bin"`
	Trays   []string       `json:"trays"`
	Vessels []vesselToDraw `json:"vessels"`
	Mass    string         `json:"mass"` // "g" or "oz"
	Temp    string         `json:"temp"` // "C" or "F"
}

type vesselToDraw struct {
	Name   string `json:"name"`
	Amount string `json:"amount"` // written as the household reads weights
}

// Bounds of a request, beside those of the sheets.
const (
	copiesMost  = 4
	cardsMost   = 50
	linesMost   = 100 // trays of a card, and vessels: a line of paper shows ten
	textMost    = 400 // bytes of a name
	lettersMost = 20  // that a refusal names
)

// print answers with a PDF of labels, of cards, or for calibrating a printer.
func (s *Server) print(c echo.Context) error {
	var req printRequest
	if err := readJSON(c, &req); err != nil {
		return err
	}
	if err := req.check(); err != nil {
		return err
	}
	if missing := []rune(sheet.Missing(req.texts()...)); len(missing) > 0 && !req.Anyway {
		letters := string(missing[:min(lettersMost, len(missing))])
		p := problem("letters", "Labels have Latin, Greek, Cyrillic, Armenian and Georgian letters, and not these: %s. Give the tray or bin a name in those for paper, or print it with question marks: the square and the code below it open the tray all the same.", letters)
		p.Letters = letters
		return p
	}
	var out bytes.Buffer
	if err := s.draw(c, req, &out); err != nil {
		return err
	}
	c.Response().Header().Set("Cache-Control", "no-store")
	c.Response().Header().Set("Content-Disposition", `attachment; filename="trayside-`+req.What+`.pdf"`)
	return c.Blob(http.StatusOK, "application/pdf", out.Bytes())
}

// check bounds what is drawn: a request may be large enough to keep the server
// busy for minutes.
func (r printRequest) check() error {
	for _, text := range r.texts() {
		if len(text) > textMost {
			return problem("bad-request", "A name has at most %d bytes.", textMost)
		}
	}
	if n := len(r.Cards); n > cardsMost {
		return problem("unprintable", "%d cards are more than the %d of one file; print them in parts.", n, cardsMost)
	}
	for _, c := range r.Cards {
		if len(c.Trays) > linesMost || len(c.Vessels) > linesMost {
			return problem("bad-request", "A card names at most %d trays and %d vessels.", linesMost, linesMost)
		}
		if c.Mass != "g" && c.Mass != "oz" || c.Temp != "C" && c.Temp != "F" {
			return problem("bad-request", "cards: mass is g or oz, temp is C or F.")
		}
	}
	return nil
}

func (s *Server) draw(c echo.Context, req printRequest, out *bytes.Buffer) error {
	base, err := label.ParseBase(s.base(c))
	if err != nil {
		return problem("bad-request", "%s. Start the server with --base, the address that phones use.", err)
	}
	made := s.cfg.Now()
	switch {
	case (req.What == printLabels || req.What == printCalibration) && req.Sheet == nil:
		return problem("bad-request", "sheet: say which sheet the labels go on.")
	case req.What == printLabels:
		labels, refused := req.all()
		if refused != nil {
			return refused
		}
		err = sheet.Write(out, sheet.Job{
			Sheet: *req.Sheet, Run: label.Run{Start: req.Start, OffsetX: req.OffsetX, OffsetY: req.OffsetY},
			Base: base, Made: made, Labels: labels,
		})
	case req.What == printCalibration:
		err = sheet.WriteCalibration(out, *req.Sheet, req.Language, made)
	case req.What == printCards:
		var cards []sheet.Card
		for _, d := range req.Cards {
			card := sheet.Card{Bin: d.Bin, Trays: d.Trays, Mass: d.Mass, Temp: d.Temp}
			for _, v := range d.Vessels {
				card.Vessels = append(card.Vessels, sheet.CardVessel(v))
			}
			cards = append(cards, card)
		}
		err = sheet.WriteCards(out, sheet.PaperNamed(req.Paper), base, req.Language, made, cards)
	default:
		return problem("bad-request", "what: want labels, calibration or cards.")
	}
	if err != nil {
		return problem("unprintable", "%s.", strings.TrimPrefix(err.Error(), "sheet: ")) // people read this
	}
	return nil
}

// all lists the labels to draw, the blank ones with fresh codes, each as often
// as it is wanted.
func (r printRequest) all() ([]sheet.Label, error) {
	if r.Copies < 0 || r.Copies > copiesMost || r.Blank < 0 || r.Blank > sheet.Most {
		return nil, problem("bad-request", "copies: want 1 to %d; blank: want 0 to %d.", copiesMost, sheet.Most)
	}
	var out []sheet.Label
	add := func(l sheet.Label) {
		for range max(1, r.Copies) {
			out = append(out, l)
		}
	}
	for _, l := range r.Labels {
		code, err := label.Parse(l.Code)
		if err != nil {
			return nil, problem("unprintable", "%s: %s.", l.Tray, err)
		}
		add(sheet.Label{Code: code, Tray: l.Tray, Bin: l.Bin})
	}
	for range r.Blank {
		add(sheet.Label{Code: label.Draw(randomWord)})
	}
	return out, nil
}

// randomWord returns 64 bits of the system's generator.
func randomWord() uint64 {
	var b [8]byte
	rand.Read(b[:])
	return binary.BigEndian.Uint64(b[:])
}

// texts are all names that would stand on the paper.
func (r printRequest) texts() []string {
	var out []string
	for _, l := range r.Labels {
		out = append(out, l.Tray, l.Bin)
	}
	for _, c := range r.Cards {
		out = append(append(out, c.Bin), c.Trays...)
		for _, v := range c.Vessels {
			out = append(out, v.Name, v.Amount)
		}
	}
	return out
}
