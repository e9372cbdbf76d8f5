import type { Application, CondenserKind, Expansion, UnitKind } from '../../../lib/core/equipment/build';

export const PARTS = ['A', 'B', 'C', 'D', 'E', 'F', 'G', 'H', 'I', 'J', 'K', 'L', 'M', 'N'] as const;
/** A sets constants, B was looked at while that was done, C to M judged until they had been read, N judges. */
export type Part = (typeof PARTS)[number];

/** What a maker sells: ranges out of which one machine is drawn. Watts of cooling at 32.2 °C air, box at set point. */
export type Template = {
  name: string;
  part: Part;
  kind: UnitKind;
  application: Application;
  refrigerant: string;
  expansion: Expansion;
  watts: readonly [number, number];
  boxK: number;
  condenser: CondenserKind;
  sealed: boolean;
  outdoors?: boolean;
  headControl?: boolean;
};

const fahrenheit = (f: number) => (f + 459.67) / 1.8;

type Row = [
  name: string,
  kind: UnitKind,
  application: Application,
  refrigerant: string,
  expansion: Expansion,
  from: number,
  to: number,
  boxF: number,
  condenser: CondenserKind,
  sealed: boolean,
];

const rows = (part: Part, list: Row[]): Template[] =>
  list.map(([name, kind, application, refrigerant, expansion, from, to, box, condenser, sealed]) => ({
    name, part, kind, application, refrigerant, expansion, watts: [from, to], boxK: fahrenheit(box), condenser, sealed,
  })); // prettier-ignore

/** Machines to set constants on. */
const A = rows('A', [
  ['A reach-in', 'reach_in', 'medium', 'R134a', 'capillary', 350, 700, 38, 'fin_and_tube', true],
  ['A reach-in, propane', 'reach_in', 'medium', 'R290', 'capillary', 350, 750, 38, 'fin_and_tube', true],
  ['A undercounter', 'undercounter', 'medium', 'R134a', 'capillary', 180, 320, 38, 'wire_and_tube', true],
  ['A prep table', 'prep_table', 'medium', 'R134a', 'capillary', 320, 560, 36, 'fin_and_tube', true],
  ['A display case', 'display', 'medium', 'R404A', 'valve', 700, 1500, 37, 'fin_and_tube', false],
  ['A reach-in freezer', 'reach_in', 'low', 'R404A', 'capillary', 280, 520, -2, 'fin_and_tube', true],
  ['A walk-in cooler', 'walk_in_cooler', 'medium', 'R404A', 'valve', 2000, 3800, 36, 'fin_and_tube', false],
  ['A walk-in cooler, 448A', 'walk_in_cooler', 'medium', 'R448A', 'valve', 2200, 4200, 36, 'fin_and_tube', false],
  ['A walk-in cooler, 134a', 'walk_in_cooler', 'medium', 'R134a', 'valve', 1800, 3200, 37, 'fin_and_tube', false],
  ['A walk-in freezer', 'walk_in_freezer', 'low', 'R404A', 'valve', 1700, 3000, -5, 'fin_and_tube', false],
  ['A walk-in freezer, 449A', 'walk_in_freezer', 'low', 'R449A', 'valve', 1700, 3000, -5, 'fin_and_tube', false],
  ['A ice machine', 'ice_machine', 'medium', 'R404A', 'valve', 1100, 2200, 32, 'fin_and_tube', false],
]);

