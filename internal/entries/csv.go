package entries

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"trayside/internal/journal"
	"trayside/internal/record"
	"trayside/internal/units"
)

// The columns of feedings as CSV. A feeding of several scraps has a row for each,
// with the same id.
const (
	colDay    = "day"
	colAt     = "at"
	colBin    = "bin"
	colTray   = "tray"
	colSpot   = "spot"
	colScrap  = "scrap"
	colClass  = "class"
	colName   = "name"
	colGrams  = "grams"
	colCut    = "cut"
	colFrozen = "frozen"
	colHow    = "how"
	colAbout  = "about"
	colBy     = "by"
	colNote   = "note"
	colID     = "id"
)

var columns = []string{
	colDay, colAt, colBin, colTray, colSpot, colScrap, colClass, colName, colGrams, colCut, colFrozen, colHow, colAbout, colBy, colNote, colID,
}

// numeric columns are not guarded against formulas: they hold nothing else.
var numeric = []string{colGrams}

// ExportFeedings writes every feeding of a record as CSV (RFC 4180, UTF-8): a row
// for each scrap. Names of people, bins and trays stand for ids; what only another
// program needs is left out.
func ExportFeedings(h *record.Household) []byte {
	var out bytes.Buffer
	row(&out, func(col string) string { return col })
	names := map[string]string{}
	for _, b := range h.Bins {
		names[b.ID] = b.Name
	}
	for _, t := range h.Trays {
		names[t.ID] = t.Name
	}
	for _, m := range h.Members {
		names[m.ID] = m.Name
	}
	for i := range h.Feedings {
		f := &h.Feedings[i]
		items := f.Items
		if len(items) == 0 {
			items = []record.Item{{}}
		}
		for _, it := range items {
			cells := map[string]string{
				colDay: f.Day.String(), colAt: f.At, colBin: called(names, f.Bin), colTray: called(names, f.Tray), colSpot: f.Spot,
				colScrap: it.Scrap, colClass: it.Class, colName: it.Name, colGrams: strconv.FormatInt(int64(it.Grams), 10),
				colCut: yes(it.Cut), colFrozen: yes(it.Frozen), colHow: string(f.How), colAbout: yes(f.About), colNote: f.Note, colID: f.ID,
				colBy: f.Who.Guest,
			}
			if f.Who.Member != "" {
				cells[colBy] = called(names, f.Who.Member)
			}
			row(&out, func(col string) string { return cells[col] })
		}
	}
	return out.Bytes()
}

func called(names map[string]string, id string) string {
	if name := names[id]; name != "" {
		return name
	}
	return id
}

func yes(b bool) string {
	if b {
		return "yes"
	}
	return ""
}

func row(out *bytes.Buffer, cell func(col string) string) {
	for i, col := range columns {
		if i > 0 {
			out.WriteByte(',')
		}
		text := cell(col)
		if !slices.Contains(numeric, col) {
			text = `"` + strings.ReplaceAll(guard(text), `"`, `""`) + `"`
		}
		out.WriteString(text)
	}
	out.WriteString("\r\n")
}

// formula are the first characters that make a spreadsheet reckon (OWASP, CSV
// Injection), and their wide forms.
const formula = "=+-@\t\r\n＝＋－＠"

// guard puts an apostrophe before a text that a spreadsheet would take for a
// formula, or that was guarded already, so that unguard finds what was there.
func guard(text string) string {
	if rest := strings.TrimLeft(text, "'"); rest != "" && strings.ContainsRune(formula, []rune(rest)[0]) {
		return "'" + text
	}
	return text
}

func unguard(text string) string {
	rest := strings.TrimLeft(text, "'")
	if rest != "" && rest != text && strings.ContainsRune(formula, []rune(rest)[0]) {
		return text[1:]
	}
	return text
}

