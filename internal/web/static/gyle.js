// SPDX-License-Identifier: MIT
// The brew day repaints itself: a form is sent in the background and the sheet
// that comes back takes the place of the old one. Without this file the same
// forms load the page anew.
"use strict";
(() => {
  const sheet = () => document.getElementById("gyle");
  const paint = (text, anchor) => {
    const next = new DOMParser().parseFromString(text, "text/html").getElementById("gyle");
    if (!next) { location.reload(); return; }
    sheet().replaceWith(next);
    document.dispatchEvent(new CustomEvent("gyle-tasks"));
    const to = anchor && document.getElementById(anchor);
    if (to) { to.setAttribute("tabindex", "-1"); to.focus({preventScroll: true}); }
  };
  document.addEventListener("submit", async (event) => {
    const form = event.target;
    if (!sheet()?.contains(form) || form.method !== "post") return;
    event.preventDefault();
    const data = new URLSearchParams(new FormData(form, event.submitter));
    form.querySelectorAll("button").forEach((b) => b.disabled = true);
    try {
      const answer = await fetch(form.action, {method: "POST", body: data});
      paint(await answer.text(), new URL(answer.url).hash.slice(1) || "next");
    } catch {
      form.querySelectorAll("button").forEach((b) => b.disabled = false);
      const word = form.querySelector(".away") || form.appendChild(Object.assign(document.createElement("p"), {className: "away"}));
      word.textContent = "The book can’t be reached. Nothing is lost: press again later, or use “At the kettle”, which keeps entries until it can.";
    }
  });
  // The ruler and what is overdue move on by themselves.
  if (document.querySelector(".ruler")) {
    setInterval(async () => {
      if (document.hidden || sheet().contains(document.activeElement) || sheet().querySelector("input:not([type=hidden]):focus")) return;
      try { const answer = await fetch(location.pathname); if (answer.ok) paint(await answer.text()); } catch { /* later */ }
    }, 60000);
  }
})();
