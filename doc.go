// SPDX-License-Identifier: MIT

// Package gyle is the map of the house. It holds no code: the tests beside
// this file keep the map true.
//
// A recipe says what a beer is, never whose kettle it is brewed in. Package
// plan brings recipe, brewhouse and stock together and computes kilos, litres,
// grams and minutes; package judge holds the result against the rules of a
// style. Everything else serves these two.
//
// The root speaks brewing, internal/ speaks computing; science/ holds
// formulas, the nouns hold documents, the verbs bring the two together. The
// folders stand on floors, and a package imports only from floors below:
//
//	9   cmd                                                                  wires
//	8   internal/web   internal/chart   internal/store   internal/formulas   meets browser and disk
//	7   publish                                                              hands on
//	6   formulate   guest                                                    proposes; brews elsewhere
//	5   chance                                                               says how sure it is
//	4   judge   blind                                                        weighs
//	3   day                                                                  lays out the brewing
//	2   plan   reconstruct   panel                                           decides
//	1   science/…          |  style recipe brewhouse stock water gyle tasting
//	    formulas           |  documents, which don't compute
//	0   quantity   data   examples   internal/document   internal/lp         measures and reads
//
// Floor 1 has two wings with a locked door between them: documents don't
// compute, so that an old recipe opens even after a formula changed; formulas
// see no documents, so that each can be tested against its paper alone.
//
// Where to begin:
//
//   - the beer and its numbers: quantity, then recipe and style
//   - a formula: its chapter in science, or docs/formulas.md
//   - why a plan weighs what it weighs: plan
//   - the text of the documents: docs/documents.md, internal/document
//   - one beer followed through all packages: docs/architecture.md
package gyle
