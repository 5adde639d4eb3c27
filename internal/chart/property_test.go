// SPDX-License-Identifier: MIT

package chart

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"gyle/quantity"
)

// attributesAllowed are presentation and geometry attributes; style and event
// handlers are not among them.
var attributesAllowed = strings.Fields(`xmlns class viewBox role aria-labelledby id color fill stroke stroke-width
	stroke-dasharray stroke-linecap stroke-linejoin opacity paint-order font-family font-size font-weight font-style text-anchor
	x y x1 y1 x2 y2 cx cy r rx ry width height points d patternUnits offset stop-color stop-opacity
	gradientUnits gradientTransform href`)

var elementsAllowed = strings.Fields(`svg title desc defs pattern linearGradient radialGradient stop rect line circle ellipse polygon polyline path text g`)

var numberPattern = regexp.MustCompile(`-?[0-9]+(\.[0-9]+)?`)

// inspection is what checkDrawing knows while it reads a drawing.
type inspection struct {
	width, height float64
	ids           map[string]bool
	defs          bool // inside defs, where coordinates are those of patterns
	text          *xml.StartElement
}

// checkDrawing reads a drawing as XML and returns the first fault: a forbidden
// element or attribute, a number that is none, an id twice, a reference to
// nothing, or a shape that leaves the sheet.
func checkDrawing(svg string) error {
	for _, bad := range []string{"NaN", "Inf", "<style", "<script", "%!"} {
		if strings.Contains(svg, bad) {
			return fmt.Errorf("the drawing holds %q", bad)
		}
	}
	in := &inspection{ids: map[string]bool{}}
	decoder := xml.NewDecoder(strings.NewReader(svg))
	for {
		token, err := decoder.Token()
		if errors.Is(err, io.EOF) {
			return in.references(svg)
		}
		if err != nil {
			return err
		}
		if err := in.token(token); err != nil {
			return err
		}
	}
}

func (in *inspection) token(token xml.Token) error {
	switch e := token.(type) {
	case xml.StartElement:
		if e.Name.Local == "defs" {
			in.defs = true
		}
		return in.element(e.Copy())
	case xml.EndElement:
		if e.Name.Local == "defs" {
			in.defs = false
		}
		in.text = nil
	case xml.CharData:
		if in.text != nil {
			return in.letters(*in.text, string(e))
		}
	}
	return nil
}

func (in *inspection) element(e xml.StartElement) error {
	if !contains(elementsAllowed, e.Name.Local) {
		return fmt.Errorf("element %s isn't allowed", e.Name.Local)
	}
	for _, a := range e.Attr {
		if !contains(attributesAllowed, a.Name.Local) {
			return fmt.Errorf("attribute %s of %s isn't allowed", a.Name.Local, e.Name.Local)
		}
		if a.Name.Local == "id" {
			if in.ids[a.Value] {
				return fmt.Errorf("id %s stands twice", a.Value)
			}
			in.ids[a.Value] = true
		}
	}
	if e.Name.Local == "svg" {
		_, err := fmt.Sscanf(attribute(e, "viewBox"), "0 0 %f %f", &in.width, &in.height)
		return err
	}
	if e.Name.Local == "text" {
		in.text = &e
	}
	if in.defs {
		return nil
	}
	return in.bounds(e)
}