/** Machines to look at on the way: other sizes, refrigerants, coils and boxes. */
const B = rows('B', [
  ['B reach-in, two doors', 'reach_in', 'medium', 'R134a', 'capillary', 420, 850, 37, 'fin_and_tube', true],
  ['B reach-in, propane', 'reach_in', 'medium', 'R290', 'capillary', 300, 620, 37, 'microchannel', true],
  ['B undercounter, isobutane', 'undercounter', 'medium', 'R600a', 'capillary', 160, 280, 39, 'wire_and_tube', true],
  ['B undercounter', 'undercounter', 'medium', 'R290', 'capillary', 200, 340, 38, 'fin_and_tube', true],
  ['B prep table', 'prep_table', 'medium', 'R134a', 'capillary', 380, 640, 37, 'fin_and_tube', true],
  ['B drawer base', 'drawer_base', 'medium', 'R404A', 'capillary', 260, 480, 37, 'fin_and_tube', true],
  ['B merchandiser', 'display', 'medium', 'R134a', 'capillary', 500, 1000, 37, 'fin_and_tube', true],
  ['B display case', 'display', 'medium', 'R448A', 'valve', 800, 1700, 36, 'fin_and_tube', false],
  ['B reach-in freezer', 'reach_in', 'low', 'R404A', 'capillary', 320, 600, 0, 'fin_and_tube', true],
  ['B reach-in freezer, propane', 'reach_in', 'low', 'R290', 'capillary', 300, 560, -3, 'fin_and_tube', true],
  ['B walk-in cooler', 'walk_in_cooler', 'medium', 'R404A', 'valve', 2400, 4600, 35, 'fin_and_tube', false],
  ['B walk-in cooler, 449A', 'walk_in_cooler', 'medium', 'R449A', 'valve', 2000, 4000, 37, 'microchannel', false],
  ['B walk-in cooler, 134a', 'walk_in_cooler', 'medium', 'R134a', 'valve', 2000, 3600, 36, 'fin_and_tube', false],
  ['B walk-in freezer', 'walk_in_freezer', 'low', 'R404A', 'valve', 1900, 3400, -8, 'fin_and_tube', false],
  ['B walk-in freezer, 448A', 'walk_in_freezer', 'low', 'R448A', 'valve', 1800, 3200, -5, 'fin_and_tube', false],
  ['B ice machine', 'ice_machine', 'medium', 'R404A', 'valve', 900, 1900, 32, 'fin_and_tube', false],
]);

/** Machines that judged, of another make too (`makes.ts`); read too often to be fresh. */
const C = rows('C', [
  ['C reach-in, glass door', 'reach_in', 'medium', 'R134a', 'capillary', 300, 620, 39, 'fin_and_tube', true],
  ['C reach-in, propane', 'reach_in', 'medium', 'R290', 'capillary', 380, 820, 36, 'fin_and_tube', true],
  ['C undercounter', 'undercounter', 'medium', 'R290', 'capillary', 160, 300, 39, 'microchannel', true],
  ['C prep table, propane', 'prep_table', 'medium', 'R290', 'capillary', 300, 600, 37, 'fin_and_tube', true],
  ['C drawer base', 'drawer_base', 'medium', 'R134a', 'capillary', 240, 460, 38, 'wire_and_tube', true],
  ['C undercounter freezer', 'undercounter', 'low', 'R290', 'capillary', 160, 300, -1, 'fin_and_tube', true],
  ['C reach-in freezer', 'reach_in', 'low', 'R404A', 'capillary', 300, 640, -4, 'fin_and_tube', true],
  ['C display case', 'display', 'medium', 'R449A', 'valve', 800, 1600, 36, 'fin_and_tube', false],
  ['C walk-in cooler', 'walk_in_cooler', 'medium', 'R404A', 'valve', 1800, 4000, 37, 'microchannel', false],
  ['C walk-in cooler, 448A', 'walk_in_cooler', 'medium', 'R448A', 'valve', 2600, 5200, 35, 'fin_and_tube', false],
  ['C walk-in cooler, 134a', 'walk_in_cooler', 'medium', 'R134a', 'valve', 1600, 3000, 36, 'fin_and_tube', false],
  ['C walk-in freezer, 448A', 'walk_in_freezer', 'low', 'R448A', 'valve', 1600, 2900, -6, 'fin_and_tube', false],
  ['C walk-in freezer', 'walk_in_freezer', 'low', 'R404A', 'valve', 2000, 3800, -3, 'fin_and_tube', false],
  ['C ice machine', 'ice_machine', 'medium', 'R404A', 'valve', 1000, 2400, 32, 'fin_and_tube', false],
]);

