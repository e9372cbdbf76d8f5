import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const schema = readFileSync('prisma/schema.prisma', 'utf8');
const doc = readFileSync('docs/personal-data.md', 'utf8');

/** Columns that could hold something about a person: text that is no id, JSON, bytes, and places on the map. */
const columns = [...schema.matchAll(/^model (\w+) \{(.*?)^\}/gms)].flatMap(([, model, body = '']) =>
  body
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => /^\w+\s+(String|Json|Bytes)\b/.test(line) || /^(\w*[lL]at|\w*[lL]ng)\s+Float\b/.test(line))
    .filter((line) => !line.includes('@db.Uuid'))
    .map((line) => `${model}.${/^\w+/.exec(line)?.[0]}`),
);
const namedIn = (text: string) => [...text.matchAll(/`([A-Z]\w+\.\w+)`/g)].map((m) => m[1] ?? '');

describe('personal data', () => {
  it('is told apart from what is nobody’s, for every column, once', () => {
    const named = namedIn(doc);
    expect(columns.length).toBeGreaterThan(150);
    expect(columns.filter((c) => !named.includes(c))).toEqual([]);
    expect(named.filter((c) => !columns.includes(c))).toEqual([]);
    expect(named.filter((c, i) => named.indexOf(c) !== i)).toEqual([]);
  });

  it('says of each column whose it is, what for, and how it is guarded or how long it is kept', () => {
    const rows = doc.split('\n').filter((line) => line.startsWith('| `'));
    expect(rows.length).toBeGreaterThan(20);
    for (const row of rows) {
      const cells = row.split('|').slice(1, -1);
      expect(cells, row).toHaveLength(4);
      for (const cell of cells) expect(cell.trim(), row).not.toBe('');
    }
  });
});
