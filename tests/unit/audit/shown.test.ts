import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';

/** What is written down of whom, and the page of its record that shows it; the export of changes shows all. */
const SHOWN: Record<string, string | 'a history of its own' | 'the export alone'> = {
  Customer: 'app/(staff)/customers/[id]/page.tsx',
  Kitchen: 'app/(staff)/kitchens/[id]/page.tsx',
  ShopSettings: 'app/(staff)/shop/page.tsx',
  Unit: 'app/(staff)/units/[id]/page.tsx',
  User: 'app/(staff)/people/[id]/page.tsx',
  // With reasons and what they rested on: rules and their reviews on the unit's page, visits on theirs.
  RuleChange: 'a history of its own',
  Task: 'a history of its own',
  Visit: 'a history of its own',
  ArchiveRun: 'the export alone',
  Certificate: 'the export alone',
  Cylinder: 'the export alone',
  ImportRun: 'the export alone',
  OutboxMessage: 'the export alone',
  TaskKind: 'the export alone',
  TravelTime: 'the export alone',
  UnitChoice: 'the export alone',
};

describe('what was changed by whom', () => {
  it('has a place for every kind of record that verbs write it down of', () => {
    const files = readdirSync('lib/features', { recursive: true, encoding: 'utf8' }).filter((file) => file.endsWith('.ts'));
    const written = files.flatMap((file) =>
      [...readFileSync(path.join('lib/features', file), 'utf8').matchAll(/entity: '([A-Z]\w+)'/g)].map((m) => m[1] ?? ''),
    );
    expect([...new Set(written)].sort()).toEqual(Object.keys(SHOWN).sort());
  });

  it.each(Object.entries(SHOWN).filter(([, where]) => where.startsWith('app/')))(
    'is read and drawn on the page of a %s',
    (entity, page) => {
      const text = readFileSync(page, 'utf8');
      expect(text).toContain(`changesOf(db, '${entity}'`);
      expect(text).toContain('<ChangeHistory');
    },
  );
});
