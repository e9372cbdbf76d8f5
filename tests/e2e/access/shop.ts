import { createHash, randomBytes, randomUUID } from 'node:crypto';
import pg from 'pg';

/** Two of everything that can be somebody's: the one who asks, and somebody else. */
export type Theirs = {
  visit: string;
  picture: string;
  link: string;
  /** Of a customer's page, with a report and a summary that were sent. */
  page: string;
  kitchen: string;
  quote: string;
  quoteId: string;
  feed: string;
  holder: string;
  device: string;
  session: string;
};
export type Ids = {
  own: Theirs;
  foreign: Theirs;
  shop: {
    customer: string;
    kitchen: string;
    unit: string;
    person: string;
    cylinder: string;
    importRun: string;
    planRun: string;
    job: string;
    quote: string;
  };
};

const hash = (text: string) => createHash('sha256').update(text).digest('hex');
const token = () => randomBytes(32).toString('base64url');

/** The shop's database from below, past every gate. */
export async function openShop(url: string) {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  const one = async (sql: string, values: unknown[] = []): Promise<string> => String((await client.query(sql, values)).rows[0]?.id);

  // Nobody is in two places at once.
  let day = 300;
  /** A kitchen of its own with a booked visit, a picture, an invitation, a calendar address, a session and a tablet of this person. */
  async function theirs(userId: string): Promise<Theirs> {
    const name = `Access ${randomUUID()}`;
    const customer = await one(`INSERT INTO "Customer" (id, name) VALUES (gen_random_uuid(), $1) RETURNING id`, [name]);
    const kitchen = await one(
      `INSERT INTO "Kitchen" (id, "customerId", name, "timeZone") VALUES (gen_random_uuid(), $1, $2, 'America/Chicago') RETURNING id`,
      [customer, name],
    );
    const visit = await one(
      `INSERT INTO "Visit" (id, "kitchenId", "technicianId", "startsAt", "endsAt", "updatedAt")
       VALUES (gen_random_uuid(), $1, $2, now() + $3::int * interval '1 day', now() + $3::int * interval '1 day' + interval '1 hour', now())
       RETURNING id`,
      [kitchen, userId, day++],
    );
    await client.query(`INSERT INTO "KeptPicture" (hash, bytes) VALUES (encode(sha256('x'), 'hex'), 'x') ON CONFLICT DO NOTHING`);
    const picture = await one(
      `INSERT INTO "StoredFile" (id, sha256, mime, width, height, content, thumbnail) VALUES (gen_random_uuid(), $1, 'image/jpeg', 1, 1, encode(sha256('x'), 'hex'), 'x') RETURNING id`,
      [hash(name)],
    );
    await client.query(`INSERT INTO "Photo" (id, "visitId", "takenAt", sha256, "fileId") VALUES (gen_random_uuid(), $1, now(), $2, $3)`, [
      visit,
      hash(name),
      picture,
    ]);
    const [link, feed, quote, page] = [token(), token(), token(), token()];
    const job = await one(
      `INSERT INTO "Job" (id, "kitchenId", source, state, what) VALUES (gen_random_uuid(), $1, 'call', 'quoted', $2) RETURNING id`,
      [kitchen, name],
    );
    const quoteId = await one(
      `INSERT INTO "Quote" (id, "jobId", version, lines, "netCents", "taxCents", "totalCents", currency, "validUntil", reason, "sentAt", "tokenHash")
       VALUES (gen_random_uuid(), $1, 1, '{"v":1,"lines":[]}', 0, 0, 0, 'USD', '2099-01-01', 'Worn out.', now(), $2) RETURNING id`,
      [job, hash(quote)],
    );
    await client.query(
      `INSERT INTO "CustomerLink" (id, "tokenHash", "visitId", "expiresAt") VALUES (gen_random_uuid(), $1, $2, now() + interval '30 days')`,
      [hash(link), visit],
    );
    await client.query(
      `INSERT INTO "CustomerPage" (id, "tokenHash", "feedHash", "customerId", "kitchenId", holder, language, "answersQuotes", "expiresAt")
       VALUES (gen_random_uuid(), $1, $2, $3, NULL, 'Ann Vale', 'en', true, now() + interval '30 days')`,
      [hash(page), hash(`${page}.ics`), customer],
    );
    await client.query(
      `INSERT INTO "QuarterSent" (id, "tokenHash", "customerId", "startsOn", language, "toEmail", "sentById", "expiresAt")
       VALUES (gen_random_uuid(), $1, $2, '2026-01-01', 'en', 'ann@vale.example', $3, now() + interval '30 days')`,
      [hash(token()), customer, userId],
    );
    await client.query(
      `INSERT INTO "ReportSent" (id, "tokenHash", "visitId", language, "toEmail", "expiresAt")
       VALUES (gen_random_uuid(), $1, $2, 'en', 'ann@vale.example', now() + interval '30 days')`,
      [hash(token()), visit],
    );
    await client.query(`INSERT INTO "CalendarFeed" (id, "tokenHash", "kitchenId") VALUES (gen_random_uuid(), $1, $2)`, [
      hash(feed),
      kitchen,
    ]);
    const session = await one(
      `INSERT INTO "StaffSession" (id, "userId", "expiresAt") VALUES (gen_random_uuid(), $1, now() + interval '1 day') RETURNING id`,
      [userId],
    );
    const device = await one(`INSERT INTO "Device" (id, "userId") VALUES (gen_random_uuid(), $1) RETURNING id`, [userId]);
    return { visit, picture, link, page, kitchen, quote, quoteId, feed, session, device, holder: userId };
  }

  return {
    person: (email: string) => one(`SELECT id FROM "User" WHERE email = $1`, [email]),

    /** What is on file for this person and for another, made now. A stranger's own is what a link opens. */
    async ids(userId: string, other: string): Promise<Ids> {
      const own = await theirs(userId);
      const foreign = await theirs(other);
      // A link that was taken back, and an address that is revoked, are nobody's.
      await client.query(`UPDATE "CustomerLink" SET "revokedAt" = now() WHERE "tokenHash" = $1`, [hash(foreign.link)]);
      await client.query(`UPDATE "Quote" SET "supersededAt" = now() WHERE "tokenHash" = $1`, [hash(foreign.quote)]);
      await client.query(`UPDATE "CustomerPage" SET "revokedAt" = now() WHERE "tokenHash" = $1`, [hash(foreign.page)]);
      await client.query(`UPDATE "CalendarFeed" SET "revokedAt" = now() WHERE "tokenHash" = $1`, [hash(foreign.feed)]);
      const shop = {
        customer: await one(`SELECT id FROM "Customer" ORDER BY "createdAt" LIMIT 1`),
        kitchen: await one(`SELECT "kitchenId" AS id FROM "Unit" WHERE "archivedAt" IS NULL ORDER BY id LIMIT 1`),
        unit: await one(`SELECT id FROM "Unit" WHERE "archivedAt" IS NULL ORDER BY id LIMIT 1`),
        person: other,
        cylinder: await one(
          `INSERT INTO "Cylinder" (id, label, refrigerant, contents, "tareKg", "firstKg", "mostKg") VALUES (gen_random_uuid(), gen_random_uuid()::text, 'R134a', 'new', 5, 8, 11) RETURNING id`,
        ),
        job: await one(`SELECT id FROM "Job" WHERE "closedAt" IS NULL ORDER BY number LIMIT 1`),
        quote: own.quoteId,
        importRun: await one(
          `INSERT INTO "ImportRun" (id, "createdById", "fileName", problems) VALUES (gen_random_uuid(), $1, 'a.csv', $2) RETURNING id`,
          [other, JSON.stringify({ problems: [], summary: {} })],
        ),
        planRun: await one(
          `INSERT INTO "PlanRun" (id, "createdById", "weekStart", status) VALUES (gen_random_uuid(), $1, '2030-01-07', 'cancelled') RETURNING id`,
          [other],
        ),
      };
      return { own, foreign, shop };
    },

    /**
     * A mark of everything on file by table; it differs after any write. When a session was last seen, how often somebody knocked, and how far
     * a letter or an archive is on its way is nobody's data; figures of the night come by themselves.
     */
    async mark(): Promise<Record<string, string>> {
      const { rows: tables } = await client.query<{ name: string }>(
        `SELECT tablename AS name FROM pg_tables WHERE schemaname = 'public' AND tablename NOT IN ('ArchivePiece', 'ArchiveRun', 'Brake', 'ForesightDay', 'ForesightMark', 'OutboxMessage', 'OwnerFigure', 'StaffSession', '_prisma_migrations')`,
      );
      const parts = tables.map(
        ({ name }) => `SELECT '${name}' AS name, count(*) || ':' || coalesce(max(xmin::text::bigint), 0) AS mark FROM "${name}"`,
      );
      parts.push(`SELECT 'StaffSession', count(*) || ':' || count("revokedAt") FROM "StaffSession"`);
      for (const table of ['OutboxMessage', 'ArchiveRun']) parts.push(`SELECT '${table}', count(*)::text FROM "${table}"`);
      const { rows } = await client.query<{ name: string; mark: string }>(parts.join(' UNION ALL '));
      return Object.fromEntries(rows.map((r) => [r.name, r.mark]));
    },

    /** As if everybody had given the password this long ago. */
    proven: (minutesAgo: number) =>
      client.query(`UPDATE "StaffSession" SET "provenAt" = "provenAt" - $1::int * interval '1 minute'`, [minutesAgo]),

    close: () => client.end(),
  };
}
export type Shop = Awaited<ReturnType<typeof openShop>>;
