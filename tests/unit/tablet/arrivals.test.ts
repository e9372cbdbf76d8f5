import 'fake-indexeddb/auto';
import { expect, it } from 'vitest';
import { answerArrivals, keepArrival, sendArrivals } from '@/lib/tablet/arrivals';
import { metaOf, openDatabase, writeMeta } from '@/lib/tablet/database';
import type { Office } from '@/lib/tablet/office';
import type { ArrivalsTold, Me } from '@/lib/core/tablet';

const fix = { id: 'f1', visitId: 'v1', lat: 40, lng: -105, accuracyM: 8, at: '2026-11-27T10:00:00Z' };

it('arrivals are told once, with the answer, and nothing is told without leave', async () => {
  const db = await openDatabase('u-arrivals');
  const me: Partial<Me> = { userId: 'u-arrivals', sharesArrivals: null };
  await writeMeta(metaOf(db), { me: me as Me });
  const sent: ArrivalsTold[] = [];
  const office = { arrivals: (t: ArrivalsTold) => Promise.resolve(void sent.push(t)) } as Pick<Office, 'arrivals'> as Office;

  await keepArrival(db, fix);
  await sendArrivals(db, office);
  expect(sent).toEqual([]);
  await answerArrivals(db, true);
  await sendArrivals(db, office);
  await sendArrivals(db, office);
  expect(sent).toEqual([{ allow: true, fixes: [fix] }]);
  await keepArrival(db, { ...fix, id: 'f2' });
  await answerArrivals(db, false);
  await sendArrivals(db, office);
  expect(sent[1]).toEqual({ allow: false, fixes: [] });
  db.close();
});
