// `npm run second-step -- off EMAIL`: for an owner who lost telephone and spare codes, where no other owner can turn it off.
import './support/node-version.mjs';
import { parseArgs } from 'node:util';
import { requireServer } from './support/databases.mjs';
import { complain, Plain } from './support/say.mjs';
import { dropStepOf } from './support/second-step.mjs';
import { shopAddress } from './support/shop-address.mjs';

const HELP = `npm run second-step -- off EMAIL

Turns off the second step of whoever signs in with EMAIL, so that the password alone lets them in again: for an owner who lost
telephone and spare codes. Who changed what will show that it was done on the server.

  --demo   in the demo shop, instead of the one opened last`;

async function main() {
  const { values, positionals } = parseArgs({ options: { demo: { type: 'boolean' }, help: { type: 'boolean' } }, allowPositionals: true });
  const [what, email] = positionals;
  if (values.help || what !== 'off' || !email) throw new Plain(HELP);
  const url = shopAddress({ demo: values.demo });
  await requireServer(url);
  const name = await dropStepOf(url, email);
  if (name === null) throw new Plain(`Nobody with a second step signs in with ${email}.`);
  console.log(`The second step of ${name} is off. Let them add a new one under My settings.`);
}

main().catch((error) => {
  complain(error);
  process.exitCode = 1;
});