/** Machines that judged, of a third make: the first half of 1,500 was read on the way, the second when a version was done. */
const D = rows('D', [
  ['D reach-in, half height', 'reach_in', 'medium', 'R134a', 'capillary', 280, 560, 38, 'fin_and_tube', true],
  ['D reach-in, propane, three doors', 'reach_in', 'medium', 'R290', 'capillary', 450, 900, 38, 'fin_and_tube', true],
  ['D undercounter', 'undercounter', 'medium', 'R134a', 'capillary', 170, 310, 37, 'fin_and_tube', true],
  ['D prep table', 'prep_table', 'medium', 'R290', 'capillary', 280, 540, 38, 'microchannel', true],
  ['D drawer base, propane', 'drawer_base', 'medium', 'R290', 'capillary', 220, 440, 37, 'fin_and_tube', true],
  ['D reach-in freezer, propane', 'reach_in', 'low', 'R290', 'capillary', 290, 580, -2, 'fin_and_tube', true],
  ['D undercounter freezer', 'undercounter', 'low', 'R404A', 'capillary', 170, 320, 0, 'wire_and_tube', true],
  ['D display case', 'display', 'medium', 'R134a', 'valve', 700, 1400, 37, 'fin_and_tube', false],
  ['D walk-in cooler', 'walk_in_cooler', 'medium', 'R404A', 'valve', 2200, 4400, 36, 'fin_and_tube', false],
  ['D walk-in cooler, 449A', 'walk_in_cooler', 'medium', 'R449A', 'valve', 2300, 4400, 37, 'fin_and_tube', false],
  ['D walk-in cooler, 448A', 'walk_in_cooler', 'medium', 'R448A', 'valve', 1900, 3700, 38, 'microchannel', false],
  ['D walk-in freezer', 'walk_in_freezer', 'low', 'R404A', 'valve', 1800, 3300, -6, 'fin_and_tube', false],
  ['D walk-in freezer, 449A', 'walk_in_freezer', 'low', 'R449A', 'valve', 1600, 3100, -4, 'fin_and_tube', false],
  ['D ice machine', 'ice_machine', 'medium', 'R404A', 'valve', 1000, 2000, 32, 'fin_and_tube', false],
]);

/** Machines that judged, of a fourth make. */
const E = rows('E', [
  ['E reach-in', 'reach_in', 'medium', 'R134a', 'capillary', 330, 680, 37, 'microchannel', true],
  ['E reach-in, propane', 'reach_in', 'medium', 'R290', 'capillary', 340, 700, 39, 'fin_and_tube', true],
  ['E undercounter, propane', 'undercounter', 'medium', 'R290', 'capillary', 180, 330, 37, 'wire_and_tube', true],
  ['E prep table', 'prep_table', 'medium', 'R134a', 'capillary', 300, 600, 38, 'fin_and_tube', true],
  ['E drawer base', 'drawer_base', 'medium', 'R404A', 'capillary', 250, 500, 38, 'fin_and_tube', true],
  ['E merchandiser, propane', 'display', 'medium', 'R290', 'capillary', 500, 950, 37, 'fin_and_tube', true],
  ['E reach-in freezer', 'reach_in', 'low', 'R404A', 'capillary', 300, 560, -1, 'fin_and_tube', true],
  ['E reach-in freezer, propane', 'reach_in', 'low', 'R290', 'capillary', 320, 620, -4, 'microchannel', true],
  ['E display case', 'display', 'medium', 'R404A', 'valve', 750, 1550, 36, 'fin_and_tube', false],
  ['E walk-in cooler', 'walk_in_cooler', 'medium', 'R404A', 'valve', 1900, 3600, 37, 'fin_and_tube', false],
  ['E walk-in cooler, 448A', 'walk_in_cooler', 'medium', 'R448A', 'valve', 2400, 4800, 36, 'fin_and_tube', false],
  ['E walk-in cooler, 134a', 'walk_in_cooler', 'medium', 'R134a', 'valve', 1700, 3400, 38, 'microchannel', false],
  ['E walk-in freezer', 'walk_in_freezer', 'low', 'R404A', 'valve', 1600, 3200, -4, 'fin_and_tube', false],
  ['E walk-in freezer, 449A', 'walk_in_freezer', 'low', 'R449A', 'valve', 1900, 3500, -6, 'fin_and_tube', false],
  ['E ice machine', 'ice_machine', 'medium', 'R404A', 'valve', 1200, 2300, 32, 'fin_and_tube', false],
]);

