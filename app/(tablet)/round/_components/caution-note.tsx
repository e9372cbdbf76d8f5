/** A caution where it arises: a word, a shape and a frame, never a colour alone. */
export function CautionNote({ title, words }: { title: string; words: string }) {
  return (
    <div className="flex gap-3 rounded-md border-2 border-alarm bg-alarm-wash p-3">
      <svg viewBox="0 0 24 24" className="mt-0.5 size-6 shrink-0 text-alarm" aria-hidden="true" focusable="false">
        <path d="M12 2.5 23 21.5H1Z" fill="none" stroke="currentColor" strokeWidth="2.2" strokeLinejoin="round" />
        <path d="M12 9v6M12 17.5v1.6" stroke="currentColor" strokeWidth="2.4" />
      </svg>
      <p>
        <b className="text-alarm">{title}.</b> {words}
      </p>
    </div>
  );
}
