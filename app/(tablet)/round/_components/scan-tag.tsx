import { useEffect, useRef, useState } from 'react';
import { codeOf, labelReader, type LabelReader } from '../_lib/read-label';
import { TouchButton } from './touch';

const LOOK_EVERY_MS = 250;
/** Fine enough for a label of 26 mm half a metre away, small enough for a slow tablet to search four times a second. */
const CAMERA = { facingMode: 'environment', width: { ideal: 1280 }, height: { ideal: 960 } };

function noCamera(error: unknown): string {
  const name = (error as { name?: string } | null)?.name;
  if (name === 'NotFoundError' || name === 'OverconstrainedError') return 'No camera was found. Type the code.';
  if (name === 'NotReadableError') return 'Another app is using the camera. Close it, or type the code.';
  return 'The camera was refused. Allow it in the browser’s settings, or type the code.';
}

/** Looks through the camera until a label is read. */
export function ScanTag({ onCode }: { onCode: (code: string) => void }) {
  const video = useRef<HTMLVideoElement>(null);
  const [on, setOn] = useState(false);
  const [message, setMessage] = useState('');
  useEffect(() => {
    if (!on) return;
    let stream: MediaStream | null = null;
    let timer: ReturnType<typeof setTimeout> | undefined;
    let over = false;
    const look = async (read: LabelReader) => {
      const raw = video.current ? await read(video.current) : null;
      if (over) return;
      const code = raw === null ? null : codeOf(raw);
      if (code) {
        setOn(false);
        return onCode(code);
      }
      if (raw !== null) setMessage('That code is not on a label of ours.');
      timer = setTimeout(() => void look(read), LOOK_EVERY_MS);
    };
    const start = async () => {
      try {
        const read = await labelReader();
        stream = await navigator.mediaDevices.getUserMedia({ video: CAMERA });
        if (over) return stop();
        if (!video.current) return;
        video.current.srcObject = stream;
        await video.current.play();
        void look(read);
      } catch (error) {
        if (over) return;
        setMessage(noCamera(error));
        setOn(false);
      }
    };
    const stop = () => stream?.getTracks().forEach((t) => t.stop());
    void start();
    return () => {
      over = true;
      clearTimeout(timer);
      stop();
    };
    // eslint-disable-next-line react-hooks/exhaustive-deps -- runs while the camera is on
  }, [on]);
  const turnOn = () => {
    if (!navigator.mediaDevices) return setMessage('No camera can be used here. Type the code.');
    setMessage('');
    setOn(true);
  };
  return (
    <div className="flex flex-col gap-3">
      {on ? (
        <video
          ref={video}
          muted
          playsInline
          aria-label="What the camera sees"
          className="aspect-[4/3] w-full rounded-md bg-ink object-cover"
        />
      ) : null}
      {message ? <p role="status">{message}</p> : null}
      <TouchButton onClick={() => (on ? setOn(false) : turnOn())}>{on ? 'Stop' : 'Read a label'}</TouchButton>
    </div>
  );
}