// bounds checks that a shape with its stroke lies on the sheet. The corners of
// a Bézier curve's control polygon enclose it.
func (in *inspection) bounds(e xml.StartElement) error {
	value := func(name string) float64 { x, _ := strconv.ParseFloat(attribute(e, name), 64); return x }
	var points []float64
	rim := value("stroke-width") / 2
	switch e.Name.Local {
	case "rect":
		points = []float64{value("x"), value("y"), value("x") + value("width"), value("y") + value("height")}
	case "line":
		points = []float64{value("x1"), value("y1"), value("x2"), value("y2")}
	case "circle":
		points = []float64{value("cx"), value("cy")}
		rim += value("r")
	case "ellipse":
		x, y, rx, ry := value("cx"), value("cy"), value("rx"), value("ry")
		points = []float64{x - rx, y - ry, x + rx, y + ry}
	case "polygon", "polyline", "path":
		for _, text := range numberPattern.FindAllString(attribute(e, "points")+" "+attribute(e, "d"), -1) {
			x, _ := strconv.ParseFloat(text, 64)
			points = append(points, x)
		}
	}
	for i := 0; i+1 < len(points); i += 2 {
		x, y := points[i], points[i+1]
		if x-rim < -0.02 || x+rim > in.width+0.02 || y-rim < -0.02 || y+rim > in.height+0.02 {
			return fmt.Errorf("%s %v leaves the sheet of %g by %g at (%g, %g)", e.Name.Local, e.Attr, in.width, in.height, x, y)
		}
	}
	return nil
}

// letters checks a text by the widths that the drawing reckoned with.
func (in *inspection) letters(e xml.StartElement, text string) error {
	x, _ := strconv.ParseFloat(attribute(e, "x"), 64)
	y, _ := strconv.ParseFloat(attribute(e, "y"), 64)
	size, err := strconv.ParseFloat(attribute(e, "font-size"), 64)
	if err != nil {
		size = wordSize
	}
	if size < 11 {
		return fmt.Errorf("text %q is only %g tall", text, size)
	}
	width := textWidth(text, letters{size: size, bold: attribute(e, "font-weight") == "bold"})
	left := x - map[string]float64{"": 0, "middle": width / 2, "end": width}[attribute(e, "text-anchor")]
	if left < -0.02 || left+width > in.width+0.02 || y-0.75*size < -0.02 || y+0.25*size > in.height+0.02 {
		return fmt.Errorf("text %q at (%g, %g), %g wide, leaves the sheet of %g by %g", text, x, y, width, in.width, in.height)
	}
	return nil
}

var referencePattern = regexp.MustCompile(`url\(#([^)]*)\)`)

// references checks that what is referred to is there.
func (in *inspection) references(svg string) error {
	for _, match := range referencePattern.FindAllStringSubmatch(svg, -1) {
		if !in.ids[match[1]] {
			return fmt.Errorf("nothing has the id %s", match[1])
		}
	}
	label := regexp.MustCompile(`aria-labelledby="([^"]*)"`).FindStringSubmatch(svg)
	if label == nil {
		return errors.New("the drawing has no label")
	}
	for _, id := range strings.Fields(label[1]) {
		if !in.ids[id] {
			return fmt.Errorf("nothing has the id %s", id)
		}
	}
	return nil
}