// rows reads feedings from CSV. The first row names the columns, in any order;
// commas or semicolons part them.
func (r *Result) rows(file []byte) ([]entry, error) {
	in := csv.NewReader(bytes.NewReader(file))
	in.FieldsPerRecord = -1
	if first, _, _ := bytes.Cut(file, []byte("\n")); bytes.Count(first, []byte(";")) > bytes.Count(first, []byte(",")) {
		in.Comma = ';'
	}
	head, err := in.Read()
	if err != nil {
		return nil, errors.New("the file holds neither JSON lines nor CSV with a row of column names")
	}
	at := map[string]int{}
	for i, col := range head {
		col = strings.ToLower(strings.TrimSpace(unguard(col)))
		if !slices.Contains(columns, col) {
			r.take(1, fmt.Sprintf("the column %q is none of %s; it is left out", col, strings.Join(columns, ", ")))
			continue
		}
		at[col] = i
	}
	for _, col := range []string{colDay, colTray, colGrams} {
		if _, ok := at[col]; !ok {
			return nil, fmt.Errorf("the first row names no column %q; feedings need day, tray and grams", col)
		}
	}
	list := []entry{}
	byID := map[string]int{}
	for {
		cells, err := in.Read()
		if errors.Is(err, io.EOF) {
			return list, nil
		}
		if err != nil {
			no := 1
			if bad := (*csv.ParseError)(nil); errors.As(err, &bad) {
				no = bad.StartLine
			}
			r.take(no, "is not CSV: a quote is missing or stands in the middle of a field")
			continue
		}
		no, _ := in.FieldPos(0)
		cell := func(col string) string {
			i, ok := at[col]
			if !ok || i >= len(cells) {
				return ""
			}
			return unguard(cells[i])
		}
		if strings.TrimSpace(strings.Join(cells, "")) == "" {
			continue
		}
		e, item, why := feedingOf(cell)
		e.no = no
		if !r.take(no, why) {
			continue
		}
		if i, ok := byID[e.id]; ok && e.id != "" {
			why := list[i].add(item)
			r.take(no, why)
			continue
		}
		byID[e.id] = len(list)
		if r.take(no, e.add(item)) {
			list = append(list, e)
		}
	}
}

// feedingOf reads one row.
func feedingOf(cell func(string) string) (entry, record.Item, string) {
	kind, _ := journal.KindNamed(journal.KindFeeding)
	e := entry{kind: kind, id: cell(colID), day: strings.TrimSpace(cell(colDay)), at: strings.TrimSpace(cell(colAt)), fields: map[string]json.RawMessage{}}
	for _, col := range []string{colBin, colTray, colSpot, colHow, colNote} {
		text := cell(col)
		if col != colNote {
			text = strings.TrimSpace(text)
		}
		if text != "" {
			e.fields[col] = quoted(text)
		}
	}
	if by := cell(colBy); strings.TrimSpace(by) != "" {
		e.by = by
	}
	item := record.Item{Scrap: strings.TrimSpace(cell(colScrap)), Class: strings.TrimSpace(cell(colClass)), Name: cell(colName)}
	if item.Scrap == "" {
		item.Scrap = plainScrap
	}
	grams := strings.TrimSpace(cell(colGrams))
	switch w, err := units.ParseMass(grams, units.Gram); {
	case grams == "" || grams == "0":
		if e.fields[colHow] == nil {
			e.fields[colHow] = quoted(string(record.Unweighed))
		}
	case err != nil:
		return e, item, err.Error()
	default:
		item.Grams = w.Grams()
	}
	var about, ok1, ok2, ok3 bool
	item.Cut, ok1 = truth(cell(colCut))
	item.Frozen, ok2 = truth(cell(colFrozen))
	if about, ok3 = truth(cell(colAbout)); about {
		e.fields[colAbout] = json.RawMessage("true")
	}
	if !ok1 || !ok2 || !ok3 {
		return e, item, "cut, frozen and about are yes or no"
	}
	return e, item, ""
}

// plainScrap is what a row without a scrap holds.
const plainScrap = "kitchen-mixed"

func truth(text string) (value, ok bool) {
	switch strings.ToLower(strings.TrimSpace(text)) {
	case "yes", "true", "1", "x", "y":
		return true, true
	case "", "no", "false", "0", "n":
		return false, true
	}
	return false, false
}

// add puts one more scrap into a feeding.
func (e *entry) add(it record.Item) string {
	e.items = append(e.items, it)
	text, err := json.Marshal(e.items)
	if err != nil {
		return err.Error()
	}
	e.fields["items"] = text
	return ""
}
