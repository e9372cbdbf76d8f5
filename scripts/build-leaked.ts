// Which passwords that our rule would let through leak most often: `npx tsx scripts/build-leaked.ts FILE`, FILE with one password a line,
// the commonest first. Writes lib/features/people/verbs/long-leaked.ts: five bytes of a hash of each, for some are people's own words.
import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { passwordProblem } from '../lib/core/people/password-rule';
import { LEAKED_MARK_BYTES, markOfLeaked } from '../lib/features/people/verbs/leaked-mark';

const MOST = 20_000;
const [from] = process.argv.slice(2);
if (!from) throw new Error('Which file?');
const marks = new Set<string>();
for (const line of readFileSync(from, 'utf8').split('\n')) {
  const password = line.trim().toLowerCase();
  if (marks.size < MOST && passwordProblem(password) === null) marks.add(markOfLeaked(password));
}
const bytes = Buffer.concat([...marks].toSorted().map((mark) => Buffer.from(mark, 'hex')));
const words = `/** Of ${marks.size} passwords, ${LEAKED_MARK_BYTES} bytes each in rising order, written by scripts/build-leaked.ts. Where from: docs/data-notices.md */`;
const file = path.join(import.meta.dirname, '../lib/features/people/verbs/long-leaked.ts');
writeFileSync(file, `${words}\nexport const LONG_LEAKED =\n  '${bytes.toString('base64')}';\n`);
console.log(`${marks.size} passwords, ${bytes.length} bytes`);
