import 'server-only';
import { createTransport } from 'nodemailer';
import SMTPTransport from 'nodemailer/lib/smtp-transport/index.js';
import { fieldOf } from '../../../core/typed/closed-set';

export type Letter = { id: string; toEmail: string; subject: string; text: string; ics: string; icsMethod: 'REQUEST' | 'CANCEL' | null };
/** 'refused': it certainly did not go out, so it may be tried again. 'unknown': it may have. */
export type SendResult = { is: 'sent' } | { is: 'refused' | 'unknown'; said: string };
export type Mailer = { send: (letter: Letter) => Promise<SendResult>; close: () => void };

const quiet = () => {};

/** A mail server, one connection a message. */
export function mailer(smtpUrl: string, from: string): Mailer {
  // The commands of a talk pass through its log: after DATA the server may have the message, whatever we hear of it.
  let dataAsked = false;
  const watch = (entry: { tnx?: string }, command: unknown) => {
    if (entry.tnx === 'client' && command === 'DATA') dataAsked = true;
  };
  const logger = { level: quiet, trace: quiet, debug: watch, info: quiet, warn: quiet, error: quiet, fatal: quiet };
  const transport = createTransport(
    new SMTPTransport({
      url: smtpUrl,
      transactionLog: true,
      logger: logger as never,
      connectionTimeout: 30_000,
      greetingTimeout: 30_000,
      // RFC 5321 4.5.3.2 gives a server up to ten minutes to say that it has the message.
      socketTimeout: 600_000,
    }),
  );
  return {
    close: () => transport.close(),
    async send(m) {
      dataAsked = false;
      try {
        await transport.sendMail({
          from,
          to: m.toEmail,
          subject: m.subject,
          text: m.text,
          // The identity stays the same over tries, so that a receiver can tell a repeat.
          messageId: `<${m.id}@rimebook>`,
          icalEvent: m.icsMethod ? { method: m.icsMethod, content: m.ics, filename: 'visit.ics' } : undefined,
        });
        return { is: 'sent' };
      } catch (e) {
        const said = e instanceof Error ? e.message.slice(0, 500) : 'unknown';
        // A reply with a number is the server's own no.
        const answered = typeof fieldOf(e, 'responseCode') === 'number';
        return { is: answered || !dataAsked ? 'refused' : 'unknown', said };
      }
    },
  };
}
