// The page's own part: it unpacks the engine, hands it what is typed and
// writes the answers into the sheet. No number is computed here.
(() => {
  const by = id => document.getElementById(id);
  const form = by("answers"), state = by("state"), lines = by("lines");
  const asks = [...form.querySelectorAll("[name]:not([name=units], [name=comma])")];
  const store = document.body.dataset.store;
  const authors = new Map(); // the author's values, in the units shown

  const remember = text => { try { localStorage.setItem(store, text); } catch { /* a browser may keep nothing */ } };
  const remembered = () => { try { return JSON.parse(localStorage.getItem(store)) || {}; } catch { return {}; } };

  function bytes(text) {
    if (Uint8Array.fromBase64) return Uint8Array.fromBase64(text);
    const raw = atob(text.trim()), out = new Uint8Array(raw.length);
    for (let i = 0; i < raw.length; i++) out[i] = raw.charCodeAt(i);
    return out;
  }

  async function unpacked() {
    const packed = bytes(JSON.parse(by("engine").textContent));
    if (document.body.dataset.packing === "lzma") return unpack(packed);
    const stream = new Blob([packed]).stream().pipeThrough(new DecompressionStream("gzip"));
    return new Uint8Array(await new Response(stream).arrayBuffer());
  }

  function wishes() {
    const answers = {};
    for (const ask of asks) if (ask.value.trim() !== authors.get(ask.name)) answers[ask.name] = ask.value;
    return { answers, us: form.elements.units.value === "us", comma: form.elements.comma.checked };
  }

  function rows(id, list) {
    const body = by(id);
    body.replaceChildren(...(list || []).map(cells => {
      const row = document.createElement("tr");
      for (const text of cells) row.appendChild(document.createElement("td")).textContent = text;
      return row;
    }));
  }

  function items(id, list, fill) {
    const body = by(id);
    if (!body) return;
    body.replaceChildren(...(list || []).map(entry => {
      const item = document.createElement("li");
      fill(item, entry);
      return item;
    }));
  }

  function write(sheet) {
    by("sheet-title").textContent = sheet.title;
    for (const id of ["figures", "grist", "liquor", "mash", "kettle", "hops", "cellar"]) rows(id, sheet[id]);
    const plain = (item, text) => { item.textContent = text; };
    items("kept", sheet.kept, plain);
    items("not-kept", sheet.notKept, plain);
    items("cautions", sheet.cautions, plain);
    items("verdicts", sheet.verdicts, (item, v) => {
      item.className = v.word;
      item.textContent = v.line;
      if (!v.why) return;
      item.append(" ");
      item.appendChild(document.createElement("q")).textContent = v.why;
    });
    (sheet.glass || []).forEach((g, i) => by("glass").children[i]?.setAttribute("fill", g.color));
  }

  function mark(faults) {
    for (const ask of asks) {
      const fault = (faults || []).find(f => f.id === ask.name);
      const says = ask.parentElement.querySelector(".fault");
      says.hidden = !fault;
      says.textContent = fault ? fault.msg + (fault.hint ? ". " + fault.hint : "") : "";
      if (fault) ask.setAttribute("aria-invalid", "true"); else ask.removeAttribute("aria-invalid");
    }
  }

  function brew() {
    const wanted = wishes();
    remember(JSON.stringify(wanted));
    const reply = JSON.parse(gyleBrew(JSON.stringify(wanted)));
    mark(reply.faults);
    const stuck = reply.problem || reply.faults?.length;
    lines.classList.toggle("stale", !!stuck);
    state.classList.toggle("problem", !!stuck);
    state.textContent = reply.problem || (stuck ? state.dataset.faults : state.dataset.ready);
    if (!reply.sheet) return;
    write(reply.sheet);
    const own = [reply.house, reply.stock, reply.water].filter(Boolean);
    by("house-part").hidden = own.length === 0;
    by("house-document").textContent = own.join("\n---\n\n");
  }

  // inUnits asks the questions again in the units chosen; what the reader
  // typed stays as it was typed.
  function inUnits() {
    const { answers, us, comma } = wishes();
    const reply = JSON.parse(gyleBrew(JSON.stringify({ us, comma, questions: true })));
    for (const q of reply.questions || []) {
      const ask = asks.find(a => a.name === q.id);
      if (!ask) continue;
      authors.set(q.id, q.value);
      ask.value = answers[q.id] ?? q.value;
    }
    brew();
  }

  async function start() {
    state.textContent = state.dataset.starting;
    for (const ask of asks) authors.set(ask.name, ask.value.trim());
    const go = new Go();
    performance.mark("begun"); // the marks tell a measurement where the time goes
    const engine = await unpacked();
    performance.mark("unpacked");
    const { instance } = await WebAssembly.instantiate(engine, go.importObject);
    performance.mark("compiled");
    go.run(instance);
    performance.mark("running");
    const problem = gyleOpen(by("kit").textContent);
    if (problem) throw new Error(problem);
    const old = remembered(), first = JSON.stringify(wishes());
    if (old.us !== undefined) form.elements.units.value = old.us ? "us" : "metric";
    if (old.comma !== undefined) form.elements.comma.checked = old.comma;
    for (const ask of asks) if (old.answers && ask.name in old.answers) ask.value = old.answers[ask.name];
    state.textContent = state.dataset.ready;
    if (JSON.stringify(wishes()) !== first) inUnits(); // otherwise the sheet is right as it came
    form.hidden = false;
    by("print").hidden = false;
    performance.mark("ready");
    document.body.dataset.ready = "yes";
  }

  form.addEventListener("submit", event => event.preventDefault());
  form.addEventListener("input", event => { if (event.target.name === "units" || event.target.name === "comma") inUnits(); else brew(); });
  by("forget").addEventListener("click", () => { for (const ask of asks) ask.value = authors.get(ask.name); brew(); });
  by("print").addEventListener("click", () => { document.body.classList.add("sheet-only"); print(); document.body.classList.remove("sheet-only"); });
  start().catch(fault => { state.classList.add("problem"); state.textContent = fault.message; });
})();
