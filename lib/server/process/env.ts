import 'server-only';
import { z } from 'zod';
import { withSecretFiles } from '../../database/secret-files.mjs';
import { tileHost } from '../position/tile-host';

/** A setting that is there and empty, as docker compose hands it on, is not set. */
const unset = <T extends z.ZodType>(schema: T) => z.preprocess((v) => (v === '' ? undefined : v), schema.optional());

const PictureStore = z
  .string()
  .regex(
    /^(database|folder:\/.*|s3:https?:\/\/[^/]+\/[^/].*)$/,
    'RIMEBOOK_PICTURES: database, folder:/an/absolute/path or s3:https://host/bucket',
  );

const Env = z.object({
  DATABASE_URL: z.string().min(1, 'DATABASE_URL: where is the PostgreSQL database?'),
  /** A replica that follows it by streaming, for the owner's pages; without it they read the shop's own. */
  DATABASE_REPLICA_URL: unset(z.string()),
  /** `off`: this process answers and leaves what runs by itself to another one. */
  RIMEBOOK_JOBS: unset(z.enum(['on', 'off'], 'RIMEBOOK_JOBS: on or off')),
  NEXTAUTH_SECRET: z.string().min(16, 'NEXTAUTH_SECRET: at least 16 characters'),
  /** The one before, while it is being changed: what it signed and sealed still counts, and nothing new is made with it. */
  NEXTAUTH_SECRET_BEFORE: unset(z.string().min(16, 'NEXTAUTH_SECRET_BEFORE: at least 16 characters')),
  NEXTAUTH_URL: z.string().default('http://localhost:3000'),
  /** Addresses or networks of the proxies in front whose x-forwarded-for is believed, with commas; also `loopback`, `uniquelocal`. */
  TRUSTED_PROXIES: z.string().default(''),
  /** The code for the first owner of a new shop; without it, one that follows from the secret. */
  RIMEBOOK_SET_UP_CODE: z.string().min(12, 'RIMEBOOK_SET_UP_CODE: at least 12 characters').optional(),
  /** Without it, messages wait in the outbox. */
  SMTP_URL: z.string().optional(),
  MAIL_FROM: z.string().default('Rimebook <rimebook@localhost>'),
  /** Whoever has it may read the numbers of `/api/metrics`; without it there is no such page. */
  RIMEBOOK_METRICS_TOKEN: z.string().min(16, 'RIMEBOOK_METRICS_TOKEN: at least 16 characters').optional(),
  /** Where pictures of the map come from, `{z}/{x}/{y}`; without it the map is a plain grid. */
  RIMEBOOK_MAP_TILES: unset(
    z
      .string()
      .refine((t) => tileHost(t) !== '', 'RIMEBOOK_MAP_TILES: an address that begins with https:// and a host')
      .refine((t) => ['{z}', '{x}', '{y}'].every((part) => t.includes(part)), 'RIMEBOOK_MAP_TILES: it must hold {z}, {x} and {y}'),
  ),
  /** Whose map it is, as its terms ask, and where that is read about. */
  RIMEBOOK_MAP_ATTRIBUTION: z.string().max(200, 'RIMEBOOK_MAP_ATTRIBUTION: at most 200 characters').default(''),
  RIMEBOOK_MAP_ATTRIBUTION_LINK: unset(z.url({ protocol: /^https?$/, error: 'RIMEBOOK_MAP_ATTRIBUTION_LINK: an address' })),
  /** A service with Nominatim’s `search`; without it nobody is asked where an address is. */
  RIMEBOOK_GEOCODER: unset(z.url({ protocol: /^https?$/, error: 'RIMEBOOK_GEOCODER: an address that begins with https://' })),
  /** Where new pictures are kept: `database` (also without it), `folder:/an/absolute/path` or `s3:https://host/bucket/prefix`. */
  RIMEBOOK_PICTURES: unset(PictureStore),
  /** Where older ones lie until they have been moved; the database is looked into in any case. */
  RIMEBOOK_PICTURES_BEFORE: unset(PictureStore),
  /** Who asks a bucket, and its region. */
  RIMEBOOK_PICTURES_KEY: unset(z.string()),
  RIMEBOOK_PICTURES_SECRET: unset(z.string()),
  RIMEBOOK_PICTURES_REGION: unset(z.string()),
  LOG_LEVEL: z.enum(['trace', 'debug', 'info', 'warn', 'error', 'silent']).default('info'),
  /** Fixes today's date and time for tests: ISO instant at which the server clock starts. */
  RIMEBOOK_CLOCK: z.string().optional(),
});
export type Env = z.infer<typeof Env>;

let parsed: Env | undefined;

/** The environment, validated once; a clear error names every variable that is wrong. */
export function env(): Env {
  if (parsed) return parsed;
  const result = Env.safeParse(withSecretFiles(process.env));
  if (!result.success) throw new Error(`Environment: ${result.error.issues.map((i) => i.message).join('; ')}`);
  parsed = result.data;
  return parsed;
}
