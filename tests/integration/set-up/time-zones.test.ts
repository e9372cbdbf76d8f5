import { expect, it } from 'vitest';
import { zonesThatDiffer } from '@/lib/features/health/reads/clocks';
import { useDatabase } from '../../support/database';
import { haveOneUnit } from '../../support/factories';

const database = useDatabase();
const NOW = new Date('2026-11-25T15:00:00Z');

/**
 * Rules made since the tables of the oldest Node that runs this (2025c). A shop there is warned at the start until its Node is newer; whoever
 * takes Node 20 away may look whether this can go.
 */
const NEWER_THAN_NODE = ['America/Vancouver'];

it('the app and the database go by the same clock in every zone where a kitchen may stand', async () => {
  const zones = Intl.supportedValuesOf('timeZone').filter((z) => /^(America|US|Pacific|Europe|Australia|Africa|Atlantic)\//.test(z));
  expect(zones.length).toBeGreaterThan(200);
  expect((await zonesThatDiffer(database.db, NOW, zones)).filter((zone) => !NEWER_THAN_NODE.includes(zone))).toEqual([]);
});

it('one where they do not is found among those on file', async () => {
  await haveOneUnit(database.db);
  expect(await zonesThatDiffer(database.db, NOW)).toEqual([]);
  // PostgreSQL reads this as eight hours west, Node as eight east: a name that both know and take differently.
  expect(await zonesThatDiffer(database.db, NOW, ['+08:00'])).toEqual(['+08:00']);
});
