import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** Files that take longest, so that none of them is left to one core at the end. A fresh clone has no times of its own to go by. */
const LONGEST = [
  ...['seed/demo-shop', 'reference/gate', 'planning/brute-force', 'intervals/properties', 'fleet-csv/whole-fleet', 'tablet/faults'],
  ...['sealed/vacuum-decay', 'fuzz/nonsense', 'backup/restore', 'condenser/random', 'archive/everything', 'plant/judge'],
];

const place = ({ moduleId }: TestSpecification) => {
  const at = LONGEST.findIndex((name) => moduleId.endsWith(`/${name}.test.ts`));
  return at < 0 ? LONGEST.length : at;
};

export class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const sorted = await super.sort(files);
    return sorted.toSorted((a, b) => place(a) - place(b));
  }
}
