import { UNIT_KEYS, type UnitKey, type UnitValues } from '../equipment/unit-fields';
import { fold, kitchenKey, type KnownUnit } from './kitchens';
import type { RowValues } from './types';

/** Rows about units on file: fill in what is blank there, let the file's values stand, or leave the units alone. */
export const ON_FILE_POLICIES = ['fill', 'replace', 'leave'] as const;
export type OnFilePolicy = (typeof ON_FILE_POLICIES)[number];
export type PlannedUpdate = { unitId: string; version: number; name: string; line: number; set: Partial<UnitValues> };

const serial = (text: string) => text.toUpperCase().replace(/[^A-Z0-9]/g, '');

/** "Reach-in" and "REACH IN" are one name to whoever says them. */
const loose = (name: string) => fold(name).replace(/\s*-\s*/g, ' ');

/**
 * Finds the unit on file that a row is about: by tag, then by a serial that only one has, then by its name in its kitchen; by a
 * name that differs in a hyphen where only one has it.
 */
export function knownUnits(units: readonly KnownUnit[]): (row: RowValues) => KnownUnit | undefined {
  const tags = new Map(units.map((u) => [u.values.tag.toUpperCase(), u]));
  const names = new Map(units.map((u) => [`${kitchenKey(u.customer, u.kitchen)}\n${fold(u.values.name)}`, u]));
  const said = new Map<string, KnownUnit | null>();
  for (const u of units) {
    const key = `${kitchenKey(u.customer, u.kitchen)}\n${loose(u.values.name)}`;
    said.set(key, said.has(key) ? null : u);
  }
  const serials = new Map<string, KnownUnit | null>();
  for (const u of units) {
    const key = serial(u.values.serial);
    if (key.length >= 4) serials.set(key, serials.has(key) ? null : u);
  }
  return ({ names: n, unit }) => {
    const sure = (unit.tag && tags.get(unit.tag.toUpperCase())) || (unit.serial && serials.get(serial(unit.serial)));
    if (sure) return sure;
    if (!n.customer || !n.kitchen || !unit.name) return undefined;
    const where = kitchenKey(n.customer, n.kitchen);
    const named = names.get(`${where}\n${fold(unit.name)}`) ?? said.get(`${where}\n${loose(unit.name)}`) ?? undefined;
    // Of one name, but another serial: another unit.
    return named && unit.serial && named.values.serial && serial(unit.serial) !== serial(named.values.serial) ? undefined : named;
  };
}

/** What names a unit is not changed by a file: its tag stands on its label, its name in people's heads. */
const FIXED = new Set<UnitKey>(['tag', 'name', 'kind']);
const isBlank = (value: unknown) => value === null || value === '' || value === 'unknown';
const same = (a: unknown, b: unknown) =>
  typeof a === 'number' && typeof b === 'number' ? Math.abs(a - b) <= 1e-6 * Math.max(1, Math.abs(a)) : a === b;

/** What a row would change of its unit; null where it changes nothing. */
export function updateOf(unit: KnownUnit, row: RowValues, whereOnFile: OnFilePolicy, line: number): PlannedUpdate | null {
  if (whereOnFile === 'leave') return null;
  const changes = UNIT_KEYS.filter((key) => {
    const given = row.unit[key];
    if (FIXED.has(key) || given === undefined || isBlank(given) || same(given, unit.values[key])) return false;
    return whereOnFile === 'replace' || isBlank(unit.values[key]);
  });
  if (changes.length === 0) return null;
  const set = Object.fromEntries(changes.map((key) => [key, row.unit[key]])) as Partial<UnitValues>;
  return { unitId: unit.id, version: unit.version, name: unit.values.name, line, set };
}
