import { readFileSync } from 'node:fs';

// Plain JavaScript: migration, backup and mover run in the container, where nothing is built.

/** What nobody but the app should read. */
export const SECRETS = /** @type {const} */ ([
  'DATABASE_URL',
  'DATABASE_PASSWORD',
  'DATABASE_REPLICA_URL',
  'NEXTAUTH_SECRET',
  'NEXTAUTH_SECRET_BEFORE',
  'RIMEBOOK_SET_UP_CODE',
  'SMTP_URL',
  'RIMEBOOK_METRICS_TOKEN',
  'RIMEBOOK_PICTURES_KEY',
  'RIMEBOOK_PICTURES_SECRET',
  'RIMEBOOK_BACKUP_KEY',
]);

/** @param {string} name @param {string} file @returns {string} without the end of the line */
function read(name, file) {
  try {
    return readFileSync(file, 'utf8').replace(/\r?\n$/, '');
  } catch (error) {
    throw new Error(`${name}_FILE: ${file} cannot be read (${error.code ?? error.message}).`, { cause: error });
  }
}

/** @param {string} address @param {string} password */
function withPassword(address, password) {
  const url = new URL(address);
  if (url.password) throw new Error('DATABASE_PASSWORD: the address of the database holds a password already. Which of the two?');
  url.password = encodeURIComponent(password);
  return url.href;
}

/**
 * Settings with each secret that is given as `NAME_FILE` read from that file, as containers and vaults hand them over: it stands
 * neither in the environment of the process nor in what `docker inspect` shows. An empty file is one that is not set. `DATABASE_PASSWORD`
 * is put into the addresses of the database and of its replica.
 * @template {Record<string, string | undefined>} E
 * @param {E} given @returns {E} a copy @throws {Error} where a file cannot be read, or a secret is given twice
 */
export function withSecretFiles(given) {
  /** @type {Record<string, string | undefined>} */
  const all = { ...given };
  for (const name of SECRETS) {
    const file = all[`${name}_FILE`];
    delete all[`${name}_FILE`];
    if (!file) continue;
    if (all[name]) throw new Error(`${name} and ${name}_FILE are both set. Which of the two?`);
    all[name] = read(name, file);
    if (all[name] === '') delete all[name];
  }
  const password = all.DATABASE_PASSWORD;
  delete all.DATABASE_PASSWORD;
  if (password) for (const name of ['DATABASE_URL', 'DATABASE_REPLICA_URL']) if (all[name]) all[name] = withPassword(all[name], password);
  return /** @type {E} */ (all);
}

/** The same in place, for a command that ends soon: what it starts is handed the secrets once. */
export function takeSecretFiles() {
  const all = withSecretFiles(process.env);
  for (const name of Object.keys(process.env)) if (!(name in all)) delete process.env[name];
  Object.assign(process.env, all);
}
