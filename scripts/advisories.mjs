// Asks the package registry for advisories on what the app runs with. Grave ones (high, critical) end it with an error; a registry
// that does not answer is said, and is no failure: a build has no right to the network.
import './support/node-version.mjs';
import { spawnSync } from 'node:child_process';
import { inProject } from './support/paths.mjs';

const GRAVE = ['high', 'critical'];

const asked = spawnSync('npm', ['audit', '--omit=dev', '--json', '--fetch-retries=1', '--fetch-timeout=20000'], {
  cwd: inProject(),
  encoding: 'utf8',
  maxBuffer: 64 * 1024 * 1024,
  timeout: 90_000,
  shell: process.platform === 'win32',
});

function report() {
  try {
    return JSON.parse(asked.stdout);
  } catch {
    return {};
  }
}

const { vulnerabilities, metadata } = report();
if (!vulnerabilities || !metadata) {
  console.log('Advisories: the registry does not answer; not looked at.');
} else {
  const found = Object.values(vulnerabilities);
  const grave = found.filter((v) => GRAVE.includes(v.severity));
  console.log(
    `Advisories: ${grave.length} grave, ${found.length - grave.length} lesser, on ${metadata.dependencies?.prod ?? 'the'} packages.`,
  );
  for (const { name, severity, via } of grave)
    console.log(`  ${name}: ${severity}. ${via.map((v) => (typeof v === 'string' ? `by ${v}` : `${v.title} ${v.url}`)).join('; ')}`);
  if (grave.length > 0) process.exitCode = 1;
}
