// SPDX-License-Identifier: MIT

package describe

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// comments are those of types and fields, by "gyle/plan.Plan" and
// "gyle/plan.Plan.Volumes".
type comments map[string]string

// module is the path of the project's own packages.
const module = "gyle"

// readComments reads the comments of all types of the project in a folder.
func readComments(root string) (comments, error) {
	c := comments{}
	err := filepath.WalkDir(root, func(name string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		base := entry.Name()
		if entry.IsDir() {
			if name != root && (strings.HasPrefix(base, ".") || base == "testdata" || base == "bin") {
				return fs.SkipDir
			}
			return nil
		}
		if !strings.HasSuffix(base, ".go") || strings.HasSuffix(base, "_test.go") {
			return nil
		}
		return c.file(root, name)
	})
	return c, err
}

func (c comments) file(root, name string) error {
	text, err := os.ReadFile(name)
	if err != nil {
		return err
	}
	file, err := parser.ParseFile(token.NewFileSet(), name, text, parser.ParseComments|parser.SkipObjectResolution)
	if err != nil {
		return err
	}
	folder, err := filepath.Rel(root, filepath.Dir(name))
	if err != nil {
		return err
	}
	path := module + "/" + filepath.ToSlash(folder)
	for _, decl := range file.Decls {
		general, ok := decl.(*ast.GenDecl)
		if !ok || general.Tok != token.TYPE {
			continue
		}
		for _, spec := range general.Specs {
			of := spec.(*ast.TypeSpec)
			key := path + "." + of.Name.Name
			c[key] = said(of.Doc, general.Doc)
			if form, ok := of.Type.(*ast.StructType); ok {
				c.fields(key, form)
			}
		}
	}
	return nil
}

func (c comments) fields(of string, form *ast.StructType) {
	for _, field := range form.Fields.List {
		text := said(field.Doc, field.Comment)
		for _, name := range field.Names {
			c[of+"."+name.Name] = text
		}
	}
}

// said is the first of two comments that says something, on one line.
func said(groups ...*ast.CommentGroup) string {
	for _, g := range groups {
		if text := strings.Join(strings.Fields(g.Text()), " "); text != "" {
			return plainly(text)
		}
	}
	return ""
}

// plainly takes the marks out that only Go's own documentation reads.
func plainly(text string) string { return links.Replace(text) }

var links = strings.NewReplacer("[", "", "]", "")
