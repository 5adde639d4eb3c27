// SPDX-License-Identifier: MIT

package quantity_test

import (
	"errors"
	"fmt"

	"gyle/quantity"
)

// A hot volume is typed as it is called across the kettle.
func ExampleParseVolumeAt() {
	v, err := quantity.ParseVolumeAt("26,4 @95")
	fmt.Println(v, err)
	// Output: 26.4 L @ 95 °C <nil>
}

// What can be mistaken is refused, with the choices.
func ExampleParseVolume() {
	_, err := quantity.ParseVolume("5 gal")
	fmt.Println(err)
	var fault *quantity.ParseError
	if errors.As(err, &fault) {
		fmt.Println(fault.Hint)
	}
	// Output:
	// read "5 gal" as a volume: which gallon? US 18.93 L or imperial 22.73 L?
	// write "5 US gal" or "5 imp gal"
}

func ExampleParseSG() {
	s, err := quantity.ParseSG("1042.5")
	fmt.Println(s, err)
	// Output: 1.0425 <nil>
}

func ExampleParseSpan() {
	s, err := quantity.ParseSpan[quantity.Temperature]("18..20 °C")
	fmt.Println(s, err)
	fmt.Println(s.Has(quantity.Celsius(21)))
	// Output:
	// 18..20 °C <nil>
	// false
}

func ExamplePrinter() {
	grist := quantity.Mass(4.95)
	fmt.Println(quantity.Printer{}.Mass(grist))
	fmt.Println(quantity.Printer{DecimalComma: true}.Mass(grist))
	fmt.Println(quantity.Printer{System: quantity.USCustomary}.Mass(grist))
	// Output:
	// 4.95 kg
	// 4,95 kg
	// 10 lb 14.6 oz
}

func ExampleFormatBand() {
	fmt.Println(quantity.FormatBand(quantity.Band{Low: 26.7, Mid: 29.04, High: 31.3}, "IBU"))
	// Output: 29 IBU (26.7–31.3)
}

func ExampleFigure_ParseSpan() {
	s, err := quantity.BeerColor.ParseSpan("28..44 EBC")
	fmt.Println(quantity.BeerColor.Label(), quantity.BeerColor.FormatSpan(s), err)
	// Output: colour 28–44 EBC <nil>
}
