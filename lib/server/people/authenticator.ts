import 'server-only';
import { Secret, TOTP } from 'otpauth';
import encodeQR from 'qr';

/** A fresh secret of 160 bits (RFC 4226, 4 R6) and the address that an authenticator reads from a code. */
export function newSecret(email: string): { secret: string; address: string } {
  const secret = new Secret({ size: 20 });
  return { secret: secret.base32, address: new TOTP({ issuer: 'Rimebook', label: email, secret }).toString() };
}

/** A QR code as one path: a square of 1 for each dark module, with the quiet zone (ISO/IEC 18004). @returns the path and its width */
export function qrPath(text: string): { path: string; size: number } {
  const rows = encodeQR(text, 'raw', { ecc: 'medium', border: 4 });
  const path = rows.flatMap((row, y) => row.map((dark, x) => (dark ? `M${x} ${y}h1v1h-1z` : ''))).join('');
  return { path, size: rows.length };
}
