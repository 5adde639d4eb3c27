// SPDX-License-Identifier: MIT
// Keeps the brew day and the kettle's page for when the network is gone: the network first, what
// was kept after it. It never keeps or sends an entry; kettle.js does that.
"use strict";
const KEPT = "kettle-1";
self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));
self.addEventListener("message", (event) => {
  if (!Array.isArray(event.data?.keep)) return;
  const done = (async () => {
    const store = await caches.open(KEPT);
    await Promise.all(event.data.keep.map(async (address) => {
      try { const answer = await fetch(address); if (answer.ok) await store.put(address, answer); } catch { /* next time */ }
    }));
    event.source?.postMessage({kept: true});
  })();
  event.waitUntil(done);
});
self.addEventListener("fetch", (event) => {
  const request = event.request, url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== location.origin) return;
  const page = /^\/gyle\/[^/]+(\/kettle)?$/.test(url.pathname) && !url.pathname.endsWith(".js") && !url.search, asset = url.pathname.startsWith("/static/");
  if (!page && !asset) return;
  event.respondWith((async () => {
    const store = await caches.open(KEPT);
    const known = await store.match(request, {ignoreVary: true});
    if (asset && known && url.search) return known; // its address has its hash
    try {
      const answer = await fetch(request);
      if (answer.ok && !answer.redirected && (known || asset || url.pathname.endsWith("/kettle"))) store.put(request, answer.clone());
      return answer;
    } catch (failure) {
      if (known) return known;
      throw failure;
    }
  })());
});
