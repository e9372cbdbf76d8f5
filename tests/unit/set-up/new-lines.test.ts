import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const files = ['lib', 'app'].flatMap((root) =>
  readdirSync(root, { recursive: true, encoding: 'utf8' })
    .map((f) => `${root}/${f.replaceAll('\\', '/')}`)
    .filter((f) => /\.tsx?$/.test(f) && !f.includes('/generated/')),
);
/** Files of the product itself that name a thing. */
const naming = (pattern: RegExp): string[] => files.filter((f) => pattern.test(readFileSync(f, 'utf8')));

describe('where a new line goes', () => {
  it('holds for a field of a unit: its table, and the estimator', () => {
    expect(naming(/\bairOverRoomK\b/).filter((f) => !f.startsWith('lib/core/condenser/'))).toEqual(['lib/core/equipment/unit-fields.ts']);
  });

  it('holds for kinds of task and grades: nobody but their tables names an inspection or counts what is stopped', () => {
    expect(naming(/'(drain|evaporator)_inspection'|\bdrain_inspection:/).filter((f) => f !== 'lib/core/tasks/kinds.ts')).toEqual([]);
    // The estimator weighs every grade by itself.
    const lists = naming(/'blocked', 'frozen'|'matted', 'packed'|'bridged', 'block'/);
    expect(lists.filter((f) => !f.startsWith('lib/core/condenser/'))).toEqual([]);
  });

  it('holds for roles: nobody asks for one by not being another', () => {
    expect(naming(/role (!==|<>) /)).toEqual([]);
  });
});
