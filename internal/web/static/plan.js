// SPDX-License-Identifier: MIT
// Two helps on the sheet of a plan; it works without them.
// 1. A choice that changes repaints the sheet and the address. Parts of the
//    page with data-part are taken from the page of the new choices.
// 2. A figure opens the reason behind it in a panel; Escape closes it.
"use strict";

(() => {
  const pauseTyping = 350; // ms without a key before the sheet is repainted
  const form = document.getElementById("choices");
  const panel = document.getElementById("reason-panel");
  const said = document.getElementById("plan-said");
  if (!panel) return;

  async function page(address, signal) {
    const answer = await fetch(address, { signal });
    return new DOMParser().parseFromString(await answer.text(), "text/html");
  }

  let timer, running;
  async function repaint() {
    running?.abort();
    const mine = (running = new AbortController());
    const query = new URLSearchParams([...new FormData(form)].filter(([name, value]) => value !== "" && name !== "of"));
    const address = "/plan?" + query;
    try {
      const fresh = await page(address, mine.signal);
      if (mine.signal.aborted) return;
      for (const part of fresh.querySelectorAll("[data-part]")) take(part);
      for (const field of form.querySelectorAll("input, select")) mark(field, fresh);
      takeHead(fresh);
      document.title = fresh.title;
      history.replaceState(null, "", address);
      said.textContent = fresh.querySelector("#plan-sheet h1")?.textContent ?? "";
      document.getElementById("plan-sheet").toggleAttribute("data-stale", unread(fresh.getElementById("plan-sheet")));
    } catch (error) {
      if (error.name !== "AbortError") document.getElementById("plan-sheet").setAttribute("data-stale", "");
    }
  }

  // unread says that a choice can't be read yet, as while somebody types.
  const unread = (sheet) => sheet?.hasAttribute("data-unread") ?? true;

  // take replaces what a part holds, but never what somebody is using, nor a
  // sheet by nothing.
  function take(part) {
    const old = document.getElementById(part.id);
    if (part.hasAttribute("data-unread")) return;
    if (!old || old.contains(document.activeElement) || old.innerHTML === part.innerHTML) return;
    old.innerHTML = part.innerHTML;
  }

  function mark(field, fresh) {
    const other = field.id && fresh.getElementById(field.id);
    if (!other) return;
    for (const name of ["aria-invalid", "aria-describedby", "placeholder"]) {
      if (other.hasAttribute(name)) field.setAttribute(name, other.getAttribute(name));
      else field.removeAttribute(name);
    }
  }

  // takeHead keeps the running head of the printed sheet true.
  function takeHead(fresh) {
    const head = 'link[href^="/plan/head.css"]';
    document.querySelectorAll(head).forEach((link) => link.remove());
    const link = fresh.querySelector(head);
    if (link) document.getElementById("plan").before(link);
  }

  if (form) {
    form.addEventListener("input", (event) => {
      if (event.isComposing) return;
      const chosen = event.target.matches("select, [type=checkbox]");
      if (event.target.name === "house" && form.elements.cooling) form.elements.cooling.value = "";
      clearTimeout(timer);
      timer = setTimeout(repaint, chosen ? 0 : pauseTyping);
    });
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      clearTimeout(timer);
      repaint().then(() => document.getElementById("plan-sheet").scrollIntoView());
    });
    form.querySelector("[data-once]").toggleAttribute("data-repainted", true); // the sheet beside it is repainted anyway
  }

  let opener;
  async function why(link) {
    try {
      const fresh = await page(link.href);
      const reason = fresh.getElementById("reason");
      if (!reason) throw new Error("no reason");
      panel.innerHTML = '<p class="reason-close"><button type="button" data-close>Close</button></p>';
      panel.append(reason);
      panel.hidden = false;
      opener = link;
      document.querySelectorAll("[data-why][aria-current]").forEach((other) => other.removeAttribute("aria-current"));
      link.setAttribute("aria-current", "true");
      panel.scrollTop = 0;
      document.getElementById("reason-title").focus({ preventScroll: true });
    } catch {
      location.href = link.href;
    }
  }

  function close() {
    panel.hidden = true;
    opener?.removeAttribute("aria-current");
    (opener?.isConnected ? opener : document.querySelector("[data-why]"))?.focus();
  }

  document.addEventListener("click", (event) => {
    if (event.target.closest("[data-close]")) return close();
    const link = event.target.closest("a[data-why]");
    if (!link || event.ctrlKey || event.metaKey || event.shiftKey) return;
    event.preventDefault();
    why(link);
  });
  document.addEventListener("keydown", (event) => {
    if (event.key === "Escape" && !panel.hidden) close();
  });
})();
