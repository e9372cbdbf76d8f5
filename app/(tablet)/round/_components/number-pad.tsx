import { createPortal } from 'react-dom';
import { useModal } from '../_lib/use-modal';

type Pad = {
  label: string;
  unit: string;
  hint: string;
  text: string;
  signed: boolean;
  onText: (text: string) => void;
  onNext: (() => void) | null;
  onDone: () => void;
};

const ROWS = [
  ['7', '8', '9'],
  ['4', '5', '6'],
  ['1', '2', '3'],
  ['±', '0', '.'],
] as const;
const SPOKEN: Record<string, string> = { '±': 'Change the sign', '.': 'Point' };
const KEY = 'flex min-h-[3.75rem] items-center justify-center rounded-md border font-bold active:bg-cold-wash active:text-ink';

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

/** The pad beside the fields, where there is room: nothing is covered, and its last key saves. */
export function PadBeside({
  label,
  unit,
  text,
  signed,
  onText,
  onNext,
  onSave,
}: Omit<Pad, 'onDone' | 'hint'> & { onSave: (() => void) | null }) {
  return (
    <div role="group" aria-label={`Number pad: ${label}`} className="rounded-lg border border-edge bg-paper p-2">
      <output aria-live="polite" className="flex items-baseline justify-between gap-2 px-1 pb-1 text-2xl font-bold">
        <span className="text-sm font-normal leading-tight text-soft">{label}</span>
        <span>
          {text ? text.replace('-', '−') : '–'} <span className="text-base font-normal text-soft">{unit}</span>
        </span>
      </output>
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

/** A number pad of our own: big keys for gloves, no keyboard sliding over the readings. Hardware keys work too. */
export function NumberPad({ label, unit, hint, text, signed, onText, onNext, onDone }: Pad) {
  const dialog = useModal(onDone);
  const byKey = (key: string) => {
    const next = keyed(text, key, signed);
    if (next !== null) onText(next);
    else if (key === 'Escape') onDone();
    else return false;
    return true;
  };
  return createPortal(
    <>
      <div aria-hidden="true" onClick={onDone} className="fixed inset-0 z-30 touch-none bg-ink/40" />
      <dialog
        ref={dialog}
        aria-label={label}
        aria-modal="true"
        onKeyDown={(e) => {
          if (byKey(e.key)) e.preventDefault();
          else if (e.key === 'Enter' && (e.target as HTMLElement).dataset.key === undefined) {
            e.preventDefault();
            (onNext ?? onDone)();
          }
        }}
        className="fixed inset-x-0 bottom-0 top-auto z-30 m-0 mx-auto w-full max-w-xl rounded-t-xl border border-edge bg-paper p-4 pb-[max(1rem,env(safe-area-inset-bottom))] text-ink"
      >
        <div className="flex items-baseline justify-between gap-3">
          <h2>{label}</h2>
          <output aria-live="polite" className="text-3xl font-bold">
            {text ? text.replace('-', '−') : <span className="text-soft">–</span>}{' '}
            <span className="text-lg font-normal text-soft">{unit}</span>
          </output>
        </div>
        <p className="mb-3 min-h-6 text-sm text-soft">{hint}</p>
        {/* One flat grid: nested ones are measured several times over, and the pad must stand at once. */}
        <div className="grid grid-cols-4 gap-2">
          {ROWS.map((row, i) => [
            ...row.map((k) => (
              <Key key={k} value={k} label={SPOKEN[k]} disabled={k === '±' && !signed} onPress={() => onText(pressed(text, k))} />
            )),
            i === 0 ? <Key key="back" value="⌫" label="Take back the last key" onPress={() => onText(pressed(text, '⌫'))} /> : null,
            i === 1 ? <Key key="clear" value="Clear" small onPress={() => onText('')} /> : null,
            i === 2 && onNext ? <Key key="next" value="Next" small strong onPress={onNext} /> : null,
            i === (onNext ? 3 : 2) ? <Key key="done" value="Done" small strong={!onNext} tall={!onNext} onPress={onDone} /> : null,
          ])}
        </div>
      </dialog>
    </>,
    document.body,
  );
}

type KeyProps = {
  value: string;
  label?: string;
  small?: boolean;
  strong?: boolean;
  tall?: boolean;
  disabled?: boolean;
  onPress: () => void;
};

function Key({ value, label, small, strong, tall, disabled, onPress }: KeyProps) {
  return (
    <button
      type="button"
      data-key=""
      aria-label={label}
      disabled={disabled}
      onClick={onPress}
      className={`${KEY} ${small ? 'text-lg' : 'text-2xl'} ${strong ? 'border-cold bg-cold text-on-cold' : 'border-edge bg-sheet'} ${tall ? 'row-span-2' : ''} disabled:opacity-40`}
    >
      {value}
    </button>
  );
}
