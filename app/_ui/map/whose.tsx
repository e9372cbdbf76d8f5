import type { Around } from './around';

/** Whose map it is, as its terms ask; or that it is a plain grid. */
export function Whose({ tiles }: { tiles: Around['tiles'] }) {
  if (!tiles)
    return <p className="text-sm text-soft">A plain grid: ◆ the shop, ● kitchens. Streets show once the shop’s server names a map.</p>;
  if (!tiles.attribution) return null;
  return (
    <p className="text-sm text-soft">
      {tiles.link ? (
        <a href={tiles.link} rel="noreferrer" target="_blank">
          {tiles.attribution}
        </a>
      ) : (
        tiles.attribution
      )}
    </p>
  );
}
