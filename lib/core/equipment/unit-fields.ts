import * as eq from './build';
import { NAME_MAX, TEXT_MAX } from './limits';
import { keysOf } from '../typed/closed-set';
import { chosen, measured, perhaps, text, usually, type UnitField, type ValueOf } from './field';

/** Where a kind's condensing unit stands apart from its box, or is bigger than a plug: common practice, from memory. */
const split = (kind: eq.UnitKind) => ['walk_in_cooler', 'walk_in_freezer', 'remote_condensing_unit', 'ice_machine'].includes(kind);
const list = (labels: Record<string, string>) => `One of ${keysOf(labels).join(', ')}.`;

/** How the air at the coil goes over the year. */
export const AIR_PROFILE_LABEL = {
  steady: 'The same all year',
  cooking: 'Warm while they cook',
  season: 'Follows the weather',
} as const;
export type AirProfile = keyof typeof AIR_PROFILE_LABEL;

/** Tolerance classes of what it is read with: IEC 60751 (platinum), IEC 60584-1 (thermocouples, here type T). */
export const THERMOMETER_LABEL = {
  pt_a: 'Platinum, class A',
  pt_b: 'Platinum, class B',
  tc_1: 'Thermocouple T, class 1',
  tc_2: 'Thermocouple T, class 2',
} as const;
export type ThermometerClass = keyof typeof THERMOMETER_LABEL;

/**
 * A unit as it is kept, once: schema and migration hold a column of the same name and type, all else is made from this
 * table. In the order of the fleet file. SI.
 */
export const UNIT_FIELDS = {
  name: text({
    label: 'Name', hint: 'What the kitchen calls it.', part: 'place', required: true, max: NAME_MAX, tablet: 'asked',
    csv: { header: 'unit', about: 'What the kitchen calls it. One name once in a kitchen.' },
  }),
  tag: { type: 'tag', label: 'Tag', hint: 'Code on its label.', part: 'place', tablet: 'held', csv: { header: 'tag', about: 'Code on its label; made for you when empty.' } },
  kind: chosen(eq.UNIT_KIND_LABEL, { label: 'Kind', part: 'build', tablet: 'asked', csv: { header: 'kind', about: list(eq.UNIT_KIND_LABEL) } }),
  placement: chosen(eq.PLACEMENT_LABEL, {
    label: 'Placement', hint: 'What its condenser breathes.', part: 'build', tablet: 'asked',
    csv: { header: 'placement', about: `What its condenser breathes. ${list(eq.PLACEMENT_LABEL)}` },
  }),
  refrigerant: { type: 'refrigerant', label: 'Refrigerant', part: 'nameplate', tablet: 'asked', csv: { header: 'refrigerant', about: 'From the nameplate, like R404A; unknown where it cannot be read.' } },
  chargeKg: measured('mass', [0.005, 500], { label: 'Charge', part: 'nameplate', tablet: 'more', csv: { header: 'charge', about: 'Full charge from the nameplate.' } }),
  application: usually(eq.APPLICATION_LABEL, (kind) => (kind === 'walk_in_freezer' || kind === 'ice_machine' ? 'low' : 'medium'), {
    label: 'Temperature', part: 'build', tablet: 'more', csv: { header: 'temperature', about: `${list(eq.APPLICATION_LABEL)} Usual for the kind when empty.` },
  }),
  expansion: usually(eq.EXPANSION_LABEL, (kind) => (split(kind) ? 'valve' : 'capillary'), {
    label: 'Expansion', part: 'build', tablet: 'more', csv: { header: 'expansion', about: `${list(eq.EXPANSION_LABEL)} Usual for the kind when empty.` },
  }),
  circuitAccess: usually(eq.CIRCUIT_ACCESS_LABEL, (kind) => (split(kind) ? 'ports' : 'sealed'), {
    label: 'Circuit', hint: 'Sealed ones are read with a clamp: each gauge connection loses charge.', part: 'build', tablet: 'more',
    csv: { header: 'circuit', about: `${list(eq.CIRCUIT_ACCESS_LABEL)} Usual for the kind when empty.` },
  }),
  condenserKind: usually(eq.CONDENSER_KIND_LABEL, () => 'fin_and_tube', {
    label: 'Condenser', part: 'build', tablet: 'more', csv: { header: 'condenser', about: `${list(eq.CONDENSER_KIND_LABEL)} fin_and_tube when empty.` },
  }),
  cutoutPaGauge: measured('pressure', [206_843, 15_000_000], {
    label: 'High-pressure cut-out', part: 'nameplate', tablet: 'more', missing: 'Not on file', csv: { header: 'cutout', about: 'High-pressure cut-out, above atmosphere.' },
  }),
  boxSetK: measured('temperature', [213.15, 298.15], { label: 'Box set point', part: 'nameplate', tablet: 'more', csv: { header: 'box', about: 'Box set point.' } }),
  headControl: {
    type: 'maybe', label: 'Head pressure held up in cold air', hint: 'By a valve or by cycling the fan. Such readings say less.', part: 'running', tablet: 'more', missing: 'Not known',
    answers: { yes: 'Held up in cold air', no: 'Not held up' }, csv: { header: 'head_control', about: 'yes where a valve or fan cycling holds the head up in cold air, no where nothing does; empty where nobody knows.' },
  },
  nominalCoolingW: measured('power', [50, 200_000], {
    label: 'Nominal cooling', hint: 'From the nameplate. Makes the figures narrower.', part: 'running', tablet: 'more', missing: 'Not on file', csv: { header: 'nominal_cooling', about: 'Cooling from the nameplate; makes the figures narrower.' },
  }),
  runHoursPerDay: measured('duration', [0.5, 24], {
    label: 'Runs a day', hint: 'Hours the compressor runs on a usual day. Makes energy and money narrower.', part: 'running', tablet: 'more', missing: 'Not on file', csv: { header: 'run_time', about: 'Hours a day that the compressor runs; usual for the kind when empty.' },
  }),
  airOverRoomK: measured('difference', [-15, 40], {
    label: 'Air at the coil over the room’s', hint: 'How much warmer the air into the coil is than the room on a usual day.', part: 'running', tablet: 'more', csv: { header: 'air_over_room', about: 'How much warmer the air into the coil is than the room’s, on a usual day.' },
  }),
  airProfile: perhaps(AIR_PROFILE_LABEL, { label: 'Air at the coil over the year', part: 'running', tablet: 'more', csv: { header: 'air_profile', about: `${list(AIR_PROFILE_LABEL)} Empty where nobody knows.` } }),
  thermometerClass: perhaps(THERMOMETER_LABEL, {
    label: 'Thermometers it is read with', hint: 'IEC 60751 or IEC 60584-1. Makes the figures narrower.', part: 'running', tablet: 'more', csv: { header: 'thermometer', about: `${list(THERMOMETER_LABEL)} Empty where nobody knows.` },
  }),
  roofWork: {
    type: 'tick', label: 'Condenser is reached by roof or ladder', hint: 'Only people on file for roof work are offered for it.', part: 'running', tablet: 'more', statement: 'By roof or ladder',
    csv: { header: 'roof_work', about: 'yes where the condenser is reached by roof or ladder.' },
  },
  make: text({ label: 'Make', part: 'nameplate', max: NAME_MAX, tablet: 'asked', csv: { header: 'make', about: 'Free text.' } }),
  model: text({ label: 'Model', part: 'nameplate', max: NAME_MAX, tablet: 'asked', csv: { header: 'model', about: 'Free text.' } }),
  serial: text({ label: 'Serial', part: 'nameplate', max: NAME_MAX, tablet: 'asked', csv: { header: 'serial', about: 'Free text.' } }),
  notes: text({ label: 'Notes', part: 'notes', max: TEXT_MAX, long: true, tablet: 'more', csv: { header: 'notes', about: 'Free text.' } }),
} as const satisfies Record<string, UnitField>; // prettier-ignore

