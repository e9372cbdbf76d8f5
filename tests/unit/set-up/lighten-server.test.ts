import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import os from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { lightenServer } from '../../../scripts/support/lighten-server.mjs';

const require = createRequire(import.meta.url);
/** As the bundler writes a chunk: ids and what makes each module. */
const chunk = (name: string, words: string) =>
  `module.exports=[7,9,a=>{"use strict";a.s(["w",0,()=>\`${words}\`])}];\n\n//# sourceMappingURL=${name}.map\n`;

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(path.join(os.tmpdir(), 'lighten-'));
  mkdirSync(path.join(folder, 'ssr'));
});
afterEach(() => rmSync(folder, { recursive: true }));
const write = (file: string, text: string) => writeFileSync(path.join(folder, file), text);
const read = (file: string) => readFileSync(path.join(folder, file), 'utf8');

/** What a chunk's module says of itself. */
function told(file: string): { ids: unknown[]; words: string } {
  const [first, second, make] = require(path.join(folder, file)) as [number, number, (a: { s: (list: unknown[]) => void }) => void];
  let list: unknown[] = [];
  make({ s: (given) => (list = given) });
  return { ids: [first, second], words: (list[2] as () => string)() };
}

describe('the server’s files as they are built', () => {
  it('say the same in one byte a character', async () => {
    write('a.js', chunk('a.js', 'The coil’s grade — “clean” 🧊 é \\u{1f9ca}'));
    write('regex.js', 'module.exports=[7,9,a=>{a.s(["w",0,()=>String(/^[“”]+$/u.test("”“")+"’")])}];');
    expect(await lightenServer(folder)).toEqual({ twins: 0, shortened: 2 });
    expect(told('regex.js').words).toBe('true’');
    expect(read('a.js')).toMatch(/^[\u0000-\u007f]*$/);
    const { ids, words } = told('a.js');
    expect(ids).toEqual([7, 9]);
    expect(words).toBe('The coil’s grade — “clean” 🧊 é 🧊');
  });

  it('stand once where they differ by their name alone, wherever they lie', async () => {
    write('a.js', chunk('a.js', 'the coil’s'));
    write('b.js', chunk('b.js', 'the coil’s'));
    write('ssr/c.js', chunk('c.js', 'the coil’s'));
    write('ssr/d.js', chunk('d.js', 'the fan’s'));
    expect(await lightenServer(folder)).toEqual({ twins: 2, shortened: 2 });
    for (const twin of ['b.js', 'ssr/c.js']) {
      expect(require(path.join(folder, twin))).toBe(require(path.join(folder, 'a.js')));
      expect(read(twin).length).toBeLessThan(60);
    }
    expect(told('ssr/d.js').words).toBe('the fan’s');
  });

  it('are short, and hold every function in its own place', async () => {
    write(
      'sum.js',
      `module.exports=[7,9,a=>{"use strict";
        /** Told in words. */
        function onceCalled(list) { let total = 0; for (const amount of list) total += amount; return total; }
        const everyTime = (lists) => lists.map((list) => onceCalled(list));
        a.s(["w",0,()=>String(everyTime([[1,2],[3,4]]))])}];`,
    );
    expect(await lightenServer(folder)).toEqual({ twins: 0, shortened: 1 });
    expect(told('sum.js').words).toBe('3,7');
    const text = read('sum.js');
    expect(text).not.toMatch(/Told in words|onceCalled|total/);
    // One function of its own, called by name: written into the place of its call it would be made anew each time.
    expect(text).toMatch(/function (\w+)\(.+=>\1\(/);
  });

  it('are left alone where they are the bundler’s own, and maps always', async () => {
    const own = chunk('r.js', 'the runtime’s');
    write('[turbopack]_runtime.js', own);
    write('plain.js.map', '{"names":["’"]}');
    expect(await lightenServer(folder)).toEqual({ twins: 0, shortened: 0 });
    expect(read('[turbopack]_runtime.js')).toBe(own);
    expect(read('plain.js.map')).toBe('{"names":["’"]}');
  });
});
