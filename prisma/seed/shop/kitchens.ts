import type { Placement, UnitKind } from '../../../lib/core/equipment';

/** The invented shop's invented customers in Alder Mesa, a city a mile high, and two kitchens up in the hills. */

export type UnitSeed = readonly [kind: UnitKind, placement: Placement, name: string, low?: 'low'];

export type KitchenSeed = {
  customer: string;
  name: string;
  address: string;
  lat: number;
  lng: number;
  altitudeM: number;
  /** Wall-clock hours in which the kitchen can spare its equipment, Monday to Saturday. */
  hours: readonly [string, string];
  sundays?: true;
  access: string;
  contact: readonly [name: string, phone: string];
  price: number | null;
  hotDayF: number;
  /** How much faster than usual for their placements its coils foul. */
  foulingFactor: number;
  /** Weeks between coil cleanings when the customer came. */
  startWeeks: number;
  units: readonly UnitSeed[];
};

export const CITY = { name: 'Alder Mesa', timeZone: 'America/Denver', lat: 39.742, lng: -104.987, altitudeM: 1609 } as const;

export const KITCHENS: readonly KitchenSeed[] = [
  {
    customer: 'Fenwick’s Fry House', name: 'Dock Street', address: '118 Dock Street, Alder Mesa', lat: 39.7561, lng: -105.0042, altitudeM: 1592,
    hours: ['07:00', '10:30'], access: 'Back door on the alley, bell twice. Fryers are lit at 10.', contact: ['Orla Fenwick', '+1 555 0110'],
    price: 0.148, hotDayF: 104, foulingFactor: 2.1, startWeeks: 12,
    units: [
      ['reach_in', 'fryer', 'Reach-in by fryer 1'], ['reach_in', 'fryer', 'Reach-in by fryer 3'], ['drawer_base', 'fryer', 'Batter drawers'],
      ['prep_table', 'line', 'Slaw table'], ['reach_in', 'fryer', 'Fry freezer', 'low'], ['undercounter', 'line', 'Sauce undercounter'],
      ['walk_in_cooler', 'back_of_house', 'Walk-in cooler'], ['walk_in_freezer', 'back_of_house', 'Walk-in freezer', 'low'], ['ice_machine', 'bar', 'Ice machine'],
    ],
  },
  {
    customer: 'Fenwick’s Fry House', name: 'Eastgate', address: '2040 Eastgate Avenue, Alder Mesa', lat: 39.7312, lng: -104.9127, altitudeM: 1631,
    hours: ['07:00', '10:30'], access: 'Key in the lock box by the gas meter, code at the desk.', contact: ['Milo Fenwick', '+1 555 0111'],
    price: 0.148, hotDayF: 102, foulingFactor: 1.0, startWeeks: 12,
    units: [
      ['reach_in', 'fryer', 'Reach-in by fryers'], ['drawer_base', 'fryer', 'Batter drawers'], ['prep_table', 'line', 'Slaw table'],
      ['reach_in', 'line', 'Fry freezer', 'low'], ['undercounter', 'line', 'Sauce undercounter'], ['walk_in_cooler', 'back_of_house', 'Walk-in cooler'],
      ['walk_in_freezer', 'back_of_house', 'Walk-in freezer', 'low'],
    ],
  },
  {
    customer: 'Nine Lanterns', name: 'Pearl Row', address: '9 Pearl Row, Alder Mesa', lat: 39.7478, lng: -104.9719, altitudeM: 1607,
    hours: ['08:00', '11:00'], sundays: true, access: 'Through the dining room; ask for Mei before moving the wok line.', contact: ['Mei Tanaka-Rowe', '+1 555 0120'],
    price: 0.139, hotDayF: 106, foulingFactor: 1.9, startWeeks: 13,
    units: [
      ['prep_table', 'wok', 'Wok line table A'], ['prep_table', 'wok', 'Wok line table B'], ['drawer_base', 'wok', 'Noodle drawers'],
      ['reach_in', 'wok', 'Reach-in by woks'], ['undercounter', 'line', 'Dumpling undercounter'], ['reach_in', 'line', 'Dumpling freezer', 'low'],
      ['display', 'bar', 'Tea counter display'], ['walk_in_cooler', 'back_of_house', 'Walk-in cooler'], ['ice_machine', 'back_of_house', 'Ice machine'],
    ],
  },
  {
    customer: 'Ember & Rye', name: 'Ember & Rye', address: '701 Foundry Lane, Alder Mesa', lat: 39.7632, lng: -104.9805, altitudeM: 1597,
    hours: ['09:00', '14:00'], access: 'Goods entrance after 9. Charbroiler hood is cleaned on first Mondays: not then.', contact: ['Caspian Rye', '+1 555 0130'],
    price: 0.152, hotDayF: 106, foulingFactor: 1.8, startWeeks: 12,
    units: [
      ['drawer_base', 'charbroiler', 'Steak drawers left'], ['drawer_base', 'charbroiler', 'Steak drawers right'], ['reach_in', 'charbroiler', 'Reach-in by broiler'],
      ['prep_table', 'line', 'Salad table'], ['undercounter', 'griddle', 'Griddle undercounter'], ['reach_in', 'line', 'Dessert reach-in'],
      ['walk_in_cooler', 'back_of_house', 'Meat walk-in'], ['walk_in_freezer', 'back_of_house', 'Walk-in freezer', 'low'],
      ['display', 'bar', 'Back-bar cooler'], ['ice_machine', 'bar', 'Bar ice machine'], ['remote_condensing_unit', 'outdoors', 'Roof unit, meat walk-in'],
    ],
  },
  {
    customer: 'Marrow Lane Burgers', name: 'Union Street', address: '45 Union Street, Alder Mesa', lat: 39.7389, lng: -104.9902, altitudeM: 1605,
    hours: ['07:30', '10:30'], access: 'Shutter side, knock.', contact: ['Petra Vance', '+1 555 0140'], price: 0.144, hotDayF: 102, foulingFactor: 1.1, startWeeks: 12,
    units: [
      ['drawer_base', 'griddle', 'Patty drawers'], ['prep_table', 'griddle', 'Dressing table'], ['reach_in', 'fryer', 'Fry freezer', 'low'],
      ['undercounter', 'line', 'Milkshake undercounter'], ['reach_in', 'back_of_house', 'Bun reach-in'], ['walk_in_cooler', 'back_of_house', 'Walk-in cooler'], ['ice_machine', 'bar', 'Ice machine'],
    ],
  },
  {
    customer: 'Marrow Lane Burgers', name: 'Station Square', address: '3 Station Square, Alder Mesa', lat: 39.7527, lng: -104.9998, altitudeM: 1588,
    hours: ['06:30', '10:00'], access: 'Station pass at the ticket hall desk; allow ten minutes.', contact: ['Petra Vance', '+1 555 0140'], price: 0.144, hotDayF: 104, foulingFactor: 0.9, startWeeks: 12,
    units: [
      ['drawer_base', 'griddle', 'Patty drawers'], ['prep_table', 'griddle', 'Dressing table'], ['reach_in', 'fryer', 'Fry freezer', 'low'],
      ['undercounter', 'line', 'Milkshake undercounter'], ['walk_in_cooler', 'back_of_house', 'Walk-in cooler'],
    ],
  },
  {
    customer: 'Marrow Lane Burgers', name: 'Airport Road', address: '8800 Airport Road, Alder Mesa', lat: 39.7904, lng: -104.8561, altitudeM: 1636,
    hours: ['07:30', '10:30'], access: 'Park behind the sign; drive-through lane is taken from 10:30.', contact: ['Len Osei', '+1 555 0141'], price: 0.131, hotDayF: 102, foulingFactor: 1.0, startWeeks: 12,
    units: [
      ['drawer_base', 'griddle', 'Patty drawers'], ['prep_table', 'griddle', 'Dressing table'], ['reach_in', 'fryer', 'Fry freezer', 'low'], ['reach_in', 'line', 'Chicken reach-in'],
      ['undercounter', 'line', 'Milkshake undercounter'], ['walk_in_cooler', 'back_of_house', 'Walk-in cooler'], ['walk_in_freezer', 'back_of_house', 'Walk-in freezer', 'low'], ['ice_machine', 'back_of_house', 'Ice machine'],
    ],
  },
  {
    customer: 'Juniper Row Bakery', name: 'Juniper Row', address: '27 Juniper Row, Alder Mesa', lat: 39.7266, lng: -104.9688, altitudeM: 1618,
    hours: ['11:00', '16:00'], access: 'Bakers leave at 11. Flour everywhere: bring covers.', contact: ['Isolde Hart', '+1 555 0150'], price: 0.139, hotDayF: 100, foulingFactor: 1.1, startWeeks: 16,
    units: [
      ['reach_in', 'bakery', 'Butter reach-in'], ['reach_in', 'bakery', 'Dough retarder'], ['undercounter', 'bakery', 'Cream undercounter'], ['prep_table', 'bakery', 'Sandwich table'],
      ['display', 'bakery', 'Cake display'], ['display', 'bar', 'Cold counter'], ['walk_in_cooler', 'back_of_house', 'Walk-in cooler'], ['reach_in', 'bakery', 'Pastry freezer', 'low'],
    ],
  },
  {
    customer: 'Hotel Aldermoor', name: 'Main kitchen', address: '1 Aldermoor Place, Alder Mesa', lat: 39.7449, lng: -104.9936, altitudeM: 1604,
    hours: ['14:00', '17:00'], sundays: true, access: 'Security desk, level −1. Badge back before you leave.', contact: ['Rafe Lindqvist', '+1 555 0160'], price: 0.127, hotDayF: 102, foulingFactor: 1.0, startWeeks: 13,
    units: [
      ['reach_in', 'line', 'Fish reach-in'], ['reach_in', 'fryer', 'Reach-in by fryers'], ['drawer_base', 'charbroiler', 'Grill drawers'], ['drawer_base', 'griddle', 'Breakfast drawers'],
      ['prep_table', 'line', 'Garde manger table'], ['prep_table', 'line', 'Pastry table'], ['undercounter', 'line', 'Pass undercounter'], ['walk_in_cooler', 'back_of_house', 'Dairy walk-in'],
      ['walk_in_cooler', 'back_of_house', 'Produce walk-in'], ['walk_in_freezer', 'back_of_house', 'Main freezer', 'low'], ['ice_machine', 'back_of_house', 'Ice machine'], ['remote_condensing_unit', 'outdoors', 'Roof rack 1'], ['remote_condensing_unit', 'outdoors', 'Roof rack 2'],
    ],
  },
  {
    customer: 'Hotel Aldermoor', name: 'Banquets and bar', address: '1 Aldermoor Place, Alder Mesa', lat: 39.7451, lng: -104.9939, altitudeM: 1604,
    hours: ['09:00', '15:00'], access: 'As the main kitchen; service lift B.', contact: ['Rafe Lindqvist', '+1 555 0160'], price: 0.127, hotDayF: 95, foulingFactor: 0.8, startWeeks: 16,
    units: [
      ['reach_in', 'back_of_house', 'Banquet reach-in 1'], ['reach_in', 'back_of_house', 'Banquet reach-in 2'], ['walk_in_cooler', 'back_of_house', 'Banquet walk-in'],
      ['undercounter', 'bar', 'Bar undercounter 1'], ['undercounter', 'bar', 'Bar undercounter 2'], ['display', 'bar', 'Wine display'], ['ice_machine', 'bar', 'Bar ice machine'],
    ],
  },
  {
    customer: 'St Brannoc’s Infirmary', name: 'Patient kitchen', address: '600 Mercy Avenue, Alder Mesa', lat: 39.7187, lng: -104.9413, altitudeM: 1622,
    hours: ['13:30', '16:00'], sundays: true, access: 'Sign in at facilities; infection control badge. Never block the tray line.', contact: ['Ines Calloway', '+1 555 0170'], price: 0.118, hotDayF: 95, foulingFactor: 0.9, startWeeks: 13,
    units: [
      ['reach_in', 'line', 'Tray line reach-in 1'], ['reach_in', 'line', 'Tray line reach-in 2'], ['reach_in', 'griddle', 'Diet kitchen reach-in'], ['prep_table', 'line', 'Cold tray table'], ['undercounter', 'line', 'Milk undercounter'],
      ['walk_in_cooler', 'back_of_house', 'Dairy walk-in'], ['walk_in_cooler', 'back_of_house', 'Produce walk-in'], ['walk_in_freezer', 'back_of_house', 'Walk-in freezer', 'low'], ['ice_machine', 'back_of_house', 'Ward ice machine'], ['display', 'back_of_house', 'Café display'], ['remote_condensing_unit', 'outdoors', 'Plant room unit'],
    ],
  },
  {
    customer: 'Tallow Creek Schools', name: 'Central kitchen', address: '1500 Tallow Creek Road, Alder Mesa', lat: 39.6894, lng: -105.0337, altitudeM: 1658,
    hours: ['13:00', '16:30'], access: 'Office first, always. Closed in the school holidays.', contact: ['Bram Ekwueme', '+1 555 0180'], price: 0.112, hotDayF: 97, foulingFactor: 0.8, startWeeks: 16,
    units: [
      ['reach_in', 'line', 'Milk reach-in 1'], ['reach_in', 'line', 'Milk reach-in 2'], ['reach_in', 'griddle', 'Cook line reach-in'], ['prep_table', 'line', 'Salad table'], ['undercounter', 'line', 'Serving undercounter'],
      ['walk_in_cooler', 'back_of_house', 'Walk-in cooler'], ['walk_in_freezer', 'back_of_house', 'Walk-in freezer', 'low'], ['ice_machine', 'back_of_house', 'Ice machine'], ['remote_condensing_unit', 'outdoors', 'Yard unit'],
    ],
  },
  {
    customer: 'Pilot Light Taproom', name: 'Kiln Yard', address: '12 Kiln Yard, Alder Mesa', lat: 39.7669, lng: -104.9732, altitudeM: 1590,
    hours: ['10:00', '15:00'], access: 'Brewer lets you in; mind the hoses.', contact: ['Wren Adair', '+1 555 0190'], price: 0.149, hotDayF: 97, foulingFactor: 0.9, startWeeks: 20,
    units: [
      ['undercounter', 'bar', 'Bottle undercounter 1'], ['undercounter', 'bar', 'Bottle undercounter 2'], ['display', 'bar', 'Can display'], ['prep_table', 'fryer', 'Snack table'],
      ['reach_in', 'fryer', 'Snack freezer', 'low'], ['walk_in_cooler', 'back_of_house', 'Keg walk-in'], ['ice_machine', 'bar', 'Ice machine'], ['remote_condensing_unit', 'outdoors', 'Keg walk-in unit'],
    ],
  },
  {
    customer: 'Saltbox Fish', name: 'Harbour Hall', address: 'Stall 14, Harbour Hall, Alder Mesa', lat: 39.7508, lng: -104.9875, altitudeM: 1600,
    hours: ['08:00', '10:30'], access: 'Hall manager unlocks; drains share the hall’s line.', contact: ['Noor Salter', '+1 555 0200'], price: 0.158, hotDayF: 99, foulingFactor: 1.0, startWeeks: 12,
    units: [
      ['display', 'line', 'Fish counter left'], ['display', 'line', 'Fish counter right'], ['prep_table', 'line', 'Sushi table'], ['undercounter', 'line', 'Roll undercounter'],
      ['reach_in', 'fryer', 'Reach-in by tempura'], ['walk_in_freezer', 'back_of_house', 'Walk-in freezer', 'low'], ['ice_machine', 'back_of_house', 'Flake ice machine'],
    ],
  },
  {
    customer: 'Silver Larch Lodge', name: 'Lodge kitchen', address: '1 Larch Pass Road, Highmeadow', lat: 39.7372, lng: -105.3974, altitudeM: 2560,
    hours: ['09:00', '15:00'], access: 'Chains from November. Ring from the gate.', contact: ['Anselm Byrd', '+1 555 0210'], price: 0.171, hotDayF: 88, foulingFactor: 0.9, startWeeks: 16,
    units: [
      ['reach_in', 'griddle', 'Cook line reach-in'], ['prep_table', 'line', 'Salad table'], ['drawer_base', 'charbroiler', 'Grill drawers'], ['undercounter', 'bar', 'Bar undercounter'], ['reach_in', 'line', 'Line freezer', 'low'],
      ['walk_in_cooler', 'back_of_house', 'Walk-in cooler'], ['walk_in_freezer', 'back_of_house', 'Walk-in freezer', 'low'], ['ice_machine', 'back_of_house', 'Ice machine'], ['remote_condensing_unit', 'outdoors', 'Snow-side unit'],
    ],
  },
  {
    customer: 'Switchback Café', name: 'Switchback Café', address: '310 Summit Street, Highmeadow', lat: 39.7415, lng: -105.3829, altitudeM: 2470,
    hours: ['06:30', '09:30'], access: 'Door code at the desk.', contact: ['Tamsin Vole', '+1 555 0220'], price: null, hotDayF: 88, foulingFactor: 1.0, startWeeks: 20,
    units: [
      ['reach_in', 'griddle', 'Reach-in'], ['prep_table', 'griddle', 'Sandwich table'], ['undercounter', 'line', 'Milk undercounter'], ['display', 'bakery', 'Cake display'], ['reach_in', 'back_of_house', 'Freezer', 'low'], ['ice_machine', 'back_of_house', 'Ice machine'],
    ],
  },
];
