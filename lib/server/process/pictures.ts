import 'server-only';
import { askOf } from '../../database/pictures/in-database';
import { picturesBy, type Pictures } from '../../database/pictures/picture-store.mjs';
import { db } from './db';
import { env } from './env';

let held: Pictures | undefined;

/** Where the shop's pictures are kept. @throws {Error} where the environment names a store that there cannot be */
export const pictures = (): Pictures => (held ??= picturesBy(env(), askOf(db())));
