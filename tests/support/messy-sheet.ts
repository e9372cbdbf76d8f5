import type { RawSheet } from '@/lib/core/sheet';

/** A list as shops keep it, invented: titles above, merged customers, four ways to write a date, and a total at the end. */
const CUSTOMERS = [
  ['HARBOUR GRILL', '418 Lake St', 'Fairhaven', 'Petra', '(312) 555-0141'],
  ['Juniper & Rye', '12 Mill Street', 'Fairhaven', 'chef Alto', '312-555-0162'],
  ['taqueria el faro', '2201 W Division', 'Fairhaven', '', '3125550117'],
  ['Joe’s Fish House', '77 Pier Rd', 'Lakeview', 'Joe', '312.555.0190'],
  ['The Copper Pan', '9 Foundry Ln', 'Lakeview', 'Dana (GM)', '+1 312 555 0133'],
  ['Golden Lotus', '1530 Cermak Rd', 'Fairhaven', 'Mrs. Wei', '312-555-0175 x2'],
  ['Marlow Hotel', '1 Station Sq', 'Fairhaven', 'Engineering', '(312)555-0100'],
  ['BREADWORKS BAKERY', '640 Grain Ave', 'Millbrook', 'Sal', ''],
  ['Pho Corner', '88 Argyle', 'Fairhaven', '', '312 555 0154'],
  ['Night Owl Diner', '2 Rt 41', 'Millbrook', 'Bev', '312-555-0188'],
  ['Casa Lupe', '509 Oak St', 'Millbrook', 'Lupe', '3125550129'],
  ['Smoke & Barrel BBQ', '31 Depot St', 'Lakeview', 'Rusty', '312-555-0111'],
] as const;
const UNITS: readonly (readonly [string, string, string])[] = [
  ['WIC', 'walk in', 'Roof'], ['W/I freezer', 'WIF', 'ROOF'], ['Reach in', 'RI', 'Cook line'], ['2dr reach-in', 'RI', 'Line'], ['Prep tbl', 'Prep', 'line'],
  ['U/C', 'Under ctr', 'bar'], ['Ice Mach', 'IM', 'BOH'], ['lowboy', 'U/C', 'by fryer'], ['Chef base', 'drawers', 'under griddle'], ['Merch', 'Display', 'FOH'],
  ['Back bar cooler', 'U/C', 'Bar'], ['Pizza prep', 'Prep', 'Bakery'], ['Reach-in FREEZER', 'RI', 'BOH'], ['WIC', 'walk-in', 'Bsmt'], ['Cond unit', 'CU', 'roof'],
]; // prettier-ignore
const GASES = [
  'R404a',
  '404A',
  'R-404',
  'R-404A',
  'R134a',
  '134',
  'R-290',
  'R290 (propane)',
  'R-22',
  '448A',
  'R-449A',
  '?',
  '',
  'R-408A',
  'R12',
];
const CHARGES = ['1 lb 4 oz', '20oz', '1.25#', '567 g', '4.2 oz', '', '3 lbs', '96', '?'];
const DATES = ['3/16/24', '45367', '03/02/2024', 'Mar 2024', '16-Apr-24', '', 'spring', '2024-05-01', '6/1/24'];
const FREQ = ['Q', 'Monthly', '90 days', 'semi annual', 'quarterly', 'every 6 wks', '', 'as needed'];
const MAKES = ['Holm', 'HOLM', 'Norvik', 'Arctas', 'norvik', ''];

function messyRows(units = 150): string[][] {
  const header = [
    'Customer',
    'Address',
    'City',
    'Contact',
    'Ph #',
    'Equip',
    'Type',
    'Mfr',
    'Mod #',
    'S/N',
    'Refrig',
    'Chg',
    'Equip Location',
    'Last PM',
    'Freq',
    'Filter size',
    'Comments',
  ];
  const rows: string[][] = [['LARK POINT COLD SERVICE'], ['Equipment list, updated 9/14/24'], [], header];
  let n = 0;
  for (let k = 0; n < units; k++) {
    const c = CUSTOMERS[k % CUSTOMERS.length]!;
    // The second time round the same customers come in other spellings, and some with a second address.
    const name = k < CUSTOMERS.length ? c[0] : c[0].toUpperCase().replace('’', "'").replace('HARBOUR', 'HARBOR');
    const address = k >= CUSTOMERS.length && k % 4 === 0 ? `${900 + k} Canal St` : c[1];
    if (k === 7) rows.push(header.map((h) => h));
    const here = Math.min(units - n, 6 + ((k * 5) % 4));
    for (let i = 0; i < here; i++, n++) {
      const [equip, type, where] = UNITS[(k * 3 + i * 2) % UNITS.length]!;
      const pick = <T>(list: readonly T[], step: number) => list[(n * step + k) % list.length]!;
      const spot = n % 23 === 5 ? 'Stn 4' : n % 9 === 2 ? '' : where;
      const owner = i === 0 ? [name, address, c[2], c[3], c[4]] : ['', '', '', '', ''];
      rows.push([...owner, equip, n % 29 === 11 ? 'XB' : type, pick(MAKES, 1), `M-${100 + (n % 40)}`, n % 6 === 4 ? '' : `SN${40000 + n * 7}`, pick(GASES, 2), pick(CHARGES, 1), spot, pick(DATES, 4), pick(FREQ, 3), n % 5 === 0 ? '20x20x2' : '', n % 17 === 3 ? 'needs new gasket' : '']); // prettier-ignore
    }
    if (k === 4) rows.push([]);
  }
  rows.push([], ['TOTAL', '', '', '', '', String(units)]);
  return rows;
}

export const messySheets = (): RawSheet[] => [
  {
    name: 'Phone list',
    rows: [
      ['Who', 'Number'],
      ['Supply house', '312-555-0199'],
      ['Answering service', '312-555-0198'],
    ],
  },
  { name: 'Equip', rows: messyRows() },
];