export type UnitKey = keyof typeof UNIT_FIELDS;
export type UnitValues = { [K in UnitKey]: ValueOf<(typeof UNIT_FIELDS)[K]> };
export const UNIT_KEYS = keysOf(UNIT_FIELDS);
export const unitField = (key: UnitKey): UnitField => UNIT_FIELDS[key];

/** What must be said of a unit before it can be on file. */
export type UnitNeeds = Pick<UnitValues, 'name' | 'kind' | 'placement' | 'refrigerant'>;
/** All but what must be said, as it stands where nothing is said: usual for the kind, empty, or not known. */
export type UnitBlank = Omit<UnitValues, keyof UnitNeeds>;

function blankOf(field: UnitField, kind: eq.UnitKind): string | number | boolean | null {
  if (field.type === 'choice') return field.usual?.(kind) ?? null;
  if (field.type === 'tick') return false;
  return field.type === 'measured' || field.type === 'maybe' ? null : '';
}

/** Common practice, from memory, where it says how a kind is usually built: the nameplate rules. */
export function blankUnit(kind: eq.UnitKind): UnitBlank {
  const needed: readonly UnitKey[] = ['name', 'kind', 'placement', 'refrigerant'];
  const rest = UNIT_KEYS.filter((key) => !needed.includes(key));
  return Object.fromEntries(rest.map((key) => [key, blankOf(unitField(key), kind)])) as UnitBlank;
}

/** How a kind is usually built, for a form to fill in. */
export function usualBuild(kind: eq.UnitKind): Partial<Record<UnitKey, string>> {
  return Object.fromEntries(
    UNIT_KEYS.flatMap((key) => {
      const field = unitField(key);
      return field.type === 'choice' && field.usual ? [[key, field.usual(kind)]] : [];
    }),
  );
}

/** A unit as a tablet or a service puts it on file: what must be said, and of the rest what is known. */
export type UnitSent = UnitNeeds & Partial<Omit<UnitBlank, 'tag'>>;

/** A unit's own fields out of a row or a record that holds more. */
export const unitValues = (row: UnitValues): UnitValues => Object.fromEntries(UNIT_KEYS.map((key) => [key, row[key]])) as UnitValues;
