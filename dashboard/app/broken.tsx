import { Component, type ErrorInfo, type ReactNode } from 'react';
import { words } from './words.ts';

interface Broken {
  readonly error: Error | undefined;
}

/**
 * What is shown where a screen fails: what to do, instead of an empty page that would look like a line that stands. The
 * gateway goes on recording, which no screen has a part in.
 */
export class WhenBroken extends Component<{ readonly children: ReactNode }, Broken> {
  override state: Broken = { error: undefined };

  static getDerivedStateFromError(error: Error): Broken {
    return { error };
  }

  override componentDidCatch(error: Error, { componentStack }: ErrorInfo): void {
    // for whoever looks after it, in the browser's own log
    console.error(error, componentStack);
  }

  override render(): ReactNode {
    const { error } = this.state;
    return error === undefined ? this.props.children : <BrokenScreen error={error} />;
  }
}

function BrokenScreen({ error }: { readonly error: Error }) {
  const said = words.screen.page.broken;
  return (
    <main className="waiting" role="alert">
      <h1>{said.what}</h1>
      <p>{said.mend}</p>
      <p>
        <button type="button" className="btn" onClick={() => location.reload()}>
          {said.reload}
        </button>{' '}
        <a href="/">{said.toLine}</a>
      </p>
      <p className="second">{said.told(error.message)}</p>
    </main>
  );
}
