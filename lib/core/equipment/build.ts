/** What a unit is and where it stands. Lists are ordered as a form should show them. */

export const UNIT_KINDS = [
  'reach_in',
  'undercounter',
  'drawer_base',
  'prep_table',
  'walk_in_cooler',
  'walk_in_freezer',
  'ice_machine',
  'display',
  'remote_condensing_unit',
] as const;
export type UnitKind = (typeof UNIT_KINDS)[number];

export const PLACEMENTS = ['fryer', 'charbroiler', 'wok', 'griddle', 'bakery', 'line', 'back_of_house', 'bar', 'outdoors'] as const;
/** What the condenser breathes: the nearest source of grease, flour or dust. */
export type Placement = (typeof PLACEMENTS)[number];

export const APPLICATIONS = ['medium', 'low'] as const;
/** Medium temperature (box above freezing) or low (freezers). */
export type Application = (typeof APPLICATIONS)[number];

export const EXPANSIONS = ['capillary', 'valve'] as const;
export type Expansion = (typeof EXPANSIONS)[number];

export const CIRCUIT_ACCESS = ['sealed', 'ports'] as const;
/** Sealed systems should not get gauges: read them with a clamp. */
export type CircuitAccess = (typeof CIRCUIT_ACCESS)[number];

export const CONDENSER_KINDS = ['fin_and_tube', 'microchannel', 'wire_and_tube', 'water_cooled'] as const;
export type CondenserKind = (typeof CONDENSER_KINDS)[number];

export const UNIT_KIND_LABEL: Record<UnitKind, string> = {
  reach_in: 'Reach-in',
  undercounter: 'Undercounter',
  drawer_base: 'Drawer base',
  prep_table: 'Prep table',
  walk_in_cooler: 'Walk-in cooler',
  walk_in_freezer: 'Walk-in freezer',
  ice_machine: 'Ice machine',
  display: 'Display case',
  remote_condensing_unit: 'Remote condensing unit',
};

export const PLACEMENT_LABEL: Record<Placement, string> = {
  fryer: 'Beside fryer',
  charbroiler: 'Beside charbroiler',
  wok: 'Beside wok',
  griddle: 'Under or beside griddle',
  bakery: 'Bakery',
  line: 'Elsewhere on the line',
  back_of_house: 'Back of house',
  bar: 'Bar',
  outdoors: 'Outdoors',
};

export const APPLICATION_LABEL: Record<Application, string> = {
  medium: 'Medium temperature',
  low: 'Low temperature',
};

export const EXPANSION_LABEL: Record<Expansion, string> = {
  capillary: 'Capillary tube',
  valve: 'Expansion valve',
};

export const CIRCUIT_ACCESS_LABEL: Record<CircuitAccess, string> = {
  sealed: 'Sealed',
  ports: 'Service ports',
};

export const CONDENSER_KIND_LABEL: Record<CondenserKind, string> = {
  fin_and_tube: 'Fin and tube',
  microchannel: 'Microchannel',
  wire_and_tube: 'Wire and tube',
  water_cooled: 'Water cooled',
};
