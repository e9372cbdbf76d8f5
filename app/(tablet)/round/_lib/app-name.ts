export const APP_VERSION = '0.1.0';

/** What the office calls this tablet: enough to tell two apart. */
export function tabletName(userAgent: string): string {
  const kind = /iPad|iPhone|Android|Windows|Macintosh|CrOS|Linux/.exec(userAgent)?.[0] ?? 'Browser';
  return kind === 'Macintosh' ? 'Mac' : kind;
}
