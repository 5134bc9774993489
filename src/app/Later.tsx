/**
 * A part of the window that is loaded when it is first needed: until it is there, a word; where it cannot be had (the
 * network gone before everything was kept for offline use), the reason, while the rest of the window stays.
 */
import { Component, Suspense, type ReactNode } from 'react';

export class Later extends Component<{ children: ReactNode }, { fault: string | null }> {
  override state = { fault: null };

  static getDerivedStateFromError(error: unknown): { fault: string } {
    return { fault: error instanceof Error ? error.message : String(error) };
  }

  override render() {
    const { fault } = this.state;
    if (fault === null)
      return (
        <Suspense fallback={<output className="group lede">Loading …</output>}>
          {this.props.children}
        </Suspense>
      );
    return (
      <div className="group" role="alert">
        <p className="reason">This part of Kerfweave could not be loaded: {fault}</p>
        <button type="button" className="button" onClick={() => window.location.reload()}>
          Load the page again
        </button>
      </div>
    );
  }
}
