import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { SECRETS, takeSecretFiles, withSecretFiles } from '@/lib/database/secret-files.mjs';

let folder = '';
const file = (name: string, text: string) => {
  const at = path.join(folder, name);
  writeFileSync(at, text);
  return at;
};
beforeAll(() => void (folder = mkdtempSync(path.join(os.tmpdir(), 'rimebook-secrets-'))));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('a secret in a file', () => {
  it.each(SECRETS.filter((name) => name !== 'DATABASE_PASSWORD'))('%s is read, without the end of its line, and no more', (name) => {
    for (const [written, is] of [
      ['value of it\n', 'value of it'],
      ['value of it\r\n', 'value of it'],
      [' a\nb \n', ' a\nb '],
    ] as const)
      expect(withSecretFiles({ LOG_LEVEL: 'info', [`${name}_FILE`]: file(name, written) })).toEqual({ LOG_LEVEL: 'info', [name]: is });
  });

  it('that is empty, or not named, is not set', () => {
    expect(withSecretFiles({ SMTP_URL_FILE: file('empty', '\n'), NEXTAUTH_SECRET_FILE: '' })).toEqual({});
    expect(withSecretFiles({ SMTP_URL: '', SMTP_URL_FILE: file('mail', 'smtp://mail') })).toEqual({ SMTP_URL: 'smtp://mail' });
    expect(withSecretFiles({ SMTP_URL: 'smtp://mail' })).toEqual({ SMTP_URL: 'smtp://mail' });
  });

  it('that cannot be read, or is given twice, is told by name, and what it holds is not', () => {
    const twice = () => withSecretFiles({ NEXTAUTH_SECRET: 'one', NEXTAUTH_SECRET_FILE: file('two', 'deep in the file') });
    expect(twice).toThrow('NEXTAUTH_SECRET and NEXTAUTH_SECRET_FILE are both set.');
    expect(() => withSecretFiles({ SMTP_URL_FILE: path.join(folder, 'nowhere') })).toThrow(
      /^SMTP_URL_FILE: .*nowhere cannot be read \(ENOENT\)/,
    );
  });

  it('the database’s password is put into its address and its replica’s, whatever signs it has, and none is put over another', () => {
    const DATABASE_PASSWORD_FILE = file('password', 'a/b:c@d%20 e\n');
    const both = withSecretFiles({ DATABASE_URL: 'postgresql://rime@db:5432/shop', DATABASE_REPLICA_URL: 'postgresql://rime@copy/shop', DATABASE_PASSWORD_FILE }); // prettier-ignore
    for (const address of Object.values(both)) expect(decodeURIComponent(new URL(address ?? '').password)).toBe('a/b:c@d%20 e');
    expect(Object.keys(both)).toEqual(['DATABASE_URL', 'DATABASE_REPLICA_URL']);
    expect(new URL(both.DATABASE_URL ?? '').host).toBe('db:5432');
    expect(() => withSecretFiles({ DATABASE_URL: 'postgresql://rime:own@db/shop', DATABASE_PASSWORD_FILE })).toThrow('Which of the two?');
  });

  it('is handed once to what a command starts: the file is not named again', () => {
    vi.stubEnv('SMTP_URL', undefined);
    vi.stubEnv('SMTP_URL_FILE', file('handed', 'smtp://mail'));
    takeSecretFiles();
    expect([process.env.SMTP_URL, process.env.SMTP_URL_FILE]).toEqual(['smtp://mail', undefined]);
    delete process.env.SMTP_URL;
  });

  it('is one of those that the settings name: none of the app’s secrets is left to the environment alone', () => {
    const settings =
      readFileSync('lib/server/process/env.ts', 'utf8')
        .match(/^ {2}[A-Z_]+(?=:)/gm)
        ?.map((s) => s.trim()) ?? [];
    const secret = settings.filter((name) => /SECRET|TOKEN|CODE|KEY|DATABASE.*URL|SMTP_URL/.test(name) && name !== 'RIMEBOOK_GEOCODER');
    expect(secret.length).toBeGreaterThan(7);
    expect(SECRETS).toEqual(expect.arrayContaining(secret));
  });
});
