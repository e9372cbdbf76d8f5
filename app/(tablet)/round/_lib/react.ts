/**
 * What the tablet's screens ask of React, on Preact: `esbuild.config.mjs` puts it in React's place. Preact's own stand-in for React
 * carries all of it, two kilobytes more, and goes through every attribute of every element. A name that is not here does not build.
 */
import { Component, createElement, Fragment, options, render, type ComponentType, type VNode } from 'preact';
import { useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks';

export { createContext } from 'preact';
export { useCallback, useContext, useEffect, useId, useImperativeHandle, useMemo, useRef, useState } from 'preact/hooks';
/** It only watches in development. */
export const StrictMode = Fragment;

/** Attributes of drawings that the browser knows by a dash: `strokeWidth`. */
const DASHED = /^(?:clip|dominant|fill|font|stop|stroke|text)[A-Z]/;
/** Fields whose change is one act; of the others React tells at each letter, and the browser at the end. */
const ONE_ACT = /^(?:checkbox|radio|file)$/;

/** The browser's name of an attribute. */
function nameOf(attribute: string, type: string, kind: unknown): string {
  if (attribute === 'onChange') return type === 'textarea' || (type === 'input' && !ONE_ACT.test(String(kind))) ? 'onInput' : attribute;
  return DASHED.test(attribute) ? attribute.replace(/[A-Z]/g, '-$&').toLowerCase() : attribute;
}

const before = options.vnode;
options.vnode = (vnode: VNode) => {
  const { type, props } = vnode;
  if (typeof type === 'string')
    for (const [attribute, value] of Object.entries(props)) {
      const name = nameOf(attribute, type, Reflect.get(props, 'type'));
      if (name === attribute) continue;
      Reflect.deleteProperty(props, attribute);
      Reflect.set(props, name, value);
    }
  before?.(vnode);
};

/** Drawn anew only where a prop is another one. */
export function memo<P extends object>(Inner: ComponentType<P>): ComponentType<P> {
  return class Memo extends Component<P> {
    static displayName = 'Memo';
    override shouldComponentUpdate(next: P) {
      return [...Object.keys(this.props), ...Object.keys(next)].some((key) => Reflect.get(this.props, key) !== Reflect.get(next, key));
    }
    render() {
      return createElement(Inner, this.props);
    }
  };
}

/** A value kept outside, as it is now; drawn anew when it is another one. */
export function useSyncExternalStore<T>(subscribe: (changed: () => void) => () => void, read: () => T): T {
  const now = read();
  const [, draw] = useState(0);
  const drawnRef = useRef({ read, now });
  useLayoutEffect(() => {
    drawnRef.current = { read, now };
    if (!Object.is(read(), now)) draw((n) => n + 1);
  }, [read, now]);
  useEffect(() => {
    const look = () => {
      const drawn = drawnRef.current;
      if (!Object.is(drawn.read(), drawn.now)) draw((n) => n + 1);
    };
    // What changed between the drawing and here was heard by nobody.
    look();
    return subscribe(look);
  }, [subscribe]);
  return now;
}

/** The place where screens are drawn; what stood there before goes. */
export function createRoot(place: Element): { render: (what: VNode) => void; unmount: () => void } {
  place.textContent = '';
  return { render: (what) => render(what, place), unmount: () => render(null, place) };
}
