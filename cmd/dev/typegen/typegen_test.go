package typegen_test

import (
	"strings"
	"testing"

	"trayside/cmd/dev/typegen"
)

const want = `// Written by "go run ./cmd/dev gen" from the Go structs that cross the border; edits are lost.

/**
 * Bowl waits for a bin.
 * It has a second line.
 */
export interface Bowl {
	id: string;
	/** left in it */
	mass: number;
	kind: Kind;
	scale: number | null;
	note?: string;
	items: Item[];
	parts?: (Item | null)[];
	words: Record<string, string>;
	raw: unknown;
	any: unknown;
	bytes: string;
	day: string;
	big: string;
	Plain: boolean;
	who: GramsItem;
}

/** Item is one scrap. */
export interface Item {
	scrap: string;
}

/** Common is embedded. */
export interface Common {
	who: GramsItem;
}

/** Kind says what it is. */
export type Kind = "scraps" | "bedding";

/** Item has the name of another package's type. */
export interface GramsItem {
	n: number;
}
`

func TestEveryShapeThatEncodingJSONWrites(t *testing.T) {
	got, err := typegen.Generate("testdata/module", "example", []typegen.Source{{Dir: "bowl"}})
	if err != nil {
		t.Fatal(err)
	}
	if got != want {
		t.Errorf("Generate gave\n%s\nwant\n%s", got, want)
	}
}

func TestWhatCannotBeWrittenIsNamed(t *testing.T) {
	for _, tt := range []struct{ dir, typ, want string }{
		{"grams", "Own", "writes its own JSON"},
		{"grams", "Odd", "teach typegen"},
		{"grams", "Missing", "no type Missing"},
		{"nowhere", "X", "read package nowhere"},
	} {
		_, err := typegen.Generate("testdata/module", "example", []typegen.Source{{Dir: tt.dir, Types: []string{tt.typ}}})
		if err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("Generate of %s.%s: got %v, want an error with %q", tt.dir, tt.typ, err, tt.want)
		}
	}
}
