const PASSWORD_MIN = 12;
const PASSWORD_MAX = 200;

/** The whole rule, as it stands beside the field. */
export const PASSWORD_RULE = `At least ${PASSWORD_MIN} characters. Not the name, the e-mail or one of the common ones. Length beats oddness: four plain words do well.`;

/** Stems that head every list of leaked passwords (common knowledge); matched with digits and marks stripped. */
const COMMON = [
  'password',
  'passwort',
  'qwerty',
  'qwertyuiop',
  'letmein',
  'welcome',
  'iloveyou',
  'admin',
  'administrator',
  'football',
  'baseball',
  'sunshine',
  'princess',
  'dragon',
  'monkey',
  'superman',
  'trustno',
  'changeme',
  'rimebook',
];

const letters = (s: string) => s.toLowerCase().replace(/[^\p{L}]/gu, '');

/** What is wrong with a new password, in one sentence; null when it will do. */
export function passwordProblem(password: string, about: { name?: string; email?: string } = {}): string | null {
  if ([...password].length < PASSWORD_MIN) return `Too short: at least ${PASSWORD_MIN} characters.`;
  if (password.length > PASSWORD_MAX) return `Too long: at most ${PASSWORD_MAX} characters.`;
  if (new Set(password).size < 4) return 'Too few different characters.';
  if (/^\d{1,15}$/.test(password)) return 'Digits alone are guessed first. Add words.';
  const bare = letters(password);
  if (COMMON.includes(bare)) return 'That is one of the first passwords anyone tries.';
  const [box, domain] = about.email?.split('@') ?? [];
  const own = [box, domain?.split('.')[0], about.name, ...(about.name?.split(/\s+/) ?? [])].map((s) => letters(s ?? ''));
  if (bare.length > 0 && own.some((s) => s.length > 2 && (s === bare || (bare.includes(s) && bare.length - s.length < 4))))
    return 'That is too close to the name or the e-mail.';
  return null;
}
