// SPDX-License-Identifier: MIT

package chart

import (
	"math"
	"slices"
)

// halfPlane holds the points with a·x + b·y ≤ c.
type halfPlane struct{ a, b, c float64 }

func (h halfPlane) excess(p point) float64 { return h.a*p.x + h.b*p.y - h.c }

// clip cuts a convex polygon by half planes (Sutherland and Hodgman 1974).
func clip(polygon []point, planes ...halfPlane) []point {
	for _, h := range planes {
		if slices.ContainsFunc(polygon, func(p point) bool { return h.excess(p) > 0 }) {
			polygon = clipOnce(polygon, h)
		}
	}
	return polygon
}

func clipOnce(polygon []point, h halfPlane) []point {
	var kept []point
	for i, p := range polygon {
		q := polygon[(i+1)%len(polygon)]
		excessP, excessQ := h.excess(p), h.excess(q)
		if excessP <= 0 {
			kept = append(kept, p)
		}
		if (excessP < 0 && excessQ > 0) || (excessP > 0 && excessQ < 0) {
			t := excessP / (excessP - excessQ)
			kept = append(kept, point{p.x + t*(q.x-p.x), p.y + t*(q.y-p.y)})
		}
	}
	return kept
}

// box is an upright rectangle of the drawing.
type box struct{ left, top, right, bottom float64 }

func (b box) planes() []halfPlane {
	return []halfPlane{{1, 0, b.right}, {-1, 0, -b.left}, {0, 1, b.bottom}, {0, -1, -b.top}}
}

func (b box) corners() []point {
	return []point{{b.left, b.top}, {b.right, b.top}, {b.right, b.bottom}, {b.left, b.bottom}}
}

// holds reports whether all points lie inside.
func (b box) holds(points []point) bool {
	return !slices.ContainsFunc(points, func(p point) bool { return p.x < b.left || p.x > b.right || p.y < b.top || p.y > b.bottom })
}

// overlaps reports whether two boxes share more than an edge.
func (b box) overlaps(c box) bool {
	return b.left < c.right && c.left < b.right && b.top < c.bottom && c.top < b.bottom
}

func (b box) within(c box) bool {
	return b.left >= c.left && b.right <= c.right && b.top >= c.top && b.bottom <= c.bottom
}

// limitCorrelation keeps a slanted cloud from being a mere line.
func limitCorrelation(r float64) float64 { return min(max(r, -0.99), 0.99) }

// ellipse returns the outline at so many standard deviations of a normal
// cloud with the given deviations and correlation.
func ellipse(center point, sdX, sdY, correlation, deviations float64) []point {
	const corners = 48
	r := limitCorrelation(correlation)
	outline := make([]point, corners)
	for i := range outline {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / corners)
		outline[i] = point{
			center.x + deviations*sdX*cos,
			center.y + deviations*sdY*(r*cos+math.Sqrt(1-r*r)*sin),
		}
	}
	return outline
}