/** Machines that judged, of a fifth make. */
const F = rows('F', [
  ['F reach-in, one and a half doors', 'reach_in', 'medium', 'R134a', 'capillary', 310, 640, 38, 'fin_and_tube', true],
  ['F reach-in, propane', 'reach_in', 'medium', 'R290', 'capillary', 360, 780, 37, 'fin_and_tube', true],
  ['F undercounter', 'undercounter', 'medium', 'R134a', 'capillary', 170, 300, 38, 'wire_and_tube', true],
  ['F prep table, propane', 'prep_table', 'medium', 'R290', 'capillary', 320, 620, 36, 'microchannel', true],
  ['F drawer base', 'drawer_base', 'medium', 'R134a', 'capillary', 230, 450, 37, 'fin_and_tube', true],
  ['F merchandiser', 'display', 'medium', 'R134a', 'capillary', 450, 900, 38, 'fin_and_tube', true],
  ['F reach-in freezer, propane', 'reach_in', 'low', 'R290', 'capillary', 280, 600, -1, 'fin_and_tube', true],
  ['F undercounter freezer', 'undercounter', 'low', 'R404A', 'capillary', 180, 340, -2, 'fin_and_tube', true],
  ['F display case, 448A', 'display', 'medium', 'R448A', 'valve', 750, 1500, 37, 'fin_and_tube', false],
  ['F walk-in cooler', 'walk_in_cooler', 'medium', 'R404A', 'valve', 2100, 4200, 37, 'microchannel', false],
  ['F walk-in cooler, 449A', 'walk_in_cooler', 'medium', 'R449A', 'valve', 2100, 4300, 36, 'fin_and_tube', false],
  ['F walk-in cooler, 134a', 'walk_in_cooler', 'medium', 'R134a', 'valve', 1900, 3500, 35, 'fin_and_tube', false],
  ['F walk-in freezer', 'walk_in_freezer', 'low', 'R404A', 'valve', 1800, 3600, -7, 'fin_and_tube', false],
  ['F walk-in freezer, 448A', 'walk_in_freezer', 'low', 'R448A', 'valve', 1700, 3100, -4, 'fin_and_tube', false],
  ['F ice machine', 'ice_machine', 'medium', 'R404A', 'valve', 1100, 2500, 32, 'fin_and_tube', false],
]);

/** Machines that judged, of a sixth make. */
const G = rows('G', [
  ['G reach-in, two doors', 'reach_in', 'medium', 'R134a', 'capillary', 380, 760, 36, 'fin_and_tube', true],
  ['G reach-in, propane', 'reach_in', 'medium', 'R290', 'capillary', 320, 690, 39, 'microchannel', true],
  ['G undercounter, propane', 'undercounter', 'medium', 'R290', 'capillary', 170, 310, 38, 'fin_and_tube', true],
  ['G prep table', 'prep_table', 'medium', 'R134a', 'capillary', 310, 590, 37, 'wire_and_tube', true],
  ['G drawer base, propane', 'drawer_base', 'medium', 'R290', 'capillary', 240, 470, 36, 'fin_and_tube', true],
  ['G merchandiser', 'display', 'medium', 'R404A', 'capillary', 480, 920, 37, 'fin_and_tube', true],
  ['G reach-in freezer', 'reach_in', 'low', 'R404A', 'capillary', 290, 570, -3, 'fin_and_tube', true],
  ['G undercounter freezer, propane', 'undercounter', 'low', 'R290', 'capillary', 170, 330, 0, 'wire_and_tube', true],
  ['G display case, 449A', 'display', 'medium', 'R449A', 'valve', 800, 1600, 38, 'fin_and_tube', false],
  ['G walk-in cooler', 'walk_in_cooler', 'medium', 'R404A', 'valve', 2000, 4000, 38, 'fin_and_tube', false],
  ['G walk-in cooler, 448A', 'walk_in_cooler', 'medium', 'R448A', 'valve', 2000, 4100, 35, 'microchannel', false],
  ['G walk-in cooler, 134a', 'walk_in_cooler', 'medium', 'R134a', 'valve', 1800, 3600, 37, 'fin_and_tube', false],
  ['G walk-in freezer', 'walk_in_freezer', 'low', 'R404A', 'valve', 1700, 3400, -5, 'fin_and_tube', false],
  ['G walk-in freezer, 449A', 'walk_in_freezer', 'low', 'R449A', 'valve', 1800, 3300, -3, 'fin_and_tube', false],
  ['G ice machine', 'ice_machine', 'medium', 'R404A', 'valve', 1000, 2300, 32, 'fin_and_tube', false],
]);

