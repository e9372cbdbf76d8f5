type Pad = {
  label: string;
  unit: string;
  hint: string;
  text: string;
  signed: boolean;
  onText: (text: string) => void;
  onNext: (() => void) | null;
  onSave: (() => void) | null;
};

const ROWS = [
  ['7', '8', '9'],
  ['4', '5', '6'],
  ['1', '2', '3'],
  ['±', '0', '.'],
] as const;
const SPOKEN: Record<string, string> = { '±': 'Change the sign', '.': 'Point' };
const KEY = 'flex min-h-12 items-center sm:min-h-[3.75rem] justify-center rounded-md border font-bold active:bg-cold-wash active:text-ink';

/** The text after one more key; a number never gets two points or eight digits. */
function pressed(text: string, key: string): string {
  if (key === '⌫') return text.slice(0, -1);
  if (key === '±') return text.startsWith('-') ? text.slice(1) : `-${text}`;
  if (key === '.') return text.includes('.') ? text : `${text || '0'}.`;
  return text.replace(/\D/g, '').length >= 7 ? text : text + key;
}

/** The text after a key of a keyboard; null for one that types nothing. */
export function keyed(text: string, key: string, signed: boolean): string | null {
  if (/^\d$/.test(key)) return pressed(text, key);
  if (key === '.' || key === ',') return pressed(text, '.');
  if (key === '-') return signed ? pressed(text, '±') : text;
  return key === 'Backspace' ? pressed(text, '⌫') : null;
}

/** The pad beside the fields, on a phone below them: nothing is covered, and its last key saves. Hardware keys work too. */
export function NumberPad({ label, unit, hint, text, signed, onText, onNext, onSave }: Pad) {
  return (
    <div role="group" aria-label={`Number pad: ${label}`} className="rounded-lg border border-edge bg-paper p-2">
      <output aria-live="polite" className="flex items-baseline justify-between gap-2 px-1 text-2xl font-bold">
        <span className="text-sm font-normal leading-tight text-soft">{label}</span>
        <span className="whitespace-nowrap">
          {text ? text.replace('-', '−') : '–'} <span className="text-base font-normal text-soft">{unit}</span>
        </span>
      </output>
      <p className="min-h-5 px-1 pb-1 text-sm leading-tight text-soft">{hint}</p>
      <div className="grid grid-cols-4 gap-1.5">
        {ROWS.map((row, i) => [
          ...row.map((k) => (
            <Key key={k} value={k} label={SPOKEN[k]} disabled={k === '±' && !signed} onPress={() => onText(pressed(text, k))} />
          )),
          i === 0 ? <Key key="back" value="⌫" label="Take back the last key" onPress={() => onText(pressed(text, '⌫'))} /> : null,
          i === 1 ? <Key key="clear" value="Clear" small onPress={() => onText('')} /> : null,
          i === 2 ? <Key key="next" value="Next" small disabled={!onNext} onPress={() => onNext?.()} /> : null,
          i === 3 ? <Key key="save" value="Save" small strong disabled={!onSave} onPress={() => onSave?.()} /> : null,
        ])}
      </div>
    </div>
  );
}

type KeyProps = {
  value: string;
  label?: string;
  small?: boolean;
  strong?: boolean;
  disabled?: boolean;
  onPress: () => void;
};

function Key({ value, label, small, strong, disabled, onPress }: KeyProps) {
  return (
    <button
      type="button"
      data-key=""
      aria-label={label}
      disabled={disabled}
      onClick={onPress}
      className={`${KEY} ${small ? 'text-lg' : 'text-2xl'} ${strong ? 'border-cold bg-cold text-on-cold' : 'border-edge bg-sheet'} disabled:opacity-40`}
    >
      {value}
    </button>
  );
}
