/**
 * The source that a policy names for an address of tiles: its origin, `{s}` as any subdomain. '' where there is none, or what
 * is set is no plain address: then the map stays a grid rather than opening the policy to more.
 */
export function tileHost(tiles: string | undefined): string {
  const found = /^(https?):\/\/((?:\{s\}\.)?)([a-z0-9.-]+|\[[0-9a-f:]+\])((?::\d{1,5})?)\//i.exec(tiles ?? '');
  if (!found) return '';
  const [, scheme = '', sub = '', host = '', port = ''] = found;
  return `${scheme.toLowerCase()}://${sub && '*.'}${host.toLowerCase()}${port}`;
}
