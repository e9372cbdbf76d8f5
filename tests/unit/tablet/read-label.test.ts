import encodeQR from 'qr';
import { decodeQR } from 'qr/decode.js';
import { expect, it } from 'vitest';
import { codeOf } from '@/app/(tablet)/round/_lib/read-label';

it.each([
  ['https://cold.example/round#/tag/K7MP3Q', 'K7MP3Q'],
  [' K7MP3Q ', 'K7MP3Q'],
  ['walk-in_2.b', 'WALK-IN_2.B'],
])('reads the code in %j', (raw, code) => expect(codeOf(raw)).toBe(code));

// A maker's plate, a menu, a wrong escape, a wall of text: none may be taken for a code, and none may throw.
it.each([
  'https://maker.example/serial/4711',
  'https://cold.example/round#/tag/100%',
  'WIFI:S:kitchen;P:secret;;',
  '',
  'x'.repeat(41),
  'MODEL 4711\nSERIAL 0815',
])('finds no label of ours in %j', (raw) => expect(codeOf(raw)).toBeNull());

/** Four dots a module, as a camera would have it. */
function picture(dark: readonly (readonly boolean[])[]) {
  const [side, dots] = [dark.length, 4];
  const data = Uint8Array.from({ length: (side * dots) ** 2 * 4 }, (_, i) => {
    const pixel = i >> 2;
    const [x, y] = [Math.floor((pixel % (side * dots)) / dots), Math.floor(pixel / (side * dots) / dots)];
    return i % 4 < 3 && dark[y]?.[x] ? 0 : 255;
  });
  return { width: side * dots, height: side * dots, data };
}
const ADDRESS = 'http://localhost:3000/round#/tag/RB-7K2M';

it('reads what it writes', () => expect(decodeQR(picture(encodeQR(ADDRESS, 'raw', { ecc: 'medium', border: 4 })))).toBe(ADDRESS));

it('reads a symbol that another library wrote', () => {
  const quiet = (row: string) => [...`....${row}....`].map((c) => c === '#');
  const edge = Array.from({ length: 4 }, () => quiet('.'.repeat(29)));
  expect(decodeQR(picture([...edge, ...SYMBOL.map(quiet), ...edge]))).toBe(ADDRESS);
});

/** The same address, level M, by qrcode 1.5.4 (npm). */
const SYMBOL = [
  '#######..#.#...#...##.#######',
  '#.....#..#..#.#####.#.#.....#',
  '#.###.#.###...#...###.#.###.#',
  '#.###.#.##.#.#.#.#.#..#.###.#',
  '#.###.#.####.#######..#.###.#',
  '#.....#.##.##.##.#....#.....#',
  '#######.#.#.#.#.#.#.#.#######',
  '........#..##................',
  '#.#####...#.##...#..#.#####..',
  '.###.#..#..#.##....#.####...#',
  '##....##.#..#...#....##.#....',
  '##.##...##..#...#....#.#...#.',
  '.#..###....##..#.#..#....##..',
  '.#####.#..##...#####.####.#.#',
  '....####...##..#.#....###.#..',
  '####...####....#..#...#.#..#.',
  '....#.#.#...#..#.#..#.....#..',
  '#.###..###.#.#....##..#####.#',
  '#.#####.#...#####...##.#.##..',
  '#.##.....###.#..#.##..#.#..#.',
  '#.....#.##.##.##.##.#####.###',
  '........##......#.###...#####',
  '#######..###...######.#.###..',
  '#.....#.#####.##....#...##.#.',
  '#.###.#.#...#..#.##.#####.##.',
  '#.###.#.#.#...#.###.#....####',
  '#.###.#.##.#..##.#..#.###..#.',
  '#.....#..#.###.##..##..#.#.#.',
  '#######.##..##.###...#.#..#..',
];