/** Machines that judged, of a seventh make. */
const H = rows('H', [
  ['H reach-in, glass doors', 'reach_in', 'medium', 'R134a', 'capillary', 340, 720, 37, 'fin_and_tube', true],
  ['H reach-in, propane, two doors', 'reach_in', 'medium', 'R290', 'capillary', 400, 840, 38, 'fin_and_tube', true],
  ['H undercounter, isobutane', 'undercounter', 'medium', 'R600a', 'capillary', 160, 290, 38, 'fin_and_tube', true],
  ['H prep table, propane', 'prep_table', 'medium', 'R290', 'capillary', 310, 610, 38, 'fin_and_tube', true],
  ['H drawer base', 'drawer_base', 'medium', 'R134a', 'capillary', 240, 470, 36, 'microchannel', true],
  ['H merchandiser, propane', 'display', 'medium', 'R290', 'capillary', 470, 930, 39, 'wire_and_tube', true],
  ['H reach-in freezer', 'reach_in', 'low', 'R404A', 'capillary', 310, 620, 0, 'fin_and_tube', true],
  ['H undercounter freezer, propane', 'undercounter', 'low', 'R290', 'capillary', 160, 310, -3, 'fin_and_tube', true],
  ['H display case, 134a', 'display', 'medium', 'R134a', 'valve', 750, 1450, 36, 'fin_and_tube', false],
  ['H walk-in cooler', 'walk_in_cooler', 'medium', 'R404A', 'valve', 2300, 4500, 36, 'fin_and_tube', false],
  ['H walk-in cooler, 448A', 'walk_in_cooler', 'medium', 'R448A', 'valve', 2200, 4300, 37, 'fin_and_tube', false],
  ['H walk-in cooler, 449A', 'walk_in_cooler', 'medium', 'R449A', 'valve', 1900, 3900, 35, 'microchannel', false],
  ['H walk-in freezer', 'walk_in_freezer', 'low', 'R404A', 'valve', 1900, 3600, -4, 'fin_and_tube', false],
  ['H walk-in freezer, 448A', 'walk_in_freezer', 'low', 'R448A', 'valve', 1700, 3200, -7, 'fin_and_tube', false],
  ['H ice machine', 'ice_machine', 'medium', 'R404A', 'valve', 1000, 2200, 32, 'fin_and_tube', false],
]);

/** Machines that judged, of an eighth make. */
const I = rows('I', [
  ['I reach-in, three doors', 'reach_in', 'medium', 'R134a', 'capillary', 400, 800, 38, 'fin_and_tube', true],
  ['I reach-in, propane', 'reach_in', 'medium', 'R290', 'capillary', 330, 720, 36, 'wire_and_tube', true],
  ['I undercounter', 'undercounter', 'medium', 'R134a', 'capillary', 160, 300, 37, 'fin_and_tube', true],
  ['I prep table', 'prep_table', 'medium', 'R134a', 'capillary', 340, 650, 37, 'microchannel', true],
  ['I drawer base, isobutane', 'drawer_base', 'medium', 'R600a', 'capillary', 200, 380, 38, 'fin_and_tube', true],
  ['I merchandiser', 'display', 'medium', 'R134a', 'capillary', 480, 960, 36, 'fin_and_tube', true],
  ['I reach-in freezer, propane', 'reach_in', 'low', 'R290', 'capillary', 310, 640, -2, 'fin_and_tube', true],
  ['I undercounter freezer', 'undercounter', 'low', 'R404A', 'capillary', 160, 330, -3, 'fin_and_tube', true],
  ['I display case', 'display', 'medium', 'R404A', 'valve', 700, 1450, 38, 'microchannel', false],
  ['I walk-in cooler', 'walk_in_cooler', 'medium', 'R404A', 'valve', 2100, 4300, 35, 'fin_and_tube', false],
  ['I walk-in cooler, 448A', 'walk_in_cooler', 'medium', 'R448A', 'valve', 2300, 4500, 36, 'fin_and_tube', false],
  ['I walk-in cooler, 134a', 'walk_in_cooler', 'medium', 'R134a', 'valve', 1700, 3300, 36, 'fin_and_tube', false],
  ['I walk-in freezer', 'walk_in_freezer', 'low', 'R404A', 'valve', 1800, 3500, -2, 'fin_and_tube', false],
  ['I walk-in freezer, 449A', 'walk_in_freezer', 'low', 'R449A', 'valve', 1700, 3200, -5, 'fin_and_tube', false],
  ['I ice machine', 'ice_machine', 'medium', 'R404A', 'valve', 1100, 2400, 32, 'fin_and_tube', false],
]);

