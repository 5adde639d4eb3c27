// SPDX-License-Identifier: MIT

package card

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"math"

	"golang.org/x/image/vector"

	"gyle/publish/font"
)

// PNG draws the scene as PNG, one pixel a unit.
func (s *Scene) PNG() ([]byte, error) {
	p := newPixels(int(math.Ceil(s.Width)), int(math.Ceil(s.Height)), s.Paper)
	for _, item := range s.Items {
		p.item(item)
	}
	var out bytes.Buffer
	encoder := png.Encoder{CompressionLevel: png.BestSpeed}
	if err := encoder.Encode(&out, p.image); err != nil {
		return nil, fmt.Errorf("write a card as PNG: %w", err)
	}
	return out.Bytes(), nil
}

// pixels fills outlines. Where outlines overlap the paint doesn't cancel out
// (the rule of non-zero winding), so letters of overlapping parts stay whole.
type pixels struct {
	image  *image.RGBA
	filler *vector.Rasterizer
	box    image.Rectangle // where the outline of the moment lies
}

func newPixels(width, height int, paper Color) *pixels {
	p := &pixels{image: image.NewRGBA(image.Rect(0, 0, width, height)), filler: vector.NewRasterizer(1, 1)}
	draw.Draw(p.image, p.image.Bounds(), image.NewUniform(paint(paper)), image.Point{}, draw.Src)
	return p
}

func paint(c Color) color.RGBA { return color.RGBA{c.R, c.G, c.B, 255} }

// begin makes ready for outlines within a box. It reports whether any of it is
// on the card.
func (p *pixels) begin(left, top, right, bottom float64) bool {
	box := image.Rect(int(math.Floor(left))-1, int(math.Floor(top))-1, int(math.Ceil(right))+1, int(math.Ceil(bottom))+1)
	p.box = box.Intersect(p.image.Bounds())
	if p.box.Empty() {
		return false
	}
	p.filler.Reset(p.box.Dx(), p.box.Dy())
	p.filler.DrawOp = draw.Over
	return true
}

func (p *pixels) end(c Color) {
	p.filler.Draw(p.image, p.box, image.NewUniform(paint(c)), image.Point{})
}

// at is a point of the card seen from the box.
func (p *pixels) at(x, y float64) (float32, float32) {
	return float32(x - float64(p.box.Min.X)), float32(y - float64(p.box.Min.Y))
}

func (p *pixels) move(x, y float64) { p.filler.MoveTo(p.at(x, y)) }
func (p *pixels) line(x, y float64) { p.filler.LineTo(p.at(x, y)) }

func (p *pixels) item(item Item) {
	switch it := item.(type) {
	case Words:
		p.words(it)
	case Rect:
		p.rect(it)
	case Stroke:
		p.stroke(it)
	case Dot:
		if p.begin(it.X-it.R, it.Y-it.R, it.X+it.R, it.Y+it.R) {
			p.circle(it.X, it.Y, it.R, 1)
			if it.Open > 0 {
				p.circle(it.X, it.Y, it.R-it.Open, -1)
			}
			p.end(it.Color)
		}
	case Cross:
		for _, l := range it.strokes() {
			p.stroke(l)
		}
	}
}

func (p *pixels) words(it Words) {
	run := it.Face.Shape(it.Text)
	k := it.Size / font.Em
	if len(run.Glyphs) == 0 || !p.begin(it.X-it.Size, it.Y-2*it.Size, it.X+run.Width*k+it.Size, it.Y+it.Size) {
		return
	}
	for _, g := range run.Glyphs {
		p.outline(g, it.X+g.X*k, it.Y-g.Y*k, k)
	}
	p.end(it.Color)
}

func (p *pixels) outline(g font.Glyph, x, y, k float64) {
	open := false
	for _, s := range g.Outline() {
		ax, ay := p.at(x+s.Points[0][0]*k, y-s.Points[0][1]*k)
		bx, by := p.at(x+s.Points[1][0]*k, y-s.Points[1][1]*k)
		cx, cy := p.at(x+s.Points[2][0]*k, y-s.Points[2][1]*k)
		switch s.Op {
		case font.MoveTo:
			if open {
				p.filler.ClosePath()
			}
			p.filler.MoveTo(ax, ay)
			open = true
		case font.LineTo:
			p.filler.LineTo(ax, ay)
		case font.QuadTo:
			p.filler.QuadTo(ax, ay, bx, by)
		case font.CubicTo:
			p.filler.CubeTo(ax, ay, bx, by, cx, cy)
		}
	}
	if open {
		p.filler.ClosePath()
	}
}

// box adds a box, turning right or, with turn -1, left: a left turn inside of a
// right one is a hole.
func (p *pixels) corner(x, y, w, h float64, turn int) {
	p.move(x, y)
	if turn > 0 {
		p.line(x+w, y)
		p.line(x+w, y+h)
		p.line(x, y+h)
	} else {
		p.line(x, y+h)
		p.line(x+w, y+h)
		p.line(x+w, y)
	}
	p.filler.ClosePath()
}

func (p *pixels) rect(it Rect) {
	if it.W <= 0 || it.H <= 0 || !p.begin(it.X, it.Y, it.X+it.W, it.Y+it.H) {
		return
	}
	p.corner(it.X, it.Y, it.W, it.H, 1)
	if s := it.Stroke; s > 0 && it.W > 2*s && it.H > 2*s {
		p.corner(it.X+s, it.Y+s, it.W-2*s, it.H-2*s, -1)
	}
	p.end(it.Color)
}

// arcControl is how far the control points of a cubic curve lie from the ends
// of a quarter of a circle: 4/3·(√2 − 1) of the radius.
const arcControl = 0.5522847498

func (p *pixels) circle(x, y, r, turn float64) {
	k := r * arcControl
	quarter := func(ax, ay, bx, by, cx, cy float64) {
		x1, y1 := p.at(x+ax, y+turn*ay)
		x2, y2 := p.at(x+bx, y+turn*by)
		x3, y3 := p.at(x+cx, y+turn*cy)
		p.filler.CubeTo(x1, y1, x2, y2, x3, y3)
	}
	p.move(x+r, y)
	quarter(r, k, k, r, 0, r)
	quarter(-k, r, -r, k, -r, 0)
	quarter(-r, -k, -k, -r, 0, -r)
	quarter(k, -r, r, -k, r, 0)
	p.filler.ClosePath()
}

// stroke draws a line with round ends and joints.
func (p *pixels) stroke(l Stroke) {
	if len(l.Points) == 0 {
		return
	}
	left, top, right, bottom := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, q := range l.Points {
		left, right = min(left, q[0]), max(right, q[0])
		top, bottom = min(top, q[1]), max(bottom, q[1])
	}
	r := l.Width / 2
	if !p.begin(left-r, top-r, right+r, bottom+r) {
		return
	}
	for i, q := range l.Points {
		p.circle(q[0], q[1], r, 1)
		if i == 0 {
			continue
		}
		from := l.Points[i-1]
		length := math.Hypot(q[0]-from[0], q[1]-from[1])
		if length == 0 {
			continue
		}
		nx, ny := -(q[1]-from[1])/length*r, (q[0]-from[0])/length*r
		p.move(from[0]-nx, from[1]-ny)
		p.line(q[0]-nx, q[1]-ny)
		p.line(q[0]+nx, q[1]+ny)
		p.line(from[0]+nx, from[1]+ny)
		p.filler.ClosePath()
	}
	p.end(l.Color)
}
