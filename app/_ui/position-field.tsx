import { writePosition } from '@/lib/core/position';
import { Field } from './field';

type Props = { name: string; position: { lat: number | null; lng: number | null }; error?: string[]; label?: string; hint?: string };

/** One box for a position, as it is copied from a map or a phone. */
export function PositionField({ name, position, error, label = 'Position', hint = '' }: Props) {
  return (
    <Field
      label={label}
      name={name}
      defaultValue={writePosition(position)}
      error={error}
      autoComplete="off"
      hint={`Paste it from a map: 41.88, -87.63 or a plus code. ${hint}`}
    />
  );
}
