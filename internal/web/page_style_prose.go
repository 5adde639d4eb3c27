// SPDX-License-Identifier: MIT

package web

import (
	"errors"
	"fmt"
	"maps"
	"net/http"
	"slices"
	"strings"

	"gyle/internal/document"
	"gyle/style"
)

// Spare rows under the lists of a style.
const (
	spareTastes = 3
	spareGroups = 2
)

// styleProse shows the form of all that a style says beside its rules.
func (s *Server) styleProse(w http.ResponseWriter, r *http.Request) error {
	_, d, err := s.read(r)
	if err != nil {
		return err
	}
	draft, err := document.OpenDraft([]byte(d.Text))
	if err != nil {
		return seeOther(w, r, d.Path()+"/text")
	}
	groups := groupsOf(d)
	form := proseForm(d, d.Revision, draft.Len("taste"), len(groups))
	form.fill(draft)
	form.each(func(x *formField) {
		for i, g := range groups {
			switch x.Path {
			case rowPath("groups", i, "name"):
				x.Value = g.Value
			case rowPath("groups", i, "members"):
				x.Value = g.Label
			}
		}
	})
	form.Author = handOf(r).Author
	return s.showForm(w, r, http.StatusOK, d, form)
}

// groupsOf lists the groups of a style in the order of their names.
func groupsOf(d Document) (list []formChoice) {
	st, err := style.Parse(d.Slug, []byte(d.Text))
	if err != nil {
		return nil
	}
	for _, name := range slices.Sorted(maps.Keys(st.Groups)) {
		list = append(list, formChoice{name, strings.Join(st.Groups[name], ", ")})
	}
	return list
}

func proseForm(d Document, base, tastes, groups int) docForm {
	taste := formGroup{Title: "In the glass", Across: 3, About: "What belongs to the style and how much of it: silk, medium to high. In these words (none, low, medium-low, medium, medium-high, high) a panel’s profile is held against it."}
	for i := range tastes + spareTastes {
		n := fmt.Sprintf(" %d", i+1)
		taste.Fields = append(taste.Fields,
			formField{Path: rowPath("taste", i, "quality"), Label: "Quality" + n},
			formField{Path: rowPath("taste", i, "range"), Label: "Range" + n},
			formField{Path: rowPath("taste", i, "note"), Label: "Note" + n})
	}
	named := formGroup{Title: "Groups for the rules", Across: 2, About: "A name for several malts or hops. A rule then says group NAME."}
	for i := range groups + spareGroups {
		n := fmt.Sprintf(" %d", i+1)
		named.Fields = append(named.Fields,
			formField{Path: rowPath("groups", i, "name"), Label: "Name" + n},
			formField{Path: rowPath("groups", i, "members"), Label: "Members" + n + ", with commas"})
	}
	return docForm{
		Title: d.Title, Action: d.Path() + "/edit", Back: d.Path(), Base: base,
		Groups: []formGroup{
			{Title: "The style", Fields: []formField{
				{Path: "name", Label: "Name"},
				{Path: "by", Label: "Written by"},
				{Path: "prose", Label: "What it is, how it tastes, why it is so", Area: true, Hint: "A blank line begins a new paragraph."},
			}},
			taste, named,
			{Title: "Besides", Fields: []formField{
				{Path: "edge", Label: "Edge", Unit: "%", Hint: "How near to an end of its range a number is called at the edge, as a share of the range. 5 % where nothing is written."},
				{Path: "note", Label: "Note", Area: true},
			}},
		},
	}
}

func (s *Server) saveStyleProse(w http.ResponseWriter, r *http.Request) error {
	_, d, err := s.read(r)
	if err != nil {
		return err
	}
	base, draft, err := s.openForm(r, d)
	if err != nil {
		return err
	}
	tastes := packRows(r.PostForm, "taste", "quality", "range", "note")
	groups := packRows(r.PostForm, "groups", "name", "members")
	form := proseForm(d, base, tastes, groups)
	form.fillTyped(r.PostForm)
	draft.Remove("taste")
	draft.Remove("groups")
	form.each(func(x *formField) {
		if !strings.HasPrefix(x.Path, "groups[") {
			err = errors.Join(err, draft.Set(x.Path, x.text()))
		}
	})
	if err = errors.Join(err, writeGroups(r, draft, &form, groups)); err != nil {
		return err
	}
	if len(form.Faulty()) > 0 {
		return s.showForm(w, r, http.StatusUnprocessableEntity, d, form)
	}
	return s.saveForm(w, r, d, form, draft, "")
}

// writeGroups puts the groups that were typed into the draft. A group that
// lacks a name or members is a fault.
func writeGroups(r *http.Request, draft *document.Draft, form *docForm, groups int) (err error) {
	for i := range groups {
		name := r.PostForm.Get(rowPath("groups", i, "name"))
		members := strings.FieldsFunc(r.PostForm.Get(rowPath("groups", i, "members")), func(c rune) bool { return c == ',' || c == '\n' })
		for k := range members {
			members[k] = strings.TrimSpace(members[k])
		}
		switch {
		case name == "" || strings.ContainsAny(name, ".[]"):
			form.fault(rowPath("groups", i, "name"), "a group needs a name", "one word, as the rules will say it: dark")
		case len(members) == 0:
			form.fault(rowPath("groups", i, "members"), "the group has no members", "pale-ale, munich")
		default:
			err = errors.Join(err, draft.SetList("groups."+name, members))
		}
	}
	return err
}

// fault puts a fault beside a field.
func (f *docForm) fault(path, msg, hint string) {
	f.each(func(x *formField) {
		if x.Path == path {
			x.Fault, x.Mend = msg, hint
		}
	})
}
