import { describe, expect, it } from 'vitest';
import {
  canGo,
  causeOfWords,
  isOpen,
  JOB_STATES,
  JOB_STEPS,
  JOB_URGENCIES,
  listsOf,
  lookedForBy,
  readParts,
  soonOf,
  STEP_INFO,
  stepsFrom,
  urgencySaid,
  type JobStand,
} from '@/lib/core/jobs';
import { ASPECTS } from '@/lib/core/findings/grades';
import { URGENCIES } from '@/lib/core/entries/entries';
import { findWords } from '@/lib/core/tablet';

const stands: JobStand[] = JOB_STATES.flatMap((state) =>
  [false, true].flatMap((needsQuote) => [false, true].map((partsWanted) => ({ state, needsQuote, partsWanted }))),
);

describe('lists by what a job waits for', () => {
  it('hold every open job once, and no closed one', () => {
    const jobs = stands.flatMap((s, i) => JOB_URGENCIES.map((urgency, k) => ({ ...s, urgency, dueOn: null, number: 4 * i + k })));
    const listed = listsOf(jobs).flatMap((l) => l.jobs);
    expect(listed.map((j) => j.number).sort((a, b) => a - b)).toEqual(jobs.filter((j) => isOpen(j.state)).map((j) => j.number));
  });

  it('begin with what is most urgent, then due soonest, then oldest', () => {
    const job = (number: number, urgency: (typeof JOB_URGENCIES)[number], dueOn: string | null) => ({
      state: 'asked' as const, needsQuote: false, partsWanted: false, number, urgency, dueOn,
    }); // prettier-ignore
    const list = listsOf([job(1, 'week', null), job(2, 'now', null), job(3, 'week', '2026-11-30'), job(4, 'week', null)]);
    expect(list.flatMap((l) => l.jobs.map((j) => j.number))).toEqual([2, 3, 1, 4]);
  });
});

describe('steps', () => {
  it('lead only where a job can go, and an open job is never without one', () => {
    for (const s of stands) {
      const steps = stepsFrom(s);
      for (const step of steps) {
        const { to } = STEP_INFO[step];
        expect(to === null || to === s.state || canGo(s.state, to), `${s.state} ${step}`).toBe(true);
      }
      expect(steps.length > 0).toBe(s.state !== 'done');
    }
  });

  it('are each of use somewhere', () => {
    for (const step of JOB_STEPS)
      expect(
        stands.some((s) => stepsFrom(s).includes(step)),
        step,
      ).toBe(true);
  });

  it('never say done over a quote that nobody answered', () => {
    expect(stepsFrom({ state: 'quoted', needsQuote: true, partsWanted: false })).toEqual(['agreed', 'declined']);
  });
});

describe('causes', () => {
  it('are read from the words a tablet finds, and name the look that settles them', () => {
    for (const a of ASPECTS) expect(lookedForBy(causeOfWords(findWords(a, null)))).toBe(a);
    expect(causeOfWords('Quote a door gasket')).toBe('');
    expect(lookedForBy('return:ice_block')).toBeUndefined();
  });

  it('how soon goes from a tablet to a job and back', () => {
    for (const u of URGENCIES) expect(urgencySaid(soonOf(u))).toBe(u);
  });
});

describe('a file of parts', () => {
  const file = (...rows: string[][]) => readParts(rows.map((cells, i) => ({ line: i + 1, cells })));

  it('is read by the names of its columns, in any order', () => {
    expect(file(['Name', 'Number', 'price', 'in van'], ['Fan motor', 'FM-9', '64.95', '2'], ['Gasket', 'GK', '84', ''])).toEqual({
      rows: [
        { number: 'FM-9', name: 'Fan motor', priceCents: 6495, inVan: 2, vans: [] },
        { number: 'GK', name: 'Gasket', priceCents: 8400, inVan: 0, vans: [] },
      ],
      problems: [],
    });
  });

  it('has a column for each van, by whose it is', () => {
    const read = (column: string, name = 'Tova Lind') =>
      readParts(
        [
          { line: 1, cells: ['number', 'name', 'price', column] },
          { line: 2, cells: ['FM-9', 'Fan motor', '64.95', '3'] },
        ],
        [
          { id: 'tova', name: 'Tova Lind' },
          { id: 'mats', name },
        ],
      );
    expect(read('Van of tova lind', 'Mats').rows[0]?.vans).toEqual([{ technicianId: 'tova', pieces: 3 }]);
    expect([read('van of nobody', 'Mats'), read('van of Tova Lind')].map((r) => [r.rows.length, r.problems[0]?.message])).toEqual([
      [0, 'No technician is called so.'],
      [0, 'More than one technician is called so.'],
    ]);
  });

  it('is refused whole, with every line that is wrong', () => {
    const bad = file(['number', 'name', 'price', 'in shop'], ['A', 'x', 'dear', '1'], ['A', '', '1.5', '-1']);
    expect(bad.rows).toEqual([]);
    expect(bad.problems.map((p) => [p.line, p.column])).toEqual([
      [2, 'price'],
      [3, 'number'],
      [3, 'name'],
      [3, 'in shop'],
    ]);
    expect(file(['name'], ['x']).problems.map((p) => p.column)).toEqual(['number', 'price']);
  });
});
