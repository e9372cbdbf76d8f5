import { useImperativeHandle, useRef, type PointerEvent, type Ref } from 'react';
import { Chip } from '../touch';

export type Drawn = { png: () => string | null };

const WIDTH = 900;
const HEIGHT = 300;

/** A field to sign in with a finger. The drawing is kept small: black on white, one colour. */
export function DrawPad({ pad, onDrawn }: { pad: Ref<Drawn>; onDrawn: (drawn: boolean) => void }) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const last = useRef<{ x: number; y: number } | null>(null);
  const any = useRef(false);
  const place = (e: PointerEvent) => {
    const box = e.currentTarget.getBoundingClientRect();
    return { x: ((e.clientX - box.left) / box.width) * WIDTH, y: ((e.clientY - box.top) / box.height) * HEIGHT };
  };
  const line = (e: PointerEvent) => {
    const pen = canvas.current?.getContext('2d');
    if (!pen || !last.current) return;
    const here = place(e);
    pen.lineWidth = 5;
    pen.lineCap = 'round';
    pen.strokeStyle = '#1a2126';
    pen.beginPath();
    pen.moveTo(last.current.x, last.current.y);
    pen.lineTo(here.x, here.y);
    pen.stroke();
    last.current = here;
    if (!any.current) onDrawn((any.current = true));
  };
  const clear = () => {
    canvas.current?.getContext('2d')?.clearRect(0, 0, WIDTH, HEIGHT);
    onDrawn((any.current = false));
  };
  useImperativeHandle(pad, () => ({ png: () => (any.current ? (canvas.current?.toDataURL('image/png').split(',')[1] ?? null) : null) }));
  return (
    <div className="flex flex-col gap-2">
      <canvas
        ref={canvas}
        width={WIDTH}
        height={HEIGHT}
        aria-label="Sign here with a finger"
        role="img"
        className="aspect-[3/1] w-full touch-none rounded-md border-2 border-edge bg-white"
        onPointerDown={(e) => {
          e.currentTarget.setPointerCapture(e.pointerId);
          last.current = place(e);
          line(e);
        }}
        onPointerMove={line}
        onPointerUp={() => (last.current = null)}
        onPointerCancel={() => (last.current = null)}
      />
      <Chip className="self-start" onClick={clear}>
        Clear
      </Chip>
    </div>
  );
}
