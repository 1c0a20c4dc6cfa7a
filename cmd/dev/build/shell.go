package build

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"os"
	"regexp"
	"strings"

	"trayside/cmd/dev/tree"
)

// The ground of the app by day, which the phone shows while the page loads.
const ground = "#EBEEE7"

// writeShell makes index.html from its template and the web app's manifest.
func writeShell(t tree.Tree, files []file) ([]file, error) {
	template, err := os.ReadFile(t.Path(pwaDir + "/src/index.html"))
	if err != nil {
		return nil, err
	}
	manifest := file{
		path: "manifest.webmanifest", logical: "manifest.webmanifest", part: "icons and manifest",
		body: webManifest(files), kept: true,
	}
	page, err := fillIn(string(template), append(files[:len(files):len(files)], manifest))
	if err != nil {
		return nil, err
	}
	page = preload(page, files)
	return []file{
		{path: "index.html", logical: "index.html", part: "page", body: []byte(page), kept: true},
		manifest,
	}, nil
}

var local = regexp.MustCompile(`(src|href)="(/[a-z][^"/]*\.[a-z0-9]+)"`)

// fillIn puts the hashed names in the place of the logical ones. A name that
// nothing was built for is an error: the page would ask for it in vain.
func fillIn(template string, files []file) (string, error) {
	at := map[string]string{}
	for _, f := range files {
		if f.logical != "" {
			at["/"+f.logical] = "/" + f.path
		}
	}
	var missing []string
	page := local.ReplaceAllStringFunc(template, func(s string) string {
		m := local.FindStringSubmatch(s)
		to, ok := at[m[2]]
		if !ok {
			missing = append(missing, m[2])
		}
		return m[1] + `="` + to + `"`
	})
	if missing != nil {
		return "", fmt.Errorf("build: pwa/src/index.html names %s, which is not built; take it out or build it", strings.Join(missing, ", "))
	}
	return page, nil
}

// preload names the scripts that the page's own script imports, so that they are
// fetched beside it and not after it.
func preload(page string, files []file) string {
	var links strings.Builder
	for _, f := range files {
		if f.first {
			fmt.Fprintf(&links, "\t\t<link rel=\"modulepreload\" href=\"/%s\" />\n", f.path)
		}
	}
	return strings.Replace(page, "\t</head>", links.String()+"\t</head>", 1)
}

type webIcon struct {
	Src     string `json:"src"`
	Sizes   string `json:"sizes"`
	Type    string `json:"type"`
	Purpose string `json:"purpose"`
}

// about is what the app is for, by language. A phone reads it before the app has
// run, so the language is the browser's, not the one chosen under More; a browser
// that doesn't know the localised member (W3C, "Web Application Manifest",
// working draft of 2026, localized members) shows the English.
var about = map[string]string{
	"en": "What may go into the worm bin today, and why.",
	"es": "Qué puede ir hoy a la compostera de lombrices, y por qué.",
}

func webManifest(files []file) []byte {
	var icons []webIcon
	for _, f := range files {
		for _, i := range iconList {
			if f.logical == i.name && i.purpose != "" {
				icons = append(icons, webIcon{"/" + f.path, i.sizes(), i.mime(), i.purpose})
			}
		}
	}
	return indented(struct {
		ID         string    `json:"id"`
		Name       string    `json:"name"`
		Short      string    `json:"short_name"`
		About      string    `json:"description"`
		Abouts     any       `json:"description_localized"`
		Lang       string    `json:"lang"`
		Start      string    `json:"start_url"`
		Scope      string    `json:"scope"`
		Display    string    `json:"display"`
		Background string    `json:"background_color"`
		Theme      string    `json:"theme_color"`
		Icons      []webIcon `json:"icons"`
	}{"/", "Trayside", "Trayside", about["en"], about, "en", "/", "/", "standalone", ground, ground, icons})
}

func digest(b []byte) string {
	sum := sha256.Sum256(b)
	return hex.EncodeToString(sum[:])
}

// indented is for values of our own, which always encode.
func indented(v any) []byte {
	b, err := json.MarshalIndent(v, "", "  ")
	if err != nil {
		panic("build: " + err.Error())
	}
	return append(b, '\n')
}
