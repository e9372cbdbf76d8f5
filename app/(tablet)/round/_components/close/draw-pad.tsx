import { useEffect, useImperativeHandle, useRef, type PointerEvent, type Ref } from 'react';
import { Chip } from '../touch';

export type Drawn = { png: () => string | null };
/** Strokes of the pen, each as x, y, x, y …, in points of the pad. */
export type Strokes = readonly (readonly number[])[];

const WIDTH = 900;
const HEIGHT = 300;

function draw(pen: CanvasRenderingContext2D, [x = 0, y = 0, ...more]: readonly number[]): void {
  pen.lineWidth = 5;
  pen.lineCap = 'round';
  pen.strokeStyle = '#1a2126';
  pen.beginPath();
  pen.moveTo(x, y);
  for (let i = 0; i < more.length; i += 2) pen.lineTo(more[i] ?? x, more[i + 1] ?? y);
  pen.stroke();
}

type Pad = { pad: Ref<Drawn>; strokes: Strokes; onStrokes: (strokes: Strokes) => void };

/** A field to sign in with a finger. The drawing is kept small: black on white, one colour. */
export function DrawPad({ pad, strokes, onStrokes }: Pad) {
  const canvas = useRef<HTMLCanvasElement>(null);
  const stroke = useRef<number[] | null>(null);
  const place = (e: PointerEvent) => {
    const box = e.currentTarget.getBoundingClientRect();
    return [((e.clientX - box.left) / box.width) * WIDTH, ((e.clientY - box.top) / box.height) * HEIGHT].map(Math.round);
  };
  const line = (e: PointerEvent) => {
    const pen = canvas.current?.getContext('2d');
    if (!pen || !stroke.current) return;
    const here = place(e);
    draw(pen, [...(stroke.current.length > 0 ? stroke.current.slice(-2) : here), ...here]);
    stroke.current.push(...here);
  };
  const lift = () => {
    if (stroke.current && stroke.current.length > 0) onStrokes([...strokes, stroke.current]);
    stroke.current = null;
  };
  // Those kept from before a fall come a moment after the pad.
  useEffect(() => {
    const pen = canvas.current?.getContext('2d');
    if (!pen) return;
    pen.clearRect(0, 0, WIDTH, HEIGHT);
    for (const s of [...strokes, ...(stroke.current ? [stroke.current] : [])]) draw(pen, s);
  }, [strokes]);
  useImperativeHandle(pad, () => ({
    png: () => (strokes.length > 0 ? (canvas.current?.toDataURL('image/png').split(',')[1] ?? null) : null),
  }));
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
          stroke.current = [];
          line(e);
        }}
        onPointerMove={line}
        onPointerUp={lift}
        onPointerCancel={lift}
      />
      <Chip className="self-start" onClick={() => onStrokes([])}>
        Clear
      </Chip>
    </div>
  );
}
