package feedstock

import (
	"slices"
	"strings"

	"trayside/internal/order"
)

// Search returns the entries that fit what a person typed, best first: those
// that are called just that, those whose name begins with it, those that hold
// its words; everyday things before rare ones, then by the order of the
// catalogue. Other words for a thing count like its name, singular like plural,
// with or without accents. If nothing fits, words with a slip of the finger do.
// Nothing typed returns everything everyday.
func (c Catalogue) Search(typed, language string) []Entry {
	words := meant(typed, language)
	hits := c.ranked(words, language, func(a, b string) bool { return strings.HasPrefix(b, a) })
	if len(hits) == 0 {
		hits = c.ranked(words, language, slipped)
	}
	out := make([]Entry, len(hits))
	for i, h := range hits {
		out[i] = h.entry
	}
	return out
}

type hit struct {
	entry Entry
	rank  int
}

func (c Catalogue) ranked(words []string, language string, same func(typed, word string) bool) []hit {
	var hits []hit
	for _, e := range c.Entries {
		if len(words) == 0 {
			if !e.Rare {
				hits = append(hits, hit{entry: e})
			}
			continue
		}
		if rank := fit(e, words, language, same); rank >= 0 {
			rank *= 2
			if e.Rare {
				rank++
			}
			hits = append(hits, hit{e, rank})
		}
	}
	order.By(hits, func(a, b hit) int { return a.rank - b.rank })
	return hits
}

// fit ranks an entry for the typed words, 0 best, or -1 if it does not fit.
func fit(e Entry, typed []string, language string, same func(typed, word string) bool) int {
	best, all := -1, []string(nil)
	better := func(rank int) {
		if best < 0 || rank < best {
			best = rank
		}
	}
	for i, parts := range wordsIn(language)[e.ID].phrases {
		all = append(all, parts...)
		switch {
		case i > 0 && i != 2 && called(typed, parts, language):
			better(0)
		case !within(typed, parts, language, same):
		case i < 2 && alike(typed[0], parts[0], language, equal):
			better(1)
		case i < 2 && alike(typed[0], parts[0], language, same):
			better(2)
		case alike(typed[0], parts[0], language, same):
			better(3)
		default:
			better(4)
		}
	}
	if best < 0 && within(typed, all, language, same) {
		return 5
	}
	return best
}

func equal(a, b string) bool { return a == b }

// called reports whether a phrase is just the typed words.
func called(typed, parts []string, language string) bool {
	return slices.EqualFunc(typed, parts, func(t, p string) bool { return alike(t, p, language, equal) })
}

// within reports whether each typed word is one of the words.
func within(typed, parts []string, language string, same func(typed, word string) bool) bool {
	for _, t := range typed {
		if !slices.ContainsFunc(parts, func(p string) bool { return alike(t, p, language, same) }) {
			return false
		}
	}
	return len(parts) > 0
}

// alike compares two words in each of their numbers.
func alike(typed, word, language string, same func(typed, word string) bool) bool {
	for _, t := range numbers(typed, language) {
		for _, w := range numbers(word, language) {
			if same(t, w) {
				return true
			}
		}
	}
	return false
}

// numbers returns a word and what it may be the plural of. Wrong guesses do no
// harm: they match nothing.
func numbers(word, language string) []string {
	forms := []string{word}
	cut := func(ending, single string) {
		if stem, ok := strings.CutSuffix(word, ending); ok && len(stem) >= 2 {
			forms = append(forms, stem+single)
		}
	}
	if !strings.HasSuffix(word, "ss") {
		cut("s", "")
	}
	cut("es", "")
	if language == "es" {
		cut("ces", "z")
	} else {
		cut("ies", "y")
		cut("ves", "f")
	}
	return forms
}

// slipped reports whether a typed word is another with one slip: a letter too
// many, one too few, a wrong one, or two that changed places. Short words are
// too much alike for that.
func slipped(typed, word string) bool {
	if len(typed) < 4 || typed[0] != word[0] {
		return false
	}
	i := 0
	for i < len(typed) && i < len(word) && typed[i] == word[i] {
		i++
	}
	t, w := typed[i:], word[i:]
	return len(t) > 0 && t[1:] == w || len(w) > 0 && t == w[1:] || len(t) > 0 && len(w) > 0 && t[1:] == w[1:] ||
		len(t) > 1 && len(w) > 1 && t[0] == w[1] && t[1] == w[0] && t[2:] == w[2:]
}

// meant returns the words of what was typed that name something: "can they eat
// bread?" asks for bread.
func meant(typed, language string) []string {
	words := split(typed)
	asking := askingEN
	if language == "es" {
		asking = askingES
	}
	rest := slices.DeleteFunc(slices.Clone(words), func(w string) bool { return strings.Contains(asking, " "+w+" ") })
	if len(rest) == 0 {
		return words
	}
	return rest
}

const (
	askingEN = " can they worms worm eat i feed give is are ok okay the a an of to for in and or my some them it "
	askingES = " pueden puedo comer dar darles las los el la de del a al en un una y o mis mi lombrices lombriz se les es "
)

// plain writes letters without their accents.
var plain = strings.NewReplacer("á", "a", "à", "a", "â", "a", "ä", "a", "ã", "a", "é", "e", "è", "e", "ê", "e", "ë", "e",
	"í", "i", "ì", "i", "î", "i", "ï", "i", "ó", "o", "ò", "o", "ô", "o", "ö", "o", "ú", "u", "ù", "u", "û", "u", "ü", "u", "ñ", "n", "ç", "c")

// split returns the words of a text in lower case, without accents.
func split(text string) []string {
	return strings.FieldsFunc(plain.Replace(strings.ToLower(text)), func(r rune) bool {
		return (r < 'a' || r > 'z') && (r < '0' || r > '9')
	})
}
