import { beforeAll, expect, it } from 'vitest';
import { readingOf } from '@/lib/core/condenser/from-record';
import { readingSpan, type ReadingField } from '@/lib/core/entries/reading-fields';
import { haveOneUnit, readingRow } from '@/tests/support/factories';
import { useDatabase } from '@/tests/support/database';

// Head and coil air, each read with another instrument, and the bounds of every quantity as the database holds them.
const database = useDatabase();
let unitId = '';
beforeAll(async () => {
  unitId = (await haveOneUnit(database.db)).unit.id;
});
let minute = 0;
const file = (more: Partial<Record<ReadingField, number>>) =>
  database.db.reading.create({ data: readingRow(unitId, new Date(Date.UTC(2026, 2, 2, 16, minute++)), { phase: 'log', ...more }) });

it('keeps a second gauge and a second thermometer beside the first, and hands them to the estimate', async () => {
  const { id } = await file({ headPaGauge: 1e6, headAgainPaGauge: 1.1e6, airInK: 303, airAgainK: 304 });
  const row = await database.db.reading.findUniqueOrThrow({ where: { id } });
  expect(readingOf(row)).toMatchObject({ headPaGauge: 1e6, headAgainPaGauge: 1.1e6, airInK: 303, airAgainK: 304 });
});

it.each(['headAgainPaGauge', 'airAgainK'] as const)('takes what the form takes of %s, and nothing beyond', async (field) => {
  const [lowest, highest] = readingSpan(field);
  for (const value of [lowest, highest]) await expect(file({ [field]: value })).resolves.toMatchObject({ [field]: value });
  for (const value of [lowest - 1, highest + 1, NaN]) await expect(file({ [field]: value })).rejects.toThrow(/reading_again_within/);
});
