import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { describe as described, describedAsText, LEFT_OUT_COLUMNS, LEFT_OUT_MODELS, modelsOf, whyLeftOut } from '@/lib/core/archive';

const schema = readFileSync('prisma/schema.prisma', 'utf8');
const models = modelsOf(schema);

describe('what the archive of everything says of itself', () => {
  it('reads each model with its columns and their words', () => {
    expect(models.length).toBe([...schema.matchAll(/^model /gm)].length);
    const unit = models.find((m) => m.name === 'Unit');
    expect(unit?.columns.find((c) => c.name === 'tag')?.comment).toBe('Short code on the label, read by camera or typed.');
    expect(unit?.columns.find((c) => c.name === 'name')?.comment).toBe('');
  });

  it('leaves out nothing that is not there any more', () => {
    const names = models.flatMap((m) => m.columns.map((c) => `${m.name}.${c.name}`));
    expect(Object.keys(LEFT_OUT_MODELS).filter((m) => !models.some((x) => x.name === m))).toEqual([]);
    expect(Object.keys(LEFT_OUT_COLUMNS).filter((c) => !names.includes(c))).toEqual([]);
  });

  it('has a reason written down for each column whose name sounds like a secret', () => {
    const undecided = models
      .filter((m) => !(m.name in LEFT_OUT_MODELS))
      .flatMap((m) =>
        m.columns
          .filter((c) => !models.some((x) => x.name === c.type) && /nobody has said/.test(whyLeftOut(m.name, c.name) ?? ''))
          .map((c) => `${m.name}.${c.name}`),
      );
    expect(undecided).toEqual([]);
    expect(whyLeftOut('Anything', 'apiKey')).toMatch(/sounds like a secret/);
  });

  it('says what a column is in, what it may hold and where it points, also where the schema has no words', () => {
    const column = { nullable: false, isEnum: false, pointsTo: null };
    const [table] = described(
      schema,
      [
        {
          name: 'Unit',
          columns: [
            { ...column, name: 'cutoutPaGauge', type: 'double precision' },
            { ...column, name: 'kitchenId', type: 'uuid', pointsTo: 'Kitchen' },
            { ...column, name: 'application', type: '"Application"', isEnum: true },
          ],
        },
      ],
      new Map([['Application', ['medium', 'low']]]),
    );
    expect(table?.columns.map((c) => c.meaning)).toEqual([
      'Cutout. In pascal over the air around.',
      'Which Kitchen it belongs to. Points to id of Kitchen.',
      'Application. One of: medium, low.',
    ]);
    expect(describedAsText([table!], 'Larkspur', '2026-11-27')).toContain('| kitchenId | uuid | no |');
  });
});
