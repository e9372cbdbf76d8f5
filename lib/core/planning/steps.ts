/** How work in steps ended: with its result, or cut short with the last value it handed out. */
export type Outcome<Y, R> = { readonly done: true; readonly result: R } | { readonly done: false; readonly last: Y };

/**
 * Runs a generator as long as `goOn` says so, yielding between its steps. However this
 * ends, by result, by time or by being abandoned, the generator is told and can clean up.
 */
export function* stepWhile<Y, R>(work: Generator<Y, R, void>, goOn: () => boolean): Generator<void, Outcome<Y, R>, void> {
  try {
    for (;;) {
      const step = work.next();
      if (step.done) return { done: true, result: step.value };
      if (!goOn()) return { done: false, last: step.value };
      yield;
    }
  } finally {
    // A finished generator takes no notice.
    work.return(undefined as never);
  }
}

/** Runs a generator to its end. */
export function runOut<R>(work: Generator<unknown, R, void>): R {
  for (;;) {
    const step = work.next();
    if (step.done) return step.value;
  }
}