/** Machines that judged, of a ninth make. */
const J = rows('J', [
  ['J reach-in, two doors, propane', 'reach_in', 'medium', 'R290', 'capillary', 390, 800, 37, 'fin_and_tube', true],
  ['J reach-in, glass door', 'reach_in', 'medium', 'R134a', 'capillary', 320, 660, 36, 'microchannel', true],
  ['J undercounter, propane', 'undercounter', 'medium', 'R290', 'capillary', 160, 300, 37, 'fin_and_tube', true],
  ['J prep table', 'prep_table', 'medium', 'R134a', 'capillary', 330, 630, 38, 'fin_and_tube', true],
  ['J drawer base, propane', 'drawer_base', 'medium', 'R290', 'capillary', 230, 450, 38, 'wire_and_tube', true],
  ['J merchandiser, 404A', 'display', 'medium', 'R404A', 'capillary', 500, 980, 38, 'fin_and_tube', true],
  ['J reach-in freezer', 'reach_in', 'low', 'R404A', 'capillary', 300, 610, -3, 'microchannel', true],
  ['J undercounter freezer, propane', 'undercounter', 'low', 'R290', 'capillary', 180, 330, -1, 'fin_and_tube', true],
  ['J display case, 448A', 'display', 'medium', 'R448A', 'valve', 720, 1500, 36, 'fin_and_tube', false],
  ['J walk-in cooler', 'walk_in_cooler', 'medium', 'R404A', 'valve', 2200, 4400, 37, 'fin_and_tube', false],
  ['J walk-in cooler, 449A', 'walk_in_cooler', 'medium', 'R449A', 'valve', 2000, 4200, 36, 'fin_and_tube', false],
  ['J walk-in cooler, 134a', 'walk_in_cooler', 'medium', 'R134a', 'valve', 1800, 3500, 38, 'microchannel', false],
  ['J walk-in freezer', 'walk_in_freezer', 'low', 'R404A', 'valve', 1700, 3300, -3, 'fin_and_tube', false],
  ['J walk-in freezer, 448A', 'walk_in_freezer', 'low', 'R448A', 'valve', 1900, 3500, -5, 'fin_and_tube', false],
  ['J ice machine', 'ice_machine', 'medium', 'R404A', 'valve', 1000, 2300, 32, 'fin_and_tube', false],
]);

