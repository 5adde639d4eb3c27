// SPDX-License-Identifier: MIT

package chart

import (
	"strings"

	"gyle/quantity"
)

// BitternessGravity is the map of versions by original gravity and bitterness.
type BitternessGravity struct {
	Style    *StyleArea
	Versions []MapVersion
}

// StyleArea is what a style says of gravity and bitterness. The ratios are
// IBU per gravity point; zero leaves a ray out.
type StyleArea struct {
	Name                string
	OG                  quantity.Span[quantity.SG]
	IBU                 quantity.Span[quantity.IBU]
	RatioLow, RatioHigh float64
}

// MapVersion is one numbered version: where it was meant to lie, how sure that
// is, and where it came out.
type MapVersion struct {
	Label       string // short: the number of the version
	Parent      string // label of the version it came from; empty for the first
	OG          quantity.SG
	IBU         quantity.IBU
	OGSD, IBUSD float64
	Correlation float64
	OutOfRule   bool
	Measured    *MapPoint
}

// MapPoint is a brew as it was reconstructed or measured by a laboratory.
type MapPoint struct {
	OG  quantity.SG
	IBU quantity.IBU
}

// gravityMap is the map while it is drawn.
type gravityMap struct {
	*drawing
	data     BitternessGravity
	x, y     scale
	plot     box
	versions []MapVersion // those with numbers
	taken    []box        // places of labels
}

// BitternessGravityMap draws versions on a map of original gravity and
// bitterness. The style is a soft area between two straight rays of equal
// bitterness per gravity point, which meet at (1.000, 0).
func BitternessGravityMap(s Sheet, data BitternessGravity) string {
	const title = "Bitterness and gravity"
	m := &gravityMap{drawing: newDrawing(s, title), data: data}
	for _, v := range data.Versions {
		if finite(float64(v.OG), float64(v.IBU)) {
			m.versions = append(m.versions, v)
		}
	}
	if len(m.versions) == 0 && data.Style == nil {
		return empty(s, title, "No version has both an original gravity and a bitterness yet.")
	}
	m.layout()
	m.grid()
	m.styleArea()
	m.clouds()
	m.thread()
	m.dots()
	m.labels()
	m.inkKey(m.plot.bottom+44, false)
	m.desc = m.describe()
	return m.String()
}

// layout chooses the scales so that style, clouds and marks are on the sheet.
func (m *gravityMap) layout() {
	var og, ibu extent
	if a := m.data.Style; a != nil {
		og.add(float64(a.OG.Low), float64(a.OG.High))
		ibu.add(float64(a.IBU.Low), float64(a.IBU.High))
	}
	for _, v := range m.versions {
		reachOG, reachIBU := cloudReach*positive(v.OGSD), cloudReach*positive(v.IBUSD)
		og.add(float64(v.OG)-reachOG, float64(v.OG)+reachOG)
		ibu.add(float64(v.IBU)-reachIBU, float64(v.IBU)+reachIBU)
		if v.Measured != nil {
			og.add(float64(v.Measured.OG))
			ibu.add(float64(v.Measured.IBU))
		}
	}
	m.plot = box{48, 26, m.width - 18, 26 + min(m.width*0.86, 430)}
	ogLow, ogHigh := og.padded(0.12, 0.006)
	ibuLow, ibuHigh := ibu.padded(0.12, 8)
	m.x = scale{ogLow, ogHigh, m.plot.left, m.plot.right}
	m.y = scale{max(ibuLow, min(0, ibu.low)), ibuHigh, m.plot.bottom, m.plot.top}
	m.height = m.inkKey(m.plot.bottom+44, true) + 6
}

// positive is a standard deviation that can be drawn.
func positive(sd float64) float64 {
	if !finite(sd) || sd < 0 {
		return 0
	}
	return sd
}

func (m *gravityMap) grid() {
	p := m.sheet.Printer
	values, decimals := ticks(m.y.low, m.y.high, 6)
	for _, v := range values {
		y := m.y.at(v)
		m.line(m.plot.left, y, m.plot.right, y, look{ink: ruled, stroke: 0.8})
		m.text(m.plot.left-6, y+4, p.Number(v, decimals), letters{figure: true, size: figureSize, anchor: "end"})
	}
	values, decimals = ticks(m.x.low, m.x.high, int(m.width/70))
	for _, v := range values {
		x := m.x.at(v)
		m.line(x, m.plot.bottom, x, m.plot.bottom+5, look{stroke: 1})
		m.text(x, m.plot.bottom+19, p.Number(v, max(decimals, 3)), letters{figure: true, size: figureSize, anchor: "middle"})
	}
	m.line(m.plot.left, m.plot.bottom, m.plot.right, m.plot.bottom, look{stroke: 1.2})
	m.text(edge, 15, "IBU", letters{italic: true, size: smallSize})
	m.text(m.plot.right, m.plot.bottom+36, "original gravity →", letters{italic: true, size: smallSize, anchor: "end"})
}

