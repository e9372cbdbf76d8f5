import { expect, it } from 'vitest';
import { useDatabase } from '@/tests/support/database';
import { fuzz, FUZZ, fuzzShop, type Shop } from '@/tests/support/fuzz/kinds';

const database = useDatabase();
const SEED = Number(process.env.FUZZ_SEED ?? 20261127);
let shop: Promise<Shop> | undefined;

// 10,000 of each: npx tsx --conditions=react-server scripts/fuzz.ts. A case that fails is named by its seed and number.
it.each(Object.keys(FUZZ) as (keyof typeof FUZZ)[])('200 cases of nonsense are answered in words and at once: %s', async (kind) => {
  const { slowestMs } = await fuzz(await (shop ??= fuzzShop(database.db)), kind, 200, SEED);
  expect(slowestMs).toBeLessThan(1000);
});
