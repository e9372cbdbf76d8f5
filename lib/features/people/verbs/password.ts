import 'server-only';
import { hash, verify } from '@node-rs/argon2';

// RFC 9106, second recommended option scaled to a small server: argon2id, 19 MiB, 2 passes (OWASP cheat sheet).
const OPTIONS = { memoryCost: 19_456, timeCost: 2, parallelism: 1 } as const;

export const hashPassword = (password: string) => hash(password, OPTIONS);

/** False for a wrong password or a damaged hash. */
export async function passwordMatches(stored: string, password: string): Promise<boolean> {
  try {
    return await verify(stored, password);
  } catch {
    return false;
  }
}

let decoy: Promise<string> | undefined;
/** A hash nobody's password matches, so that an unknown address takes as long as a wrong password. */
export const decoyHash = () => (decoy ??= hashPassword(`decoy ${Math.random()}`));
