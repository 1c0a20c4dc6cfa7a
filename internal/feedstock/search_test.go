package feedstock_test

import (
	"strings"
	"testing"

	"trayside/internal/feedstock"
)

func TestEveryEntryHasItsWordsInEveryLanguage(t *testing.T) {
	c := feedstock.Standard()
	for _, language := range feedstock.Languages() {
		names := map[string]string{}
		for _, e := range c.Entries {
			w := c.Words(e.ID, language)
			if w.Name == "" {
				t.Errorf("%s has no name in %q", e.ID, language)
			}
			if other := names[w.Name]; other != "" {
				t.Errorf("%s and %s are both called %q", e.ID, other, w.Name)
			}
			names[w.Name] = e.ID
			for _, also := range w.Also {
				if strings.TrimSpace(also) != also || also == "" {
					t.Errorf("%s: %q is no other word for it", e.ID, also)
				}
			}
			if w.Differ != "" && !strings.HasSuffix(w.Differ, ".") {
				t.Errorf("%s: %q is no sentence", e.ID, w.Differ)
			}
			if (w.Differ == "") != (c.Words(e.ID, feedstock.English).Differ == "") {
				t.Errorf("%s: where guides differ stands in one language only", e.ID)
			}
			if w.Differ != "" && e.Disagree == "" {
				t.Errorf("%s: guides are said to differ, but the catalogue has no note of it", e.ID)
			}
		}
		known, err := feedstock.LoadNames("id\tname\talso\tdiffer\n")
		if err != nil || len(known) != 0 {
			t.Errorf("a file of no names: %v, %v", known, err)
		}
		if w := c.Words("no-such-thing", language); w.Name != "" {
			t.Errorf("a thing that the catalogue lacks is called %q", w.Name)
		}
	}
	if c.Words("carrot", "fr").Name != c.Words("carrot", feedstock.English).Name {
		t.Error("a language that the catalogue lacks is not answered in English")
	}
}

func TestNamesThatCannotBeAreRefused(t *testing.T) {
	const head = "id\tname\talso\tdiffer\n"
	for name, text := range map[string]string{
		"an id that stands twice": head + "a\tA\t\t\na\tB\t\t\n",
		"a name that is missing":  head + "a\t\t\t\n",
		"a row that lost a tab":   head + "a\tA\t\n",
	} {
		if _, err := feedstock.LoadNames(text); err == nil || !strings.HasPrefix(err.Error(), "line ") {
			t.Errorf("%s: got %v, want an error with a line number", name, err)
		}
	}
}

func TestSearchFindsWhatPeopleCallThings(t *testing.T) {
	c := feedstock.Standard()
	for _, row := range []struct{ name, language, typed, want string }{
		{"a name", "en", "banana", "banana-peel"},
		{"spaces and capitals", "en", "  COFFEE ", "coffee-grounds"},
		{"another word for it", "en", "zucchini", "courgette"},
		{"another word in the plural", "en", "eggplants", "aubergine"},
		{"a plural of a name in the singular", "en", "onions", "onion"},
		{"a singular of a name in the plural", "en", "strawberry", "berry"},
		{"a plural in -ves", "en", "oak leaf", "leaves-oak"},
		{"a plural in -oes", "en", "tomatoes", "tomato"},
		{"the thing itself before what begins like it", "en", "egg", "egg"},
		{"two words", "en", "tea bag", "tea-bag-paper"},
		{"a whole question", "en", "Can they eat bread?", "bread"},
		{"a word that is half typed", "en", "cauli", "cauliflower"},
		{"a letter too many", "en", "brocolli", "broccoli-stalk"},
		{"a letter too few", "en", "zuchini", "courgette"},
		{"two letters that changed places", "en", "cabbgae", "cabbage"},
		{"meat under the name of an animal", "en", "chicken", "meat-raw"},
		{"a catalogue id", "en", "kitchen mixed", "kitchen-mixed"},
		{"nothing of that name", "en", "xyz", ""},
		{"a slip in a short word finds nothing", "en", "xgg", ""},
		{"Spanish, without its accent", "es", "platano", "banana-peel"},
		{"a word of another country", "es", "palta", "avocado-flesh"},
		{"a Spanish plural in -ces", "es", "nueces", "nuts"},
		{"a Spanish plural in -es", "es", "limones", "lemon-peel"},
		{"a Spanish question", "es", "¿Pueden comer pan?", "bread"},
		{"ñ typed as n", "es", "pina", "pineapple"},
		{"a Spanish slip", "es", "sanahoria", ""},
		{"a Spanish letter too few", "es", "zanaoria", "carrot"},
	} {
		got := ""
		if hits := c.Search(row.typed, row.language); len(hits) > 0 {
			got = hits[0].ID
		}
		if got != row.want {
			t.Errorf("%s: %q finds %q first, want %q", row.name, row.typed, got, row.want)
		}
	}
}

func TestEveryEntryIsFoundByItsName(t *testing.T) {
	c := feedstock.Standard()
	for _, language := range feedstock.Languages() {
		for _, e := range c.Entries {
			w := c.Words(e.ID, language)
			for _, typed := range append([]string{w.Name}, w.Also[:min(1, len(w.Also))]...) {
				found := false
				for _, hit := range c.Search(typed, language) {
					found = found || hit.ID == e.ID
				}
				if !found {
					t.Errorf("%s: %q does not find it", e.ID, typed)
				}
			}
		}
	}
}

func TestBeforeAnythingIsTypedTheEverydayThingsAreThere(t *testing.T) {
	all := feedstock.Standard().Search(" ", "en")
	for _, e := range all {
		if e.Rare {
			t.Errorf("%s is rare and shown before anything is typed", e.ID)
		}
	}
	if len(all) != 124 {
		t.Errorf("%d everyday entries, want 124", len(all))
	}
}