/** Machines that judged, of a tenth make. */
const K = rows('K', [
  ['K reach-in, one door', 'reach_in', 'medium', 'R134a', 'capillary', 300, 610, 38, 'fin_and_tube', true],
  ['K reach-in, propane, glass doors', 'reach_in', 'medium', 'R290', 'capillary', 370, 790, 36, 'microchannel', true],
  ['K undercounter, isobutane', 'undercounter', 'medium', 'R600a', 'capillary', 150, 280, 38, 'wire_and_tube', true],
  ['K prep table, propane', 'prep_table', 'medium', 'R290', 'capillary', 300, 620, 37, 'fin_and_tube', true],
  ['K drawer base', 'drawer_base', 'medium', 'R134a', 'capillary', 220, 430, 37, 'fin_and_tube', true],
  ['K merchandiser, propane', 'display', 'medium', 'R290', 'capillary', 460, 950, 37, 'fin_and_tube', true],
  ['K reach-in freezer, propane', 'reach_in', 'low', 'R290', 'capillary', 320, 650, -1, 'fin_and_tube', true],
  ['K undercounter freezer', 'undercounter', 'low', 'R404A', 'capillary', 170, 320, -2, 'wire_and_tube', true],
  ['K display case, 449A', 'display', 'medium', 'R449A', 'valve', 740, 1500, 37, 'fin_and_tube', false],
  ['K walk-in cooler', 'walk_in_cooler', 'medium', 'R404A', 'valve', 2000, 4200, 36, 'microchannel', false],
  ['K walk-in cooler, 448A', 'walk_in_cooler', 'medium', 'R448A', 'valve', 2100, 4400, 38, 'fin_and_tube', false],
  ['K walk-in cooler, 134a', 'walk_in_cooler', 'medium', 'R134a', 'valve', 1900, 3600, 37, 'fin_and_tube', false],
  ['K walk-in freezer', 'walk_in_freezer', 'low', 'R404A', 'valve', 1800, 3400, -5, 'fin_and_tube', false],
  ['K walk-in freezer, 449A', 'walk_in_freezer', 'low', 'R449A', 'valve', 1800, 3300, -4, 'fin_and_tube', false],
  ['K ice machine', 'ice_machine', 'medium', 'R404A', 'valve', 1050, 2300, 32, 'fin_and_tube', false],
]);

/** Machines that judged, of an eleventh make. */
const L = rows('L', [
  ['L reach-in, two doors', 'reach_in', 'medium', 'R134a', 'capillary', 410, 830, 37, 'microchannel', true],
  ['L reach-in, propane', 'reach_in', 'medium', 'R290', 'capillary', 330, 700, 38, 'fin_and_tube', true],
  ['L undercounter', 'undercounter', 'medium', 'R134a', 'capillary', 170, 320, 37, 'wire_and_tube', true],
  ['L prep table, 404A', 'prep_table', 'medium', 'R404A', 'capillary', 340, 640, 36, 'fin_and_tube', true],
  ['L drawer base, propane', 'drawer_base', 'medium', 'R290', 'capillary', 240, 450, 37, 'fin_and_tube', true],
  ['L merchandiser', 'display', 'medium', 'R134a', 'capillary', 480, 970, 38, 'fin_and_tube', true],
  ['L reach-in freezer', 'reach_in', 'low', 'R404A', 'capillary', 310, 610, -2, 'fin_and_tube', true],
  ['L undercounter freezer, propane', 'undercounter', 'low', 'R290', 'capillary', 180, 340, 0, 'microchannel', true],
  ['L display case', 'display', 'medium', 'R404A', 'valve', 750, 1550, 36, 'fin_and_tube', false],
  ['L walk-in cooler', 'walk_in_cooler', 'medium', 'R404A', 'valve', 2100, 4200, 37, 'fin_and_tube', false],
  ['L walk-in cooler, 449A', 'walk_in_cooler', 'medium', 'R449A', 'valve', 2100, 4300, 36, 'fin_and_tube', false],
  ['L walk-in cooler, 134a', 'walk_in_cooler', 'medium', 'R134a', 'valve', 1900, 3700, 36, 'microchannel', false],
  ['L walk-in freezer', 'walk_in_freezer', 'low', 'R404A', 'valve', 1800, 3300, -6, 'fin_and_tube', false],
  ['L walk-in freezer, 448A', 'walk_in_freezer', 'low', 'R448A', 'valve', 1800, 3400, -4, 'fin_and_tube', false],
  ['L ice machine', 'ice_machine', 'medium', 'R404A', 'valve', 1000, 2200, 32, 'fin_and_tube', false],
]);

