import { useEffect, useState } from 'react';
import { counted } from '@/lib/core/wording/counted';
import { unsentOfOthers } from '@/lib/tablet/unsent';

/** Work that someone else left here: neither they nor the office would hear of it otherwise. */
export function OthersUnsent() {
  const [others, setOthers] = useState<Awaited<ReturnType<typeof unsentOfOthers>>>([]);
  useEffect(() => {
    let gone = false;
    // After the screen: it opens storage that the screen does not need.
    const soon = setTimeout(() => void unsentOfOthers().then((found) => gone || setOthers(found)), 1000);
    return () => {
      gone = true;
      clearTimeout(soon);
    };
  }, []);
  return others.map(({ name, count }) => (
    <p key={name} role="status" className="rounded-lg border border-edge bg-sheet p-4">
      {count === null ? (
        <>
          <b>{name}</b> may have left work on this tablet that the office does not have: it cannot be read just now. It is sent when {name}{' '}
          signs in here.
        </>
      ) : (
        <>
          <b>{name}</b> left {counted(count, 'entry', 'entries')} on this tablet that the office does not have. They are sent when {name}{' '}
          signs in here.
        </>
      )}
    </p>
  ));
}
