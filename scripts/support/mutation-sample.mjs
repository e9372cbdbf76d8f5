import { createHash } from 'node:crypto';
import { Instrumenter } from '@stryker-mutator/instrumenter';

/** One order for all mistakes, the same in every run: by a hash of where and what they are. */
const rank = (seed, { fileName, location, mutatorName, replacement }) =>
  createHash('sha256')
    .update(JSON.stringify([seed, fileName.replace(process.cwd(), ''), location, mutatorName, replacement]))
    .digest('hex');

const original = Instrumenter.prototype.instrument;

/**
 * From now on only `size` of a room's possible mistakes are planted, drawn by `seed`; the others count as "Ignored".
 * All are found first, so the draw is an exact one without replacement.
 * @param {number} size @param {string} seed
 */
export function plantOnly(size, seed) {
  Instrumenter.prototype.instrument = async function instrument(files, options) {
    const { mutants } = await original.call(this, files, options);
    const possible = mutants.filter((m) => m.status !== 'Ignored').map((m) => rank(seed, m));
    const drawn = new Set(possible.toSorted().slice(0, size));
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
      return await original.call(this, files, options);
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
