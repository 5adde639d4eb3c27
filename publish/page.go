// SPDX-License-Identifier: MIT

package publish

import (
	"bytes"
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"encoding/json"
	"fmt"
	"html/template"
	"slices"
	"strings"

	"gyle/guest"
	"gyle/plan"
	"gyle/quantity"
	"gyle/recipe"
	"gyle/style"
)

// A Bundle is what a recipe is published with.
type Bundle struct {
	Input    plan.Input       // the recipe on its author's house
	Style    *style.Style     // may be nil
	Versions []*recipe.Recipe // its ancestors and itself, oldest first; may be empty
	Tastings []Tasting        // of these versions, oldest first; may be empty
	Brews    []Brew           // of the recipe, oldest first; may be empty
	Lang     string           // "en" where empty
	Printer  quantity.Printer // units of what is shown without script

	tastingLinks bool // on a site, tastings have pages of their own
}

var (
	//go:embed page/page.html
	pageHTML string
	//go:embed page/page.css
	pageCSS string
	//go:embed page/lzma.js
	lzmaJS string
	//go:embed page/page.js
	pageJS string
)

var pageTemplate = template.Must(template.New("page").Parse(pageHTML))

// pageView is what the template shows.
type pageView struct {
	W         *Words
	Recipe    *recipe.Recipe
	Title     string
	Aims      []line
	Grist     []grainView
	Hops      []chargeView
	Mash      []string
	Water     []line
	Salts     string
	Yeast     []string
	Style     *style.Style
	Prose     []string
	Rules     []ruleView
	Versions  []versionView
	Brews     []brewView
	Groups    []group
	Sheet     *guest.Sheet
	House     string
	Document  string
	Policy    string
	CSS       template.CSS
	Scripts   []template.JS
	Kit       template.JS
	Engine    template.JS
	Packing   string
	Store     string // where the browser keeps the answers
	US, Comma bool
}

type (
	line       struct{ Name, Value string }
	grainView  struct{ Malt, Share, When, Why string }
	chargeView struct{ Hop, When, Amount, Why string }
	ruleView   struct{ Of, When, In, Severity, Why string }
	group      struct {
		Name      string
		Questions []guest.Question
	}
)

// Page writes a recipe as one self-contained page.
func Page(b Bundle, e Engine) ([]byte, error) {
	words := Languages[b.Lang]
	if b.Lang == "" {
		words = &English
	}
	if words == nil {
		return nil, fmt.Errorf("publish a page in the language %s: there are de and en", b.Lang)
	}
	kit, err := guest.Pack(b.Input, b.Style)
	if err != nil {
		return nil, err
	}
	if b.Lang != English.Lang {
		kit.Lang = b.Lang
	}
	table, err := guest.Open(kit)
	if err != nil {
		return nil, err
	}
	v := pageView{W: words, Recipe: b.Input.Recipe, Title: title(b.Input.Recipe), House: b.Input.House.Name, Style: b.Style,
		CSS: template.CSS(pageCSS), Document: kit.Recipe, Packing: e.Packing, Engine: enginePlace,
		US: b.Printer.System == quantity.USCustomary, Comma: b.Printer.DecimalComma}
	v.describe(b.Printer)
	v.tell(b)
	if v.Sheet, err = table.Author(b.Printer); err != nil {
		return nil, err
	}
	for _, q := range table.Asked(b.Printer) {
		if len(v.Groups) == 0 || v.Groups[len(v.Groups)-1].Name != q.Group {
			v.Groups = append(v.Groups, group{Name: q.Group})
		}
		last := &v.Groups[len(v.Groups)-1]
		last.Questions = append(last.Questions, q)
	}
	packed, err := json.Marshal(kit) // escapes < and >, so that no text can end the script it stands in
	if err != nil {
		return nil, fmt.Errorf("write what a page carries: %w", err)
	}
	v.Kit = template.JS(packed)
	sum := sha256.Sum256([]byte(kit.Recipe))
	v.Store = "gyle " + base64.RawURLEncoding.EncodeToString(sum[:9])
	for _, script := range []string{e.Support, lzmaJS + pageJS} {
		v.Scripts = append(v.Scripts, template.JS(strings.TrimSpace(script)))
	}
	v.Policy = policy(v.CSS, v.Scripts)
	var out bytes.Buffer
	if err := pageTemplate.Execute(&out, v); err != nil {
		return nil, fmt.Errorf("write the page of %s: %w", v.Title, err)
	}
	text := typed(out.String())
	at := strings.LastIndex(text, enginePlace) // behind all that an author wrote
	if at < 0 {
		return nil, fmt.Errorf("write the page of %s: it has no place for the engine", v.Title)
	}
	return slices.Concat([]byte(text[:at]), []byte(`"`+e.Packed+`"`), []byte(text[at+len(enginePlace):])), nil
}

// enginePlace stands for the engine until the rest of the page is written: it
// is thirty times longer than all else, and holds nothing to be escaped.
const enginePlace = `"the engine"`

// policy lets a page run its own scripts and nothing else: it may not load,
// send or frame anything.
func policy(css template.CSS, scripts []template.JS) string {
	hash := func(text string) string {
		sum := sha256.Sum256([]byte(text))
		return " 'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
	}
	p := "default-src 'none'; base-uri 'none'; form-action 'none'; style-src" + hash(string(css)) + "; script-src 'wasm-unsafe-eval'"
	for _, s := range scripts {
		p += hash(string(s))
	}
	return p
}

func title(r *recipe.Recipe) string {
	if r.Version == 0 {
		return r.Name
	}
	return fmt.Sprintf("%s %d", r.Name, r.Version)
}