/** Machines that judged, of a twelfth make. */
const M = rows('M', [
  ['M reach-in, glass doors, propane', 'reach_in', 'medium', 'R290', 'capillary', 350, 740, 37, 'fin_and_tube', true],
  ['M reach-in, one door', 'reach_in', 'medium', 'R134a', 'capillary', 310, 640, 38, 'wire_and_tube', true],
  ['M undercounter, propane', 'undercounter', 'medium', 'R290', 'capillary', 160, 310, 36, 'microchannel', true],
  ['M prep table', 'prep_table', 'medium', 'R134a', 'capillary', 320, 640, 38, 'fin_and_tube', true],
  ['M drawer base, isobutane', 'drawer_base', 'medium', 'R600a', 'capillary', 210, 400, 37, 'fin_and_tube', true],
  ['M merchandiser', 'display', 'medium', 'R134a', 'capillary', 470, 940, 37, 'fin_and_tube', true],
  ['M reach-in freezer, propane', 'reach_in', 'low', 'R290', 'capillary', 310, 630, -3, 'fin_and_tube', true],
  ['M undercounter freezer', 'undercounter', 'low', 'R404A', 'capillary', 170, 330, -1, 'fin_and_tube', true],
  ['M display case, 449A', 'display', 'medium', 'R449A', 'valve', 760, 1500, 38, 'fin_and_tube', false],
  ['M walk-in cooler', 'walk_in_cooler', 'medium', 'R404A', 'valve', 2200, 4300, 36, 'fin_and_tube', false],
  ['M walk-in cooler, 448A', 'walk_in_cooler', 'medium', 'R448A', 'valve', 2000, 4100, 36, 'microchannel', false],
  ['M walk-in cooler, 134a', 'walk_in_cooler', 'medium', 'R134a', 'valve', 1800, 3600, 38, 'fin_and_tube', false],
  ['M walk-in freezer', 'walk_in_freezer', 'low', 'R404A', 'valve', 1900, 3500, -3, 'fin_and_tube', false],
  ['M walk-in freezer, 448A', 'walk_in_freezer', 'low', 'R448A', 'valve', 1700, 3300, -5, 'fin_and_tube', false],
  ['M ice machine', 'ice_machine', 'medium', 'R404A', 'valve', 1050, 2350, 32, 'fin_and_tube', false],
]);

/** Machines to judge on, of a thirteenth make. */
const N = rows('N', [
  ['N reach-in, two doors', 'reach_in', 'medium', 'R134a', 'capillary', 420, 830, 38, 'fin_and_tube', true],
  ['N reach-in, propane', 'reach_in', 'medium', 'R290', 'capillary', 260, 520, 37, 'fin_and_tube', true],
  ['N undercounter', 'undercounter', 'medium', 'R134a', 'capillary', 170, 340, 38, 'wire_and_tube', true],
  ['N prep table, propane', 'prep_table', 'medium', 'R290', 'capillary', 290, 590, 38, 'microchannel', true],
  ['N drawer base', 'drawer_base', 'medium', 'R404A', 'capillary', 230, 450, 37, 'fin_and_tube', true],
  ['N merchandiser, isobutane', 'display', 'medium', 'R600a', 'capillary', 280, 560, 38, 'fin_and_tube', true],
  ['N reach-in freezer', 'reach_in', 'low', 'R404A', 'capillary', 380, 760, -3, 'fin_and_tube', true],
  ['N undercounter freezer, propane', 'undercounter', 'low', 'R290', 'capillary', 150, 300, -1, 'fin_and_tube', true],
  ['N display case, 448A', 'display', 'medium', 'R448A', 'valve', 820, 1650, 37, 'fin_and_tube', false],
  ['N walk-in cooler', 'walk_in_cooler', 'medium', 'R134a', 'valve', 2000, 4000, 37, 'fin_and_tube', false],
  ['N walk-in cooler, 449A', 'walk_in_cooler', 'medium', 'R449A', 'valve', 2300, 4600, 36, 'fin_and_tube', false],
  ['N walk-in cooler, 404A', 'walk_in_cooler', 'medium', 'R404A', 'valve', 1900, 3700, 38, 'microchannel', false],
  ['N walk-in freezer', 'walk_in_freezer', 'low', 'R404A', 'valve', 2000, 3800, -4, 'fin_and_tube', false],
  ['N walk-in freezer, 449A', 'walk_in_freezer', 'low', 'R449A', 'valve', 1600, 3200, -4, 'fin_and_tube', false],
  ['N ice machine', 'ice_machine', 'medium', 'R404A', 'valve', 950, 2100, 32, 'fin_and_tube', false],
]);

export const TEMPLATES: readonly Template[] = [...A, ...B, ...C, ...D, ...E, ...F, ...G, ...H, ...I, ...J, ...K, ...L, ...M, ...N];
