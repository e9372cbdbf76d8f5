/**
 * What the archive of everything leaves out, and why: what lets somebody in, what is only in use while the office runs, and
 * the archives themselves. docs/decisions/2026-11-27-everything-leaves.md says more.
 */
export const LEFT_OUT_MODELS: Readonly<Record<string, string>> = {
  PasswordLink: 'Opens a sign-in. Whoever is on file gets a new link after the archive was taken in.',
  StaffSession: 'Who is signed in just now; nobody is in the shop that the archive makes.',
  Brake: 'Counts tries at signing in, for minutes.',
  UploadChunk: 'Pictures half on their way from a tablet; they stand in the archive once they have arrived.',
  ArchiveRun: 'When archives like this one were made.',
  ArchivePiece: 'The archives themselves, until they expire.',
};

/** Columns of the models that are in: `Model.column`, and why it is left out. */
export const LEFT_OUT_COLUMNS: Readonly<Record<string, string>> = {
  'User.passwordHash': 'Lets guess a password. Each person chooses a new one by a link.',
  'User.secondStep': 'The secret shared with an authenticator. The second step is set up anew.',
  'User.secondStepUsed': 'The last code of that authenticator.',
  'User.spareCodes': 'Stand in for the second step.',
  'CalendarFeed.tokenHash': 'Opens a calendar. Addresses are given out anew.',
  'CustomerLink.tokenHash': 'Opens a visit to its customer. Old letters open nothing in another shop.',
  'Quote.tokenHash': 'Opens a quote to its customer.',
  'ReportSent.tokenHash': 'Opens a report to its customer.',
  'CustomerPage.tokenHash': 'Opens a customer’s page. Links are given out anew.',
  'CustomerPage.feedHash': 'Opens the calendar of such a page.',
  'QuarterSent.tokenHash': 'Opens a summary to its customer.',
};

/** Names that sound like a secret. One that is none is named below; any other is left out until somebody decides. */
const SOUNDS_SECRET = /hash|token|secret|password|spareCodes|secondStep|apiKey/i;
const NO_SECRET: ReadonlySet<string> = new Set(['KeptPicture.hash']);

/** Why a column is left out, or null where it is in. */
export function whyLeftOut(model: string, column: string): string | null {
  const name = `${model}.${column}`;
  const why = LEFT_OUT_COLUMNS[name];
  if (why) return why;
  return SOUNDS_SECRET.test(column) && !NO_SECRET.has(name) ? 'Its name sounds like a secret, and nobody has said that it is none.' : null;
}

/** Letters as they were sent, in which addresses stand that let their reader in: the long part of the address goes. */
export const LETTER_COLUMNS: ReadonlySet<string> = new Set(['OutboxMessage.text', 'OutboxMessage.html', 'OutboxMessage.ics']);
