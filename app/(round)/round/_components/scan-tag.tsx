import { useEffect, useRef, useState } from 'react';
import { TouchButton } from './touch';

/** Shape Detection API, where the browser has it. */
type Detector = { detect: (source: HTMLVideoElement) => Promise<{ rawValue: string }[]> };
const detector = (): Detector | null => {
  const Made = (globalThis as { BarcodeDetector?: new (o: { formats: string[] }) => Detector }).BarcodeDetector;
  try {
    return Made ? new Made({ formats: ['qr_code'] }) : null;
  } catch {
    return null;
  }
};

/** The code in what a label says: an address that ends in #/tag/CODE, or the code alone. */
export const codeOf = (raw: string): string => decodeURIComponent(/#\/tag\/([^/]+)$/.exec(raw)?.[1] ?? raw);

const LOOK_EVERY_MS = 250;

export function ScanTag({ onCode }: { onCode: (code: string) => void }) {
  const video = useRef<HTMLVideoElement>(null);
  const [on, setOn] = useState(false);
  const [words, setWords] = useState('');
  useEffect(() => {
    if (!on) return;
    let stream: MediaStream | null = null;
    let timer: ReturnType<typeof setInterval> | undefined;
    const eye = detector();
    const start = async () => {
      try {
        stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: 'environment' } });
      } catch {
        setWords('The camera was refused. Allow it in the browser’s settings, or type the code.');
        setOn(false);
        return;
      }
      if (!video.current) return;
      video.current.srcObject = stream;
      await video.current.play().catch(() => {});
      timer = setInterval(() => {
        if (!video.current || !eye) return;
        void eye.detect(video.current).then(
          (codes) => {
            if (codes[0]) onCode(codeOf(codes[0].rawValue));
          },
          () => {},
        );
      }, LOOK_EVERY_MS);
    };
    void start();
    return () => {
      clearInterval(timer);
      stream?.getTracks().forEach((t) => t.stop());
    };
    // eslint-disable-next-line react-hooks/exhaustive-deps -- runs while the camera is on
  }, [on]);
  const turnOn = () => {
    if (!detector()) return setWords('This browser cannot read codes with its camera. Type the code on the label, or open the label with the tablet’s own camera.');
    if (!navigator.mediaDevices) return setWords('No camera can be used here. Type the code.');
    setWords('');
    setOn(true);
  };
  return (
    <div className="flex flex-col gap-3">
      {on ? <video ref={video} muted playsInline className="aspect-[4/3] w-full rounded-md bg-ink object-cover" /> : null}
      {words ? <p role="status">{words}</p> : null}
      <TouchButton onClick={() => (on ? setOn(false) : turnOn())}>{on ? 'Stop' : 'Read a label'}</TouchButton>
    </div>
  );
}
