// SPDX-License-Identifier: MIT

package chart

import "strings"

// labels writes the numbers of the versions. Those whose dots lie on one
// another share a label.
func (m *gravityMap) labels() {
	done := make([]bool, len(m.versions))
	for i, v := range m.versions {
		if done[i] {
			continue
		}
		p := m.place(v.OG, v.IBU)
		names := []string{v.Label}
		for j := i + 1; j < len(m.versions); j++ {
			q := m.place(m.versions[j].OG, m.versions[j].IBU)
			if !done[j] && abs(p.x-q.x) < dotRadius*1.4 && abs(p.y-q.y) < dotRadius*1.4 {
				done[j] = true
				names = append(names, m.versions[j].Label)
			}
		}
		m.label(p, strings.Join(names, ", "), letters{figure: true, size: 14, bold: true, halo: true, ink: v.ink()})
	}
	for _, v := range m.versions {
		if v.measured() {
			m.label(m.place(v.Measured.OG, v.Measured.IBU), v.Label, letters{figure: true, size: smallSize, halo: true, ink: Measured})
		}
	}
}

// label writes a text near a dot, where nothing else stands if there is such a
// place.
func (m *gravityMap) label(p point, text string, style letters) {
	text = fit(text, style, m.plot.right-m.plot.left-8)
	width := textWidth(text, style)
	best := box{p.x + 9, p.y - 20, p.x + 9 + width, p.y - 4}
	for _, try := range []point{{9, -20}, {9, 6}, {-9 - width, -20}, {-9 - width, 6}, {-width / 2, -26}, {-width / 2, 11},
		{22, -34}, {22, 20}, {-22 - width, -34}, {-22 - width, 20}, {11, -7}, {-11 - width, -7}} {
		b := box{p.x + try.x, p.y + try.y, p.x + try.x + width, p.y + try.y + 16}
		if b.within(m.plot) && !m.isTaken(b) {
			best = b
			break
		}
	}
	m.taken = append(m.taken, best)
	m.text(best.left, min(max(best.top+13, 14), m.plot.bottom-2), text, style)
}

func (m *gravityMap) isTaken(b box) bool {
	for _, t := range m.taken {
		if b.overlaps(t) {
			return true
		}
	}
	return false
}
