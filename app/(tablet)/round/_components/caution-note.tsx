import { useWide } from '../_lib/use-wide';

const FRAME = 'rounded-md border-2 border-alarm bg-alarm-wash px-2.5 py-1.5 leading-snug sm:p-3';

/** A caution where it arises: a word, a shape and a frame, never a colour alone. On a phone what goes further is folded. */
export function CautionNote({ title, text, more = '' }: { title: string; text: string; more?: string }) {
  const wide = useWide();
  if (!more || wide)
    return (
      <div className={`flex gap-3 ${FRAME}`}>
        <Sign />
        <p className="max-sm:text-[0.95rem]">
          <Said title={title} text={text} /> {more}
        </p>
      </div>
    );
  return (
    <details className={FRAME}>
      <summary className="flex min-h-12 items-center gap-2.5">
        <Sign />
        <span className="min-w-0 flex-1 text-[0.95rem]">
          <Said title={title} text={text} />
        </span>
        <span aria-hidden="true" className="text-alarm">
          ▾
        </span>
      </summary>
      <p className="pb-1 text-[0.95rem]">{more}</p>
    </details>
  );
}

const Said = ({ title, text }: { title: string; text: string }) => (
  <>
    <b className="text-alarm">{title}.</b> {text}
  </>
);

const Sign = () => (
  <svg viewBox="0 0 24 24" className="mt-0.5 size-6 shrink-0 self-start text-alarm" aria-hidden="true" focusable="false">
    <path d="M12 2.5 23 21.5H1Z" fill="none" stroke="currentColor" strokeWidth="2.2" strokeLinejoin="round" />
    <path d="M12 9v6M12 17.5v1.6" stroke="currentColor" strokeWidth="2.4" />
  </svg>
);
