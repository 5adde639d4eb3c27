// SPDX-License-Identifier: MIT

// Package calendar says which fermenter holds which beer on which days: of a
// brewed gyle from what its log says, of a planned one from its date and the
// days that its beer needs (fermentation, dry hops, chilling). It finds where
// two gyles want one vessel, and the first day on which a vessel is free.
//
// A day on which a vessel is emptied is a day on which it can be filled again.
// Package calendar knows no clock: who asks says which day it is. Whether a
// beer has fermented out is for package cellar to say; the calendar only keeps
// the vessel for it.
package calendar
