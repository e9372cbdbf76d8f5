/** Letters and digits that nobody mixes up on a greasy label: no 0/O, 1/I/L, 5/S, 2/Z, 8/B, U/V. */
const LETTERS = '34679ACDEFGHJKMNPQRTWXY';

/** A code of the given length from an id: the same id gives the same code. FNV-1a, one hash a letter. */
export function shortCode(id: string, length = 6): string {
  let code = '';
  for (let n = 0; n < length; n++) {
    let hash = 0x811c9dc5;
    for (const c of `${n}:${id}`) hash = Math.imul(hash ^ c.charCodeAt(0), 0x01000193) >>> 0;
    code += LETTERS[((hash ^ (hash >>> 15)) >>> 0) % LETTERS.length];
  }
  return code;
}
