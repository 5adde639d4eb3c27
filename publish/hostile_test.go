// SPDX-License-Identifier: MIT

package publish

import (
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"gyle/plan"
	"gyle/recipe"
)

// hostileTexts want to break a page, a text or a label: markup that ends what
// it stands in, directions, control characters, names without end.
var hostileTexts = []string{
	`</script><script>alert(1)</script>`, `<!--<script>`, `--></title></pre></textarea>`, `]]><svg/onload=alert(1)>`, `"><img src=x onerror=alert(1)>`,
	`' onmouseover='alert(1)`, `javascript:alert(1)`, `[a](javascript:alert(1)) ![x](x)`, "{{.Kit}} ${x} `y`", "\u202Eeil\u202C \u2066x\u2069 שלום عالم", "a\u2028b\u2029c",
	"\x01\x1b[31m\x7f\u0085", "\x00", "\xff\xfe\xc0", "| a | b |\n|---|---|\n# head\n\n> quote\n- [ ] task\n    code", "🍺🏴‍☠️ a\u0301\u0300\u0302", "\uFEFF\u200B\u00AD", strings.Repeat("Malz", 2500), strings.Repeat("<b>&", 2500), "",
}

// hostileBundle is the demonstration with a text wherever its author may write.
func hostileBundle(t *testing.T, text string) Bundle {
	t.Helper()
	b := ferryBrown(t)
	r, st, house := *b.Input.Recipe, *b.Style, *b.Input.House
	r.Name, r.By, r.Note = text, text, text
	r.Grist = append([]recipe.Grain{}, r.Grist...)
	r.Hops = append([]recipe.Charge{}, r.Hops...)
	for i := range r.Grist {
		r.Grist[i].Why = text
	}
	for i := range r.Hops {
		r.Hops[i].Why = text
	}
	r.Change = &recipe.Change{What: text, Why: text, Expect: text}
	st.Name, st.By, st.Prose, st.Note = text, text, text, text
	house.Name = text
	b.Input.Recipe, b.Input.House, b.Style, b.Versions = &r, &house, &st, []*recipe.Recipe{&r}
	return b
}

// What a document says stays text in all that is handed on. The page has the
// elements of an innocent one and no others; nothing holds broken letters or
// control characters.
func TestHostileTextsStayText(t *testing.T) {
	innocent := page(t, hostileBundle(t, "x"))
	for _, text := range hostileTexts {
		b := hostileBundle(t, text)
		if !utf8.ValidString(text) || strings.ContainsRune(text, 0) {
			if _, err := Page(b, Engine{}); err == nil || !strings.Contains(err.Error(), "name") {
				t.Errorf("%q is published (%v)", text, err)
			}
			continue // no document can hold it
		}
		said := page(t, b)
		for _, element := range []string{"<script", "<img", "<svg", "<iframe", "<b>", "<title", "<textarea", "<!--", " onerror=", " onmouseover=", " onload="} {
			if got, want := strings.Count(strings.ToLower(said), element), strings.Count(strings.ToLower(innocent), element); got != want && !quoted(said, element) {
				t.Errorf("%.30q makes %q come %d times on the page, not %d", text, element, got, want)
			}
		}
		sound(t, "page", text, said)
		plain, err := Text(b)
		if err != nil {
			t.Fatalf("%.30q: %v", text, err)
		}
		sound(t, "text", text, plain)
		marked, err := Markdown(b)
		if err != nil {
			t.Fatalf("%.30q: %v", text, err)
		}
		sound(t, "Markdown", text, marked)
		if safe := strings.NewReplacer(`\<`, "", `\[`, "", `\]`, "", `\!`, "").Replace(marked); strings.Contains(safe, "<script") || strings.Contains(safe, "<img") || strings.Contains(safe, "](javascript") {
			t.Errorf("%.30q is markup in Markdown", text)
		}
		p, err := plan.Make(b.Input)
		if err != nil {
			t.Fatalf("%.30q: %v", text, err)
		}
		if label := LabelFor(p, 0, text, text, b.Printer).Text(); !utf8.ValidString(label) {
			t.Errorf("the label of %.30q has broken letters", text)
		}
	}
}

// quoted reports whether all that looks like an attribute stands within text,
// where its quotes are written as entities.
func quoted(page, element string) bool {
	if !strings.HasPrefix(element, " on") {
		return false
	}
	for part := range strings.SplitSeq(page, "<") {
		tag, _, _ := strings.Cut(part, ">")
		if strings.Contains(tag, element) && !strings.Contains(tag, "&#39;"+element) && !strings.Contains(tag, "&#34;"+element) {
			return false
		}
	}
	return true
}

func page(t *testing.T, b Bundle) string {
	t.Helper()
	said, err := Page(b, Engine{Packing: "gzip", Support: "// none"})
	if err != nil {
		t.Fatalf("%.30q: %v", b.Input.Recipe.Name, err)
	}
	return string(said)
}

// sound checks that a text is one.
func sound(t *testing.T, what, of, said string) {
	t.Helper()
	if !utf8.ValidString(said) {
		t.Errorf("the %s of %.30q has broken letters", what, of)
	}
	for i, r := range said {
		if unicode.IsControl(r) && r != '\n' && r != '\t' {
			t.Errorf("the %s of %.30q has %U at %d: %q", what, of, r, i, said[max(i-30, 0):i])
			return
		}
	}
}
