// Package typegen writes TypeScript types from Go structs, so that what crosses
// the border to the phone app is stated once. It reads source with go/parser and
// follows encoding/json's rules for the shapes the project uses; a shape it
// does not know is an error, never a guess.
//
// Generate is the way in. It reads files and writes none.
package typegen

import (
	"fmt"
	"go/ast"
	"sort"
	"strings"
)

// Source is one package whose types cross the border.
type Source struct {
	Dir   string   // relative to the module's root, with slashes
	Types []string // the types to write; nil means every exported type with JSON tags
}

// Generate returns the TypeScript of all sources and of what they refer to.
// Sources come first in the order given; a name that two packages use gets its
// package's name in front in all but the first.
func Generate(root, module string, sources []Source) (string, error) {
	g := &generator{root: root, module: module, packages: map[string]*pkg{}, names: map[string]string{}, taken: map[string]bool{}}
	for _, s := range sources {
		p, err := g.load(s.Dir)
		if err != nil {
			return "", err
		}
		want := s.Types
		if want == nil {
			want = p.tagged()
		}
		for _, name := range want {
			if _, ok := p.types[name]; !ok {
				return "", fmt.Errorf("typegen: %s has no type %s; mend the list of sources in cmd/dev", s.Dir, name)
			}
			g.need(p, name)
		}
	}
	var out strings.Builder
	out.WriteString(header)
	for i := 0; i < len(g.queue); i++ { // writing one type may ask for others
		t := g.queue[i]
		if err := g.write(&out, t.pkg, t.name); err != nil {
			return "", fmt.Errorf("typegen: %s.%s: %w", t.pkg.dir, t.name, err)
		}
	}
	return out.String(), nil
}

const header = `// Written by "go run ./cmd/dev gen" from the Go structs that cross the border; edits are lost.
`

type generator struct {
	root, module string
	packages     map[string]*pkg
	queue        []typeRef
	names        map[string]string // "dir.Type" → TypeScript name
	taken        map[string]bool
}

type typeRef struct {
	pkg  *pkg
	name string
}

// need returns the TypeScript name of a Go type and sees that it is written.
func (g *generator) need(p *pkg, name string) string {
	key := p.dir + "." + name
	if ts, ok := g.names[key]; ok {
		return ts
	}
	ts := name
	if g.taken[ts] {
		ts = strings.ToUpper(p.name[:1]) + p.name[1:] + name
	}
	g.names[key], g.taken[ts] = ts, true
	g.queue = append(g.queue, typeRef{p, name})
	return ts
}

func (g *generator) write(out *strings.Builder, p *pkg, name string) error {
	t := p.types[name]
	ts := g.names[p.dir+"."+name]
	doc := comment(t.doc, "")
	switch typ := t.spec.Type.(type) {
	case *ast.StructType:
		members, err := g.members(p, typ)
		if err != nil {
			return err
		}
		fmt.Fprintf(out, "\n%sexport interface %s {\n", doc, ts)
		for _, m := range members {
			out.WriteString(m)
		}
		out.WriteString("}\n")
	default:
		alias, err := g.alias(p, name, typ)
		if err != nil {
			return err
		}
		fmt.Fprintf(out, "\n%sexport type %s = %s;\n", doc, ts, alias)
	}
	return nil
}

// alias returns what a named type that is no struct looks like in JSON: for a
// string with constants, the union of them.
func (g *generator) alias(p *pkg, name string, typ ast.Expr) (string, error) {
	base, err := g.expr(p, typ)
	if err != nil || base != "string" {
		return base, err
	}
	values := p.constants[name]
	if len(values) == 0 {
		return "string", nil
	}
	return strings.Join(values, " | "), nil
}

// members returns the lines of an interface, embedded structs flattened as
// encoding/json does.
func (g *generator) members(p *pkg, s *ast.StructType) ([]string, error) {
	var lines []string
	for _, f := range s.Fields.List {
		tag, err := tagOf(f)
		if err != nil {
			return nil, err
		}
		if tag.skip {
			continue
		}
		if len(f.Names) == 0 && tag.name == "" {
			q, name, err := g.resolve(p, f.Type)
			if err != nil {
				return nil, err
			}
			inner, ok := q.types[name]
			st, isStruct := inner.spec.Type.(*ast.StructType)
			if !ok || !isStruct {
				return nil, fmt.Errorf("embeds %s, which is no struct", name)
			}
			more, err := g.members(q, st)
			if err != nil {
				return nil, err
			}
			lines = append(lines, more...)
			continue
		}
		for _, n := range f.Names {
			if !n.IsExported() {
				continue
			}
			line, err := g.member(p, n.Name, f, tag)
			if err != nil {
				return nil, fmt.Errorf("field %s: %w", n.Name, err)
			}
			lines = append(lines, line)
		}
	}
	return lines, nil
}

func (g *generator) member(p *pkg, name string, f *ast.Field, tag tag) (string, error) {
	if tag.name != "" {
		name = tag.name
	}
	typ := f.Type
	star, pointer := typ.(*ast.StarExpr)
	if pointer {
		typ = star.X
	}
	ts, err := g.expr(p, typ)
	if err != nil {
		return "", err
	}
	mark := ""
	switch {
	case tag.optional:
		mark = "?"
	case pointer:
		ts += " | null"
	}
	if tag.quoted {
		ts = "string"
	}
	doc := comment(f.Doc, "\t")
	if doc == "" {
		doc = comment(f.Comment, "\t")
	}
	return fmt.Sprintf("%s\t%s%s: %s;\n", doc, name, mark, ts), nil
}

// tagged returns the exported struct types with at least one JSON tag, in the
// order of the source.
func (p *pkg) tagged() []string {
	var names []string
	for name, t := range p.types {
		s, ok := t.spec.Type.(*ast.StructType)
		if !ok || !ast.IsExported(name) {
			continue
		}
		for _, f := range s.Fields.List {
			if f.Tag != nil && strings.Contains(f.Tag.Value, "json:") {
				names = append(names, name)
				break
			}
		}
	}
	sort.Slice(names, func(i, j int) bool { return p.types[names[i]].at < p.types[names[j]].at })
	return names
}
