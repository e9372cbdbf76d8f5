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
