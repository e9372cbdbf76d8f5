import 'server-only';
import v8 from 'node:v8';

/** Over what lives after a collection. */
const GROWTH_PERCENT = 30;

/**
 * The heap is collected again once it has grown by so much. Left to itself V8 lets it grow to four times what lives where the machine
 * has memory to spare: the same pages then hold 840 MB in place of 400. Bounds of threads stay their own, which
 * `--max-old-space-size` would lift.
 */
export const collectSooner = (): void => v8.setFlagsFromString(`--heap-growing-percent=${GROWTH_PERCENT}`);
