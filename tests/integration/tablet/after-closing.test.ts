import { beforeAll, describe, expect, it } from 'vitest';
import { cleanPrior, conductanceOf, steadyState } from '@/lib/core/condenser';
import { condenserUnitOf } from '@/lib/core/condenser/from-record';
import type { Payloads } from '@/lib/core/tablet';
import { useDatabase } from '../../support/database';
import { finding, haveVisit, MORNING, officeTold, Tablet } from './a-tablet';

const database = useDatabase();
let shop: Awaited<ReturnType<typeof haveVisit>>;
let tablet: Tablet;

const AIR = 305;
/** What gauges and thermometer would show at a share of the clean conductance. */
function readingAt(share: number, over: Partial<Payloads['reading.add']> = {}): Payloads['reading.add'] {
  const core = condenserUnitOf(shop.unit, shop.kitchen);
  const clean = conductanceOf(core, cleanPrior(core).cleanRiseK);
  const state = typeof clean === 'number' ? steadyState(core, clean * share, { airK: AIR, boxK: core.boxSetPointK }) : undefined;
  if (state?.status !== 'ok') throw new Error('the unit does not run');
  const { headPaGauge, suctionPaGauge } = state;
  return {
    ...{ unitId: shop.unit.id, phase: 'before', gaugeGrade: '1A', gaugeSpanPa: 3.447e6, entered: {}, questioned: [], replaces: null },
    values: { headPaGauge, suctionPaGauge, airInK: AIR, boxK: core.boxSetPointK, steadyMinutes: 20 },
    ...over,
  };
}

beforeAll(async () => {
  shop = await haveVisit(database.db);
  tablet = new Tablet(database.db, shop.person);
  const { visit, unit, tasks } = shop;
  const taskIds = tasks.map((t) => t.id);
  const reply = await tablet.send([
    tablet.make(visit.id, 'visit.start', { arrivedAt: MORNING.toISOString() }),
    tablet.make(visit.id, 'finding.set', finding(unit.id, 'coil', 'matted')),
    tablet.make(visit.id, 'finding.set', finding(unit.id, 'coil', 'bare', { phase: 'left' })),
    tablet.make(visit.id, 'finding.set', finding(unit.id, 'ice', 'dry')),
    tablet.make(visit.id, 'finding.set', finding(unit.id, 'drain', 'runs')),
    ...taskIds.map((taskId) => tablet.make(visit.id, 'task.done', { taskId })),
    tablet.make(visit.id, 'signature.set', { nobodyThere: true, signedBy: '', png: null }),
    tablet.make(visit.id, 'visit.close', { leftAt: '2026-11-25T15:50:00Z', taskIds }),
  ]);
  expect(reply.results.map((r) => r.outcome)).not.toContain('rejected');
});

describe('what comes in after a visit is closed', () => {
  it('a reading has its estimate at once, as one from before the closing has, and the office hears that it came late', async () => {
    const late = tablet.make(shop.visit.id, 'reading.add', readingAt(0.6));
    const reply = await tablet.send([late]);
    expect(await officeTold(database.db, reply.results[0])).toContain('after the visit was closed');
    const estimate = await database.db.estimate.findUniqueOrThrow({ where: { readingId: late.id } });
    expect(estimate).toMatchObject({ unitId: shop.unit.id, status: 'ok' });
    // Within a tenth of the conductance that was taken away: the reading is the equations' own.
    expect(Math.abs((estimate.lnK ?? NaN) - Math.log(0.6))).toBeLessThan(0.1);
  });

  it('a reading that is overtaken by a later one of its kind keeps its words and gets no estimate', async () => {
    const second = new Tablet(database.db, shop.person);
    await second.refresh();
    const before = await database.db.estimate.count();
    const early = second.make(shop.visit.id, 'reading.add', readingAt(0.9), { madeAt: MORNING.toISOString() });
    await second.send([early], new Date(MORNING.getTime() + 3_600_000));
    expect(await database.db.reading.findUniqueOrThrow({ where: { id: early.id } })).toMatchObject({
      airInK: AIR,
      supersededAt: expect.any(Date),
    });
    expect(await database.db.estimate.count()).toBe(before);
  });

  it('a reading that nothing can be worked out from is filed all the same, and says so', async () => {
    const late = tablet.make(shop.visit.id, 'reading.add', { ...readingAt(0.8, { phase: 'after' }), values: { airInK: AIR } });
    await tablet.send([late]);
    expect(await database.db.estimate.findUniqueOrThrow({ where: { readingId: late.id } })).toMatchObject({
      status: 'cannot_say',
      lnK: null,
    });
  });
});
