/** Time zones to choose from while typing; browsers without the list still take the typed name. */
export function ZoneList({ id }: { id: string }) {
  return (
    <datalist id={id}>
      {Intl.supportedValuesOf('timeZone').map((z) => (
        <option key={z} value={z} />
      ))}
    </datalist>
  );
}
