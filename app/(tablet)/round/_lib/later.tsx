import { useEffect, useState, type ComponentType } from 'react';

/**
 * A screen whose code is no part of a cold start, though it is kept on the tablet with the rest. Once `ready` it is drawn at
 * once, as if it had been there from the first.
 */
export function later<P extends object>(load: () => Promise<ComponentType<P>>) {
  let loaded: ComponentType<P> | null = null;
  const ready = async () => {
    loaded = await load();
  };
  function Later(p: P) {
    const [failed, setFailed] = useState(false);
    const [, redraw] = useState(false);
    useEffect(() => {
      if (loaded) return;
      ready().then(
        () => redraw(true),
        () => setFailed(true),
      );
    }, []);
    const Page = loaded;
    if (Page) return <Page {...p} />;
    return (
      <p role="status" className="py-16 text-center text-soft">
        {failed ? 'This screen is not on the tablet yet. Open the round once more where there is signal.' : 'Opening …'}
      </p>
    );
  }
  return { Page: Later, ready };
}
