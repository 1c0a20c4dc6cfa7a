package typegen

import (
	"fmt"
	"go/ast"
	"strings"
)

// expr returns the TypeScript for a Go type as encoding/json writes it. A list
// is written as a list: a view must not send null for an empty one.
func (g *generator) expr(p *pkg, e ast.Expr) (string, error) {
	switch e := e.(type) {
	case *ast.Ident:
		if ts, ok := basic[e.Name]; ok {
			return ts, nil
		}
		return g.named(p, e)
	case *ast.SelectorExpr:
		if x, ok := e.X.(*ast.Ident); ok {
			if ts, ok := outside[x.Name+"."+e.Sel.Name]; ok {
				return ts, nil
			}
		}
		return g.named(p, e)
	case *ast.StarExpr:
		ts, err := g.expr(p, e.X)
		return ts + " | null", err
	case *ast.ArrayType:
		if id, ok := e.Elt.(*ast.Ident); ok && (id.Name == "byte" || id.Name == "uint8") {
			return "string", nil // base64
		}
		ts, err := g.expr(p, e.Elt)
		if strings.Contains(ts, " ") {
			ts = "(" + ts + ")"
		}
		return ts + "[]", err
	case *ast.MapType:
		ts, err := g.expr(p, e.Value)
		return "Record<string, " + ts + ">", err
	case *ast.InterfaceType:
		if len(e.Methods.List) == 0 {
			return "unknown", nil
		}
	case *ast.ParenExpr:
		return g.expr(p, e.X)
	}
	return "", fmt.Errorf("no TypeScript for a type of form %T; use a plainer type or teach typegen", e)
}

var basic = map[string]string{
	"string": "string", "bool": "boolean", "any": "unknown",
	"int": "number", "int8": "number", "int16": "number", "int32": "number", "int64": "number",
	"uint": "number", "uint8": "number", "uint16": "number", "uint32": "number", "uint64": "number", "byte": "number",
	"float32": "number", "float64": "number",
}

var outside = map[string]string{
	"json.RawMessage": "unknown",
	"time.Time":       "string",
}

// named returns the name of a type of this module. One that writes itself as
// text is a string; one that writes its own JSON must be in written.
func (g *generator) named(p *pkg, e ast.Expr) (string, error) {
	q, name, err := g.resolve(p, e)
	if err != nil {
		return "", err
	}
	switch m := q.methods[name]; {
	case m["MarshalJSON"] && written[q.dir+"."+name] != "":
		return written[q.dir+"."+name], nil
	case m["MarshalJSON"]:
		return "", fmt.Errorf("%s.%s writes its own JSON; say in typegen's table what it looks like", q.dir, name)
	case m["MarshalText"]:
		return "string", nil
	}
	if ts, ok := basic[underlying(q, name)]; ok && len(q.constants[name]) == 0 {
		return ts, nil // a quantity: its name adds nothing that the compiler would hold
	}
	return g.need(q, name), nil
}

func underlying(p *pkg, name string) string {
	if id, ok := p.types[name].spec.Type.(*ast.Ident); ok {
		return id.Name
	}
	return ""
}

// written says what the types look like that write their own JSON.
var written = map[string]string{
	"sync/digest.Sum": "{ n: number; s: string }",
}

// comment turns a Go comment into a TypeScript one, or "".
func comment(c *ast.CommentGroup, indent string) string {
	text := ""
	if c != nil {
		text = strings.TrimSpace(c.Text())
	}
	if text == "" {
		return ""
	}
	text = strings.ReplaceAll(text, "*/", "* /")
	lines := strings.Split(text, "\n")
	if len(lines) == 1 {
		return indent + "/** " + text + " */\n"
	}
	var b strings.Builder
	b.WriteString(indent + "/**\n")
	for _, l := range lines {
		b.WriteString(strings.TrimRight(indent+" * "+l, " ") + "\n")
	}
	b.WriteString(indent + " */\n")
	return b.String()
}
