import type { RawSheet } from '@/lib/core/sheet';

/** Numbers of a fixed sequence (Lehmer, 48271 modulo 2³¹ − 1), so that the sheet is the same each time. */
function numbers(seed: number) {
  let x = seed;
  return (n: number) => (x = (x * 48_271) % 2_147_483_647) % n;
}

const PLACES = [
  ['Tidewater Chowder House', '12 Quay St', 'Brackwater ME 04000', 'Nell – kitchen mgr', '207.555.0110'],
  ['TIDEWATER CHOWDER HSE', '12 Quay St', 'Brackwater ME 04000', '', ''],
  ['Gull & Anchor (Pier)', '3 Pier Rd', 'Brackwater ME 04000', 'Ansel', '(207) 555-0111'],
  ['Gull & Anchor (Mall)', '900 Ring Rd Unit 4', 'Fenwick ME 04001', 'Ansel', '(207) 555-0111'],
  ['Mesa Verde Cantina', '41 Orchard Ln', 'Fenwick ME 04001', 'Chef R.', '207-555-0113 after 2pm'],
  ['Fenwick Elementary cafeteria', '1 School St', 'Fenwick ME 04001', 'Front office', '2075550114'],
  ['Hotel Corriveau', '77 Summit Ave', 'Brackwater ME 04000', 'Engineering desk', '207 555 0115 ext 9'],
] as const;
const BOXES = [
  'WIC', 'WIF', 'WIC / WIF', '2x reach-in', 'R/I (2)', 'RIF', 'Low boy', 'pizza prep 67"', 'Ice mach. 500#', 'Glass dr merch', 'Keg box', 'Chef base',
  'Reach in x3', 'W/I cooler', 'Bain',
]; // prettier-ignore
const GASES = ['404A', 'R404', 'r-290', '134A', 'R-22', '448', 'R-454C', 'HFC-134a', 'n/a', '', 'R290 propane'];
const CHARGES = ['14 oz', '1lb 2oz', '0.9 lb', '5.1oz', '2.2 kg', '', '?', '6 lbs'];
const SPOTS = ['BOH', 'Line', 'Roof', 'roof top', 'bar', 'by fryers', 'Bsmt', 'Prep rm', 'FOH', ''];
const CLEANED = ['46098', '46140', '8/9/26', '2/3/2026', 'Sept 2026', '', 'n/a', '10-2-26', '46201.25'];
const EVERY = ['90', '60', '30', '180', '', '45'];

/** A third shop's: two rows of titles, Excel's day numbers, days between cleanings, several units in a cell, serials twice, blank rows, an invoice's foot. */
export function thirdSheet(units = 150): RawSheet[] {
  const pick = numbers(11);
  const of = <T>(list: readonly T[]): T => list[pick(list.length)] ?? (list[0] as T);
  const blank = Array.from({ length: 16 }, () => '');
  const rows: string[][] = [
    ['BRACKWATER MECHANICAL — COLD SIDE', ...blank.slice(1)],
    ['PM list 2026 (rev. G)', ...blank.slice(1, 9), 'printed', '46350', ...blank.slice(11)],
    blank,
    ['Ln', 'Bill-to', 'Svc street', 'Twn', 'Ask for', 'Tel.', 'Box', 'How many', 'Mfr.', 'Mdl', 'S/N', 'Freon', 'Chrg', 'Where at', 'PM done', 'Days btwn PM'],
  ]; // prettier-ignore
  for (let i = 0; i < units; i++) {
    const place = PLACES[i % 31 === 5 ? 1 : ([0, 2, 3, 4, 5, 6][Math.floor(i / 25)] ?? 6)] ?? PLACES[0];
    const box = of(BOXES);
    const two = box === 'WIC / WIF' ? `TW${2000 + i} / TW${3000 + i}` : `TW${1000 + i}`;
    rows.push([
      String(i + 1), place[0], place[1], place[2], place[3], place[4], box, i % 37 === 9 ? '2' : '', of(['Holm', 'NORFROST', 'holm', '']), `K${pick(80) + 10}`,
      i === 60 || i === 61 ? 'TW1007' : i % 8 === 3 ? '' : two, of(GASES), of(CHARGES), of(SPOTS), of(CLEANED), of(EVERY),
    ]); // prettier-ignore
    if (i % 25 === 24) rows.push(blank, blank);
  }
  rows.push(['', 'Total', '', '', '', '', String(units), ...blank.slice(7)], ['Prices on request. Thank you!', ...blank.slice(1)]);
  return [
    { name: 'Cover', rows: [['Brackwater Mechanical'], ['2026']] },
    { name: 'PM', rows },
  ];
}
