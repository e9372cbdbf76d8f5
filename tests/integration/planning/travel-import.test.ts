import { beforeAll, describe, expect, it } from 'vitest';
import { checkTravel } from '@/lib/features/planning/verbs/check-travel';
import { forgetTravel, replaceTravel } from '@/lib/features/planning/verbs/replace-travel';
import { travelTemplate } from '@/lib/features/planning/verbs/travel-template';
import { useDatabase } from '../../support/database';
import { haveOneUnit, personRow } from '../../support/factories';

const database = useDatabase();
const now = new Date('2026-11-25T15:00:00Z');
let actor: { userId: string };
let made: Awaited<ReturnType<typeof haveOneUnit>>[];
const ctx = () => ({ db: database.db, actor, now });
const stored = () => database.db.travelTime.findMany({ orderBy: [{ minutes: 'asc' }] });

beforeAll(async () => {
  made = [];
  // A name that a spreadsheet would take for a formula comes back as itself.
  for (const [i, name] of ['Pearl Row', 'Dock Street', '=Sum Kitchen'].entries())
    made.push(await haveOneUnit(database.db, { kitchen: { name, lat: 39.74 + i / 50, lng: -104.98 } }));
  actor = { userId: (await database.db.user.create({ data: personRow({ role: 'dispatcher' }) })).id };
});

describe('driving minutes from a file', () => {
  it('starts from a template with every pair, worked out from coordinates, which can be stored as it is', async () => {
    const csv = await travelTemplate(ctx());
    const { report } = await checkTravel(ctx(), csv);
    expect(report).toMatchObject({ problems: [], pairs: 6, kitchens: 3, possible: 6, replaces: 0 });
    expect(await replaceTravel(ctx(), csv)).toEqual({ stored: 6, replaced: 0 });
    // 2.22 km × 1.3 at 35 km/h: 4.96 minutes; twice as far, 9.9.
    expect((await stored()).map((t) => t.minutes)).toEqual([5, 5, 5, 5, 10, 10]);
  });

  it('stores all of a file or nothing', async () => {
    const before = await stored();
    const bad = 'from,to,minutes\nPearl Row,Dock Street,12\nPearl Row,Dock Stret,12\nDock Street,Pearl Row,soon';
    expect((await checkTravel(ctx(), bad)).report.problems.map((p) => [p.line, p.column])).toEqual([
      [3, 'to'],
      [4, 'minutes'],
    ]);
    await expect(replaceTravel(ctx(), bad)).rejects.toMatchObject({
      code: 'invalid',
      field: 'csv',
      message: expect.stringContaining('2 things are wrong'),
    });
    expect(await stored()).toEqual(before);
  });

  it('replaces what was there, and the template then gives the imported minutes', async () => {
    const csv = `from;to;minutes\n${made[0]!.unit.tag};Dock Street;12,5\nDock Street;Pearl Row;17`;
    expect(await replaceTravel(ctx(), csv)).toEqual({ stored: 2, replaced: 6 });
    expect((await stored()).map((t) => [t.fromKitchenId, t.minutes])).toEqual([
      [made[0]!.kitchen.id, 12.5],
      [made[1]!.kitchen.id, 17],
    ]);
    const again = await travelTemplate(ctx());
    expect(again.split('\r\n').filter((line) => /,(13|17)$/.test(line))).toHaveLength(2);
    expect((await checkTravel(ctx(), again)).report).toMatchObject({ problems: [], pairs: 6 });
    expect(await database.db.auditEntry.findFirst({ where: { action: 'travel.replaced' }, orderBy: { id: 'desc' } })).toMatchObject({
      userId: actor.userId,
      detail: { pairs: 2, replaced: 6 },
    });
  });

  it('forgets them all', async () => {
    expect(await forgetTravel(ctx())).toEqual({ stored: 0, replaced: 2 });
    expect(await stored()).toEqual([]);
  });
});
