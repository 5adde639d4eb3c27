// SPDX-License-Identifier: MIT

package web

import (
	"net/http"
	"testing"

	"gyle/recipe"
)

// The first page asks what the latest version of each beer expects.
func TestHomeAsksOpenQuestions(t *testing.T) {
	c, _ := recipeClient(t)
	want(t, c.get("/"), http.StatusOK, "Open questions", "expects more currant at the same bitterness", `href="/plan?recipe=ferry-brown-4"`)
}

func TestQuestionOfTheLatestVersion(t *testing.T) {
	version := func(n int, expect string) *recipe.Recipe {
		return &recipe.Recipe{Name: "Mild", Version: n, Change: &recipe.Change{What: "x", Expect: expect}}
	}
	list := withQuestion(nil, Document{Slug: "mild-2"}, version(2, "drier"))
	list = withQuestion(list, Document{Slug: "mild-3"}, version(3, "softer"))
	list = withQuestion(list, Document{Slug: "mild-1"}, version(1, "stronger"))
	if len(list) != 1 || list[0].Slug != "mild-3" || list[0].Expect != "softer" {
		t.Errorf("asked %+v", list)
	}
}
