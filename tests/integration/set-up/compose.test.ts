import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { parse } from 'yaml';
import { afterAll, beforeAll, describe, expect, inject, it, vi } from 'vitest';
import { z } from 'zod';
import { SECRETS } from '../../../lib/database/secret-files.mjs';
import { drop, query, withDatabase } from '../../../scripts/support/databases.mjs';
import { migrate, pending } from '../../../scripts/support/migrations.mjs';

// docker-compose.yml without a daemon: read as YAML, with what a service takes over from another, and its scripts run here.
vi.hoisted(() => vi.resetModules());
const Health = z.object({ test: z.array(z.string()).min(2), interval: z.string(), timeout: z.string(), retries: z.number() });
const Service = z.looseObject({
  image: z.string().optional(),
  build: z.string().optional(),
  environment: z.record(z.string(), z.string()),
  healthcheck: Health.optional(),
  ports: z.array(z.string()).optional(),
  volumes: z.array(z.string()).optional(),
  secrets: z.array(z.string()).optional(),
  configs: z.array(z.object({ source: z.string(), target: z.string() })).optional(),
  profiles: z.array(z.string()).optional(),
  depends_on: z.record(z.string(), z.object({ condition: z.string() })).optional(),
  command: z.array(z.string()).optional(),
});
const Compose = z.object({
  services: z.record(z.string(), Service),
  configs: z.record(z.string(), z.object({ content: z.string() })),
  secrets: z.record(z.string(), z.object({ file: z.string() })),
  volumes: z.record(z.string(), z.null()),
});

const text = readFileSync('docker-compose.yml', 'utf8');
const compose = Compose.parse(parse(text, { merge: true }));
const image = readFileSync('Dockerfile', 'utf8');
const services = Object.entries(compose.services);
const app = compose.services.app;
/** Compose writes a dollar twice where it is not to put a setting in. */
const script = (name: string) => (compose.configs[name]?.content ?? '').replaceAll('$$', '$');

describe('the account of the app', () => {
  const account = `${inject('databasePrefix')}_account`;
  const password = 'only-for-this-test';
  const root = inject('databaseTemplate');
  const asAccount = (database: string) => {
    const url = new URL(withDatabase(root, database));
    [url.username, url.password] = [account, password];
    return url.href;
  };

  beforeAll(async () => {
    const lines = /<<'SQL'\n([^]*?)\n\s*SQL/.exec(script('account'))?.[1] ?? '';
    for (const line of lines.split('\n'))
      await query(root, line.replaceAll(":'password'", `'${password}'`).replaceAll('rimebook', account));
  });
  afterAll(async () => {
    await drop(withDatabase(root, account));
    await query(root, `DROP ROLE IF EXISTS "${account}"`);
  });

  it('owns its database, is no superuser, makes every layout and reaches for nothing outside', async () => {
    expect(
      await query(root, 'SELECT rolsuper, rolcreaterole, rolreplication, rolbypassrls FROM pg_roles WHERE rolname = $1', [account]),
    ).toEqual([{ rolsuper: false, rolcreaterole: false, rolreplication: false, rolbypassrls: false }]);
    await migrate(asAccount(account));
    expect(await pending(asAccount(account))).toEqual([]);
    await expect(query(asAccount(account), `COPY (SELECT 1) TO PROGRAM 'true'`)).rejects.toThrow(/permission denied/);
    await expect(query(asAccount(account), `SELECT pg_read_file('/etc/hostname')`)).rejects.toThrow(/permission denied/);
    // An update is tried on a copy: it may make one.
    await query(asAccount(account), `CREATE DATABASE "${account}_copy"`);
    await drop(asAccount(`${account}_copy`));
  });

  it('is the one that the app signs in with; the administrator’s password reaches the database alone', () => {
    const { username, password: written, hostname } = new URL(app?.environment.DATABASE_URL ?? '');
    expect([username, written, hostname]).toEqual(['rimebook', '', 'database']);
    expect(script('account')).toMatch(/CREATE ROLE rimebook LOGIN NOSUPERUSER/);
    expect(services.filter(([, s]) => s.secrets?.includes('administrator_password')).map(([name]) => name)).toEqual(['database']);
    expect(compose.services.database?.environment.POSTGRES_PASSWORD_FILE).toBe('/run/secrets/administrator_password');
    // A shell reads it without complaint.
    execFileSync('sh', ['-n'], { input: script('account') });
  });
});

