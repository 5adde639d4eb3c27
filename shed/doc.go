// SPDX-License-Identifier: MIT

// Package shed keeps account of the lots of a stock: what brewed gyles have
// used since the lots were counted, what planned ones reserve, what is left,
// what it means to take a malt from two lots, and what a brew costs.
//
// A lot is never below nothing: where gyles want more than there is, the lot
// says how much is short. What has no price is named and never counted as
// free. Which lot a plan takes first is for package plan to say.
package shed
