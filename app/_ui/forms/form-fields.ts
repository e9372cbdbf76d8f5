import type { Values } from './kept-words';

type Control = HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement;

const isControl = (e: Element): e is Control =>
  e instanceof HTMLInputElement || e instanceof HTMLSelectElement || e instanceof HTMLTextAreaElement;

/** Never kept: secrets and codes, files, and what nobody types. */
const NEVER = new Set(['password', 'file', 'hidden', 'submit', 'button', 'reset', 'image']);
const isSecret = (e: Control) => /password|one-time-code/.test(e.autocomplete) || e.closest('[data-not-kept]') !== null;

const isTick = (e: Control): e is HTMLInputElement => e instanceof HTMLInputElement && (e.type === 'checkbox' || e.type === 'radio');

/** The fields of a form whose words are kept. */
const keptControls = (form: HTMLFormElement): Control[] =>
  [...form.elements].filter((e): e is Control => isControl(e) && e.name !== '' && !NEVER.has(e.type) && !isSecret(e));

function gather(form: HTMLFormElement, valueOf: (control: Control) => string, ticked: (control: HTMLInputElement) => boolean): Values {
  const values: Values = {};
  for (const control of keptControls(form)) {
    const list = (values[control.name] ??= []);
    if (!isTick(control)) list.push(valueOf(control));
    else if (ticked(control)) list.push(control.value);
  }
  return values;
}

export const readFields = (form: HTMLFormElement): Values =>
  gather(
    form,
    (control) => control.value,
    (control) => control.checked,
  );

/** As the page came: a select that marks none of its options came as it stands. */
function cameWith(control: Control): string {
  if (!(control instanceof HTMLSelectElement)) return control.defaultValue;
  return [...control.options].find((option) => option.defaultSelected)?.value ?? control.value;
}

/** The fields as the page came, whatever was typed before it began to listen. */
export const fieldsAsCame = (form: HTMLFormElement): Values => gather(form, cameWith, (control) => control.defaultChecked);

/**
 * What a form is about: its hidden ids and the names of its fields. What only says how fresh it is does not count, nor what
 * the framework writes into a form that comes from the server, and not into one that is drawn in the browser.
 */
export function formKey(form: HTMLFormElement): string {
  const about = [...form.elements].flatMap((e) =>
    e instanceof HTMLInputElement && e.type === 'hidden' && !/^(version|seen)$|^\$ACTION|\./.test(e.name) && e.value.length < 80
      ? [e.name, e.value]
      : [],
  );
  return [...about, ...Object.keys(readFields(form))].join(' ');
}

export function formVersion(form: HTMLFormElement): string {
  const fresh = form.querySelector<HTMLInputElement>('input[type="hidden"][name="version"], input[type="hidden"][name="seen"]');
  return fresh?.value ?? '';
}

/** Sets a control as a person would, so that React hears of it. */
function setControl(control: Control, value: string): void {
  const proto = Object.getPrototypeOf(control) as object;
  Object.getOwnPropertyDescriptor(proto, 'value')?.set?.call(control, value);
  control.dispatchEvent(new Event(control instanceof HTMLSelectElement ? 'change' : 'input', { bubbles: true }));
}

/** Puts values back. @returns the names that the form does not show yet: a choice may bring them. */
export function putBack(form: HTMLFormElement, fields: Values): Values {
  const missing: Values = {};
  for (const [name, values] of Object.entries(fields)) {
    const controls = keptControls(form).filter((c) => c.name === name);
    if (controls.length === 0) missing[name] = values;
    controls.forEach((control, i) => {
      if (isTick(control)) {
        if (control.checked !== values.includes(control.value)) control.click();
      } else if (values[i] !== undefined && control.value !== values[i]) setControl(control, values[i]);
    });
  }
  return missing;
}
