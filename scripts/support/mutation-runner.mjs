// How scripts/mutate.mjs runs tests: Vitest with one thread that is kept from one mistake to the next, so that what the tests
// import is read once. A mistake in what runs as code is loaded, and a room whose code remembers, gets a new thread.
// A mistake is shown to the tests of its own room that meet it, quick files first, until one fails.
// What the first run finds is kept file by file, so that a run cut short goes on where it stopped.
import { createHash } from 'node:crypto';
import { appendFileSync, existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { declareFactoryPlugin, PluginKind } from '@stryker-mutator/api/plugin';
import { createVitest, ThreadsPoolWorker } from 'vitest/node';
import { ROOMS, roomOf, testsOf } from './mutation-rooms.mjs';

/** What the first run of all tests has found, in the copy of the project that this works in. */
const MET = 'mutation-met.json';

/** After so many files of tests a thread is let go: what it listens to grows with each. */
const FILES_A_THREAD = 60;

/** A thread of tests that Vitest believes to be a new one each time. */
class KeptThread {
  name = 'kept';
  static #kept;
  static #files = 0;
  #heard = [];

  static letGo() {
    const thread = KeptThread.#kept;
    KeptThread.#kept = undefined;
    KeptThread.#files = 0;
    return thread?.stop();
  }

  constructor(options) {
    this.options = options;
  }
  async start() {
    if (KeptThread.#files >= FILES_A_THREAD) await KeptThread.letGo();
    KeptThread.#files += 1;
    if (!KeptThread.#kept) {
      const thread = new ThreadsPoolWorker(this.options);
      await thread.start();
      KeptThread.#kept = thread;
    }
    this.thread = KeptThread.#kept;
    this.polite = false;
  }
  /** Asked for in words, it is told that the thread has stopped; without words it is cut off. */
  send(message) {
    if (message?.type !== 'stop') return this.thread.send(message);
    this.polite = true;
    const stopped = { type: 'stopped', __vitest_worker_response__: true };
    for (const { event, hear } of [...this.#heard]) if (event === 'message') setImmediate(hear, stopped);
  }
  on(event, hear) {
    this.#heard.push({ event, hear });
    this.thread.on(event, hear);
  }
  off(event, hear) {
    this.#heard = this.#heard.filter((one) => one.event !== event || one.hear !== hear);
    this.thread.off(event, hear);
  }
  async stop() {
    for (const { event, hear } of this.#heard) this.thread.off(event, hear);
    this.#heard = [];
    if (!this.polite) await KeptThread.letGo();
  }
  deserialize(data) {
    return data;
  }
}

const relative = (file) => path.relative(process.cwd(), file).replaceAll('\\', '/');
const fileOf = (test) => test.slice(0, test.indexOf('#'));
const hashOf = (file) => createHash('sha256').update(readFileSync(file)).digest('hex');
/** Of everything that a test may read: the planted code, what tests share, the layout of the database. */
function hashOfAll() {
  const hash = createHash('sha256').update(readFileSync('package-lock.json'));
  for (const folder of ['lib', 'prisma', 'scripts/support', 'tests/support'])
    for (const name of readdirSync(folder, { recursive: true, withFileTypes: true }).filter((one) => one.isFile()))
      hash.update(`${name.parentPath}/${name.name}`).update(readFileSync(path.join(name.parentPath, name.name)));
  return hash.digest('hex');
}
const linesOf = (file) =>
  (existsSync(file) ? readFileSync(file, 'utf8').trim().split('\n') : []).filter(Boolean).map((line) => JSON.parse(line));
const inFile = (suite) => suite.tasks.flatMap((task) => (task.type === 'test' ? [task] : inFile(task)));
const fullName = ({ name, suite }) => (suite && !suite.filepath ? `${fullName(suite)} ${name}` : name).trim();
const exactly = (names) => new RegExp(names.map((name) => `^${name.replaceAll(/[$()*+.?[\\\]^{|}]/g, String.raw`\$&`)}$`).join('|'));
const errorOf = ({ result, suite }) => (result?.state === 'fail' ? (result.errors?.[0]?.message ?? 'failed') : suite && errorOf(suite));

class Runner {
  #vitest;
  #files;
  /** Each mistake by its id: where it is, and what it is in words that outlast a run. */
  #mistakes = {};
  #found = new Map();

  constructor(plantedIn) {
    this.plantedIn = plantedIn;
  }

  capabilities() {
    return { reloadEnvironment: true };
  }

  async init() {
    Object.assign(process.env, { NODE_ENV: 'test', VITEST: '1' });
    this.#vitest = await createVitest('test', { config: 'vitest.mutate.config.ts', watch: false, bail: 1, reporters: [{}] });
    const poolRunner = { name: 'kept', createPoolWorker: (options) => new KeptThread(options) };
    for (const { config } of this.#vitest.projects) Object.assign(config, { pool: 'kept', poolRunner });
    this.#vitest.provide('plantedIn', this.plantedIn);
    this.#mistakes = JSON.parse(readFileSync(process.env.MUTATE_MISTAKES, 'utf8'));
    for (const line of linesOf(process.env.MUTATE_FOUND)) this.#found.set(line.about, line);
    const files = await this.#vitest.globTestSpecifications();
    this.#files = new Map(files.map((one) => [relative(one.moduleId), one]));
  }

  /** The tests of one file, or those of it with these names. */
  async #run(name, { names, mistake, bail = 1 } = {}) {
    const vitest = this.#vitest;
    vitest.provide('mistake', mistake);
    for (const { config } of vitest.projects) Object.assign(config, { testNamePattern: names && exactly(names), bail });
    vitest.state.filesMap.clear();
    await vitest.runTestSpecifications([this.#files.get(name)]);
    const [file] = vitest.state.getFiles();
    const tests = inFile(file);
    const error = tests.map(errorOf).find(Boolean) ?? errorOf(file) ?? [...vitest.state.errorsSet].map(String)[0];
    return { tests, met: file.meta.met ?? { static: {}, perTest: {} }, hitCount: file.meta.hitCount ?? 0, error };
  }

  /** What the tests of a file take and meet, without any mistake; from an earlier run where nothing has changed `as` it was then. */
  async #meet(name, as) {
    const kept = path.join(path.dirname(process.env.MUTATE_FOUND), 'met.jsonl');
    const of = hashOf(name);
    const before = linesOf(kept).findLast((one) => one.as === as && one.name === name && one.of === of);
    if (before) return before;
    const { tests, met, error } = await this.#run(name, { bail: 0 });
    const passed = tests.filter((one) => one.result?.state === 'pass');
    const ran = passed.map((task) => ({ title: fullName(task), took: task.result.duration ?? 0 }));
    if (!error) appendFileSync(kept, `${JSON.stringify({ as, name, of, ran, met })}\n`);
    return { ran, met, error };
  }

  /** Every file once: what its tests take, and which mistakes of their own room they meet. */
  async dryRun() {
    const codeOf = new Map(Object.entries(this.#mistakes).map(([id, { file }]) => [id, file]));
    const testsFor = new Map([...codeOf].map(([mistake, file]) => [mistake, testsOf(roomOf(file))]));
    const tests = [];
    const perTest = {};
    const atLoading = new Set();
    const meets = new Map();
    const as = createHash('sha256').update(hashOfAll()).update(JSON.stringify(this.#mistakes)).digest('hex');
    for (const name of this.#files.keys()) {
      const { ran, met, error } = await this.#meet(name, as);
      if (error) return { status: 'error', errorMessage: `${name}: ${error}` };
      for (const mistake in met.static) atLoading.add(mistake);
      const own = (hits = {}) => Object.entries(hits).filter(([mistake]) => testsFor.get(mistake).test(name));
      for (const { title, took } of ran) {
        const id = `${name}#${title}`;
        tests.push({ id, name: title, status: 0, timeSpentMs: took, fileName: path.resolve(name) });
        perTest[id] = Object.fromEntries([...own(met.perTest.hooks), ...own(met.perTest[title])]);
        for (const mistake in perTest[id]) meets.set(codeOf.get(mistake), (meets.get(codeOf.get(mistake)) ?? new Set()).add(id));
      }
    }
    await KeptThread.letGo();
    // A file of code is loaded once for all: what is met then is shown to the tests that meet the file later, else to its room's.
    const all = tests.map((one) => one.id);
    for (const mistake of atLoading) {
      const code = codeOf.get(mistake);
      const later = ROOMS[roomOf(code)].declares ? undefined : meets.get(code);
      for (const id of later ?? all.filter((one) => testsFor.get(mistake).test(fileOf(one)))) perTest[id][mistake] ??= 1;
    }
    // Another process may take over, where a mistake never ends.
    const took = Object.fromEntries(tests.map((one) => [one.id, one.timeSpentMs]));
    writeFileSync(MET, JSON.stringify({ atLoading: [...atLoading], took }));
    return { status: 'complete', tests, mutantCoverage: { static: {}, perTest } };
  }

  /** A mistake, shown to the files that meet it, quick ones first, until a test fails. What was found before stands. */
  async mutantRun({ activeMutant, testFilter = [], sandboxFileName, hitLimit }) {
    const files = new Map();
    for (const one of testFilter) files.set(fileOf(one), [...(files.get(fileOf(one)) ?? []), one]);
    const { about } = this.#mistakes[activeMutant.id];
    const before = this.#found.get(about);
    if (
      before?.shown.every(([name, is]) => files.has(name) && hashOf(name) === is) &&
      (before.killed || before.shown.length === files.size)
    )
      return before.result;
    const { killedBy, ...result } = await this.#show(activeMutant.id, relative(sandboxFileName), files, hitLimit);
    const shown = (killedBy ? [killedBy] : [...files.keys()]).map((name) => [name, hashOf(name)]);
    appendFileSync(process.env.MUTATE_FOUND, `${JSON.stringify({ about, shown, killed: killedBy !== undefined, result })}\n`);
    return result;
  }

  async #show(id, code, files, hitLimit) {
    const { atLoading, took } = JSON.parse(readFileSync(MET, 'utf8'));
    const mistake = { id, hitLimit, atLoading: atLoading.includes(id) };
    const remembers = mistake.atLoading || ROOMS[roomOf(code)].remembers;
    const time = (ids) => ids.reduce((sum, one) => sum + took[one], 0);
    let nrOfTests = 0;
    for (const [name, ids] of [...files].toSorted(([, a], [, b]) => time(a) - time(b))) {
      if (remembers) await KeptThread.letGo();
      const { error, hitCount } = await this.#run(name, { names: ids.map((one) => one.slice(name.length + 1)), mistake });
      if (remembers) await KeptThread.letGo();
      nrOfTests += ids.length;
      if (hitCount > hitLimit) return { status: 'timeout', reason: `met ${hitCount} times`, killedBy: name };
      if (error) return { status: 'killed', failureMessage: error.slice(0, 300), killedBy: name, nrOfTests };
    }
    return { status: 'survived', nrOfTests };
  }

  async dispose() {
    await KeptThread.letGo();
    await this.#vitest?.close();
  }
}

function makeRunner(injector) {
  const make = (plantedIn) => new Runner(plantedIn);
  make.inject = ['plantedIn'];
  return injector.provideValue('plantedIn', '__stryker__').injectFunction(make);
}
makeRunner.inject = ['$injector'];

export const strykerPlugins = [declareFactoryPlugin(PluginKind.TestRunner, 'kept', makeRunner)];
