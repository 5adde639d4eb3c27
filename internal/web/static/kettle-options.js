// SPDX-License-Identifier: MIT
// The options at a full kettle or at knock-out while the network is gone. The
// book has sent what it would offer at readings around the plan; between the
// four nearest of them each number of an offer is taken in proportion. Where
// the four don't offer the same, the nearest stands alone, and says so.
"use strict";
(() => {
  const KEY = (path) => "gyle-options:" + path;
  let tables = null;
  const number = (text) => Number(text.replace(",", "."));

  // What was typed, at 20 °C; null where this phone can't tell.
  const between = (list, x) => {
    let i = list.findIndex((v) => v > x);
    i = i < 0 ? list.length - 1 : Math.max(i, 1);
    return [i - 1, (x - list[i - 1]) / (list[i] - list[i - 1])];
  };
  const at = (values, x) => {
    const [i, share] = between(tables.degrees, x);
    return values[i] + share * (values[i + 1] - values[i]);
  };
  const typed = (text) => {
    const m = /^\s*(\d+(?:[.,]\d+)?)\s*(L|SG|°?P)?\s*(?:(?:@|at)\s*(\d+(?:[.,]\d+)?)\s*(?:°?C)?)?\s*$/i.exec(text || "");
    return m && {value: number(m[1]), unit: (m[2] || "").toUpperCase().replace("°", ""), degrees: m[3] === undefined ? 20 : number(m[3])};
  };
  const litres = (text) => {
    const t = typed(text);
    return t && (t.unit === "" || t.unit === "L") ? t.value * at(tables.hot, t.degrees) : null;
  };
  const gravity = (text) => {
    const t = typed(text);
    if (!t || t.unit === "L") return null;
    let sg = t.value > 900 ? t.value / 1000 : t.value;
    if (t.unit === "P") sg = 1 + t.value / (258.6 - 227.1 * t.value / 258.2);
    return sg > 0.97 && sg < 1.2 ? sg + at(tables.warm, t.degrees) : null;
  };

  // Numbers in a sentence, with their signs where they have one.
  const NUMBER = /[+−]?\d+(?:[.,]\d+)?/g;
  const blend = (texts, shares) => {
    const bare = texts.map((t) => t.replace(NUMBER, "#"));
    if (bare.some((t) => t !== bare[0])) return null;
    const all = texts.map((t) => (t.match(NUMBER) || []));
    let i = -1;
    return texts[0].replace(NUMBER, () => {
      i++;
      const here = all.map((list) => list[i]), signed = here.some((n) => /^[+−]/.test(n)), comma = here.some((n) => n.includes(","));
      const value = here.reduce((sum, n, k) => sum + shares[k] * number(n.replace("−", "-")), 0);
      const decimals = Math.max(...here.map((n) => (n.split(/[.,]/)[1] || "").length));
      const plain = Math.abs(value).toFixed(decimals), text = comma ? plain.replace(".", ",") : plain;
      return (signed ? (value < 0 ? "−" : "+") : "") + text;
    });
  };
  const blendOffer = (offers, shares) => {
    if (offers.some((o) => o.tickets.length !== offers[0].tickets.length)) return null;
    const missed = blend(offers.map((o) => o.missed), shares);
    if (missed === null) return null;
    const tickets = [];
    for (let i = 0; i < offers[0].tickets.length; i++) {
      const one = {};
      for (const part of ["name", "figures", "does", "price", "caution"]) {
        one[part] = blend(offers.map((o) => o.tickets[i][part] || ""), shares);
        if (one[part] === null && part === "price") one[part] = ""; // the figures tell
        if (one[part] === null) return null;
      }
      tickets.push(one);
    }
    return {missed, tickets};
  };

  const offerFor = (table, v, sg) => {
    const last = (list) => list[list.length - 1];
    if (v < table.litres[0] || v > last(table.litres) || sg < table.sg[0] || sg > last(table.sg)) return null;
    const [i, a] = between(table.litres, v), [j, b] = between(table.sg, sg), wide = table.sg.length;
    const corners = [[i, j], [i, j + 1], [i + 1, j], [i + 1, j + 1]].map(([x, y]) => table.offers[x * wide + y]);
    const shares = [(1 - a) * (1 - b), (1 - a) * b, a * (1 - b), a * b];
    const made = blendOffer(corners, shares);
    if (made) return {...made, notes: ["Reckoned on this phone, from what the book had sent."]};
    const k = shares.indexOf(Math.max(...shares)), x = i + (k > 1 ? 1 : 0), y = j + k % 2;
    return {missed: corners[k].missed, tickets: corners[k].tickets, notes: [`Reckoned before for ${table.litres[x].toFixed(1)} L at ${table.sg[y].toFixed(4)}, the nearest to what you read.`]};
  };

  // The offer at the first place of which both readings are there, one of them
  // still on this phone.
  window.gyleOptions = (state, waiting, taken) => {
    if (!tables) return null;
    for (const place of Object.keys(tables.at)) {
      const found = {};
      let last = null;
      for (const task of state.tasks) {
        for (const ask of task.asks) {
          if (ask.at !== place) continue;
          const mine = waiting.filter((e) => e.task === task.key && e.ask === ask.n).pop();
          if (mine) last = mine;
          if (mine || ask.read) found[ask.of] = mine ? mine.typed : ask.read;
        }
      }
      if (!last || taken.has(last.id) || !found.volume || !found.gravity) continue;
      const v = litres(found.volume), sg = gravity(found.gravity), offer = v && sg && offerFor(tables.at[place], v, sg);
      if (offer && offer.tickets.length) return {...offer, over: last.id};
    }
    return null;
  };
  window.gyleOptions.fetch = async (path) => {
    try { tables = JSON.parse(localStorage.getItem(KEY(path))); } catch { /* none were kept */ }
    try {
      const answer = await fetch(path + "/kettle-options.json");
      if (!answer.ok) return;
      tables = await answer.json();
      localStorage.setItem(KEY(path), JSON.stringify(tables));
      document.getElementById("kettle").dataset.options = "kept";
    } catch { /* what was kept will do */ }
  };
})();
