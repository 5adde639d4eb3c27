// SPDX-License-Identifier: MIT

package formulas

import (
	"fmt"
	"go/ast"
	"go/doc/comment"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Formula is one exported function of a chapter whose comment shows a formula.
type Formula struct {
	Chapter string   // folder below science, "hops"
	Func    string   // "IsoRate", or "Window.Bound" for a method
	Summary string   // first paragraph of the comment, without the name of the function
	Text    []string // the formula, line by line
	Notes   []string // what else the comment says, paragraph by paragraph
	Source  string   // keys of sources.bib and where in them
	Valid   string
	Check   string
	Tag     string
	At      string   // file:line of the function
	Faults  []string // what its comment lacks
}

// Name returns the name by which a formula is looked up: "hops.IsoRate".
func (f Formula) Name() string { return f.Chapter + "." + f.Func }

// Chapters returns the names of the folders in dir that hold Go files, sorted.
func Chapters(dir string) ([]string, error) {
	files, err := filepath.Glob(filepath.Join(dir, "*", "*.go"))
	if err != nil {
		return nil, fmt.Errorf("list chapters in %s: %w", dir, err)
	}
	var names []string
	for _, file := range files {
		names = append(names, filepath.Base(filepath.Dir(file)))
	}
	slices.Sort(names)
	return slices.Compact(names), nil
}

// Read returns the formulas of all chapters in dir, sorted by name, and the
// first sentence of each chapter's package comment.
func Read(dir string) (formulas []Formula, chapters map[string]string, err error) {
	names, err := Chapters(dir)
	if err != nil {
		return nil, nil, err
	}
	chapters = map[string]string{}
	for _, name := range names {
		found, about, err := readChapter(dir, name)
		if err != nil {
			return nil, nil, err
		}
		formulas = append(formulas, found...)
		chapters[name] = about
	}
	slices.SortFunc(formulas, func(a, b Formula) int { return strings.Compare(a.Name(), b.Name()) })
	return formulas, chapters, nil
}

func readChapter(dir, chapter string) (formulas []Formula, about string, err error) {
	files, err := os.ReadDir(filepath.Join(dir, chapter))
	if err != nil {
		return nil, "", fmt.Errorf("read chapter %s: %w", chapter, err)
	}
	set := token.NewFileSet()
	for _, entry := range files {
		name := entry.Name()
		if !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(set, filepath.Join(dir, chapter, name), nil, parser.ParseComments|parser.SkipObjectResolution)
		if err != nil {
			return nil, "", fmt.Errorf("read chapter %s: %w", chapter, err)
		}
		if file.Doc != nil {
			about = firstSentence(file.Doc.Text())
		}
		for _, decl := range file.Decls {
			function, ok := decl.(*ast.FuncDecl)
			if !ok || function.Doc == nil || !exported(function) {
				continue
			}
			f, ok := ReadComment(function.Name.Name, function.Doc.Text())
			if !ok {
				continue
			}
			line := set.Position(function.Pos()).Line
			f.Chapter, f.Func = chapter, funcName(function)
			f.At = fmt.Sprintf("science/%s/%s:%d", chapter, name, line)
			formulas = append(formulas, f)
		}
	}
	return formulas, about, nil
}

// firstSentence returns the first sentence of the first paragraph of text.
func firstSentence(text string) string {
	paragraph, _, _ := strings.Cut(text, "\n\n")
	paragraph = strings.Join(strings.Fields(paragraph), " ")
	sentence, _, more := strings.Cut(paragraph, ". ")
	if more {
		sentence += "."
	}
	return sentence
}

// exported reports whether a function, and for a method its receiver, can be
// used from outside its package.
func exported(f *ast.FuncDecl) bool {
	receiver := receiverName(f)
	return f.Name.IsExported() && (receiver == "" || ast.IsExported(receiver))
}

func funcName(f *ast.FuncDecl) string {
	if receiver := receiverName(f); receiver != "" {
		return receiver + "." + f.Name.Name
	}
	return f.Name.Name
}

func receiverName(f *ast.FuncDecl) string {
	if f.Recv == nil || len(f.Recv.List) == 0 {
		return ""
	}
	expr := f.Recv.List[0].Type
	for {
		switch e := expr.(type) {
		case *ast.StarExpr:
			expr = e.X
		case *ast.IndexExpr:
			expr = e.X
		case *ast.Ident:
			return e.Name
		default:
			return "?"
		}
	}
}

// ReadComment takes the comment of the named function apart. It is not ok when
// the comment shows no formula, that is, holds no indented block and no tail.
func ReadComment(name, text string) (f Formula, ok bool) {
	anyName := func(_, _ string) bool { return true } // a name in brackets is a link, wherever it leads
	doc := (&comment.Parser{LookupSym: anyName}).Parse(text)
	tailed := false
	for _, block := range doc.Content {
		switch b := block.(type) {
		case *comment.Code:
			lines := strings.Split(strings.TrimRight(b.Text, "\n"), "\n")
			if merged(lines) {
				f.Faults = append(f.Faults, "the list is part of the formula's block: put a line between")
			}
			f.Text = append(f.Text, lines...)
		case *comment.List:
			if f.readTail(b) {
				tailed = true
			}
		case *comment.Paragraph:
			f.readParagraph(plain(b.Text))
		}
	}
	if len(f.Text) == 0 && !tailed {
		return f, false
	}
	f.Summary = withoutName(name, f.Summary)
	f.Faults = append(f.Faults, f.missing()...)
	return f, true
}

// withoutName turns the first sentence of a comment, which by the custom of Go
// begins with the name of its function, into one for people who don't read code:
// "IsoRate returns the rate …" becomes "The rate …".
func withoutName(name, summary string) string {
	rest, ok := strings.CutPrefix(summary, name+" ")
	if !ok {
		return summary
	}
	for _, verb := range []string{"returns ", "reports ", "is "} {
		if said, ok := strings.CutPrefix(rest, verb); ok {
			rest = said
			break
		}
	}
	first, size := utf8.DecodeRuneInString(rest)
	return string(unicode.ToUpper(first)) + rest[size:]
}

func merged(lines []string) bool {
	return slices.ContainsFunc(lines, func(line string) bool {
		return strings.HasPrefix(strings.TrimSpace(line), "- Source:")
	})
}

// lead is the line that parts a formula from its list, without meaning of its own.
const lead = "How it is known:"

func (f *Formula) readParagraph(text string) {
	switch {
	case text == lead:
	case f.Summary == "":
		f.Summary = text
	default:
		f.Notes = append(f.Notes, text)
	}
}

// readTail reads the list at the end of a comment. Other lists are notes.
func (f *Formula) readTail(list *comment.List) bool {
	found := false
	for _, item := range list.Items {
		text := itemText(item)
		label, value, _ := strings.Cut(text, ":")
		value = strings.TrimSpace(value)
		switch label {
		case "Source":
			f.Source = value
		case "Valid":
			f.Valid = value
		case "Check":
			f.Check = value
		case "Tag":
			f.Tag = value
		default:
			f.Notes = append(f.Notes, "- "+text)
			continue
		}
		found = true
	}
	return found
}

// missing lists the parts of the tail that are not there.
func (f *Formula) missing() []string {
	var faults []string
	for _, part := range []struct{ label, value string }{
		{"Source", f.Source}, {"Valid", f.Valid}, {"Check", f.Check}, {"Tag", f.Tag},
	} {
		if part.value == "" {
			faults = append(faults, "the list lacks "+part.label)
		}
	}
	if len(f.Text) == 0 {
		faults = append(faults, "the comment has a list but no indented formula")
	}
	if f.Tag != "" && !slices.Contains(Tags, f.Tag) {
		faults = append(faults, fmt.Sprintf("%q is no tag; write one of %s", f.Tag, strings.Join(Tags, ", ")))
	}
	return faults
}

// Tags are the words for how well a formula is known, best first.
var Tags = []string{"verified", "second-hand", "from memory", "computed", "derived", "common practice", "estimate"}

func itemText(item *comment.ListItem) string {
	var parts []string
	for _, block := range item.Content {
		if p, ok := block.(*comment.Paragraph); ok {
			parts = append(parts, plain(p.Text))
		}
	}
	return strings.Join(parts, " ")
}

// plain returns the words of a comment without its markup.
func plain(text []comment.Text) string {
	var b strings.Builder
	for _, t := range text {
		switch t := t.(type) {
		case comment.Plain:
			b.WriteString(string(t))
		case comment.Italic:
			b.WriteString(string(t))
		case *comment.Link:
			b.WriteString(plain(t.Text))
		case *comment.DocLink:
			b.WriteString(plain(t.Text))
		}
	}
	return strings.Join(strings.Fields(b.String()), " ")
}
