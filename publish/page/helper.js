// unpacking is a second thread that unpacks half of the engine. It is called
// before the engine itself is read, so that it is up when it is needed. ask
// returns what is unpacked, by the page itself where the browser has no thread
// to give.
const unpacking = (() => {
  let worker, up, broken;
  const started = new Promise(done => { up = () => done(true); broken = () => done(false); });
  if (document.body.dataset.packing !== "lzma") broken();
  else try {
    const script = new Blob([unpack, "onmessage = ({ data }) => { const out = unpack(data); postMessage(out, [out.buffer]); }; postMessage(0);"], { type: "text/javascript" });
    const address = URL.createObjectURL(script);
    worker = new Worker(address);
    worker.onmessage = up;
    worker.onerror = event => { event.preventDefault(); broken(); };
    setTimeout(broken, 1000); // nobody waits longer for help
  } catch { broken(); }
  async function ask(packed) {
    if (!await started) return () => unpack(packed);
    const answer = new Promise(done => {
      worker.onmessage = ({ data }) => { worker.terminate(); performance.mark("helped"); done(data); };
      worker.onerror = event => { event.preventDefault(); done(unpack(packed)); };
    });
    worker.postMessage(packed);
    return () => answer;
  }
  return { ask };
})();
