import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { transform } from 'esbuild';

const MAP = /\n*\/\/# sourceMappingURL=.*\s*$/;

/**
 * Makes the built server's files smaller to hold in memory, the same to run: of files that differ by their name alone the first stays and
 * the others name it, names and blanks are shortened, and letters beyond Latin-1 are written as escapes (one, a curly apostrophe say, makes V8
 * keep all of a file's text in two bytes a character). Functions stay where they are: the framework's own minifier writes one that is called once
 * into the place of the call, where it is made anew each time, and the refit's arithmetic took half as long again. Nobody reads the maps of
 * these files, so their names go.
 * @param {string} folder of the server's chunks @returns {Promise<{ twins: number, shortened: number }>} files that name another, and the others
 */
export async function lightenServer(folder) {
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter(
    (file) => file.endsWith('.js') && !path.basename(file).startsWith('[turbopack]'),
  );
  const firstWith = new Map();
  let twins = 0;
  for (const file of files.sort()) {
    const at = path.join(folder, file);
    const text = readFileSync(at, 'utf8').replace(MAP, '\n');
    const other = firstWith.get(text);
    if (other === undefined) {
      firstWith.set(text, at);
    } else {
      const way = path.relative(path.dirname(at), other).split(path.sep).join('/');
      writeFileSync(at, `module.exports=require(${JSON.stringify(way.startsWith('.') ? way : `./${way}`)});\n`);
      twins++;
    }
  }
  await Promise.all(
    [...firstWith].map(async ([text, at]) => {
      const { code } = await transform(text, { charset: 'ascii', minify: true, legalComments: 'inline' });
      writeFileSync(at, code);
    }),
  );
  return { twins, shortened: firstWith.size };
}
