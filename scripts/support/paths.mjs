import path from 'node:path';

/** The project's own folder: every script works from here, wherever it was called from. */
export const root = path.resolve(import.meta.dirname, '../..');

/** @param {...string} parts a path inside the project */
export const inProject = (...parts) => path.join(root, ...parts);

/** What a running copy keeps: databases, secret, uploads. Never in version control. */
export const keep = inProject('.data');

export const nextBin = inProject('node_modules/next/dist/bin/next');
export const prismaBin = inProject('node_modules/prisma/build/index.js');
export const tsxBin = inProject('node_modules/tsx/dist/cli.mjs');
