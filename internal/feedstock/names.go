package feedstock

import (
	_ "embed"
	"fmt"
	"strings"
	"sync"
)

//go:embed names.en.tsv
var namesEN string

//go:embed names.es.tsv
var namesES string

// English is the language that every entry has words in; Languages lists all.
const English = "en"

// Languages returns the languages that the catalogue speaks.
func Languages() []string { return []string{English, "es"} }

// Words are what people call an entry in one language.
type Words struct {
	Name   string
	Also   []string // other words for it
	Differ string   // where published guides disagree, a sentence; "" if they do not

	phrases [][]string // what it is found by, in words: name, its short form, id, then Also
}

// A language is parsed when it is first asked for: a phone speaks one.
var (
	english = sync.OnceValue(func() map[string]Words { return embedded("names.en.tsv", namesEN) })
	spanish = sync.OnceValue(func() map[string]Words { return embedded("names.es.tsv", namesES) })
)

func wordsIn(language string) map[string]Words {
	if language == "es" {
		return spanish()
	}
	return english()
}

func embedded(file, text string) map[string]Words {
	words, err := LoadNames(text)
	if err != nil {
		panic(fmt.Sprintf("feedstock: the embedded %s: %v", file, err))
	}
	return words
}

// LoadNames reads the names of one language: lines of comment (#), a heading,
// then id, name, also and differ, separated by tabs.
func LoadNames(text string) (map[string]Words, error) {
	words := map[string]Words{}
	heading := true
	for i, line := range strings.Split(text, "\n") {
		line = strings.TrimSuffix(line, "\r")
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		cells := strings.Split(line, "\t")
		if len(cells) != 4 {
			return nil, fmt.Errorf("line %d has %d columns, want id, name, also and differ with a tab between, also beside empty ones", i+1, len(cells))
		}
		if heading {
			heading = false
			continue
		}
		id, w := cells[0], Words{Name: cells[1], Differ: cells[3]}
		if _, twice := words[id]; twice || id == "" || w.Name == "" {
			return nil, fmt.Errorf("line %d: id %q stands twice, or it or its name is empty: give each entry one line", i+1, id)
		}
		if cells[2] != "" {
			w.Also = strings.Split(cells[2], ";")
		}
		short, _, _ := strings.Cut(w.Name, ",")
		short, _, _ = strings.Cut(short, " (")
		for _, phrase := range append([]string{w.Name, short, id}, w.Also...) {
			w.phrases = append(w.phrases, split(phrase))
		}
		words[id] = w
	}
	return words, nil
}

// Words returns what people call an entry in a language ("en", "es"); another
// language is answered in English. An id that the catalogue lacks has no words.
func (c Catalogue) Words(id, language string) Words { return wordsIn(language)[id] }
