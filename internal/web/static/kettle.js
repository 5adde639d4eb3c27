// SPDX-License-Identifier: MIT
// One question at a time, for a phone with wet hands. Every answer goes into a
// queue on the phone first and leaves it only when the book has acknowledged
// its id; so nothing is lost when the network or the browser goes, and sending
// twice adds nothing.
"use strict";
(() => {
  const main = document.getElementById("kettle"), path = main.dataset.path;
  const el = (id) => document.getElementById(id);
  const read = (key, other) => { try { return JSON.parse(localStorage.getItem(key)) ?? other; } catch { return other; } };
  const write = (key, value) => localStorage.setItem(key, JSON.stringify(value));
  const QUEUE = "gyle-queue:" + path, STATE = "gyle-state:" + path, LATER = "gyle-later:" + path, REFUSED = "gyle-refused:" + path, OFF = "gyle-off:" + path;
  const queue = () => read(QUEUE, []);
  let state = JSON.parse(main.dataset.state), asked = null, sending = false, online = true;
  const kept = read(STATE, null);
  if (!navigator.onLine && kept) state = kept;

  // The queue lies twice on the phone: in localStorage, which is read at once but
  // written to the disk some seconds late, and in a database that is told to
  // write before it answers. What either has is in the queue.
  const shelf = new Promise((done) => {
    const open = indexedDB.open("gyle", 1);
    open.onupgradeneeded = () => open.result.createObjectStore("queue", {keyPath: "id"});
    open.onsuccess = () => done(open.result);
    open.onerror = () => done(null);
  });
  const shelve = (work) => shelf.then((db) => db && new Promise((done) => {
    const t = db.transaction("queue", "readwrite", {durability: "strict"});
    t.oncomplete = t.onerror = t.onabort = () => done();
    work(t.objectStore("queue"), t);
  }));
  const unshelved = shelf.then((db) => db && new Promise((done) => {
    const all = db.transaction("queue").objectStore("queue").getAll();
    all.onsuccess = () => {
      const mine = all.result.filter((e) => e.path === path), have = new Set(queue().map((e) => e.id));
      const lost = mine.filter((e) => !have.has(e.id));
      if (lost.length) write(QUEUE, [...queue(), ...lost].sort((a, b) => a.id < b.id ? -1 : 1));
      done();
    };
    all.onerror = () => done();
  }));

  // An id of 26 digits: the time, then chance.
  const DIGITS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
  const newID = () => {
    let text = "", t = Date.now();
    for (let i = 0; i < 10; i++) { text = DIGITS[t % 32] + text; t = Math.floor(t / 32); }
    for (const b of crypto.getRandomValues(new Uint8Array(16))) text += DIGITS[b % 32];
    return text;
  };
  const clock = () => {
    const d = new Date(), o = -d.getTimezoneOffset(), two = (n) => String(Math.floor(Math.abs(n))).padStart(2, "0");
    return new Date(d.getTime() + o * 60000).toISOString().slice(0, 23) + (o < 0 ? "-" : "+") + two(o / 60) + ":" + two(o % 60);
  };
  const enqueue = (entry) => {
    const whole = {id: newID(), time: clock(), path, ...entry};
    write(QUEUE, [...queue(), whole]);
    shelve((store) => store.put(whole)).then(() => { main.dataset.shelved = String(Number(main.dataset.shelved || 0) + 1); });
    navigator.vibrate?.(40);
    paint();
    send();
  };
  const key = (task, n) => task + "#" + n;

  // What is still to be asked: options first, then the tasks in their order.
  const question = () => {
    const waiting = queue(), later = read(LATER, []);
    const struck = new Set(waiting.filter((e) => e.strike).map((e) => e.strike));
    const answered = new Set(waiting.filter((e) => e.task && !struck.has(e.id)).map((e) => key(e.task, e.ask)));
    const taken = new Set(waiting.filter((e) => e.take && !struck.has(e.id)).map((e) => e.over));
    const offer = state.offers.find((o) => o.tickets.length && !taken.has(o.over)) || (online ? null : window.gyleOptions?.(state, waiting.filter((e) => !struck.has(e.id)), taken));
    if (offer) return {offer};
    for (const task of state.tasks) {
      if (task.state === "passed" || task.wish) continue;
      for (const ask of task.asks) {
        if (ask.have || answered.has(key(task.key, ask.n)) || later.includes(key(task.key, ask.n))) continue;
        if (task.state === "done" && !ask.reading) continue;
        return {task, ask};
      }
    }
    return null;
  };

  // The tasks that are still to come, for the alarm: a task is over on this phone
  // once one of its questions is answered.
  const ahead = () => {
    const answered = new Set(queue().map((e) => e.task));
    return state.tasks.filter((t) => t.due && !t.wish && (t.state === "ahead" || t.state === "due") && !answered.has(t.key)).map(({key, what, due}) => ({key, what, due}));
  };

  const button = (text, press, cls) => Object.assign(document.createElement("button"), {type: "button", textContent: text, onclick: press, className: cls || ""});
  const line = (tag, text, cls) => Object.assign(document.createElement(tag), {textContent: text, className: cls || ""});

  const paint = () => {
    const q = question(), same = asked && q && q.task && key(q.task.key, q.ask.n) === asked;
    el("tickets").replaceChildren();
    el("answer").hidden = !q?.task;
    if (!q) {
      asked = null;
      el("question").textContent = read(LATER, []).length ? "The rest was put off." : "All is answered.";
      el("told").replaceChildren(...(read(LATER, []).length ? [button("Ask them again", () => { write(LATER, []); paint(); }, "wide")] : []));
    } else if (q.offer) {
      asked = null;
      el("question").textContent = q.offer.missed || "What now?";
      el("told").textContent = q.offer.notes.join(" ");
      for (const t of q.offer.tickets) {
        const b = button("", () => enqueue({over: q.offer.over, take: t.name}), "ticket");
        b.append(line("strong", t.name), line("span", t.figures, "fig"), line("span", t.does), line("em", t.price ? "costs " + t.price : ""));
        if (t.caution) b.append(line("span", t.caution, "caution"));
        el("tickets").append(b);
      }
    } else if (!same) {
      asked = key(q.task.key, q.ask.n);
      el("question").textContent = q.ask.reading ? `${q.task.what}: ${q.ask.label}?` : `${q.task.what}: ${q.ask.label}`;
      el("told").textContent = "";
      el("planned").textContent = q.task.clock + (q.ask.planned ? "  ○ " + q.ask.planned + " planned" : "");
      const typing = q.ask.reading || q.ask.amount;
      el("typed").value = "";
      el("typed").hidden = el("pad").hidden = !typing;
      size();
      el("log").textContent = q.ask.reading ? "Log it" : "Done";
    }
    strip();
    refusals();
    heat();
    waiting();
    document.dispatchEvent(new CustomEvent("gyle-tasks", {detail: ahead()}));
    const n = queue().length;
    el("net").textContent = n ? `${n} on this phone${online ? "" : ", no network"}` : online ? "in the book" : "no network";
  };
  const size = () => el("typed").classList.toggle("short", el("typed").value.length <= 5);

  // The strip at the bottom: the last answer, with its way back.
  const strip = () => {
    const waiting = queue(), struck = new Set(waiting.filter((e) => e.strike).map((e) => e.strike));
    const mine = waiting.filter((e) => !e.strike && !struck.has(e.id)).pop();
    const logged = state.log.find((l) => !l.struck && !struck.has(l.id));
    const last = mine ? {id: mine.id, text: mine.take || mine.typed || (mine.off ? "heat off from " + mine.off.slice(11, 16) + " to " + mine.back.slice(11, 16) : say(mine))} : logged && {id: logged.id, text: logged.clock + " " + logged.says + (logged.meaning ? " → " + logged.meaning : "")};
    el("last").textContent = last ? last.text : "";
    el("undo").hidden = !last;
    el("undo").onclick = () => last && enqueue({strike: last.id});
  };
  const say = (e) => state.tasks.find((t) => t.key === e.task)?.asks.find((a) => a.n === e.ask)?.label || "done";
  const refusals = () => el("refused").replaceChildren(...read(REFUSED, []).map((r, i) => {
    const p = line("p", `“${r.typed || r.take || ""}” wasn’t understood: ${r.text}. ${r.hint || ""} `);
    p.append(button("Understood", () => { write(REFUSED, read(REFUSED, []).filter((_, n) => n !== i)); paint(); }));
    return p;
  }));

  // What was read without network: its options are reckoned by the book.
  const waiting = () => {
    const kept = queue().filter((e) => e.task && state.tasks.find((t) => t.key === e.task)?.asks.find((a) => a.n === e.ask)?.options);
    const took = queue().filter((e) => e.take).pop();
    const words = online || question()?.offer || !kept.length && !took && !queue().some((e) => e.off) ? "" : took ? `Kept: ${took.take}. The times move when the network is back.` : (kept.length ? "Kept: " + kept.map((e) => e.typed).join(", ") + ". " : "") +
      "If there are options, they come when the network is back. Until then go on as planned, or wait.";
    if (el("waiting").textContent !== words) el("waiting").textContent = words;
  };
  // The heat goes off in the boil, and comes back: two presses.
  const heat = () => {
    const boiling = ["boil", "knock-out"].map((k) => state.tasks.find((t) => t.key === k)), off = read(OFF, null);
    const begun = boiling[0]?.state === "done" || queue().some((e) => e.task === "boil"), over = boiling[1]?.state === "done" || queue().some((e) => e.task === "knock-out");
    el("heat").hidden = !(off || begun && !over);
    el("heat").textContent = off ? `Off since ${off.slice(11, 16)}: it is back` : "The heat is off";
    el("heat").classList.toggle("off", Boolean(off));
  };
  el("heat").addEventListener("click", () => {
    const off = read(OFF, null);
    write(OFF, off ? null : clock());
    if (off) enqueue({off, back: clock()}); else paint();
  });

  const send = async () => {
    if (sending) return;
    sending = true;
    try {
      const entries = queue();
      const answer = await (entries.length
        ? fetch(path + "/entries", {method: "POST", headers: {"Content-Type": "application/json"}, body: JSON.stringify({now: clock(), entries})})
        : fetch(path + "/kettle.json"));
      if (!answer.ok) throw new Error(answer.status);
      const said = await answer.json();
      const done = new Set(said.kept || []), refused = new Map((said.refused || []).map((r) => [r.id, r]));
      const now = queue();
      write(REFUSED, [...read(REFUSED, []), ...now.filter((e) => refused.has(e.id)).map((e) => ({...e, ...refused.get(e.id)}))]);
      write(QUEUE, now.filter((e) => !done.has(e.id) && !refused.has(e.id)));
      if (done.size || refused.size) shelve((store) => { for (const id of [...done, ...refused.keys()]) store.delete(id); });
      state = said.state;
      write(STATE, state);
      online = true;
    } catch {
      online = false;
    }
    sending = false;
    paint();
    if (online && queue().length) send();
  };

  for (const k of ["1", "2", "3", "@", "4", "5", "6", ":", "7", "8", "9", "⌫", ",", "0", ".", "P"]) {
    el("pad").append(Object.assign(button(k, () => {
      const box = el("typed");
      box.value = k === "⌫" ? box.value.slice(0, -1) : box.value + (k === "@" ? " @" : k);
      size();
    }), {ariaLabel: {"⌫": "delete", "@": "at degrees", "P": "degrees Plato"}[k] || k}));
  }
  el("typed").addEventListener("input", size);
  el("answer").addEventListener("submit", (event) => {
    event.preventDefault();
    const q = question();
    if (!q?.task) return;
    const typed = el("typed").value.trim();
    if (q.ask.reading && !typed) { el("typed").focus(); return; }
    enqueue({task: q.task.key, ask: q.ask.n, typed});
    el("question").focus({preventScroll: true});
  });
  el("later").addEventListener("click", () => {
    const q = question();
    if (q?.task) write(LATER, [...read(LATER, []), key(q.task.key, q.ask.n)]);
    paint();
  });
  window.gyleOptions?.fetch(path);
  addEventListener("online", send);
  addEventListener("offline", () => { online = false; paint(); });
  document.addEventListener("visibilitychange", () => document.hidden || send());
  setInterval(() => { if (queue().length || !document.hidden && !online) send(); }, 4000);
  setInterval(() => document.hidden || send(), 30000);
  addEventListener("storage", paint);

  if ("serviceWorker" in navigator) {
    navigator.serviceWorker.register("/gyle/worker.js", {scope: "/gyle/"}).then(async () => {
      const worker = (await navigator.serviceWorker.ready).active;
      const files = [...document.querySelectorAll("link[rel=stylesheet], link[rel=icon]")].map((l) => l.href).concat([...document.scripts].map((s) => s.src));
      const fonts = performance.getEntriesByType("resource").map((r) => r.name).filter((n) => n.includes("/static/") && n.endsWith(".woff2"));
      navigator.serviceWorker.addEventListener("message", (event) => { if (event.data?.kept) main.dataset.offline = "ready"; });
      worker.postMessage({keep: [location.pathname, ...files, ...fonts].filter(Boolean)});
    }).catch(() => { /* the queue works all the same while the page is open */ });
  }
  paint();
  unshelved.then(() => { paint(); send(); });
})();
