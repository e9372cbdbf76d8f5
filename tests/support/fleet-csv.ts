const KINDS = [
  'reach_in',
  'undercounter',
  'drawer_base',
  'prep_table',
  'walk_in_cooler',
  'walk_in_freezer',
  'ice_machine',
  'display',
  'remote_condensing_unit',
];
const PLACES = ['fryer', 'charbroiler', 'wok', 'griddle', 'bakery', 'line', 'back_of_house', 'bar', 'outdoors'];
const REFRIGERANTS = ['R290', 'R134a', 'R404A', 'R448A', 'R600a'];
const ZONES = ['America/Chicago', 'America/New_York', 'America/Denver'];

/** A large invented fleet as a file: eight units a kitchen, four kitchens a customer. */
export function fleetCsv(units: number): string {
  const lines = [
    'customer,kitchen,address,time_zone,altitude_ft,service_hours,energy_price_per_kwh,unit,tag,kind,placement,refrigerant,charge_oz,box_f,make,notes,coil_cleaning_last_done',
  ];
  for (let n = 0; n < units; n++) {
    const kitchen = Math.floor(n / 8);
    const own = n % 8 === 0;
    lines.push(
      [
        `Chain ${Math.floor(kitchen / 4)}`, `"Kitchen ${kitchen}, Mill Street"`, own ? `"${kitchen} Mill Street, Fairhaven"` : '', own ? ZONES[kitchen % 3] : '', own ? String(300 + (kitchen % 50) * 10) : '',
        own ? '"Mon-Fri 06:00-10:30, 14:00-16:00"' : '', own ? '0.15' : '', `Unit ${n}`, n % 3 ? '' : `T-${n}`, KINDS[n % KINDS.length], PLACES[n % PLACES.length], REFRIGERANTS[n % REFRIGERANTS.length],
        String(4 + (n % 40) / 4), '38', 'Holm', '"Says ""hum"" at night, a little"', n % 5 ? '' : '2026-02-10',
      ].join(','),
    ); // prettier-ignore
  }
  return `${lines.join('\r\n')}\r\n`;
}
