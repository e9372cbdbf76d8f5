/** Signs out in the office, as its own sign-out form would. False when it cannot be reached. */
export async function endSession(): Promise<boolean> {
  try {
    const token = (await (await fetch('/api/auth/csrf', { cache: 'no-store' })).json()) as { csrfToken: string };
    const reply = await fetch('/api/auth/signout', {
      method: 'POST',
      body: new URLSearchParams({ csrfToken: token.csrfToken, json: 'true' }),
    });
    return reply.ok;
  } catch {
    return false;
  }
}
