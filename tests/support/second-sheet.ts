import type { RawSheet } from '@/lib/core/sheet';

/** Numbers of a fixed sequence (Lehmer, 48271 modulo 2³¹ − 1), so that the sheet is the same each time. */
function numbers(seed: number) {
  let x = seed;
  return (n: number) => (x = (x * 48_271) % 2_147_483_647) % n;
}

const KITCHENS = [
  ['PEARL ROW OYSTERS', '14 Pearl Row', 'Alder Mesa, CO 80901', 'Chef Imre', '(719) 555-0101'],
  ['Pearl Row Oyster', '14 Pearl Row', 'Alder Mesa, CO 80901', '', ''],
  ['Copper Kettle BBQ #2', '2201 E. Basin Hwy', 'Alder Mesa, CO 80902', 'Lupe', '719.555.0102 x4'],
  ['Copper Kettle BBQ #1', '88 Mill Ln', 'Fairhaven, CO 80903', 'Lupe', '719.555.0102 x4'],
  ['St. Odile Hospital – main kitchen', '1 Clinic Way', 'Fairhaven, CO 80903', 'Dietary office', '7195550103'],
  ['Noodle & Sons', '310 W 4th St, Ste B', 'Alder Mesa, CO 80901', 'Ms. Tran', '719-555-0104'],
] as const;
const KINDS = [
  'WIC',
  'WIF',
  '2-dr reach-in',
  '1 dr R/I frzr',
  'UC',
  'Sandwich prep 48"',
  'Ice machine',
  'Chef base',
  'Glass-door merch',
  'Blast chiller',
  'Rem. condensing unit',
];
const GASES = ['R-404A', '404', 'R290', 'propane', 'R-448A (Solstice)', 'HP-81', '134a', 'R-452A', '???', '', 'R600a', 'MO99'];
const CHARGES = ['1 lb 6 oz', '22 oz', '5.3 oz', '150 g', '2.4 kg', '0,08 kg', '7#', '', 'see plate', '12 lbs'];
const SPOTS = ['BOH', 'line', 'roof', 'by fryer', 'Bar', 'BOH ', 'basement', 'patio', 'Pass', 'dish pit'];
const CLEANED = ['45292', '3/17/26', '03/05/2026', '12-1-25', 'Mar 2026', '', 'never', '46023.5', '7/4/26', 'spring?'];
const EVERY = ['q90d', '90 days', 'Quarterly', 'every 2 mo.', '2x/yr', 'monthly', '', 'as needed'];

/** A workbook as another shop may keep it: titles merged over the top, blank lines, a total, serials twice, no column in our words. */
export function secondSheet(): RawSheet[] {
  const pick = numbers(7);
  const of = <T>(list: readonly T[]): T => list[pick(list.length)] ?? (list[0] as T);
  const blank = Array.from({ length: 14 }, () => '');
  const rows: string[][] = [
    ['REFRIGERATION PM ROSTER', ...blank.slice(1)],
    ['Updated 46328 — do not sort!!', ...blank.slice(1)],
    blank,
    ['#', 'Acct', 'Svc Addr', 'City/ST/Zip', 'Who to see', 'Ph #', 'Eqpt', 'Mfgr', 'Mod #', 'Ser #', 'Gas', 'Chg', 'Loc', 'Last Coil Clean', 'PM Freq'],
  ]; // prettier-ignore
  for (let i = 0; i < 120; i++) {
    const k = KITCHENS[i % 23 === 7 ? 1 : ([0, 2, 3, 4, 5][pick(5)] ?? 0)] ?? KITCHENS[0];
    rows.push([
      String(i + 1), k[0], k[1], k[2], k[3], k[4], of(KINDS), of(['Holm', 'holm', 'Norfrost', '']), `M-${pick(90) + 10}`,
      i === 50 ? 'HX1049' : i % 9 === 0 ? '' : `HX${1000 + i}`, of(GASES), of(CHARGES), of(SPOTS), of(CLEANED), of(EVERY),
    ]); // prettier-ignore
    if (i % 30 === 29) rows.push(blank);
  }
  rows.push(blank, ['', 'TOTAL UNITS', '', '', '', '', '120', ...blank.slice(7)], ['Printed 11/27/26', ...blank.slice(1)]);
  return [
    { name: 'Notes', rows: [['call Lupe before 9']] },
    { name: 'Roster (2)', rows },
  ];
}
