import { useState } from 'react';
import { readPosition, writePosition, type Position } from '@/lib/core/position';

/** A position as text in a box and as a pin on a map, each following the other. */
export function usePin(first: string) {
  const [text, setText] = useState(first);
  const read = readPosition(text);
  const at: Position | null = 'position' in read ? read.position : null;
  return { text, setText, at, setPin: (to: Position) => setText(writePosition(to)) };
}
