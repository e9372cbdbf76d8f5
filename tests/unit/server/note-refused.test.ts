import { afterAll, expect, it, vi } from 'vitest';
import { noteRefused } from '@/lib/server/people/note-refused';
import { log } from '@/lib/server/process/log';
import { metrics } from '@/lib/server/process/metrics';

// The environment is read once a process.
vi.hoisted(() => vi.resetModules());
afterAll(() => void vi.resetModules());

it('a refused sign-in is counted by its reason, and its line in the log names nobody', async () => {
  metrics().registry.resetMetrics();
  vi.stubEnv('DATABASE_URL', 'postgresql://nowhere');
  vi.stubEnv('NEXTAUTH_SECRET', 'only-for-this-test-of-refusals');
  const said = vi.spyOn(log, 'warn').mockImplementation(() => {});
  noteRefused('not_allowed', 'cook@lantern.example', '198.51.100.7');
  noteRefused('not_allowed', 'cook@lantern.example', '198.51.100.8');
  const lines = said.mock.calls.map(([fields]) => fields as unknown as Record<string, string>);
  expect(lines.map((l) => [l.event, l.why])).toEqual([
    ['sign_in_refused', 'not_allowed'],
    ['sign_in_refused', 'not_allowed'],
  ]);
  // One account is seen to be one, two addresses to be two.
  expect(new Set(lines.map((l) => l.account)).size).toBe(1);
  expect(new Set(lines.map((l) => l.from)).size).toBe(2);
  expect(JSON.stringify(lines)).not.toMatch(/lantern|cook|198\.51/);
  expect(await metrics().registry.metrics()).toMatch(/rimebook_sign_in_refused_total\{why="not_allowed"\} 2/);
});
