// SPDX-License-Identifier: MIT

package chart

import "gyle/quantity"

// styleArea fills the part of the style's rectangle between the rays. Its edge
// is soft: strokes of falling width lie over one another.
func (m *gravityMap) styleArea() {
	a := m.data.Style
	if a == nil {
		return
	}
	area := clip(m.styleBox(a).corners(), m.plot.planes()...)
	for _, ray := range []struct{ ratio, side float64 }{{a.RatioLow, 1}, {a.RatioHigh, -1}} {
		if finite(ray.ratio) && ray.ratio > 0 {
			area = clip(area, m.rayPlane(ray.ratio, ray.side))
		}
	}
	m.polygon(area, look{class: "style-area", fill: "#a08a4a", opacity: 0.16})
	for _, width := range []float64{16, 12, 8, 4} {
		m.polygon(area, look{class: "style-area", fill: "", stroke: width, color: "#a08a4a", opacity: 0.055})
	}
	m.ray(a.RatioLow)
	m.ray(a.RatioHigh)
	m.areaName(a.Name, area)
}

// areaName writes the name of the style along the lower edge of its area.
func (m *gravityMap) areaName(name string, area []point) {
	if len(area) == 0 {
		return
	}
	low := area[0]
	for _, p := range area {
		if p.y > low.y {
			low = p
		}
	}
	style := letters{italic: true, size: wordSize, anchor: "middle", halo: true}
	name = fit(name, style, m.plot.right-m.plot.left-8)
	x := m.inside(low.x, textWidth(name, style), "middle")
	y := min(low.y+18, m.plot.bottom-6)
	m.text(x, y, name, style)
	half := textWidth(name, style) / 2
	m.taken = append(m.taken, box{x - half, y - 13, x + half, y + 4})
}

// styleBox is the style's rectangle of gravity and bitterness; open ends reach
// to the edge of the plot.
func (m *gravityMap) styleBox(a *StyleArea) box {
	b := m.plot
	if v := float64(a.OG.Low); finite(v) {
		b.left = m.x.at(v)
	}
	if v := float64(a.OG.High); finite(v) {
		b.right = m.x.at(v)
	}
	if v := float64(a.IBU.High); finite(v) {
		b.top = m.y.at(v)
	}
	if v := float64(a.IBU.Low); finite(v) {
		b.bottom = m.y.at(v)
	}
	return b
}

// rayEnds are two places of the line IBU = ratio · points, at the left and the
// right edge of the plot; they may lie above or below it.
func (m *gravityMap) rayEnds(ratio float64) (p, q point) {
	place := func(og float64) point {
		ibu := ratio * quantity.SG(og).Points()
		share := (ibu - m.y.low) / (m.y.high - m.y.low)
		return point{m.x.at(og), m.y.from + (m.y.to-m.y.from)*share}
	}
	return place(m.x.low), place(m.x.high)
}

// rayPlane is the half of the drawing above (side 1) or below (side -1) a ray.
func (m *gravityMap) rayPlane(ratio, side float64) halfPlane {
	p, q := m.rayEnds(ratio)
	slope := (q.y - p.y) / (q.x - p.x)
	return halfPlane{-slope * side, side, side * (p.y - slope*p.x)}
}

// ray draws a line of equal bitterness per gravity point across the plot.
func (m *gravityMap) ray(ratio float64) {
	if !finite(ratio) || ratio <= 0 {
		return
	}
	p, q := m.rayEnds(ratio)
	if !finite(p.y, q.y) {
		return
	}
	// A line is a polygon of two corners.
	line := clip([]point{p, q}, m.plot.planes()...)
	if len(line) < 2 {
		return
	}
	end := line[0]
	start := line[0]
	for _, c := range line {
		if c.x > end.x {
			end = c
		}
		if c.x < start.x {
			start = c
		}
	}
	m.line(start.x, start.y, end.x, end.y, look{stroke: 1, dash: dotted})
	m.rayLabel(ratio, end)
}

// rayLabel writes the ratio at the right end of a ray.
func (m *gravityMap) rayLabel(ratio float64, end point) {
	style := letters{figure: true, size: smallSize, anchor: "end", halo: true}
	text := "BU:GU " + m.sheet.Printer.Number(ratio, 2)
	width := textWidth(text, style)
	y := max(end.y-6, m.plot.top+12)
	x := end.x - 2
	if end.y <= m.plot.top+1 { // the ray leaves through the top
		x = max(end.x-8, m.plot.left+width)
	}
	m.text(x, y, text, style)
	m.taken = append(m.taken, box{x - width, y - 12, x, y + 3})
}
