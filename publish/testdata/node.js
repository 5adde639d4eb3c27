// Runs the engine of a page under Node: node node.js FOLDER < lines, each line
// {"kit": …} or {"request": …}; each request is answered by one line.
const fs = require("fs"), path = require("path");
const folder = process.argv[2];
require(path.resolve(folder, "wasm_exec.js"));
const unpack = new Function(fs.readFileSync(path.join(__dirname, "..", "page", "lzma.js"), "utf8") + "; return unpack;")();
let wasm;
if (fs.existsSync(path.join(folder, "gyle.wasm.lzma"))) wasm = unpack(new Uint8Array(fs.readFileSync(path.join(folder, "gyle.wasm.lzma"))));
else wasm = require("zlib").gunzipSync(fs.readFileSync(path.join(folder, "gyle.wasm.gz")));
const lines = fs.readFileSync(0, "utf8").split("\n").filter(Boolean);
const go = new Go();
WebAssembly.instantiate(wasm, go.importObject).then(({ instance }) => {
  go.run(instance);
  const out = [];
  for (const line of lines) {
    const { kit, request } = JSON.parse(line);
    if (kit) { const problem = gyleOpen(JSON.stringify(kit)); if (problem) out.push(JSON.stringify({ problem })); }
    if (request) out.push(gyleBrew(JSON.stringify(request)));
  }
  process.stdout.write(out.join("\n") + "\n", () => process.exit(0));
});
