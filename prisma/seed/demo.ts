import { connect } from '../../lib/database/client';
import { hashPassword } from '../../lib/features/people/verbs/password';
import { makeShop } from './demo-shop';
import { saveShop } from './save';
import { saveDecisions } from './save-decisions';
import { SIGN_INS } from './shop/people';

/**
 * Fills an empty, migrated database with the demo shop: tsx --conditions=react-server prisma/seed/demo.ts [ISO date].
 * The record ends today, or on the date given, or where RIMEBOOK_CLOCK starts.
 * Does nothing where a user is on file. Refuses production unless RIMEBOOK_DEMO=1.
 */
async function main(): Promise<void> {
  const { DATABASE_URL, NODE_ENV, RIMEBOOK_DEMO, RIMEBOOK_CLOCK } = process.env;
  if (!DATABASE_URL) throw new Error('DATABASE_URL: where is the PostgreSQL database?');
  if (NODE_ENV === 'production' && RIMEBOOK_DEMO !== '1')
    throw new Error('This is production: the demo shop does not go here. Set RIMEBOOK_DEMO=1 if you mean it.');
  const given = process.argv[2] ?? RIMEBOOK_CLOCK;
  const now = given ? new Date(given) : new Date();
  if (Number.isNaN(now.getTime())) throw new Error(`"${given}" is not a date.`);
  const db = connect(DATABASE_URL, 2);
  try {
    if ((await db.user.count()) > 0) {
      console.log('Somebody is on file already; the demo shop was left out.');
      return;
    }
    const hashes: Record<string, string> = {};
    for (const s of SIGN_INS) hashes[s.email] = await hashPassword(s.password);
    const { shop, out } = makeShop({ now, hashes });
    await saveShop(db, shop, out);
    await saveDecisions(db, now);
    console.log(
      `Demo shop: ${shop.kitchens.length} kitchens, ${shop.units.length} units, ${out.visits.length} visits, ${out.readings.length} readings.`,
    );
    for (const s of SIGN_INS) console.log(`  ${s.role.padEnd(10)} ${s.email}  ${s.password}`);
  } finally {
    await db.$disconnect();
  }
}

await main();
