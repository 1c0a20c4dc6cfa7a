package sheet

import (
	"fmt"
	"io"
	"strings"
	"time"

	"github.com/skip2/go-qrcode"

	"trayside/internal/label"
)

// Card is the paper card of one bin, for people without a phone: rows to write
// on, which somebody types in later.
type Card struct {
	Bin     string
	Trays   []string     // from the top down
	Vessels []CardVessel // what an amount may be counted in
	Mass    string       // "g" or "oz"
	Temp    string       // "C" or "F"
}

// CardVessel is one of the household's vessels; Amount is what it holds, written
// as the household reads weights.
type CardVessel struct{ Name, Amount string }

// Paper is a page that cards are printed on.
type Paper struct {
	Name string
	W, H int64 // µm
}

// Papers returns the pages for cards, the default first.
func Papers() []Paper { return []Paper{{"a4", 210_000, 297_000}, {"letter", 215_900, 279_400}} }

// PaperNamed returns the page of that name, the default where there is none.
func PaperNamed(name string) Paper {
	for _, p := range Papers() {
		if p.Name == name {
			return p
		}
	}
	return Papers()[0]
}

// Measures of a card, µm. A row is as high as a hand writes with a thick pen
// (common practice: 10 to 12 mm).
const (
	cardMargin = 12_000
	cardRow    = 11_000
	cardHead   = 12_000
	cardCode   = 26_000
	boxSide    = 5_000
)

// ticks marks the column that has boxes to tick in the place of a unit.
const ticks = "ticks"

// WriteCards draws one page for each bin. base is where phones open the
// household, whose square on the card opens the screen that takes it in.
func WriteCards(w io.Writer, on Paper, base label.Base, language string, made time.Time, cards []Card) error {
	if len(cards) == 0 {
		return fmt.Errorf("sheet: there is no bin to print a card for; add a bin first")
	}
	p := newPage(on.W, on.H, "Feeding card", made)
	for _, c := range cards {
		p.pdf.AddPage()
		if err := p.card(on, base, wordsIn(language), c); err != nil {
			return fmt.Errorf("sheet: card of %q: %w", c.Bin, err)
		}
	}
	return p.output(w)
}

func (p *page) card(on Paper, base label.Base, words printed, c Card) error {
	in := label.Box{W: on.W, H: on.H}.Inset(cardMargin)
	if err := p.cardCode(label.Box{X: in.X + in.W - cardCode, Y: in.Y - 4_000, W: cardCode, H: cardCode}, base, words); err != nil {
		return err
	}
	head := mm(in.W - cardCode - 6_000)
	y := mm(in.Y)
	say := func(font, text string, size float64) {
		p.text(font, p.cut(font, drawable(font, text), size, head), size, mm(in.X), y)
		y += height(size)
	}
	name := drawable(boldFont, c.Bin)
	say(boldFont, name, max(nameSmall, p.widest(boldFont, name, head, 30)))
	for i, list := range [][]string{c.Trays, vesselWords(words, c.Vessels)} {
		if len(list) > 0 {
			say(plainFont, strings.Join(list, " · "), 12-float64(i))
		}
	}
	top := max(int64(y*1000)+3_000, in.Y+cardCode+1_000)
	bottom := p.rows(label.Box{X: in.X, Y: top, W: in.W, H: in.Y + in.H - top - 10_000}, words, c)
	p.text(plainFont, words.fill, 10, mm(in.X), mm(bottom)+2)
	p.text(plainFont, words.caution, 10, mm(in.X), mm(bottom)+2+height(10))
	return nil
}

func vesselWords(words printed, vessels []CardVessel) []string {
	var out []string
	for _, v := range vessels {
		out = append(out, fmt.Sprintf(words.full, v.Name, v.Amount))
	}
	return out
}

// cardCode draws the square that opens the screen for typing a card in.
func (p *page) cardCode(box label.Box, base label.Base, words printed) error {
	q, err := qrcode.New(base.Path("CARD"), qrcode.High) // level Q: the card stays clean under its cover
	if err != nil {
		return fmt.Errorf("the address %s does not fit a square: %w", base, err)
	}
	q.DisableBorder = true
	m := q.Bitmap()
	side := len(m) + 2*label.Quiet
	module := (box.W - 3_000) * 1000 / int64(side)
	p.square(label.Square{X: box.X * 1000, Y: box.Y * 1000, Module: module, Side: side}, m)
	at := box.X*1000 + label.Quiet*module
	p.text(plainFont, words.scan, 9, float64(at)/1e6, mm(box.Y)+float64(module*int64(side-label.Quiet))/1e6+0.6)
	return nil
}

// rows draws the table and returns where it ends.
func (p *page) rows(box label.Box, words printed, c Card) int64 {
	rest := box.W - 26_000 - 36_000 - 26_000 - 22_000 - 18_000
	columns := []struct {
		w    int64
		head string
		unit string // at the foot of each row
	}{
		{26_000, words.date, ""}, {36_000, words.who, ""}, {26_000, words.amount, "×"},
		{22_000, words.grams, c.Mass}, {rest, words.leftovers, ticks}, {18_000, words.temp, "°" + c.Temp},
	}
	count := (box.H - cardHead) / cardRow
	bottom := box.Y + cardHead + count*cardRow
	x := box.X
	for _, c := range columns {
		p.line(x, box.Y, x, bottom, 0.2)
		size := min(11, p.widest(boldFont, c.head, mm(c.w)-3, 11))
		p.text(boldFont, c.head, size, mm(x)+1.5, mm(box.Y)+1)
		step := (c.w - 2_000) / int64(len(words.left))
		for n := range count {
			y := box.Y + cardHead + n*cardRow
			if c.unit != ticks {
				p.text(plainFont, c.unit, 10, mm(x+c.w)-1.5-p.width(plainFont, c.unit, 10), mm(y+cardRow)-height(10)-1)
			} else {
				for k := range int64(len(words.left)) {
					p.pdf.SetLineWidth(0.3)
					p.outline(label.Box{X: x + 1_000 + k*step + (step-boxSide)/2, Y: y + (cardRow-boxSide)/2, W: boxSide, H: boxSide})
				}
			}
		}
		if c.unit == ticks {
			for k, word := range words.left {
				small := min(8, p.widest(plainFont, word, mm(step)-0.6, 8))
				middle := mm(x+1_000+int64(k)*step+step/2) - p.width(plainFont, word, small)/2
				p.text(plainFont, word, small, middle, mm(box.Y)+7.5)
			}
		}
		x += c.w
	}
	p.line(x, box.Y, x, bottom, 0.2)
	p.line(box.X, box.Y, x, box.Y, 0.7)
	for n := range count + 1 {
		y := box.Y + cardHead + n*cardRow
		p.line(box.X, y, x, y, 0.2)
	}
	return bottom
}
