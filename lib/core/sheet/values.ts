import { PLACEMENTS, UNIT_KINDS, UNIT_KIND_LABEL, PLACEMENT_LABEL } from '../equipment/build';
import { refrigerantLabel } from '../refrigerants/naming';
import { alike } from './names';
import type { SheetChoices, ValueGroup } from './types';

export type Option = { value: string; label: string };
export const KIND_OPTIONS: Option[] = UNIT_KINDS.map((value) => ({ value, label: UNIT_KIND_LABEL[value] }));
export const PLACEMENT_OPTIONS: Option[] = PLACEMENTS.map((value) => ({ value, label: PLACEMENT_LABEL[value] }));
export const refrigerantOptions = (ids: readonly string[]): Option[] => [
  { value: 'unknown', label: 'Not known' },
  ...ids.map((value) => ({ value, label: refrigerantLabel(value) })),
];

export type ValueBook = {
  /** What a value stands for; null while it is open. */
  take(text: string, guess: () => string | null): string | null;
  all(): ValueGroup[];
};

/**
 * Gathers values that read alike, so that each is decided once. `guess` gives what a value stands for, or null where
 * nobody can tell without asking.
 */
export function valueBook(target: string, choices: SheetChoices): ValueBook {
  const groups = new Map<string, ValueGroup>();
  return {
    take(text: string, guess: () => string | null): string | null {
      const key = alike(text) || text.trim().toLowerCase();
      const chosen = choices.values[target]?.[key];
      let group = groups.get(key);
      if (!group) {
        const guessed = chosen ?? guess();
        group = { target, key, value: text, rows: 0, taken: guessed ?? '', chosen: chosen !== undefined, open: guessed === null };
        groups.set(key, group);
      }
      group.rows++;
      return group.open ? null : group.taken;
    },
    all: (): ValueGroup[] => [...groups.values()].sort((a, b) => Number(b.open) - Number(a.open) || b.rows - a.rows),
  };
}
