// SPDX-License-Identifier: MIT

package document

import "testing"

const draftText = "gyle: note/1\nname: one\nmash:\n  yield: 75 %\nlist:\n- {a: x}\n- {a: y}\n"

func TestDraftChanges(t *testing.T) {
	for _, test := range []struct {
		name   string
		change func(d *Draft) error
		want   string
	}{
		{"value", func(d *Draft) error { return d.Set("mash.yield", "76 %") }, "gyle: note/1\nname: one\nmash:\n  yield: 76 %\nlist:\n- {a: x}\n- {a: y}\n"},
		{"new key in a new map", func(d *Draft) error { return d.Set("kettle.heat loss", "1 kW") }, draftText + "kettle:\n  heat loss: 1 kW\n"},
		{"entry behind the last", func(d *Draft) error { return d.Set("list[2].a", "z") }, draftText + "- {a: z}\n"},
		{"empty map goes", func(d *Draft) error { return d.Set("mash.yield", "") }, "gyle: note/1\nname: one\nlist:\n- {a: x}\n- {a: y}\n"},
		{"entry goes", func(d *Draft) error { d.Remove("list[0]"); return nil }, "gyle: note/1\nname: one\nmash:\n  yield: 75 %\nlist:\n- {a: y}\n"},
		{"entry moves", func(d *Draft) error { d.Move("list", 1, 0); return nil }, "gyle: note/1\nname: one\nmash:\n  yield: 75 %\nlist:\n- {a: y}\n- {a: x}\n"},
		{"list of texts", func(d *Draft) error { return d.SetList("meant", []string{"p", "q: r"}) }, draftText + "meant: [p, 'q: r']\n"},
	} {
		d, err := OpenDraft([]byte(draftText))
		if err != nil {
			t.Fatal(err)
		}
		if err := test.change(d); err != nil {
			t.Errorf("%s: %v", test.name, err)
			continue
		}
		if got, err := d.Text(); err != nil || string(got) != test.want {
			t.Errorf("%s: %v\n%s\nwant\n%s", test.name, err, got, test.want)
		}
	}
}

func TestDraftRefuses(t *testing.T) {
	d, err := OpenDraft([]byte(draftText))
	if err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{"name.more", "list.key", "list[7].a", "mash[0]"} {
		if err := d.Set(path, "x"); err == nil {
			t.Errorf("%s was written", path)
		}
	}
	if d.Move("list", 0, 2) || d.Move("name", 0, 0) {
		t.Error("moved an entry to a place that isn't there")
	}
	if d, err = OpenDraft([]byte("gyle: note/1\nname: one # mine\n")); err != nil {
		t.Fatal(err)
	}
	if got, err := d.Text(); err != nil || string(got) != "gyle: note/1\nname: one # mine\n" {
		t.Errorf("the comment is lost (%v):\n%s", err, got)
	}
}
