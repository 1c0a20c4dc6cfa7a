package label

import "testing"

// Values and check symbols worked by hand from the definition (value modulo 37
// over the extended alphabet); 456789 is here because a worked example of it in
// circulation is wrong.
func TestCheckSymbolVectors(t *testing.T) {
	for _, tt := range []struct {
		code  string
		value uint64
		check byte
	}{
		{"1", 1, '1'},
		{"62", 194, '9'},
		{"1CKE", 45678, 'M'},
		{"DY2N", 456789, 'R'},
		{"C515", 398373, 'Z'},
		{"XSNJG0", 1000000000, '1'},
		{"3D2ZQ6TVC93", 3838385658376483, '5'},
		{"FZZZZZZZZZZZZ", 1<<64 - 1, 'B'},
		{"7K3M9QX2", 0, 'U'},
	} {
		v := value(tt.code)
		if tt.value != 0 && v != tt.value {
			t.Errorf("value of %s is %d, want %d", tt.code, v, tt.value)
		}
		if got := checkSymbol(v); got != tt.check {
			t.Errorf("check symbol of %s is %c, want %c", tt.code, got, tt.check)
		}
	}
}
