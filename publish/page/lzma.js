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

  // The decoder: how wide the range is and what was read within it. They need
  // 32 bits, which only a typed array holds without a box of its own.
  const decoder = new Uint32Array([0xFFFFFFFF, 0]);
  let pos = 14, at = 0;
  for (let i = 0; i < 4; i++) decoder[1] = decoder[1] << 8 | src[pos++];

  function next() {
    decoder[0] <<= 8;
    decoder[1] = decoder[1] << 8 | src[pos++];
  }

  function bit(i) {
    const p = chance[i], range = decoder[0], code = decoder[1], bound = (range >>> 11) * p;
    if (code < bound) {
      decoder[0] = bound;
      chance[i] = p + (2048 - p >> 5);
      if (bound < 16777216) next();
      return 0;
    }
    decoder[0] = range - bound;
    decoder[1] = code - bound;
    chance[i] = p - (p >> 5);
    if (range - bound < 16777216) next();
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
      const half = decoder[0] >>> 1, b = decoder[1] >= half ? 1 : 0;
      decoder[0] = half;
      if (b) decoder[1] -= half;
      v = v << 1 | b;
      if (half < 16777216) next();
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

  // literal is where most of the time goes: the decoder stays in local names,
  // and bit is written out.
  function literal() {
    const before = at ? out[at - 1] : 0, odds = chance;
    const base = literals + 768 * (((at & (1 << lp) - 1) << lc) + (before >> 8 - lc));
    let s = 1, wide = decoder[0], have = decoder[1], from = pos;
    // While it is like the byte at the last distance, that byte chooses the odds.
    let like = state >= 7 ? out[at - r0 - 1] : 0, alike = state >= 7;
    while (s < 256) {
      const b7 = like >> 7 & 1, i = alike ? base + (1 + b7 << 8) + s : base + s;
      like <<= 1;
      const p = odds[i], bound = (wide >>> 11) * p;
      let b = 0;
      if (have >>> 0 < bound) {
        wide = bound;
        odds[i] = p + (2048 - p >> 5);
      } else {
        wide = wide - bound >>> 0;
        have = have - bound >>> 0;
        odds[i] = p - (p >> 5);
        b = 1;
      }
      if (wide < 16777216) {
        wide = wide << 8 >>> 0;
        have = (have << 8 | src[from++]) >>> 0;
      }
      s = s << 1 | b;
      if (b7 !== b) alike = false;
    }
    decoder[0] = wide;
    decoder[1] = have;
    pos = from;
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
