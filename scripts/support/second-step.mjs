import { connected } from './connected.mjs';

/**
 * Turns off the second step of whoever signs in with this e-mail, and notes that it was done on the server.
 * @param {string} url @param {string} email @returns {Promise<string | null>} the person's name; null where nobody with a second step has it
 */
export const dropStepOf = (url, email) =>
  connected(url, async (client) => {
    const { rows } = await client.query(
      `WITH one AS (
         UPDATE "User" SET "secondStep" = NULL, "secondStepUsed" = 0, "spareCodes" = '{}'
         WHERE email = lower($1) AND "secondStep" IS NOT NULL RETURNING id, name
       ), noted AS (
         INSERT INTO "AuditEntry" (action, entity, "entityId", detail) SELECT 'person.second_step_lost', 'User', id::text, '{"v": 1}' FROM one
       )
       SELECT name FROM one`,
      [email.trim()],
    );
    return rows[0]?.name ?? null;
  });
