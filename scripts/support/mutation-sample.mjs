import { createHash } from 'node:crypto';
import path from 'node:path';
import { Instrumenter } from '@stryker-mutator/instrumenter';

/** One order for all mistakes, the same in every run: by a hash of where and what they are. */
const rank = (seed, { fileName, location, mutatorName, replacement }) =>
  createHash('sha256')
    .update(JSON.stringify([seed, fileName.replace(process.cwd(), ''), location, mutatorName, replacement]))
    .digest('hex');

const original = Instrumenter.prototype.instrument;

/**
 * From now on only `size` of each room's possible mistakes are planted, drawn by `seed`; the others count as "Ignored".
 * All are found first, so the draw is an exact one without replacement. `told` hears where each mistake is.
 * @param {number} size @param {string} seed
 * @param {(file: string) => string} roomOf @param {(mistakes: Record<string, { file: string; about: string }>) => void} told
 */
export function plantOnly(size, seed, roomOf, told) {
  Instrumenter.prototype.instrument = async function instrument(files, options) {
    const fileOf = ({ fileName }) => path.relative('.', fileName);
    const { mutants } = await original.call(this, files, options);
    const ranks = new Map();
    for (const one of mutants.filter((m) => m.status !== 'Ignored')) {
      const room = roomOf(fileOf(one));
      ranks.set(room, [...(ranks.get(room) ?? []), rank(seed, one)]);
    }
    const drawn = new Set([...ranks.values()].flatMap((of) => of.toSorted().slice(0, size)));
    const transform = this._transform;
    this._transform = (ast, collector, context) => {
      const collect = collector.collect.bind(collector);
      collector.collect = (...args) => {
        const mutant = collect(...args);
        if (!mutant.ignoreReason && !drawn.has(rank(seed, mutant.toApiMutant()))) mutant.ignoreReason = 'not drawn';
        return mutant;
      };
      transform(ast, collector, context);
      delete collector.collect;
    };
    try {
      const planted = await original.call(this, files, options);
      const text = Object.fromEntries(files.map(({ name, content }) => [name, content]));
      told(Object.fromEntries(planted.mutants.map((one) => [one.id, { file: fileOf(one), about: rank(text[one.fileName], one) }])));
      return planted;
    } finally {
      this._transform = transform;
    }
  };
}

/**
 * The 95 % interval of a share by Wilson's score, narrowed where a good part of all was drawn (finite population).
 * @param {number} hits @param {number} drawn @param {number} all
 * @returns {[number, number]} in percent
 */
export function interval(hits, drawn, all) {
  const share = hits / drawn;
  if (drawn >= all) return [share, share].map((p) => 100 * p);
  const z = 1.96 * Math.sqrt((all - drawn) / (all - 1));
  const middle = share + (z * z) / (2 * drawn);
  const half = z * Math.sqrt((share * (1 - share)) / drawn + (z * z) / (4 * drawn * drawn));
  return [middle - half, middle + half].map((p) => (100 * p) / (1 + (z * z) / drawn));
}