func attribute(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

func contains(list []string, word string) bool {
	for _, w := range list {
		if w == word {
			return true
		}
	}
	return false
}

// TestExampleDrawings checks the example in both unit systems and many widths.
func TestExampleDrawings(t *testing.T) {
	for _, drawing := range drawings {
		for _, width := range []float64{0, 100, Phone, 500, 600, Page, 1000, 5000} {
			for _, system := range []quantity.System{quantity.Metric, quantity.USCustomary} {
				s := Sheet{ID: `a"<b`, Width: width, Printer: quantity.Printer{System: system, DecimalComma: true}}
				if err := checkDrawing(drawing.draw(s)); err != nil {
					t.Errorf("%s, width %g: %v", drawing.name, width, err)
				}
			}
		}
	}
}

// TestEmpty: a drawing without data says so.
func TestEmpty(t *testing.T) {
	nan := math.NaN()
	for name, svg := range map[string]string{
		"map":         BitternessGravityMap(Sheet{}, BitternessGravity{}),
		"map of none": BitternessGravityMap(Sheet{}, BitternessGravity{Versions: []MapVersion{{OG: quantity.SG(nan)}}}),
		"grist":       GristStrips(Sheet{}, Grists{Versions: []GristVersion{{Label: "1", Parts: []GristPart{{Name: "pale", Mass: nan}}}}}),
		"ladder":      ChargeLadder(Sheet{}, Ladders{Houses: []LadderHouse{{Name: "Garage"}}}),
		"wedge":       ColorWedge(Sheet{}, Wedges{}),
		"water":       WaterColumns(Sheet{}, Water{}),
		"ph":          PHRail(Sheet{}, PHRails{Steps: []PHStep{{"grist", quantity.PH(nan), 0}}}),
		"day":         BrewDayAxis(Sheet{}, BrewDay{}),
		"river":       River(Sheet{}, Lineage{}),
		"rule":        RuleMark(Sheet{}, Rule{Name: "bitterness", Value: nan, Low: 24, High: 34}),
	} {
		if err := checkDrawing(svg); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if !strings.Contains(svg, "yet") {
			t.Errorf("%s: the empty drawing doesn't say what is missing:\n%s", name, svg)
		}
	}
}

// TestDescriptionsTellTheNumbers: the description tells the numbers that are drawn.
func TestDescriptionsTellTheNumbers(t *testing.T) {
	s := Sheet{ID: "x", Printer: quantity.Printer{DecimalComma: true}}
	for _, test := range []struct{ svg, want string }{
		{BitternessGravityMap(s, demoMap), "as brewed 1,0486, 29 IBU"},
		{WaterColumns(s, demoWaterPrinted), "Difference over sum +16,0 %"},
		{RuleMark(s, demoRule(38, Outside)), "rule 24–34: outside"},
		{PHRail(s, demoPH), "Measured at 10 min 5,56"},
		{GristStrips(s, demoGrists), "colour 63,6 %"}, // 3.7·900 of 5237.8,
	} {
		desc := regexp.MustCompile(`<desc[^>]*>([^<]*)</desc>`).FindStringSubmatch(test.svg)[1]
		if !strings.Contains(desc, test.want) {
			t.Errorf("description %q lacks %q", desc, test.want)
		}
	}
}

// wild makes random data: mostly what brewers have, sometimes nonsense.
type wild struct{ *rand.Rand }

// number is about the given size; one in eight is zero, negative, enormous or
// not a number.
func (w wild) number(size float64) float64 {
	if w.IntN(8) > 0 {
		return size * (0.5 + w.Float64())
	}
	nonsense := []float64{0, -size, size * 1e3, size * 1e-6, 1e11, 1e300, -1e300, math.NaN(), math.Inf(1), math.Inf(-1)}
	return nonsense[w.IntN(len(nonsense))]
}

func (w wild) text() string {
	words := []string{"", "pale ale malt", `<b>&"'`, "a", strings.Repeat("long ", 40), strings.Repeat("W", 90), "\x00\x07\xff", "麦芽 芽", "Ferry\nBrown"}
	return words[w.IntN(len(words))]
}

// TestWildData: whatever the data, the drawing is sound and stays on its sheet.
func TestWildData(t *testing.T) {
	for seed := range uint64(200) {
		w := wild{rand.New(rand.NewPCG(seed, 36))}
		s := Sheet{ID: w.text(), Width: w.number(700), Printer: quantity.Printer{System: quantity.System(seed % 2)}}
		for name, svg := range w.drawings(s) {
			if err := checkDrawing(svg); err != nil {
				t.Fatalf("%s, seed %d: %v", name, seed, err)
			}
		}
	}
}

func (w wild) drawings(s Sheet) map[string]string {
	var (
		area   = &StyleArea{w.text(), quantity.Span[quantity.SG]{Low: quantity.SG(w.number(1)), High: quantity.SG(w.number(1))}, quantity.Span[quantity.IBU]{Low: quantity.IBU(w.number(20)), High: quantity.IBU(w.number(40))}, w.number(0.5), w.number(0.7)}
		grav   = BitternessGravity{Style: area}
		grists Grists
		houses Ladders
		water  = Water{Hint: w.text(), Tolerance: quantity.Fraction(w.number(0.05))}
		wedges = Wedges{Predicted: w.wedge(), Measured: w.wedge()}
		rails  = PHRails{Aim: &quantity.Span[quantity.PH]{Low: quantity.PH(w.number(5)), High: quantity.PH(w.number(5))}}
		day    BrewDay
		family Lineage
	)
	for i := range w.IntN(6) {
		og, ibu := quantity.SG(1+w.number(0.05)), quantity.IBU(w.number(30))
		grav.Versions = append(grav.Versions, MapVersion{w.text(), w.text(), og, ibu, w.number(0.002), w.number(3), w.number(0.5), i == 2, &MapPoint{og, quantity.IBU(w.number(30))}})
		grists.Versions = append(grists.Versions, w.grist())
		houses.Houses = append(houses.Houses, w.house())
		water.Cations = append(water.Cations, IonBlock{w.text(), quantity.Charge(w.number(2)), w.text()})
		water.Anions = append(water.Anions, IonBlock{w.text(), quantity.Charge(w.number(2)), w.text()})
		rails.Steps = append(rails.Steps, PHStep{w.text(), quantity.PH(w.number(5.5)), w.number(0.05)})
		rails.Measured = append(rails.Measured, PHPin{w.text(), quantity.PH(w.number(5.5)), i == 1})
		day.Course = append(day.Course, BrewPoint{quantity.Duration(w.number(100)), quantity.Celsius(w.number(70)), w.number(0.6)})
		day.Tasks = append(day.Tasks, BrewTask{quantity.Duration(w.number(100)), w.text(), w.text(), w.text(), w.text()})
		day.Charges = append(day.Charges, BrewCharge{quantity.Duration(w.number(100)), w.text(), quantity.Mass(w.number(0.03))})
		family.Versions = append(family.Versions, RiverVersion{strconv.Itoa(i), strconv.Itoa(w.IntN(6)), w.text(), w.IntN(9) - 1,
			&Panel{w.IntN(20), w.IntN(40), w.number(0.33), &quantity.Span[quantity.Fraction]{Low: quantity.Fraction(w.number(0.4)), High: quantity.Fraction(w.number(0.7))}, w.text()}})
	}
	now := quantity.Duration(w.number(90))
	day.Now = &now
	rule := Rule{w.text(), w.number(20), w.number(30), w.number(25), w.number(2), Verdict(w.IntN(3)), w.IntN(2) == 0, nil}
	return map[string]string{
		"map": BitternessGravityMap(s, grav), "grist": GristStrips(s, grists), "ladder": ChargeLadder(s, houses),
		"wedge": ColorWedge(s, wedges), "water": WaterColumns(s, water), "ph": PHRail(s, rails),
		"day": BrewDayAxis(s, day), "rule": RuleMark(s, rule), "river": River(s, family),
	}
}

func (w wild) wedge() Wedge {
	wedge := Wedge{Label: w.text()}
	for range w.IntN(6) {
		wedge.Stops = append(wedge.Stops, WedgeStop{w.number(4), RGB{uint8(w.IntN(256)), 80, 20}})
	}
	return wedge
}

func (w wild) grist() GristVersion {
	v := GristVersion{Label: w.text()}
	for range w.IntN(9) {
		v.Parts = append(v.Parts, GristPart{w.text(), w.number(1), w.number(1), w.number(1), RGB{R: uint8(w.IntN(256))}, w.text()})
	}
	return v
}

func (w wild) house() LadderHouse {
	h := LadderHouse{Name: w.text()}
	for range w.IntN(4) {
		c := LadderCharge{Hop: w.text(), Mass: quantity.Mass(w.number(0.03)), Start: quantity.Duration(w.number(60))}
		for range w.IntN(7) {
			c.Stages = append(c.Stages, LadderStage{w.text(), quantity.Duration(w.number(20)), quantity.IBU(w.number(5))})
		}
		h.Charges = append(h.Charges, c)
	}
	return h
}
