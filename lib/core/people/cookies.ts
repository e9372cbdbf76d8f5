/** What the app's cookies are called. With https the browser itself holds them to it (RFC 6265bis 4.1.3, cookie name prefixes). */
export function cookieNames(baseUrl: string) {
  const secure = baseUrl.startsWith('https:');
  return {
    session: `${secure ? '__Secure-' : ''}rimebook.session`,
    form: `${secure ? '__Host-' : ''}rimebook.form`,
    wayBack: `${secure ? '__Secure-' : ''}rimebook.way-back`,
    secure,
  };
}

/** How each of them is kept: no script reads it, no other site's form sends it, and with https it never goes without. */
export const cookieFlags = (baseUrl: string, path = '/') =>
  ({ httpOnly: true, sameSite: 'lax', secure: baseUrl.startsWith('https:'), path }) as const;
