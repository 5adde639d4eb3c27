// SPDX-License-Identifier: MIT

package main

import (
	"gyle/plan"
	"gyle/publish/table"
	"gyle/quantity"
)

// printTable prints a table as CSV.
func printTable(s *streams, t table.Table, pr quantity.Printer) error {
	_, err := s.out.Write(t.CSV(pr))
	return err
}

// printPlanTable prints one table of a plan.
func printPlanTable(s *streams, p *plan.Plan, name string, pr quantity.Printer) error {
	switch name {
	case "grist":
		return printTable(s, table.Grist(p, pr), pr)
	case "hops":
		return printTable(s, table.Hops(p, pr), pr)
	}
	t, err := table.Day(p, pr)
	if err != nil {
		return err
	}
	return printTable(s, t, pr)
}
