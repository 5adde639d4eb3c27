// SPDX-License-Identifier: MIT
// Counts down to the next task in words, and rings when it is due if the brewer
// has asked for it: a sound, a shake and a bar in reverse colours until somebody
// has heard it. It needs no network: the times are those of the sheet. Without
// this file the sheet shows the same times of the clock.
"use strict";
(() => {
  const el = (id) => document.getElementById(id), bar = el("alarm"), button = el("alarm-on");
  if (!bar) return;
  const ASKED = "gyle-alarm", RUNG = "gyle-rung:" + bar.dataset.path;
  const read = (key, other) => { try { return JSON.parse(localStorage.getItem(key)) ?? other; } catch { return other; } };
  const write = (key, value) => { try { localStorage.setItem(key, JSON.stringify(value)); } catch { /* the page forgets it */ } };
  let tasks = [], on = read(ASKED, false), audio = null, awake = null, ringing = null, told = "";

  // Whole minutes, as one says them.
  const words = (ms) => {
    const late = ms < 0, minutes = Math.floor(Math.abs(ms) / 60000), hours = Math.floor(minutes / 60), rest = minutes % 60;
    if (!minutes) return late ? "now" : "in less than a minute";
    const parts = [hours && `${hours} ${hours === 1 ? "hour" : "hours"}`, rest && `${rest} ${rest === 1 ? "minute" : "minutes"}`].filter(Boolean).join(" ");
    return late ? parts + " late" : "in " + parts;
  };
  const DAY = 86400000;
  const next = () => tasks.find((t) => Math.abs(Date.parse(t.due) - Date.now()) < DAY);

  const tick = () => {
    const t = next();
    bar.hidden = !t;
    if (!t) { quiet(); return; }
    const left = Date.parse(t.due) - Date.now(), say = `${t.what}: ${words(left)}`;
    if (el("alarm-next").textContent !== say) el("alarm-next").textContent = say;
    // A screen reader hears it at these minutes only, not at every one.
    const minutes = Math.ceil(left / 60000), mark = [10, 5, 1].find((m) => minutes === m) ?? (left <= 0 ? 0 : null);
    if (mark !== null && told !== t.key + mark + t.due) { told = t.key + mark + t.due; el("alarm-said").textContent = say; }
    if (on && left <= 0 && left > -DAY / 24 && read(RUNG, "") !== t.key + t.due) ring(t);
  };

  const beep = () => {
    if (!audio || audio.state !== "running") return;
    for (const [at, pitch] of [[0, 880], [0.3, 660]]) {
      const tone = audio.createOscillator(), loud = audio.createGain();
      tone.frequency.value = pitch;
      loud.gain.setValueAtTime(0.0001, audio.currentTime + at);
      loud.gain.exponentialRampToValueAtTime(0.4, audio.currentTime + at + 0.02);
      loud.gain.exponentialRampToValueAtTime(0.0001, audio.currentTime + at + 0.25);
      tone.connect(loud).connect(audio.destination);
      tone.start(audio.currentTime + at);
      tone.stop(audio.currentTime + at + 0.27);
    }
  };
  const ring = (t) => {
    if (ringing) return;
    const sound = () => { beep(); navigator.vibrate?.([300, 150, 300]); };
    bar.classList.add("ringing");
    el("alarm-heard").hidden = false;
    ringing = {task: t, timer: setInterval(sound, 4000)};
    sound();
  };
  const quiet = () => {
    if (!ringing) return;
    clearInterval(ringing.timer);
    write(RUNG, ringing.task.key + ringing.task.due);
    ringing = null;
    bar.classList.remove("ringing");
    el("alarm-heard").hidden = true;
  };

  // Browsers let a page sound only after somebody has touched it.
  const wake = () => {
    if (!on) return;
    try { audio = audio || new AudioContext(); audio.resume(); } catch { /* no sound here: the bar and the shake are left */ }
    navigator.wakeLock?.request("screen").then((lock) => { awake = lock; }, () => { /* it may sleep */ });
  };
  const show = () => {
    button.setAttribute("aria-pressed", String(on));
    button.textContent = on ? "Alarms are on" : "Ring when it is time";
    el("alarm-hint").hidden = !on;
  };
  button.addEventListener("click", () => {
    on = !on;
    write(ASKED, on);
    if (on) { wake(); beep(); } else { quiet(); awake?.release(); awake = null; }
    show();
    tick();
  });
  el("alarm-heard").addEventListener("click", () => { quiet(); button.focus(); });
  addEventListener("pointerdown", wake, {once: true});
  addEventListener("keydown", wake, {once: true});
  document.addEventListener("visibilitychange", () => { if (!document.hidden) { if (on) wake(); tick(); } });

  // The tasks that are still to come: told by the page at the kettle, else read
  // off the sheet.
  const fromSheet = () => [...document.querySelectorAll("#gyle [data-due]")].map((e) => ({key: e.id, what: e.dataset.what, due: e.dataset.due}));
  document.addEventListener("gyle-tasks", (event) => {
    tasks = event.detail || fromSheet();
    if (ringing && !tasks.some((t) => t.key === ringing.task.key && t.due === ringing.task.due)) quiet();
    tick();
  });
  if (el("gyle")) tasks = fromSheet();
  show();
  tick();
  setInterval(tick, 1000);

  // The brew day, too, is kept for when the network is gone.
  if (el("gyle") && next() && "serviceWorker" in navigator) {
    navigator.serviceWorker.register("/gyle/worker.js", {scope: "/gyle/"}).then(async () => {
      const files = [...document.querySelectorAll("link[rel=stylesheet], link[rel=icon]")].map((l) => l.href).concat([...document.scripts].map((s) => s.src));
      (await navigator.serviceWorker.ready).active.postMessage({keep: [location.pathname, ...files].filter(Boolean)});
      bar.dataset.offline = "asked";
    }).catch(() => { /* then the sheet is there as long as it is open */ });
  }
})();
