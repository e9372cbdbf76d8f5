import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { ROLES } from '@/lib/core/people/access';

// docs/threats.md names each door: a new one without its row is a model of threats that nobody read anew.
const page = readFileSync('docs/threats.md', 'utf8');
const doors = page.slice(page.indexOf('## Doors'), page.indexOf('## What could go wrong'));
const named = (shape: RegExp) => [...doors.matchAll(shape)].map(([, name]) => name ?? '').toSorted();

/** The noun of an address, with the one behind it where the first says nothing. */
function nounOf(file: string): string {
  const parts = path.dirname(file).replace(/\(\w+\)\/?/g, '').replace(/\/?\[.*$/, '').split('/'); // prettier-ignore
  return parts[0] === '.' ? '/' : `/${parts.slice(0, parts[0] === 'api' ? 2 : 1).join('/')}`;
}

describe('docs/threats.md names', () => {
  it('every way in without a sign-in', () => {
    const entrances = readdirSync('app', { recursive: true, encoding: 'utf8' }).filter((f) =>
      /(^|\/)(page\.tsx|route\.ts|actions\.ts)$/.test(f),
    );
    const open = entrances.filter((file) => {
      const code = readFileSync(path.join('app', file), 'utf8');
      return /define(Page|Route|FormAction)\(\s*'public'/.test(code) || !/define(Page|Route|FormAction|Call)\(/.test(code);
    });
    expect(open.length).toBeGreaterThan(25);
    expect(named(/`(\/[\w/-]*)`/g)).toEqual([...new Set(open.map((file) => nounOf(file)))].toSorted());
  });

  it('every record whose secret opens something', () => {
    const schema = readFileSync('prisma/schema.prisma', 'utf8');
    const models = [...schema.matchAll(/^model (\w+) \{([^]*?)^\}/gm)];
    const links = models.filter(([, , body]) => /^\s+(tokenHash|feedHash)\s/m.test(body ?? '')).map(([, name]) => name ?? '');
    expect(named(/`([A-Z][a-z]\w+)`/g)).toEqual(links.toSorted());
  });

  it('every role, and every service that settings let the server or a browser reach', () => {
    expect(named(/`(owner|dispatcher|technician|[a-z]{3,})`/g).filter((name) => !name.includes('/'))).toEqual([...ROLES].toSorted());
    const settings = [...readFileSync('lib/server/process/env.ts', 'utf8').matchAll(/^ {2}([A-Z_]+):/gm)].map(([, name]) => name ?? '');
    const reached = settings.filter((name) => /(^(DATABASE|SMTP).*URL|TILES|GEOCODER|PICTURES|PICTURES_BEFORE)$/.test(name));
    expect(named(/`([A-Z_]{5,})`/g)).toEqual(reached.toSorted());
  });
});
