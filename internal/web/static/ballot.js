// SPDX-License-Identifier: MIT
// The ballot of one assessor. Each answer is first kept on the phone, under its
// id, and then sent; when there is no network it stays there and is sent again
// until the book says that it has it. The book keeps each id once.
"use strict";

const main = document.querySelector("main.ballot"), path = main.dataset.path, shelf = "gyle" + path;
const again = 2000; // ms until an answer is sent again
let running = false, timer;

function kept() {
  try { return JSON.parse(localStorage.getItem(shelf) || "[]"); } catch { return []; }
}

function keep(list) {
  if (list.length) localStorage.setItem(shelf, JSON.stringify(list));
  else localStorage.removeItem(shelf);
}

function say(text) { document.getElementById("state").textContent = text; }

// One question is shown at a time, in the order of the tasting.
function turn() {
  const waiting = kept().map((a) => a.question);
  let open = 0;
  for (const q of main.querySelectorAll(".question")) {
    const form = q.querySelector("form.answer");
    if (!form) continue;
    const done = waiting.includes(q.dataset.question) || q.hasAttribute("data-sent");
    q.hidden = done || open > 0;
    if (!done) open++;
  }
  return open;
}

function tell(refused) {
  const waiting = kept().length, open = turn();
  if (refused) say(refused);
  else if (waiting) say(waiting === 1 ? "No network: your answer is kept on this phone and sent as soon as there is one." : "No network: " + waiting + " answers are kept on this phone and sent as soon as there is one.");
  else if (!open) say("All your answers are in. Thank you.");
  else say("");
  main.dataset.waiting = waiting;
  main.dataset.open = open;
}

async function flush() {
  clearTimeout(timer);
  if (running) return;
  running = true;
  let refused = "";
  for (let list = kept(); list.length; list = kept()) {
    const first = list[0], body = new URLSearchParams(first.body);
    body.set("ago", String(Math.max(0, Date.now() - first.at)));
    let reply, answer;
    try {
      reply = await fetch(path, { method: "POST", body, headers: { Accept: "application/json" }, signal: AbortSignal.timeout(8000) });
      answer = await reply.json();
    } catch { break; }
    if (reply.status >= 500) break;
    keep(kept().filter((a) => a.id !== first.id));
    if (answer.taken) main.querySelector('[data-question="' + first.question + '"]')?.setAttribute("data-sent", "");
    else refused = answer.problem;
  }
  running = false;
  tell(refused);
  if (kept().length) timer = setTimeout(flush, again);
}

for (const form of main.querySelectorAll("form.answer")) {
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    const body = [...new FormData(form)], codes = form.querySelectorAll("input[type=checkbox]");
    if (codes.length && form.querySelectorAll("input[type=checkbox]:checked").length !== 2) { say("Choose the two that belong together."); return; }
    const id = form.elements.id.value, question = form.closest(".question").dataset.question;
    const list = kept();
    if (!list.some((a) => a.question === question)) list.push({ id, question, at: Date.now(), body });
    try {
      keep(list);
    } catch {
      form.submit(); // nothing can be kept on this phone: send it at once
      return;
    }
    turn();
    window.scrollTo(0, 0);
    flush();
  });
}

window.addEventListener("online", flush);
document.addEventListener("visibilitychange", () => { if (!document.hidden) flush(); });
if (main.querySelector(".question")) { tell(""); if (kept().length) flush(); }
