package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
)

// shape is what a part of a trial's file must look like, so that a fault can be
// told with the path of its field: feed[3].day.
type shape struct {
	kind   string
	of     *shape            // of a list's entries
	fields map[string]*shape // of an object
}

// What a part can be, as messages call it.
const (
	aWord, aNumber, aWhole, aList, anObject = "a word", "a number", "a whole number", "a list", "an object"
	anything                                = "anything" // readTrial looks closer
)

var (
	wordShape   = &shape{kind: aWord}
	numberShape = &shape{kind: aNumber}
	wholeShape  = &shape{kind: aWhole}
	anyShape    = &shape{kind: anything}

	trialShape = objectShape(map[string]*shape{
		"species": wordShape, "area_cm2": numberShape, "temp_c": anyShape, "moisture_pct": numberShape,
		"start":                     objectShape(map[string]*shape{"adults": numberShape, "adult_mg": numberShape, "juveniles": numberShape, "juvenile_mg": numberShape, "cocoons": numberShape}),
		"feed":                      {kind: aList, of: objectShape(map[string]*shape{"day": wholeShape, "g": numberShape, "food": wordShape})},
		"remove":                    {kind: aList, of: objectShape(map[string]*shape{"day": wholeShape, "g": anyShape})},
		"remove_cocoons_every_days": wholeShape, "days": wholeShape, "report_every_days": wholeShape,
	})
)

func objectShape(fields map[string]*shape) *shape { return &shape{kind: anObject, fields: fields} }

// checkShape says what of a trial's text has not the shape of a trial, and where.
// Nothing, null, stands for a field that is missing.
func checkShape(text []byte) error {
	d := json.NewDecoder(bytes.NewReader(text))
	d.UseNumber()
	if !d.More() {
		return errors.New("is empty; see trayside simulate --help for what it holds")
	}
	if err := trialShape.check(d, ""); err != nil {
		return err
	}
	if _, err := d.Token(); !errors.Is(err, io.EOF) {
		return errors.New("there is more after the trial; the file holds one JSON object")
	}
	return nil
}

// check reads one value and compares it with the shape; path is where it stands,
// "" for the whole file.
func (s *shape) check(d *json.Decoder, path string) error {
	token, err := d.Token()
	if err != nil {
		return noJSON(path, err)
	}
	got, wrong := kindOf(token), ""
	switch {
	case s.kind == anything, token == nil && path != "":
	case s.kind == aWhole && got == aNumber:
		wrong = wrongWhole(token.(json.Number))
	case s.kind == aNumber && got == aNumber:
		if _, err := token.(json.Number).Float64(); err != nil {
			wrong = fmt.Sprintf("%s is more than a number can be", token)
		}
	case got != s.kind && path == "":
		wrong = fmt.Sprintf("holds %s where one JSON object belongs", got)
	case got != s.kind:
		wrong = fmt.Sprintf("holds %s where %s belongs", got, s.kind)
	}
	if wrong != "" {
		return faultAt(path, wrong)
	}
	switch token {
	case json.Delim('['):
		return s.list(d, path)
	case json.Delim('{'):
		return s.object(d, path)
	}
	return nil
}

// deepest is how many names a path may hold; a trial's hold three.
const deepest = 8

func (s *shape) list(d *json.Decoder, path string) error {
	of := s.of
	if of == nil {
		of = anyShape
	}
	for i := 0; d.More(); i++ {
		place := fmt.Sprintf("%s[%d]", path, i)
		if strings.Count(place, "[")+strings.Count(place, ".") > deepest {
			return faultAt(path, "holds lists in lists without end")
		}
		if err := of.check(d, place); err != nil {
			return err
		}
	}
	return closed(d, path)
}

func (s *shape) object(d *json.Decoder, path string) error {
	var seen []string
	for d.More() {
		token, err := d.Token()
		if err != nil {
			return noJSON(path, err)
		}
		name := token.(string) // the decoder lets nothing else stand for a name
		place := strings.TrimPrefix(path+"."+name, ".")
		field := s.fields[name]
		switch {
		case s.kind == anything:
			return faultAt(path, "holds an object where none belongs")
		case field == nil:
			return faultAt(place, "no such field; see trayside simulate --help for those there are")
		case slices.Contains(seen, name):
			return faultAt(place, "stands there twice; which of them holds?")
		}
		seen = append(seen, name)
		if err := field.check(d, place); err != nil {
			return err
		}
	}
	return closed(d, path)
}

// closed reads the bracket at the end of a list or an object.
func closed(d *json.Decoder, path string) error {
	if _, err := d.Token(); err != nil {
		return noJSON(path, err)
	}
	return nil
}

// faultAt says where something is wrong.
func faultAt(path, wrong string) error {
	if path == "" {
		return errors.New(wrong)
	}
	return fmt.Errorf("%s: %s", path, wrong)
}

// noJSON says in our words what is wrong with the JSON.
func noJSON(path string, err error) error {
	var syntax *json.SyntaxError
	switch {
	case errors.Is(err, io.EOF), errors.Is(err, io.ErrUnexpectedEOF):
		return faultAt(path, "the file ends in the middle; a bracket or a quotation mark is missing")
	case errors.As(err, &syntax):
		return faultAt(path, fmt.Sprintf("is no JSON at byte %d: %v", syntax.Offset, syntax))
	}
	return faultAt(path, err.Error())
}

func kindOf(token json.Token) string {
	switch token.(type) {
	case string:
		return aWord
	case json.Number:
		return aNumber
	case bool:
		return "true or false"
	case nil:
		return "nothing"
	}
	if token == json.Delim('[') {
		return aList
	}
	return anObject
}

// mostWhole is beyond any count of days.
const mostWhole = 1e9

// wrongWhole says why a number is no whole one. 40.0 and 4e1 are forty: scripts
// write them so.
func wrongWhole(n json.Number) string {
	v, err := n.Float64()
	if err != nil || v != math.Trunc(v) || math.Abs(v) > mostWhole {
		return fmt.Sprintf("holds %s where a whole number belongs", n)
	}
	return ""
}

// wholeDays is a whole number of a file that checkShape let through.
type wholeDays int

// UnmarshalJSON is part of json.Unmarshaler.
func (c *wholeDays) UnmarshalJSON(text []byte) error {
	v, err := strconv.ParseFloat(string(text), 64)
	*c = wholeDays(v)
	return err
}
