// SPDX-License-Identifier: MIT

// Package boil computes what happens to wort in the kettle: at which
// temperature it boils, at altitude and with its extract; how much steam a
// heater makes; how volume and gravity change by it; what becomes of dimethyl
// sulphide; and how fast the wort cools afterwards, standing, in a coil or in
// a plate cooler.
//
// It doesn't compute bitterness: give the temperatures found here to
// science/hops. Weigh, blend and convert worts with science/gravity.
//
// Steam, boiling wort and hot kettles scald, and a kettle must never be closed
// tight. Have gas and mains heating installed by licensed people after the
// local code.
package boil
