import type { UnitKind } from '../equipment/build';

/** What to look at on each kind of unit, in the order a hand meets it. Trade practice, from memory. */

const EVERY_UNIT = [
  'Condenser face and depth: grease, filter in place and clean',
  'Fan blade and motor: turns freely, right way round, guard on',
  'Air entering the coil, measured at its face',
  'Box temperature in product or simulant, not the display',
  'Compressor current against the nameplate',
  'Controls, lights and cord',
  'Gaskets, hinges, closers',
  'Level; noise; oil stains',
  'Photo before and after',
] as const;

const REACH_IN = [
  'Clearance round the cabinet',
  'Evaporator fan',
  'Pan and hose',
  'Condensate evaporator or heater',
  'Nothing loaded against the ducts',
] as const;
const WALK_IN = [
  'Door heater, sweep and closer; strip curtain',
  'Drain trap and heat tape',
  'Defrost start, termination and fan delay',
  'Panel joints',
] as const;

const BY_KIND: Record<UnitKind, readonly string[]> = {
  reach_in: REACH_IN,
  undercounter: REACH_IN,
  display: REACH_IN,
  drawer_base: ['Drawer slides', 'Drawer gaskets', 'Grease in the compartment: this is the hottest place on the line'],
  prep_table: ['Rail temperature at the pans', 'Lid', 'Rail drain', 'Debris blown into the coil'],
  walk_in_cooler: WALK_IN,
  walk_in_freezer: [...WALK_IN, 'Pressure-relief vent'],
  ice_machine: ['Water filter', 'Scale', 'Float', 'Harvest time', 'Sanitising record', 'Air gap of the bin drain'],
  remote_condensing_unit: ['Roof or wall mounts', 'Line insulation', 'Head control valve or fan cycling', 'Disconnect within sight'],
};

export function checklistFor(kind: UnitKind): readonly string[] {
  return [...BY_KIND[kind], ...EVERY_UNIT];
}

export const CHECKLIST_SOURCE = 'Trade practice, from memory.';
