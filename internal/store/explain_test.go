// SPDX-License-Identifier: MIT

package store

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// pageQueries reads the queries from the source, so that none is forgotten here.
func pageQueries(t *testing.T) map[string]string {
	t.Helper()
	file, err := parser.ParseFile(token.NewFileSet(), "queries.go", nil, 0)
	must(t, err)
	found := map[string]string{}
	ast.Inspect(file, func(node ast.Node) bool {
		spec, ok := node.(*ast.ValueSpec)
		if !ok {
			return true
		}
		text, err := strconv.Unquote(spec.Values[0].(*ast.BasicLit).Value)
		must(t, err)
		found[spec.Names[0].Name] = text
		return false
	})
	return found
}

// harmless are the scans that don't grow with the book: a search index reads
// what matches, a constant row is one row.
var harmless = regexp.MustCompile(`^SCAN (s VIRTUAL TABLE INDEX \d+:.*M|CONSTANT ROW)`)

func TestNoPageQueryScansOrSorts(t *testing.T) {
	b, queries := openTest(t), pageQueries(t)
	if len(queries) < 15 {
		t.Fatalf("only %d queries in queries.go", len(queries))
	}
	for name, query := range queries {
		plan := explain(t, b, query)
		for _, step := range plan {
			scans := strings.HasPrefix(step, "SCAN") && !harmless.MatchString(step)
			if scans || strings.Contains(step, "TEMP B-TREE") || strings.Contains(step, "AUTOMATIC") {
				t.Errorf("%s: %s", name, strings.Join(plan, "; "))
			}
		}
	}
}

func explain(t *testing.T, b *Book, query string) (steps []string) {
	t.Helper()
	args := make([]any, strings.Count(regexp.MustCompile(`\?[1-9]`).ReplaceAllString(highest(query), "x"), "x"))
	rows, err := b.readers.Query("EXPLAIN QUERY PLAN "+query, args...)
	must(t, err)
	defer rows.Close()
	for rows.Next() {
		var id, parent, unused int
		var detail string
		must(t, rows.Scan(&id, &parent, &unused, &detail))
		steps = append(steps, detail)
	}
	must(t, rows.Err())
	return steps
}

// highest keeps one mark for each parameter number.
func highest(query string) (marks string) {
	for n := 1; n <= 9; n++ {
		if mark := "?" + strconv.Itoa(n); strings.Contains(query, mark) {
			marks += mark
		}
	}
	return marks
}

// A scan must be noticed, or the test above proves nothing.
func TestExplainNoticesAScan(t *testing.T) {
	plan := explain(t, openTest(t), `SELECT text FROM revision WHERE why = ?1 ORDER BY at`)
	if text := strings.Join(plan, "; "); !strings.Contains(text, "SCAN revision") || harmless.MatchString(plan[0]) || !strings.Contains(text, "TEMP B-TREE") {
		t.Errorf("plan = %s, want a scan and a sort", text)
	}
}

// modernc.org/sqlite is tested with one version of modernc.org/libc, the one its
// own go.mod names (v1.80.1 for v1.62.0, read in that file); another can break it.
func TestLibcIsTheOneSQLiteWants(t *testing.T) {
	text, err := os.ReadFile("../../go.mod")
	must(t, err)
	want := map[string]string{"modernc.org/sqlite": "v1.62.0", "modernc.org/libc": "v1.80.1"}
	for _, line := range strings.Split(string(text), "\n") {
		fields := strings.Fields(strings.TrimPrefix(strings.TrimSpace(line), "require "))
		if len(fields) < 2 || want[fields[0]] == "" {
			continue
		}
		if fields[1] != want[fields[0]] {
			t.Errorf("go.mod names %s %s, want %s: change both together", fields[0], fields[1], want[fields[0]])
		}
		delete(want, fields[0])
	}
	for module := range want {
		t.Errorf("go.mod lacks %s", module)
	}
}
