import type { Measure } from '../measures/entry-units';
import type { UnitKind } from './build';

/** What a field of a unit is made of. One declaration serves form, file, tablet and words. */
type Common = {
  /** On the form and beside the value, everywhere. */
  label: string;
  hint?: string;
  /** Which part of the form it stands in. */
  part: 'place' | 'build' | 'nameplate' | 'running' | 'notes';
  /** Column of the fleet file; measured ones get one for each unit of their measure. */
  csv: { header: string; about: string };
  /** On the tablet: asked for a unit put on file on the spot, asked under "more", or only held. */
  tablet: 'asked' | 'more' | 'held';
  /** What the unit's page says where nothing is on file; else it is left out there. */
  missing?: string;
};

export type TextField = Common & { type: 'text'; required: boolean; max: number; long: boolean };
export type TagField = Common & { type: 'tag' };
export type RefrigerantField = Common & { type: 'refrigerant' };
/** `usual`: how a kind is usually built, where nothing is said. `unknown`: null where nobody knows. */
export type ChoiceField<
  T extends string = string,
  E extends 'required' | 'usual' | 'unknown' = 'required' | 'usual' | 'unknown',
> = Common & {
  type: 'choice';
  labels: Readonly<Record<T, string>>;
  empty: E;
  usual?: (kind: UnitKind) => T;
};
/** SI, null where not known. */
export type MeasuredField = Common & { type: 'measured'; measure: Measure; span: readonly [lowest: number, highest: number] };
/** No unless it is said. */
export type TickField = Common & { type: 'tick'; statement: string };
/** Yes, no, or null: nobody knows, which is not no. */
export type MaybeField = Common & { type: 'maybe'; answers: { yes: string; no: string } };
export type UnitField = TextField | TagField | RefrigerantField | ChoiceField | MeasuredField | TickField | MaybeField;

export type ValueOf<F> = F extends { type: 'choice'; labels: Readonly<Record<infer T, string>>; empty: infer E }
  ? 'unknown' extends E
    ? T | null
    : T
  : F extends MeasuredField
    ? number | null
    : F extends TickField
      ? boolean
      : F extends MaybeField
        ? boolean | null
        : string;

export const text = (of: Common & { required?: true; max: number; long?: true }): TextField => ({
  type: 'text',
  ...of,
  required: of.required ?? false,
  long: of.long ?? false,
});
export const chosen = <T extends string>(labels: Record<T, string>, of: Common): ChoiceField<T, 'required'> => ({
  type: 'choice',
  labels,
  empty: 'required',
  ...of,
});
export const usually = <T extends string>(
  labels: Record<T, string>,
  usual: (kind: UnitKind) => NoInfer<T>,
  of: Common,
): ChoiceField<T, 'usual'> => ({ type: 'choice', labels, empty: 'usual', usual, ...of });
export const perhaps = <T extends string>(labels: Record<T, string>, of: Common): ChoiceField<T, 'unknown'> => ({
  type: 'choice',
  labels,
  empty: 'unknown',
  ...of,
});
export const measured = (measure: Measure, span: readonly [number, number], of: Common): MeasuredField => ({
  type: 'measured',
  measure,
  span,
  ...of,
});
