// `npm run pictures -- check | move --from STORE`: where a shop's pictures lie.
import './support/node-version.mjs';
import { parseArgs } from 'node:util';
import { requireServer } from './support/databases.mjs';
import { checkPictures, moveInto } from './support/pictures.mjs';
import { complain, Plain } from './support/say.mjs';
import { shopAddress } from './support/shop-address.mjs';

const HELP = `npm run pictures -- check
npm run pictures -- move --from STORE

check   reads every picture on file and says which are missing or damaged
move    from STORE into where new pictures go (RIMEBOOK_PICTURES; the database without it), while the shop goes on working.
        Each is taken away only after it was read back; cut short, it goes on where it stopped.

  --from STORE  database, folder:/an/absolute/path or s3:https://host/bucket/prefix
  --demo        of the demo shop, instead of the one opened last

First set RIMEBOOK_PICTURES to the new place and RIMEBOOK_PICTURES_BEFORE to the old one and start the shop anew, then move.`;
const EVERY = 1000;

async function main() {
  const { values, positionals } = parseArgs({
    options: { from: { type: 'string' }, demo: { type: 'boolean' }, help: { type: 'boolean' } },
    allowPositionals: true,
  });
  const [what] = positionals;
  if (values.help || (what !== 'check' && !(what === 'move' && values.from))) throw new Plain(HELP);
  const url = shopAddress({ demo: values.demo });
  await requireServer(url);
  if (what === 'check') {
    const { whole, missing } = await checkPictures(url);
    console.log(`${whole} pictures are whole, ${missing.length} are missing or damaged.`);
    for (const hash of missing) console.log(`  ${hash}`);
    if (missing.length > 0) process.exitCode = 1;
    return;
  }
  const { to, moved, damaged } = await moveInto(url, values.from, (n) => n % EVERY === 0 && console.log(`${n} moved`));
  console.log(`${moved} pictures moved from ${values.from} to ${to}.`);
  for (const hash of damaged) console.log(`  ${hash} is damaged and was left where it is.`);
  if (damaged.length > 0) process.exitCode = 1;
}

main().catch((error) => {
  complain(error);
  process.exitCode = 1;
});
