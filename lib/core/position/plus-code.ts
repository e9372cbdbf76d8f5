/** Open Location Code (plus codes), decoding: github.com/google/open-location-code, specification of 2014 to 2023. */
const DIGITS = '23456789CFGHJMPQRVWX';
const PAIRS = 10;
const GRID_ROWS = 5;
const GRID_COLUMNS = 4;
const MOST_DIGITS = 15;
const FORM = /^[23456789CFGHJMPQRVWX]{0,8}0*\+[23456789CFGHJMPQRVWX]*$/;

export type CodeArea = { latLo: number; lngLo: number; latHi: number; lngHi: number };
const plain = (code: string) => code.trim().toUpperCase();

/** Whether it is a code that stands for itself: eight digits before the plus. */
export function isFullCode(text: string): boolean {
  const code = plain(text);
  const [before = '', after = ''] = code.split('+');
  if (!FORM.test(code) || before.length !== 8 || after.length === 1) return false;
  if (before.includes('0')) return after === '' && before.indexOf('0') % 2 === 0 && before.indexOf('0') > 0;
  // Beyond 180 degrees of either there is no Earth.
  return DIGITS.indexOf(code.charAt(0)) * 20 < 180 && DIGITS.indexOf(code.charAt(1)) * 20 < 360;
}

/** Whether it is a code that needs a place near it: an even number of digits, fewer than eight, before the plus. */
export function isShortCode(text: string): boolean {
  const code = plain(text);
  const at = code.indexOf('+');
  return FORM.test(code) && !code.includes('0') && at < 8 && at % 2 === 0 && code.length - at - 1 >= 2;
}

/** The area of a full code, degrees. @throws RangeError when it is none */
export function areaOf(text: string): CodeArea {
  if (!isFullCode(text)) throw new RangeError(`not a full plus code: ${text}`);
  const digits = plain(text).replace('+', '').replace(/0+$/, '').slice(0, MOST_DIGITS);
  let [lat, lng] = [-90, -180];
  let [high, wide] = [400, 400];
  for (let i = 0; i < Math.min(PAIRS, digits.length); i += 2) {
    high /= 20;
    wide /= 20;
    lat += DIGITS.indexOf(digits.charAt(i)) * high;
    lng += DIGITS.indexOf(digits.charAt(i + 1)) * wide;
  }
  for (const digit of digits.slice(PAIRS)) {
    high /= GRID_ROWS;
    wide /= GRID_COLUMNS;
    const at = DIGITS.indexOf(digit);
    lat += Math.floor(at / GRID_COLUMNS) * high;
    lng += (at % GRID_COLUMNS) * wide;
  }
  return { latLo: lat, lngLo: lng, latHi: Math.min(90, lat + high), lngHi: lng + wide };
}

/** The first digits of a place: what a short code left out. */
function prefix(lat: number, lng: number, digits: number): string {
  let [y, x] = [Math.min(lat, 90 - 1e-9) + 90, (((lng + 180) % 360) + 360) % 360];
  let size = 20;
  let code = '';
  for (let i = 0; i < digits; i += 2) {
    const [a, b] = [Math.min(19, Math.floor(y / size)), Math.min(19, Math.floor(x / size))];
    code += DIGITS.charAt(a) + DIGITS.charAt(b);
    y -= a * size;
    x -= b * size;
    size /= 20;
  }
  return code;
}

/** The area nearest to `near` that a short code stands for. @throws RangeError when it is no code */
export function areaNear(text: string, near: { lat: number; lng: number }): CodeArea {
  if (isFullCode(text)) return areaOf(text);
  if (!isShortCode(text)) throw new RangeError(`not a plus code: ${text}`);
  const code = plain(text);
  const missing = 8 - code.indexOf('+');
  const step = 20 ** (2 - missing / 2);
  const area = areaOf(prefix(near.lat, near.lng, missing) + code);
  const centre = (area.latLo + area.latHi) / 2;
  const middle = (area.lngLo + area.lngHi) / 2;
  const up = near.lat + step / 2 < centre && centre - step >= -90 ? -step : near.lat - step / 2 > centre && centre + step <= 90 ? step : 0;
  const across = near.lng + step / 2 < middle ? -step : near.lng - step / 2 > middle ? step : 0;
  // On the other side of the date line degrees begin again.
  const right = across - (middle + across >= 180 ? 360 : middle + across < -180 ? -360 : 0);
  return { latLo: area.latLo + up, latHi: area.latHi + up, lngLo: area.lngLo + right, lngHi: area.lngHi + right };
}
