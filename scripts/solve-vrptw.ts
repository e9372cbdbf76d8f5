/**
 * Solves a public routing instance with the planner's own solver.
 *   npx tsx scripts/solve-vrptw.ts FILE [--truncate 1] [--seconds 5] [--json] [--vehicles N] [--capacity Q] [--seed 1]
 * FILE is a Solomon table (columns id,x,y,demand,ready,due,service; row 0 the depot), the
 * classic Solomon text form, or a TSPLIB file.
 */
import { readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { InstanceError } from '../checks/routing/parse-error';
import { solveInstance, type InstanceAnswer } from '../checks/routing/solve-instance';
import { highsLp } from '../lib/features/planning/verbs/highs-lp';

const USAGE = 'npx tsx scripts/solve-vrptw.ts FILE [--truncate DECIMALS] [--seconds S] [--json] [--vehicles N] [--capacity Q] [--seed N]';

function readOptions() {
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: {
      truncate: { type: 'string' },
      seconds: { type: 'string' },
      vehicles: { type: 'string' },
      capacity: { type: 'string' },
      seed: { type: 'string' },
      json: { type: 'boolean', default: false },
    },
  });
  if (positionals.length !== 1) throw new InstanceError(`Give one file.\n  ${USAGE}`);
  const number = (name: 'truncate' | 'seconds' | 'vehicles' | 'capacity' | 'seed', whole: boolean, least: number): number | undefined => {
    const text = values[name];
    if (text === undefined) return undefined;
    const value = Number(text);
    if (text.trim() === '' || !Number.isFinite(value) || value < least || (whole && !Number.isInteger(value)))
      throw new InstanceError(`--${name} ${text}: a ${whole ? 'whole ' : ''}number from ${least} up is needed.`);
    return value;
  };
  return {
    file: positionals[0]!,
    json: values.json,
    truncate: number('truncate', true, 0),
    seconds: number('seconds', false, 0.01) ?? 5,
    vehicles: number('vehicles', true, 1),
    capacity: number('capacity', false, 0),
    seed: number('seed', true, 0) ?? 1,
  };
}

function print(answer: InstanceAnswer, seconds: number): void {
  const amount = (value: number): string => (answer.decimals === null ? value.toFixed(3) : value.toFixed(answer.decimals));
  console.log(`${answer.kind === 'tour' ? 'Tour' : 'Routes'} of ${answer.name || 'the instance'}`);
  console.log(`distance  ${amount(answer.distance)}`);
  console.log(`vehicles  ${answer.vehicles}`);
  answer.routes.forEach((route, i) => console.log(`route ${String(i + 1).padStart(2)}  ${route.join('-')}`));
  if (answer.unserved.length > 0)
    console.log(`not served  ${answer.unserved.join(', ')} (the vehicles, their loads and the windows leave no room)`);
  console.log(`bound     ${amount(answer.bound)}  (no plan is shorter${answer.proven ? '; this one is the shortest' : ''})`);
  console.log(`gap       ${(100 * answer.gap).toFixed(2)} %`);
  console.log(`time      ${seconds.toFixed(2)} s`);
}

async function main(): Promise<void> {
  const options = readOptions();
  let text: string;
  try {
    text = readFileSync(options.file, 'utf8');
  } catch (error) {
    throw new InstanceError(`${options.file} cannot be read (${(error as NodeJS.ErrnoException).code ?? 'unknown reason'}).`);
  }
  const began = performance.now();
  const until = began + options.seconds * 1000;
  const answer = solveInstance(text, { ...options, lp: await highsLp(), remainingMs: () => until - performance.now() });
  const seconds = (performance.now() - began) / 1000;
  if (options.json) console.log(JSON.stringify({ ...answer, seconds: Number(seconds.toFixed(3)) }, null, 2));
  else print(answer, seconds);
  if (answer.unserved.length > 0) process.exitCode = 2;
}

main().catch((error: unknown) => {
  const expected = error instanceof InstanceError || (error as NodeJS.ErrnoException)?.code?.startsWith('ERR_PARSE_ARGS') === true;
  if (!expected) throw error;
  console.error((error as Error).message);
  process.exitCode = 1;
});
