import { writeWeekHours } from '../hours';
import { plainMarks } from '../wording/plain-text';
import type { UnitValues } from '../equipment/unit-fields';
import type { OnFilePolicy } from './units-on-file';
import type { KitchenValues, Problem, RowValues } from './types';

/** Names are the same whatever their case and spacing, and whichever hyphen and blank a program wrote. */
export const fold = (name: string) => plainMarks(name).normalize('NFC').trim().replace(/\s+/g, ' ').toLowerCase();
export const kitchenKey = (customer: string, kitchen: string) => `${fold(customer)}\n${fold(kitchen)}`;

export type OnFile = {
  /** By folded name. */
  customers: ReadonlyMap<string, { id: string; archived: boolean }>;
  /** By `kitchenKey`. `units` are folded names of units not archived. */
  kitchens: ReadonlyMap<string, KitchenOnFile>;
  /** Upper case. */
  tags: ReadonlySet<string>;
  /** Units not archived, where rows may be about them. */
  units?: readonly KnownUnit[];
};

export type KitchenOnFile = {
  id: string;
  version: number;
  archived: boolean;
  values: KitchenValues;
  /** Whether a person has set its position: one found by address or learnt gives way to what a sheet says. */
  placedByHand: boolean;
  units: ReadonlySet<string>;
};

/** A unit on file as an import may find it again. */
export type KnownUnit = { id: string; version: number; customer: string; kitchen: string; values: UnitValues };

export type PlannedKitchen = {
  key: string;
  customer: string;
  name: string;
  customerId: string | null;
  kitchenId: string | null;
  values: KitchenValues;
  line: number;
};
/** What a file adds to a kitchen on file. */
export type KitchenUpdate = { kitchenId: string; version: number; name: string; set: Partial<KitchenValues> };

/** 35 °C, the usual rating point of a condenser's air. */
const HOT_DAY_K = 308.15;

const blank = (timeZone: string): KitchenValues => ({
  address: '', timeZone, altitudeM: 0, lat: null, lng: null, serviceHours: [], accessNotes: '', contactName: '', contactPhone: '', contactEmail: '',
  energyPricePerKwh: null, hotDayAirK: HOT_DAY_K, preferredWeekday: null,
}); // prettier-ignore

const shown = (value: unknown): string => (Array.isArray(value) ? writeWeekHours(value as KitchenValues['serviceHours']) : String(value));
const alike = (a: unknown, b: unknown): boolean =>
  typeof a === 'number' && typeof b === 'number' ? Math.abs(a - b) <= 1e-6 * Math.max(1, Math.abs(a)) : shown(a) === shown(b);

type Entry = PlannedKitchen & {
  onFile: KitchenOnFile | undefined;
  set: Partial<KitchenValues>;
  /** Whether a new unit goes into it. */
  used: boolean;
  givenAt: Map<string, number>;
  unitLines: Map<string, number>;
  complainedOf: Set<string>;
};

const isBlank = (value: unknown) => value === null || value === '' || (Array.isArray(value) && value.length === 0);
/** Whether the file's word goes over what is on file: into blanks, over a position that no person has set, or as it was complainedOf to. */
function goesOver({ values, placedByHand }: KitchenOnFile, field: keyof KitchenValues, policy: OnFilePolicy): boolean {
  if (policy === 'leave') return false;
  return policy === 'replace' || isBlank(values[field]) || (!placedByHand && (field === 'lat' || field === 'lng'));
}

type BookContext = { onFile: OnFile; shopTimeZone: string; whereOnFile?: OnFilePolicy };

