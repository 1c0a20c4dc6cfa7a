package typegen

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path"
	"path/filepath"
	"reflect"
	"strconv"
	"strings"
)

// pkg is what typegen knows of one Go package.
type pkg struct {
	dir, name string
	types     map[string]typeDecl
	constants map[string][]string        // string constants by their type, quoted, in order
	methods   map[string]map[string]bool // by receiver type
	fileOf    map[string]*ast.File       // type → the file that declares it
}

type typeDecl struct {
	spec *ast.TypeSpec
	doc  *ast.CommentGroup
	at   int // position among all types of the package, files in name order
}

// load parses a package's files, tests left out.
func (g *generator) load(dir string) (*pkg, error) {
	if p, ok := g.packages[dir]; ok {
		return p, nil
	}
	entries, err := os.ReadDir(filepath.Join(g.root, filepath.FromSlash(dir)))
	if err != nil {
		return nil, fmt.Errorf("typegen: read package %s: %w", dir, err)
	}
	p := &pkg{
		dir: dir, types: map[string]typeDecl{}, constants: map[string][]string{},
		methods: map[string]map[string]bool{}, fileOf: map[string]*ast.File{},
	}
	fset := token.NewFileSet()
	for _, e := range entries {
		if !strings.HasSuffix(e.Name(), ".go") || strings.HasSuffix(e.Name(), "_test.go") {
			continue
		}
		f, err := parser.ParseFile(fset, filepath.Join(g.root, filepath.FromSlash(dir), e.Name()), nil, parser.ParseComments|parser.SkipObjectResolution)
		if err != nil {
			return nil, fmt.Errorf("typegen: %w", err)
		}
		p.name = f.Name.Name
		p.read(f)
	}
	if p.name == "" {
		return nil, fmt.Errorf("typegen: %s holds no Go files", dir)
	}
	g.packages[dir] = p
	return p, nil
}

func (p *pkg) read(f *ast.File) {
	for _, d := range f.Decls {
		switch d := d.(type) {
		case *ast.FuncDecl:
			if d.Recv != nil && len(d.Recv.List) == 1 {
				recv := d.Recv.List[0].Type
				if s, ok := recv.(*ast.StarExpr); ok {
					recv = s.X
				}
				if id, ok := recv.(*ast.Ident); ok {
					if p.methods[id.Name] == nil {
						p.methods[id.Name] = map[string]bool{}
					}
					p.methods[id.Name][d.Name.Name] = true
				}
			}
		case *ast.GenDecl:
			for _, spec := range d.Specs {
				switch spec := spec.(type) {
				case *ast.TypeSpec:
					doc := spec.Doc
					if doc == nil && len(d.Specs) == 1 {
						doc = d.Doc
					}
					p.types[spec.Name.Name] = typeDecl{spec, doc, len(p.types)}
					p.fileOf[spec.Name.Name] = f
				case *ast.ValueSpec:
					p.constant(d, spec)
				}
			}
		}
	}
}

// constant notes a string constant that states its type.
func (p *pkg) constant(d *ast.GenDecl, spec *ast.ValueSpec) {
	id, ok := spec.Type.(*ast.Ident)
	if d.Tok != token.CONST || !ok || len(spec.Values) != len(spec.Names) {
		return
	}
	for _, v := range spec.Values {
		if lit, ok := v.(*ast.BasicLit); ok && lit.Kind == token.STRING {
			if s, err := strconv.Unquote(lit.Value); err == nil {
				p.constants[id.Name] = append(p.constants[id.Name], strconv.Quote(s))
			}
		}
	}
}

// resolve finds the package and name of a named type of this module.
func (g *generator) resolve(p *pkg, e ast.Expr) (*pkg, string, error) {
	switch e := e.(type) {
	case *ast.StarExpr:
		return g.resolve(p, e.X)
	case *ast.Ident:
		if _, ok := p.types[e.Name]; !ok {
			return nil, "", fmt.Errorf("%s is no type of %s", e.Name, p.dir)
		}
		return p, e.Name, nil
	case *ast.SelectorExpr:
		x, ok := e.X.(*ast.Ident)
		if !ok {
			break
		}
		dir, err := g.importDir(p, x.Name)
		if err != nil {
			return nil, "", err
		}
		q, err := g.load(dir)
		if err != nil {
			return nil, "", err
		}
		if _, ok := q.types[e.Sel.Name]; !ok {
			return nil, "", fmt.Errorf("%s has no type %s", dir, e.Sel.Name)
		}
		return q, e.Sel.Name, nil
	}
	return nil, "", fmt.Errorf("cannot follow a type of form %T", e)
}

// importDir returns the folder of the package of this module that p imports
// under the given name.
func (g *generator) importDir(p *pkg, local string) (string, error) {
	for _, f := range p.fileOf {
		for _, im := range f.Imports {
			at, err := strconv.Unquote(im.Path.Value)
			if err != nil {
				return "", err
			}
			name := path.Base(at)
			if im.Name != nil {
				name = im.Name.Name
			}
			if dir, ok := strings.CutPrefix(at, g.module+"/"); ok && name == local {
				return dir, nil
			}
		}
	}
	return "", fmt.Errorf("no import of this module is called %s", local)
}

// tag is what encoding/json reads from a field's tag.
type tag struct {
	name     string
	optional bool
	quoted   bool
	skip     bool
}

func tagOf(f *ast.Field) (tag, error) {
	if f.Tag == nil {
		return tag{}, nil
	}
	raw, err := strconv.Unquote(f.Tag.Value)
	if err != nil {
		return tag{}, err
	}
	parts := strings.Split(reflect.StructTag(raw).Get("json"), ",")
	if parts[0] == "-" && len(parts) == 1 {
		return tag{skip: true}, nil
	}
	t := tag{name: parts[0]}
	for _, o := range parts[1:] {
		switch o {
		case "omitempty", "omitzero":
			t.optional = true
		case "string":
			t.quoted = true
		}
	}
	return t, nil
}
