import { existsSync } from 'node:fs';
import path from 'node:path';
import { takeSecretFiles } from '../../lib/database/secret-files.mjs';
import { Cluster } from './cluster.mjs';
import { readStamp } from './fingerprint.mjs';
import { inProject, keep } from './paths.mjs';
import { Plain } from './say.mjs';

/** The databases of the private server. */
export const DATABASES = { demo: 'rimebook_demo', own: 'rimebook' };

/** Settings of one's own, where there are any: what is set already stays. Secrets may lie in files. */
export function readEnvironmentFile() {
  const file = inProject('.env');
  if (existsSync(file)) process.loadEnvFile(file);
  takeSecretFiles();
}

/** The shop opened last: 'own' or 'demo'. */
export const lastShop = () => (readStamp(path.join(keep, 'shop')) === 'own' ? 'own' : 'demo');

/**
 * The database of a shop: that of DATABASE_URL, else on the private server the one asked for or opened last.
 * @param {{ demo?: boolean, own?: boolean }} asked
 */
export function shopAddress({ demo, own }) {
  readEnvironmentFile();
  if (process.env.DATABASE_URL) return process.env.DATABASE_URL;
  const cluster = new Cluster(path.join(keep, 'pg'));
  if (!cluster.known) throw new Plain('There is no shop here yet: npm run up makes one. Or set DATABASE_URL.');
  return cluster.url(DATABASES[demo ? 'demo' : own ? 'own' : lastShop()]);
}