describe('each service', () => {
  it('is one of these', () =>
    expect(services.map(([name]) => name)).toEqual(['app', 'second', 'worker', 'backup', 'database', 'front', 'front-of-two']));

  it.each(services)('%s has bounds, a log that does not grow, no new privileges, and is started again', (_, s) => {
    expect(s).toMatchObject({
      mem_limit: expect.stringMatching(/^(256m|512m|2g)$/),
      cpus: expect.toSatisfy((n: number) => n > 0 && n <= 2),
      pids_limit: expect.toSatisfy((n: number) => n > 0 && n <= 300),
      restart: 'unless-stopped',
      init: true,
      security_opt: ['no-new-privileges:true'],
      logging: { driver: 'json-file', options: { 'max-size': '10m', 'max-file': '5' } },
    });
    expect(s).not.toHaveProperty('privileged');
    expect(s).not.toHaveProperty('network_mode');
  });

  it.each(services)('%s says whether it is well, as its image does or for itself', (name, s) => {
    if (s.build === undefined || name === 'backup') expect(s.healthcheck?.test[0]).toMatch(/^CMD/);
    else expect([s.healthcheck, /HEALTHCHECK[^]*\/api\/health/.test(image)]).toEqual([undefined, true]);
  });

  it.each(services.filter(([, s]) => s.build !== undefined))('%s, which is ours, holds no right of the system', (_, s) => {
    expect(s).toMatchObject({ build: '.', cap_drop: ['ALL'] });
    expect(image).toMatch(/\nUSER node\n/);
  });

  it('of the images from outside names at least its version', () => {
    expect(services.flatMap(([, s]) => s.image ?? [])).toEqual(['postgres:18-bookworm', 'caddy:2', 'caddy:2']);
  });

  it('waits for what is there, and for what says that it is well', () => {
    for (const [name, s] of services)
      for (const [other, { condition }] of Object.entries(s.depends_on ?? {})) {
        expect([name, condition]).toEqual([name, 'service_healthy']);
        // One that is started always may not wait for one of a profile.
        expect(compose.services[other]?.profiles ?? []).toEqual([]);
      }
  });

  it('takes volumes and configurations that stand below, none stands there for nothing', () => {
    const volumes = services.flatMap(([, s]) => s.volumes ?? []).map((v) => v.split(':')[0]);
    expect(Object.keys(compose.volumes).toSorted()).toEqual([...new Set(volumes)].toSorted());
    const configs = services.flatMap(([, s]) => s.configs?.map((c) => c.source) ?? []);
    expect(Object.keys(compose.configs).toSorted()).toEqual([...new Set(configs)].toSorted());
    const secrets = services.flatMap(([, s]) => s.secrets ?? []);
    expect(Object.keys(compose.secrets).toSorted()).toEqual([...new Set(secrets)].toSorted());
  });

  it('but for the front is out of the network’s reach: the app on this machine alone, the database not at all', () => {
    expect(services.flatMap(([name, s]) => (s.ports ? [[name, ...s.ports]] : []))).toEqual([
      ['app', '127.0.0.1:${RIMEBOOK_PORT:-3000}:3000'],
      ['front', '80:80', '443:443'],
      ['front-of-two', '80:80', '443:443'],
    ]);
    expect(script('front')).toMatch(/health_uri \/api\/health/);
  });

  it('the worker runs what runs by itself, whatever is set; the two that answer leave it where it is told', () => {
    expect(compose.services.worker?.environment.RIMEBOOK_JOBS).toBe('on');
    for (const name of ['app', 'second']) expect(compose.services[name]?.environment.RIMEBOOK_JOBS).toBe('${RIMEBOOK_JOBS:-on}');
  });
});

