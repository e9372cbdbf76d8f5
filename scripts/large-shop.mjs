// A large shop for measuring: `DATABASE_URL=… node scripts/large-shop.mjs [units]`. It makes the demo shop in an empty database
// and then copy beside copy of it, with all that was ever done there. Never on a database that holds anything.
import { requireServer } from './support/databases.mjs';
import { enlarge } from './support/large-shop.mjs';
import { complain, Plain } from './support/say.mjs';
import { makeDemo, isEmpty } from './support/shop.mjs';
import { migrate } from './support/migrations.mjs';

async function main() {
  const url = process.env.DATABASE_URL;
  const units = Number(process.argv[2] ?? 10_000);
  if (!url || !Number.isInteger(units) || units < 1) throw new Plain('DATABASE_URL=… node scripts/large-shop.mjs [units]');
  await requireServer(url);
  await migrate(url);
  if (!(await isEmpty(url))) throw new Plain('Somebody is on file there: a large shop is made in an empty database only.');
  await makeDemo(url);
  console.log(`${await enlarge(url, units)} units on file.`);
}

main().catch((error) => {
  complain(error);
  process.exitCode = 1;
});
