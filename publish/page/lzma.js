"use strict";
// unpack reads the .lzma format, whose size must be known: a range decoder that
// learns, over literals, matches with the distances used last, and new ones.
function unpack(src) {
  const lc = src[0] % 9, lp = (src[0] / 9 | 0) % 5, pb = src[0] / 45 | 0;
  let size = 0;
  for (let i = 0; i < 4; i++) size += src[5 + i] * 2 ** (8 * i);
  const out = new Uint8Array(size);

  // Where the probabilities of each decision begin.
  const isMatch = 0, isRep = 192, isRepG0 = 204, isRepG1 = 216, isRepG2 = 228, isRep0Long = 240,
    slots = 432, special = 688, align = 802, lengths = 818, repLengths = 1332, literals = 1846;
  const chance = new Uint16Array(literals + (768 << (lc + lp))).fill(1024);

  let pos = 14, range = 0xFFFFFFFF, code = 0, at = 0;
  for (let i = 0; i < 4; i++) code = (code << 8 | src[pos++]) >>> 0;

  function next() {
    range = range << 8 >>> 0;
    code = (code << 8 | src[pos++]) >>> 0;
  }

  function bit(i) {
    const p = chance[i], bound = (range >>> 11) * p;
    if (code < bound) {
      range = bound;
      chance[i] = p + (2048 - p >>> 5);
      if (range < 16777216) next();
      return 0;
    }
    range -= bound;
    code -= bound;
    chance[i] = p - (p >>> 5);
    if (range < 16777216) next();
    return 1;
  }

  function tree(base, bits) {
    let m = 1;
    for (let i = 0; i < bits; i++) m = m << 1 | bit(base + m);
    return m - (1 << bits);
  }

  function reversed(base, bits) {
    let m = 1, v = 0;
    for (let i = 0; i < bits; i++) {
      const b = bit(base + m);
      m = m << 1 | b;
      v |= b << i;
    }
    return v;
  }

  function direct(bits) {
    let v = 0;
    for (; bits > 0; bits--) {
      range >>>= 1;
      const b = code >= range ? 1 : 0;
      if (b) code -= range;
      v = v << 1 | b;
      if (range < 16777216) next();
    }
    return v;
  }

  function length(base, place) {
    if (!bit(base)) return 2 + tree(base + 2 + (place << 3), 3);
    if (!bit(base + 1)) return 10 + tree(base + 130 + (place << 3), 3);
    return 18 + tree(base + 258, 8);
  }

  function distance(len) {
    const slot = tree(slots + (Math.min(len - 2, 3) << 6), 6);
    if (slot < 4) return slot;
    const bits = (slot >> 1) - 1, base = (2 | slot & 1) << bits;
    if (slot < 14) return base + reversed(special + base - slot - 1, bits);
    return base + (direct(bits - 4) << 4) + reversed(align, 4);
  }

  let state = 0, r0 = 0, r1 = 0, r2 = 0, r3 = 0;

  function literal() {
    const before = at ? out[at - 1] : 0;
    const base = literals + 768 * (((at & (1 << lp) - 1) << lc) + (before >> 8 - lc));
    let s = 1;
    if (state >= 7) {
      let like = out[at - r0 - 1];
      do {
        const b7 = like >> 7 & 1, b = bit(base + (1 + b7 << 8) + s);
        like <<= 1;
        s = s << 1 | b;
        if (b7 !== b) break;
      } while (s < 256);
    }
    while (s < 256) s = s << 1 | bit(base + s);
    out[at++] = s;
    state = state < 4 ? 0 : state < 10 ? state - 3 : state - 6;
  }

  // repeated reads a match at one of the last distances; 0 means one byte was copied.
  function repeated(place) {
    if (!bit(isRepG0 + state)) {
      if (!bit(isRep0Long + (state << 4) + place)) {
        state = state < 7 ? 9 : 11;
        out[at] = out[at - r0 - 1];
        at++;
        return 0;
      }
    } else {
      let d = r1;
      if (bit(isRepG1 + state)) {
        d = r2;
        if (bit(isRepG2 + state)) {
          d = r3;
          r3 = r2;
        }
        r2 = r1;
      }
      r1 = r0;
      r0 = d;
    }
    const len = length(repLengths, place);
    state = state < 7 ? 8 : 11;
    return len;
  }

  while (at < size) {
    const place = at & (1 << pb) - 1;
    if (!bit(isMatch + (state << 4) + place)) {
      literal();
      continue;
    }
    let len;
    if (bit(isRep + state)) {
      len = repeated(place);
    } else {
      r3 = r2; r2 = r1; r1 = r0;
      len = length(lengths, place);
      state = state < 7 ? 7 : 10;
      r0 = distance(len);
    }
    for (let from = at - r0 - 1; len > 0; len--) out[at++] = out[from++];
  }
  return out;
}