func (m *gravityMap) place(og quantity.SG, ibu quantity.IBU) point {
	return point{m.x.at(float64(og)), m.y.at(float64(ibu))}
}

func (m *gravityMap) clouds() {
	for _, v := range m.versions {
		perOG := (m.x.to - m.x.from) / (m.x.high - m.x.low)
		perIBU := (m.y.from - m.y.to) / (m.y.high - m.y.low)
		correlation := 0.0
		if finite(v.Correlation) {
			correlation = -v.Correlation // y runs down the page
		}
		m.cloud(m.place(v.OG, v.IBU), positive(v.OGSD)*perOG, positive(v.IBUSD)*perIBU, correlation, m.plot, Planned)
	}
}

// thread joins each version with its parent.
func (m *gravityMap) thread() {
	for i, v := range m.versions {
		for _, parent := range m.versions[:i] {
			if v.Parent != "" && parent.Label == v.Parent {
				p, q := m.place(parent.OG, parent.IBU), m.place(v.OG, v.IBU)
				m.line(p.x, p.y, q.x, q.y, look{ink: Planned, stroke: 1.4, dash: dashed})
			}
		}
	}
}

const dotRadius = 5.0

func (m *gravityMap) dots() {
	for _, v := range m.versions {
		p := m.place(v.OG, v.IBU)
		if v.measured() {
			q := m.place(v.Measured.OG, v.Measured.IBU)
			m.line(p.x, p.y, q.x, q.y, look{ink: Measured, stroke: 0.8})
			m.mark(q.x, q.y, dotRadius-0.5, Measured)
			m.taken = append(m.taken, around(q, dotRadius))
		}
		m.mark(p.x, p.y, dotRadius, v.ink())
		m.taken = append(m.taken, around(p, dotRadius))
	}
}

func (v MapVersion) measured() bool {
	return v.Measured != nil && finite(float64(v.Measured.OG), float64(v.Measured.IBU))
}

func (v MapVersion) ink() Ink {
	if v.OutOfRule {
		return Corrected
	}
	return Planned
}

func around(p point, r float64) box { return box{p.x - r, p.y - r, p.x + r, p.y + r} }

// inkKey writes the key of the inks that are on the map.
func (m *gravityMap) inkKey(top float64, measure bool) float64 {
	items := []keyItem{}
	if len(m.versions) > 0 {
		items = append(items, m.inkItem(Planned, "planned, in its cloud of likelihood"))
	}
	var brewed, broken bool
	for _, v := range m.versions {
		brewed = brewed || v.measured()
		broken = broken || v.OutOfRule
	}
	if brewed {
		items = append(items, m.inkItem(Measured, "as brewed"))
	}
	if broken {
		items = append(items, m.inkItem(Corrected, "out of rule"))
	}
	return m.key(items, 12, top, m.width-12, measure)
}

func (m *gravityMap) describe() string {
	p := m.sheet.Printer
	var parts []string
	if a := m.data.Style; a != nil {
		parts = append(parts, "Style "+a.Name+": original gravity "+spanText(float64(a.OG.Low), float64(a.OG.High), sgText(p))+
			", "+spanText(float64(a.IBU.Low), float64(a.IBU.High), numberText(p, 0))+" IBU.")
	}
	for _, v := range m.versions {
		text := "Version " + v.Label + ": " + p.SG(v.OG) + ", " + p.IBU(v.IBU)
		if sd := positive(v.IBUSD); sd > 0 {
			text += " ± " + p.Number(sd, quantity.Decimals(sd))
		}
		if v.measured() {
			text += "; as brewed " + p.SG(v.Measured.OG) + ", " + p.IBU(v.Measured.IBU)
		}
		if v.OutOfRule {
			text += "; out of rule"
		}
		parts = append(parts, text+".")
	}
	return strings.Join(parts, " ")
}

func abs(x float64) float64 { return max(x, -x) }
