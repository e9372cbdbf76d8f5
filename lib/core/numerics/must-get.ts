/** What a map holds under a key that it must have. @throws Error — a defect of ours, naming the key */
export function mustGet<K, V>(map: ReadonlyMap<K, V>, key: K): V {
  const value = map.get(key);
  if (value === undefined) throw new Error(`nothing is known under ${String(key)}`);
  return value;
}
