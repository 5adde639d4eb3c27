// SPDX-License-Identifier: MIT
// Three small helps; every page works without them.
// 1. A form with data-live="/address" data-into="id" is sent there while
//    somebody types; what the element with that id holds becomes like the answer.
//    With data-prompt it is sent at each key, else in a pause. One form is under
//    way at a time; what was typed meanwhile goes with the next one.
// 2. A link with data-goto="line:column:width" selects that place in #text.
// 3. A form with data-guard asks before typed text is left behind.
"use strict";

const pause = 300; // ms without a key before a text is sent, and before new figures are read out
const patience = 5000; // ms that an answer may take

// become changes what an element holds into what another holds and leaves alone
// what is the same: less is laid out and painted, the focus stays, and a screen
// reader hears what is new. Drawings are exchanged whole.
function become(into, from) {
  const next = [...from.childNodes];
  for (const old of [...into.childNodes].slice(next.length)) old.remove();
  next.forEach((b, i) => {
    const a = into.childNodes[i];
    if (!a) into.append(b);
    else if (a.isEqualNode(b)) return;
    else if (!(a instanceof HTMLElement) || a.tagName !== b.tagName || a.id !== b.id) a.replaceWith(b);
    else {
      for (const { name } of [...a.attributes]) if (!b.hasAttribute(name)) a.removeAttribute(name);
      for (const { name, value } of b.attributes) if (a.getAttribute(name) !== value) a.setAttribute(name, value);
      become(a, b);
    }
  });
}

function live(form) {
  const into = document.getElementById(form.dataset.into), prompt = "prompt" in form.dataset;
  let timer, shown, running = false, again = false;
  async function ask() {
    try {
      const answer = await fetch(form.dataset.live, {
        method: "POST", body: new URLSearchParams(new FormData(form)), signal: AbortSignal.timeout(patience),
      });
      if (!answer.ok) throw new Error(answer.statusText);
      const text = await answer.text();
      if (shown !== text) {
        const next = document.createElement("template");
        next.innerHTML = shown = text;
        become(into, next.content);
      }
      into.removeAttribute("data-stale");
    } catch {
      into.setAttribute("data-stale", "");
    }
  }
  async function send() {
    again = true;
    if (running) return;
    running = true;
    while (again) {
      again = false;
      await ask();
    }
    running = false;
  }
  function typed() {
    into.setAttribute("aria-busy", "true");
    clearTimeout(timer);
    timer = setTimeout(() => {
      into.removeAttribute("aria-busy");
      if (!prompt) send();
    }, pause);
    if (prompt) send();
  }
  form.addEventListener("input", (event) => { if (!event.isComposing) typed(); });
  form.addEventListener("compositionend", typed);
}

function guard(form) {
  let changed = form.hasAttribute("data-changed") || form.querySelector(".faults") !== null, leaving = false;
  form.addEventListener("input", () => { changed = true; });
  form.addEventListener("submit", () => { leaving = true; });
  window.addEventListener("beforeunload", (event) => {
    if (changed && !leaving) event.preventDefault();
  });
}

function goTo(place) {
  const [line, column, width] = place.split(":").map(Number);
  const text = document.getElementById("text");
  const lines = text.value.split("\n");
  const before = lines.slice(0, line - 1).join("\n").length + (line > 1 ? 1 : 0);
  const units = (from, count) => [...(lines[line - 1] ?? "")].slice(from, from + count).join("").length;
  const start = before + units(0, column - 1);
  text.focus();
  text.setSelectionRange(start, start + units(column - 1, Math.max(width, 1)));
  text.scrollTop = text.scrollHeight * Math.max(0, line - 6) / Math.max(lines.length, 1);
}

document.querySelectorAll("form[data-live]").forEach(live);
document.querySelectorAll("form[data-guard]").forEach(guard);
document.addEventListener("click", (event) => {
  const link = event.target.closest("[data-goto]");
  if (!link) return;
  event.preventDefault();
  goTo(link.dataset.goto);
});
