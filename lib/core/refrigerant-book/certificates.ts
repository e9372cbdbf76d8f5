import type { LocalDate } from '../calendar';
import { POUND_KG } from '../measures';

/** Who may handle refrigerant, and whether it reaches a unit. Scopes from memory of 40 CFR 82.161 and Regulation (EU) 2015/2067; a licensed person decides. */

export const CERTIFICATE_KINDS = [
  'us_608_universal',
  'us_608_type_1',
  'us_608_type_2',
  'us_608_type_3',
  'eu_category_1',
  'eu_category_2',
  'other',
] as const;
export type CertificateKind = (typeof CERTIFICATE_KINDS)[number];

export const CERTIFICATE_LABEL: Record<CertificateKind, string> = {
  us_608_universal: 'Section 608, universal',
  us_608_type_1: 'Section 608, type I (small appliances)',
  us_608_type_2: 'Section 608, type II (high pressure)',
  us_608_type_3: 'Section 608, type III (low pressure)',
  eu_category_1: 'F-gas, category I',
  eu_category_2: 'F-gas, category II (up to 3 kg, 6 kg sealed)',
  other: 'Another licence',
};

export type CertificateOnFile = { id: string; kind: CertificateKind; number: string; expiresOn: LocalDate | null };
export type CertifiedUnit = { chargeKg: number | null; circuitAccess: 'sealed' | 'ports' };

/** 40 CFR 82.152: a small appliance leaves the factory charged and sealed, with five pounds or less. */
const SMALL_KG = 5 * POUND_KG;

function reaches(kind: CertificateKind, { chargeKg, circuitAccess }: CertifiedUnit): boolean {
  const sealed = circuitAccess === 'sealed';
  if (kind === 'us_608_type_1') return sealed && chargeKg !== null && chargeKg <= SMALL_KG;
  if (kind === 'us_608_type_3') return false;
  if (kind === 'eu_category_2') return chargeKg !== null && chargeKg < (sealed ? 6 : 3);
  return true;
}

export type Certified =
  | { holds: true; certificate: CertificateOnFile }
  /** `latest` is the one that has run out, or does not reach this unit. */
  | { holds: false; why: 'none' | 'expired' | 'another_unit'; latest: CertificateOnFile | null };

/** The certificate under which somebody may work on a unit on a day; the one that runs longest where there are several. */
export function certifiedFor(all: readonly CertificateOnFile[], unit: CertifiedUnit, on: LocalDate): Certified {
  const late = (c: CertificateOnFile) => c.expiresOn ?? '9999';
  const longest = [...all].sort((a, b) => (late(a) < late(b) ? 1 : -1));
  const running = longest.filter((c) => c.expiresOn === null || c.expiresOn >= on);
  const certificate = running.find((c) => reaches(c.kind, unit));
  if (certificate) return { holds: true, certificate };
  const [latest = null] = running.length > 0 ? running : longest;
  return { holds: false, why: latest === null ? 'none' : running.length > 0 ? 'another_unit' : 'expired', latest };
}