/** The kitchens a file names, gathered from all their rows. Rows that contradict one another are named. */
export function kitchenBook(ctx: BookContext, header: (field: string) => string, problems: Problem[]) {
  const entries = new Map<string, Entry>();

  function open(line: number, customer: string, name: string): Entry {
    const key = kitchenKey(customer, name);
    const onFile = ctx.onFile.kitchens.get(key);
    const owner = ctx.onFile.customers.get(fold(customer));
    const entry: Entry = {
      key, customer, name, line, customerId: owner?.id ?? null, kitchenId: onFile?.id ?? null,
      values: onFile ? { ...onFile.values } : blank(ctx.shopTimeZone), onFile, set: {}, used: false, givenAt: new Map(), unitLines: new Map(), complainedOf: new Set(),
    }; // prettier-ignore
    entries.set(key, entry);
    if (owner?.archived)
      problems.push({
        line,
        column: 'customer',
        value: customer,
        message: 'This customer is out of use. Put it back in use first, or use another name.',
        severity: 'error',
      });
    else if (onFile?.archived)
      problems.push({
        line,
        column: 'kitchen',
        value: name,
        message: 'This kitchen is out of use. Put it back in use first, or use another name.',
        severity: 'error',
      });
    return entry;
  }

  function merge(entry: Entry, line: number, given: Partial<KitchenValues>) {
    for (const field of Object.keys(given) as (keyof KitchenValues)[]) {
      const value = given[field];
      const earlier = entry.givenAt.get(field);
      const column = header(`kitchen.${field}`);
      if (alike(entry.values[field], value)) {
        entry.givenAt.set(field, earlier ?? line);
      } else if (earlier !== undefined) {
        problems.push({
          line,
          column,
          value: shown(value).slice(0, 80),
          message: `Line ${earlier} says otherwise for the same kitchen. Make them agree, or fill it on one row only.`,
          severity: 'error',
        });
      } else if (entry.onFile && !goesOver(entry.onFile, field, ctx.whereOnFile ?? 'fill')) {
        if (!entry.complainedOf.has(field))
          problems.push({
            line,
            column,
            value: shown(value).slice(0, 80),
            message: 'This kitchen is on file with another value, which stays. Change it on the kitchen’s page if the file is right.',
            severity: 'note',
          });
        entry.complainedOf.add(field);
      } else {
        Object.assign(entry.values, { [field]: value });
        if (entry.onFile) Object.assign(entry.set, { [field]: value });
        entry.givenAt.set(field, line);
      }
    }
  }

  return {
    /** The kitchen of a row, or null when the row does not name one. */
    enter(line: number, row: RowValues): PlannedKitchen | null {
      const { customer, kitchen } = row.names;
      if (!customer || !kitchen) return null;
      const entry = entries.get(kitchenKey(customer, kitchen)) ?? open(line, customer.trim(), kitchen.trim());
      entry.used = true;
      merge(entry, line, row.kitchen);
      return entry;
    },
    /** What a row about a unit on file says of its kitchen. */
    add(line: number, { names, kitchen }: RowValues): void {
      const key = kitchenKey(names.customer ?? '', names.kitchen ?? '');
      if (!ctx.onFile.kitchens.has(key)) return;
      merge(entries.get(key) ?? open(line, (names.customer ?? '').trim(), (names.kitchen ?? '').trim()), line, kitchen);
    },
    /** Why a unit's name cannot be used in a kitchen, or null; the name is then taken. */
    nameTaken(kitchen: PlannedKitchen, unit: string, line: number): string | null {
      const entry = entries.get(kitchen.key);
      const name = fold(unit);
      const earlier = entry?.unitLines.get(name);
      if (earlier) return `Line ${earlier} names the same unit in this kitchen. Give each its own name, or remove one.`;
      entry?.unitLines.set(name, line);
      return ctx.onFile.kitchens.get(kitchen.key)?.units.has(name)
        ? 'This kitchen has a unit of this name on file already. Remove the row, or name it apart.'
        : null;
    },
    all: (): PlannedKitchen[] => [...entries.values()].filter((e) => e.used),
    updates: (): KitchenUpdate[] =>
      [...entries.values()].flatMap(({ onFile, set, name }) =>
        onFile && Object.keys(set).length > 0 ? [{ kitchenId: onFile.id, version: onFile.version, name, set }] : [],
      ),
  };
}
