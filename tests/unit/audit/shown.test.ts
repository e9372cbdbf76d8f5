import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { RECORD_KINDS, RECORD_LABEL, type RecordKind } from '@/lib/core/audit/kinds';

/** The page of each kind of record of which it is written down who changed it: there its history is read and drawn. */
const SHOWN: Record<RecordKind, string> = {
  Customer: 'app/(staff)/customers/[id]/page.tsx',
  Kitchen: 'app/(staff)/kitchens/[id]/page.tsx',
  Unit: 'app/(staff)/units/[id]/page.tsx',
  // Beside its rule's own history, with reasons, in the same place: the unit's page asks for what belongs to a unit.
  Task: 'app/(staff)/units/[id]/page.tsx',
  UnitChoice: 'app/(staff)/units/[id]/choice/page.tsx',
  RuleChange: 'app/(staff)/rules/page.tsx',
  Visit: 'app/(staff)/visits/[id]/report/page.tsx',
  User: 'app/(staff)/people/[id]/page.tsx',
  Certificate: 'app/(staff)/people/[id]/page.tsx',
  Cylinder: 'app/(staff)/refrigerants/book/[id]/page.tsx',
  OutboxMessage: 'app/(staff)/outbox/page.tsx',
  ImportRun: 'app/(staff)/customers/import/[id]/page.tsx',
  TravelTime: 'app/(staff)/week/travel/page.tsx',
  TaskKind: 'app/(staff)/shop/page.tsx',
  ShopSettings: 'app/(staff)/shop/page.tsx',
  ArchiveRun: 'app/(staff)/shop/archive/page.tsx',
};
/** Whose history the page of another asks for with its own; `tests/integration/audit/shown.test.ts` holds that it comes. */
const WITH: Partial<Record<RecordKind, RecordKind>> = { Task: 'Unit', Certificate: 'User', TaskKind: 'ShopSettings' };

describe('what was changed by whom', () => {
  it('has a place for every kind of record that verbs write it down of', () => {
    const files = readdirSync('lib/features', { recursive: true, encoding: 'utf8' }).filter((file) => file.endsWith('.ts'));
    const written = files.flatMap((file) =>
      [...readFileSync(path.join('lib/features', file), 'utf8').matchAll(/entity: '([A-Z]\w+)'/g)].map((m) => m[1] ?? ''),
    );
    expect([...new Set(written)].sort()).toEqual([...RECORD_KINDS].sort());
  });

  it.each(Object.entries(SHOWN))('is read and drawn on the page of a %s', (kind, page) => {
    const text = readFileSync(page, 'utf8');
    const of = new Map(Object.entries(WITH)).get(kind) ?? kind;
    expect(text).toMatch(new RegExp(`changesOf(Each)?\\(\\s*db,\\s*'${of}'`));
    expect(text).toContain('<ChangeHistory');
  });

  it('calls each kind by a name of its own', () => {
    expect(new Set(Object.values(RECORD_LABEL)).size).toBe(RECORD_KINDS.length);
  });
});
