// SPDX-License-Identifier: MIT

package lp

import (
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// highsScript solves the files of a folder, 0.lp to N-1.lp, in one process and
// prints one line of JSON for each.
const highsScript = `
const fs = require('fs');
require('highs')({}).then(h => {
	for (let i = 0; i < Number(process.argv[3]); i++) {
		const text = fs.readFileSync(process.argv[2] + '/' + i + '.lp', 'utf8');
		const s = h.solve(text, {mip_rel_gap: 1e-10, mip_abs_gap: 1e-9, primal_feasibility_tolerance: 1e-9, dual_feasibility_tolerance: 1e-9});
		console.log(JSON.stringify({Status: s.Status, Value: s.ObjectiveValue}));
	}
});
`

// A second truth is HiGHS 1.15.3 in WebAssembly. It runs only with GYLE_SOAK=1
// and GYLE_HIGHS set to a folder in which "npm i highs@1.15.3" has been run.
// The problems are the 600 linear and 150 whole-number ones of the other comparison.
func TestAgainstHiGHS(t *testing.T) {
	home := os.Getenv("GYLE_HIGHS")
	if os.Getenv("GYLE_SOAK") == "" || home == "" {
		t.Skip("NOT COMPARED with HiGHS: set GYLE_SOAK=1, and GYLE_HIGHS to a folder with node_modules/highs")
	}
	if _, err := os.Stat(filepath.Join(home, "node_modules", "highs")); err != nil {
		t.Skip("NOT COMPARED with HiGHS:", err)
	}
	folder := t.TempDir()
	problems := oracleProblems(600)
	for i, p := range problems {
		if err := os.WriteFile(filepath.Join(folder, fmt.Sprintf("%d.lp", i)), []byte(writeLP(p)), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	command := exec.Command("node", "-e", highsScript, "--", "script", folder, fmt.Sprint(len(problems)))
	command.Dir, command.Stderr = home, os.Stderr
	out, err := command.Output()
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSpace(string(out)), "\n")
	if len(lines) != len(problems) {
		t.Fatalf("%d answers to %d problems", len(lines), len(problems))
	}
	words := map[string]Status{"Optimal": Optimal, "Infeasible": Infeasible, "Unbounded": Unbounded}
	for i, line := range lines {
		var answer struct {
			Status string
			Value  float64
		}
		if err := json.Unmarshal([]byte(line), &answer); err != nil {
			t.Fatal(err)
		}
		compare(t, fmt.Sprintf("problem %d (%s), HiGHS %s", i, problems[i].Name, answer.Status), problems[i], words[answer.Status], answer.Value)
	}
}