describe('a backup', () => {
  it('is well while the last, or the start, is younger than 26 hours', () => {
    const home = mkdtempSync(path.join(os.tmpdir(), 'rimebook-compose-'));
    try {
      const backup = compose.services.backup;
      expect(backup?.command?.at(-1)).toMatch(
        /^touch \/tmp\/begun; while :; do sleep 86400 & wait; node scripts\/backup\.mjs --folder \/backups /,
      );
      const asked = (backup?.healthcheck?.test[1] ?? '')
        .replaceAll('/backups', `${home}/backups`)
        .replaceAll('/tmp/begun', `${home}/begun`);
      const well = (prepare: string) => {
        execFileSync('sh', ['-ec', prepare], { cwd: home });
        try {
          execFileSync('sh', ['-c', asked], { stdio: 'ignore' });
          return true;
        } catch {
          return false;
        }
      };
      expect([
        well('mkdir backups; touch begun'),
        well("touch -d '27 hours ago' begun"),
        well("touch -d '25 hours ago' backups/shop.rimebook"),
        well("touch -d '27 hours ago' backups/shop.rimebook"),
      ]).toEqual([true, false, true, false]);
    } finally {
      rmSync(home, { recursive: true, force: true });
    }
  });
});

describe('secrets', () => {
  const written = Object.values(app?.environment ?? {}).join('\n');

  it('stand in files, not in the environment of a container', () => {
    for (const [name, s] of services)
      for (const setting of Object.keys(s.environment)) {
        const secret = SECRETS.some((one) => one === setting) && setting !== 'DATABASE_URL' && setting !== 'DATABASE_REPLICA_URL';
        // Who asks a bucket is a name, and opens nothing without its secret.
        if (setting !== 'RIMEBOOK_PICTURES_KEY') expect([name, setting, secret || /^[A-Z_]*PASSWORD$/.test(setting)]).toEqual([name, setting, false]); // prettier-ignore
      }
    expect(written).not.toMatch(/:[^/@\s]+@/);
  });

  it('made as the first lines say, they are what the app starts with', async () => {
    const home = mkdtempSync(path.join(os.tmpdir(), 'rimebook-compose-'));
    try {
      const steps = [...text.matchAll(/^# {3}((?:mkdir|for|touch) .*)$/gm)].map(([, step]) => step ?? '');
      expect(steps).toHaveLength(3);
      execFileSync('sh', ['-ec', steps.join('\n')], { cwd: home });
      expect(statSync(path.join(home, 'secrets')).mode & 0o777).toBe(0o700);
      for (const { file } of Object.values(compose.secrets)) expect(statSync(path.join(home, file)).mode & 0o444).toBe(0o444);
      // As compose puts it together: what .env does not set is what stands behind :-, and a secret lies where it is mounted.
      for (const [name, value] of Object.entries(app?.environment ?? {})) {
        const put = value.replace(/\$\{\w+:-([^}]*)\}/g, '$1').replace(/^\/run\/secrets\/(\w+)$/, (_, one: string) => path.join(home, compose.secrets[one]?.file ?? '')); // prettier-ignore
        expect([name, put]).not.toEqual([name, expect.stringContaining('$')]);
        vi.stubEnv(name, put);
      }
      for (const name of ['NEXTAUTH_SECRET', 'DATABASE_PASSWORD']) vi.stubEnv(name, undefined);
      vi.resetModules();
      const { env } = await import('@/lib/server/process/env');
      const settings = env();
      expect(settings.NEXTAUTH_SECRET).toMatch(/^[0-9a-f]{64}$/);
      expect(new URL(settings.DATABASE_URL).password).toBe(readFileSync(path.join(home, 'secrets/database_password'), 'utf8').trim());
      expect([settings.NEXTAUTH_SECRET_BEFORE, settings.SMTP_URL]).toEqual([undefined, undefined]);
    } finally {
      rmSync(home, { recursive: true, force: true });
    }
  });

  it('leave neither with the image nor with the code', () => {
    for (const file of ['.dockerignore', '.gitignore']) expect(readFileSync(file, 'utf8')).toMatch(/^secrets\/?$/m);
    expect(image).toMatch(/COPY .*lib\/database\/secret-files\.mjs/);
  });

  it('and settings that .env may hold stand in .env.example', () => {
    const example = readFileSync('.env.example', 'utf8');
    const known = new Set([...example.matchAll(/^#?([A-Z_]+)=/gm)].map(([, name]) => name));
    // The name and the backups kept are told in the first lines of docker-compose.yml, whose own they are.
    const own = new Set([...text.slice(0, text.indexOf('\nx-limits')).matchAll(/\b([A-Z][A-Z_]{3,})\b/g)].map(([, name]) => name));
    const asked = [...text.matchAll(/\$\{([A-Z_]+)/g)].map(([, name]) => name ?? '').filter((name) => !known.has(name) && !own.has(name));
    expect(asked).toEqual([]);
  });
});
