import { useEffect, useRef } from 'react';

type Pad = { label: string; unit: string; hint: string; text: string; signed: boolean; onText: (text: string) => void; onNext: (() => void) | null; onDone: () => void };

const KEYS = ['7', '8', '9', '4', '5', '6', '1', '2', '3'] as const;
const KEY = 'flex min-h-[3.75rem] items-center justify-center rounded-md border border-edge bg-sheet text-2xl font-bold active:bg-cold-wash';

/** The text after one more key; a number never gets two points or eight digits. */
export function pressed(text: string, key: string): string {
  if (key === '⌫') return text.slice(0, -1);
  if (key === '±') return text.startsWith('-') ? text.slice(1) : `-${text}`;
  if (key === '.') return text.includes('.') ? text : `${text || '0'}.`;
  return text.replace(/\D/g, '').length >= 7 ? text : text + key;
}

/** A number pad of our own: big keys for gloves, no keyboard sliding over the readings. Hardware keys work too. */
export function NumberPad({ label, unit, hint, text, signed, onText, onNext, onDone }: Pad) {
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    const d = dialog.current;
    if (d && !d.open) d.showModal();
  }, []);
  const byKey = (key: string) => {
    if (/^\d$/.test(key)) onText(pressed(text, key));
    else if (key === '.' || key === ',') onText(pressed(text, '.'));
    else if (key === '-') onText(pressed(text, '±'));
    else if (key === 'Backspace') onText(pressed(text, '⌫'));
    else return false;
    return true;
  };
  return (
    <dialog
      ref={dialog}
      aria-label={label}
      onClose={onDone}
      onKeyDown={(e) => {
        if (byKey(e.key)) e.preventDefault();
        else if (e.key === 'Enter' && (e.target as HTMLElement).dataset.key === undefined) {
          e.preventDefault();
          (onNext ?? onDone)();
        }
      }}
      className="m-0 mx-auto mt-auto w-full max-w-xl rounded-t-xl border border-line bg-paper p-4 text-ink backdrop:bg-ink/40"
    >
      <div className="flex items-baseline justify-between gap-3">
        <h2>{label}</h2>
        <output aria-live="polite" className="text-3xl font-bold">
          {text ? text.replace('-', '−') : <span className="text-soft">–</span>} <span className="text-lg font-normal text-soft">{unit}</span>
        </output>
      </div>
      <p className="mb-3 min-h-6 text-sm text-soft">{hint}</p>
      <div className="grid grid-cols-4 gap-2">
        <div className="col-span-3 grid grid-cols-3 gap-2">
          {KEYS.map((k) => (
            <Key key={k} value={k} onPress={() => onText(pressed(text, k))} />
          ))}
          <Key value="±" label="Change the sign" disabled={!signed} onPress={() => onText(pressed(text, '±'))} />
          <Key value="0" onPress={() => onText(pressed(text, '0'))} />
          <Key value="." label="Point" onPress={() => onText(pressed(text, '.'))} />
        </div>
        <div className="grid grid-rows-[1fr_1fr_2fr] gap-2">
          <Key value="⌫" label="Take back the last key" onPress={() => onText(pressed(text, '⌫'))} />
          <Key value="Clear" small onPress={() => onText('')} />
          {onNext ? (
            <div className="grid grid-rows-2 gap-2">
              <Key value="Next" small strong onPress={onNext} />
              <Key value="Done" small onPress={onDone} />
            </div>
          ) : (
            <Key value="Done" small strong onPress={onDone} />
          )}
        </div>
      </div>
    </dialog>
  );
}

function Key({ value, label, small, strong, disabled, onPress }: { value: string; label?: string; small?: boolean; strong?: boolean; disabled?: boolean; onPress: () => void }) {
  return (
    <button type="button" data-key="" aria-label={label} disabled={disabled} onClick={onPress} className={`${KEY} ${small ? 'text-lg' : ''} ${strong ? 'border-cold bg-cold text-on-cold' : ''} disabled:opacity-40`}>
      {value}
    </button>
  );
}
