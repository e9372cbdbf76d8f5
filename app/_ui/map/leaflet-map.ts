import L from 'leaflet';
import 'leaflet/dist/leaflet.css';
import './map.css';
import type { Position } from '@/lib/core/position';
import type { Around } from './around';

/** A plain grid, where the shop has set no tiles: north up, to scale, without roads. */
const Grid = L.GridLayer.extend({
  createTile: () => Object.assign(document.createElement('div'), { className: 'map-square' }),
}) as unknown as new (options: L.GridLayerOptions) => L.GridLayer;

const CLOSE = 15;
const MOST_ZOOM = 19;

const sign = (name: string, size: number) =>
  L.divIcon({
    className: '',
    html: `<span class="${name}" aria-hidden="true"></span>`,
    iconSize: [size, size],
    iconAnchor: [size / 2, size / 2],
  });

/** A map in `box` with the shop and the kitchens on it, looking at `at`, else at all of them. */
export function drawMap(box: HTMLElement, around: Around, at: Position | null): L.Map {
  const map = L.map(box, { attributionControl: false, zoomControl: true, zoomAnimation: false, fadeAnimation: false, maxZoom: MOST_ZOOM });
  if (around.tiles) L.tileLayer(around.tiles.url, { maxZoom: MOST_ZOOM, className: 'map-tile' }).addTo(map);
  else new Grid({ maxZoom: MOST_ZOOM }).addTo(map);
  L.control.scale({ imperial: around.distance === 'mi', metric: around.distance === 'km' }).addTo(map);
  for (const k of around.kitchens)
    L.circleMarker(k, { radius: 6, className: 'map-kitchen', bubblingMouseEvents: true })
      .bindTooltip(document.createTextNode(k.name) as unknown as HTMLElement)
      .addTo(map);
  if (around.shop) L.marker(around.shop, { icon: sign('map-shop', 18), interactive: false, keyboard: false }).addTo(map);
  const all = [...around.kitchens, ...(around.shop ? [around.shop] : [])];
  if (at) map.setView(at, CLOSE);
  else if (all.length > 0) map.fitBounds(L.latLngBounds(all.map((p) => [p.lat, p.lng])), { padding: [30, 30], maxZoom: CLOSE });
  else map.setView({ lat: 20, lng: 0 }, 2);
  return map;
}

const ARROWS: Record<string, [number, number]> = { ArrowUp: [0, -1], ArrowDown: [0, 1], ArrowLeft: [-1, 0], ArrowRight: [1, 0] };
const STEP_PX = 4;
const FAR_STEP_PX = 40;

/** A pin that is dragged, or moved with the arrows while it has the focus (with Shift further). */
export function drawPin(map: L.Map, at: Position, moved: ((to: Position) => void) | null): L.Marker {
  const pin = L.marker(at, {
    icon: sign('map-pin', 34),
    draggable: moved !== null,
    autoPan: true,
    keyboard: moved !== null,
    interactive: moved !== null,
    title: moved ? 'Pin: drag it, or move it with the arrow keys' : 'Pin',
    alt: 'Pin',
  });
  const tell = () => {
    const { lat, lng } = pin.getLatLng().wrap();
    moved?.({ lat, lng });
  };
  pin.on('dragend', tell).addTo(map);
  if (!moved) return pin;
  const handle = pin.getElement();
  handle?.setAttribute('aria-label', 'Pin: move it with the arrow keys');
  handle?.addEventListener('keydown', (event) => {
    const way = ARROWS[event.key];
    if (!way) return;
    event.preventDefault();
    event.stopPropagation();
    const step = event.shiftKey ? FAR_STEP_PX : STEP_PX;
    pin.setLatLng(map.unproject(map.project(pin.getLatLng()).add(L.point(way).multiplyBy(step))));
    map.panInside(pin.getLatLng(), { padding: [40, 40] });
    tell();
  });
  return pin;
}
