"use strict";
// Finds without a server: what doesn't hold all the words is put away.
(() => {
  const field = document.getElementById("find"), found = document.getElementById("found");
  const entries = [...document.querySelectorAll("[data-words]")];
  document.getElementById("finder").hidden = false;
  field.addEventListener("input", () => {
    const words = field.value.toLowerCase().split(/\s+/).filter(Boolean);
    let n = 0;
    for (const e of entries) {
      e.hidden = !words.every(w => e.dataset.words.includes(w));
      if (!e.hidden) n++;
    }
    found.textContent = n === 0 ? found.dataset.none : "";
  });
})();
